// Members in a rebuild option: replaced, sistered, added.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "base/special.hpp"
#include "floor/build.hpp"
#include "floor/layout.hpp"
#include "floor/option_plan.hpp"
#include "tables/materials.hpp"

namespace awlmark::floor {
namespace {

constexpr double kDepths_in[] = {11.25, 9.25, 7.25, 5.5, 3.5};
constexpr double kPly_in = 1.5;
constexpr int kMostPlies = 3;

// What a lumber yard sells for it: "2x8", "2-2x8", "4x10".
std::string yard_name(const mechanics::Section& section) {
  const mechanics::Section ply{section.ply_b_in(), section.d_in, 1};
  const std::string size = std::to_string(mechanics::nominal_thickness(ply)) + "x" + std::to_string(mechanics::nominal_width(ply));
  return section.plies > 1 ? std::to_string(section.plies) + "-" + size : size;
}

FramingLine line_of(const Member& member, const std::string& kind, const mechanics::Section& section, const std::string& note) {
  FramingLine line;
  line.id = member.id;
  line.kind = kind;
  line.from_in = member.from;
  line.to_in = member.to;
  line.size = yard_name(section);
  line.b_in = section.b_in;
  line.d_in = section.d_in;
  line.rests_at_in = member.rests_in;
  line.note = note;
  return line;
}

// Whether one member passes under the loads of the whole model.
bool passes(const Model& model, std::size_t index) {
  FloorChecks out;
  check_one_member(model, model.members[index], member_loads(model)[index], out);
  return out.ok;
}

void buy_lumber(OptionPlan& plan, const Site& site, goods::Kind kind, const std::string& item, const mechanics::Section& section, double length_in,
                goods::Growth grows) {
  // Plies are bought as single pieces and put together.
  auto ply = yard_section(section);
  ply.plies = 1;
  auto good = goods::lumber(kind, item, ply, length_in, section.plies);
  good.grade = "No. 2";
  add_good(plan, site, std::move(good), std::move(grows));
}

// A step that members share is said once, with all their names.
void say_for_member(std::vector<std::string>& steps, const std::string& id, const std::string& head, const std::string& tail) {
  for (auto& step : steps) {
    const bool same =
        step.size() > head.size() + tail.size() && step.compare(0, head.size(), head) == 0 && step.compare(step.size() - tail.size(), tail.size(), tail) == 0;
    if (!same) continue;
    step.insert(step.size() - tail.size(), ", " + id);
    return;
  }
  steps.push_back(head + id + tail);
}

}  // namespace

std::vector<std::size_t> members_to_treat(const OptionPlan& plan) {
  const auto checks = check_members(plan.model);
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < plan.model.members.size(); ++i) {
    const auto& member = plan.model.members[i];
    if (member.role != SupportRole::joist && member.role != SupportRole::girder) continue;
    if (std::any_of(checks.checks.begin(), checks.checks.end(), [&](const Check& check) { return check.member == member.id && !check.ok; })) out.push_back(i);
  }
  return out;
}

void replace_member(OptionPlan& plan, const Site& site, std::size_t index, bool upsize) {
  auto& member = plan.model.members[index];
  member.decay.clear();
  member.cuts.clear();
  member.new_wood = true;
  // New lumber is bought as No. 2 or better of the job's species, or of whatever the yard has: then the worst No. 2.
  member.grade = Grade::no_2;
  member.values = mechanics::design_values(member.species, Grade::no_2, member.section);
  const mechanics::Section first = member.section;
  for (int more = 1; upsize && more <= kMostPlies && !passes(plan.model, index); ++more) {
    member.section = first.plies == 1 && first.b_in > 2 ? mechanics::rectangle(first.b_in + kPly_in * more, first.d_in, 1)
                                                        : mechanics::rectangle(first.b_in + first.ply_b_in() * more, first.d_in, first.plies + more);
    member.repetitive = false;
    member.values = mechanics::design_values(member.species, Grade::no_2, member.section);
  }
  plan.option.framing.push_back(line_of(member, "new_member", member.section, "replaces " + member.id));
  const bool girder = member.role == SupportRole::girder;
  buy_lumber(plan, site, girder ? goods::Kind::girder : goods::Kind::joist,
             yard_name({member.section.ply_b_in(), member.section.d_in, 1}) + (girder ? " girder, No. 2" : " joist, No. 2"), member.section, member.length_in(),
             with_members());
  add_good(plan, site, goods::connectors(2), with_members());
  add_hours(plan, "replace_member", (girder ? 2.0 : 1.0) * member.section.plies, with_members());
  say_for_member(plan.option.steps, member.id, "Shore beside ",
                 " (one at a time): take it out, set a new " + yard_name(member.section) + " " + format_length(member.length_in()) + " long on sound rests.");
}

void sister_member(OptionPlan& plan, const Site& site, std::size_t index) {
  auto& member = plan.model.members[index];
  double depth = 0;
  for (const double d : kDepths_in)
    if (d <= member.section.d_in + 0.05) {
      depth = d;
      break;
    }
  if (depth <= 0) depth = member.section.d_in;
  for (int plies = 1; plies <= kMostPlies; ++plies) {
    member.sister = mechanics::rectangle(kPly_in * plies, depth, plies);
    member.sister_values = mechanics::design_values(member.species, Grade::no_2, mechanics::rectangle(kPly_in, depth, 1));
    if (passes(plan.model, index)) break;
  }
  const auto& sister = *member.sister;
  FramingLine line =
      line_of(member, "sister", sister,
              std::to_string(sister.plies) + (sister.plies == 1 ? " sister" : " sisters") + " beside " + member.id + ", full length, bearing on every rest");
  plan.option.framing.push_back(line);
  buy_lumber(plan, site, goods::Kind::sister, yard_name({kPly_in, depth, 1}) + " sister", sister, member.length_in(), with_members());
  add_hours(plan, "sister", sister.plies * std::max(1.0, member.length_in() / 96), with_members());
  const bool rot = has_rot(member);
  say_for_member(plan.option.steps, member.id, rot ? "Cut the rot out of " : "Beside ",
                 std::string(rot ? ", let it dry, treat the cut" : ", too weak or too limber as found") + ": set " + std::to_string(sister.plies) + " " +
                     yard_name({kPly_in, depth, 1}) + (sister.plies == 1 ? " sister " : " sisters ") + format_length(member.length_in()) +
                     " long with bearing at every rest; two rows of nails or structural screws, 12 in. apart, staggered.");
}

void add_joists(OptionPlan& plan, const Site& site) {
  constexpr double kSpacing_in = 16;
  const auto lines = board_lines(site.found, kSpacing_in);
  const auto supports = deck_supports(site.found);
  double longest = 0;
  for (const auto& line : lines)
    for (std::size_t s = 0; s + 1 < line.supports_in.size(); ++s) longest = std::max(longest, line.supports_in[s + 1] - line.supports_in[s]);
  const double radians = site.found.deck.degrees * 3.14159265358979323846 / 180;
  const Point u{det_cos(radians), det_sin(radians)};
  // The shallowest joist that passes; they hang beside the girders.
  const char* sizes[] = {"2x4", "2x6", "2x8", "2x10"};
  for (std::size_t pick = 0; pick < 4; ++pick) {
    Model trial = plan.model;
    const auto section = mechanics::section_from(*section_of(sizes[pick]));
    int number = 0;
    for (const auto& line : lines) {
      std::vector<double> places = line.supports_in;
      if (line.edge_bay_start) places.insert(places.begin(), 0.0);
      if (line.edge_bay_end) places.push_back(line.length_in);
      for (std::size_t s = 0; s + 1 < places.size(); ++s) {
        if (places[s + 1] - places[s] < 6) continue;
        Member joist;
        joist.id = "new" + std::to_string(++number);
        joist.role = SupportRole::joist;
        joist.from = {line.start.x_in + places[s] * u.x_in, line.start.y_in + places[s] * u.y_in};
        joist.to = {line.start.x_in + places[s + 1] * u.x_in, line.start.y_in + places[s + 1] * u.y_in};
        joist.section = section;
        joist.grade = Grade::no_2;
        joist.values = mechanics::design_values(Species::unknown, Grade::no_2, section);
        joist.rests_in = {0, places[s + 1] - places[s]};
        joist.repetitive = lines.size() >= 3;
        joist.new_wood = true;
        trial.members.push_back(joist);
      }
    }
    trial.deck.degrees = site.found.deck.degrees + 90;
    const auto checks = check_members(trial);
    const bool good =
        std::none_of(checks.checks.begin(), checks.checks.end(), [](const Check& check) { return check.member.compare(0, 3, "new") == 0 && !check.ok; });
    if (!good && pick + 1 < 4) continue;
    std::size_t count = 0;
    for (const auto& member : trial.members) {
      if (!member.new_wood || member.id.compare(0, 3, "new") != 0) continue;
      ++count;
      const double cut = std::max(6.0, member.length_in() - (supports.empty() ? 1.5 : site.found.members[supports.front()].section.b_in));
      plan.option.framing.push_back(line_of(member, "added_joist", section, "hung between supports, " + format_inches(cut) + " long"));
      buy_lumber(plan, site, goods::Kind::added_joist, std::string(sizes[pick]) + " added joist, No. 2", section, cut, {});
    }
    add_good(plan, site, goods::connectors(2.0 * static_cast<double>(count)));
    add_hours(plan, "add_joist", static_cast<double>(count));
    plan.model = trial;
    plan.option.steps.push_back("Hang " + std::to_string(count) + " " + sizes[pick] +
                                " joists between the supports, 16 in. on centre, each end in a hanger or on a ledger; the longest spans " +
                                format_length(longest) + ".");
    return;
  }
}

}  // namespace awlmark::floor
