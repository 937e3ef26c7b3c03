// Members in a rebuild option: replaced, sistered, added.
#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "floor/build.hpp"
#include "floor/layout.hpp"
#include "floor/member_parts.hpp"
#include "floor/option_plan.hpp"
#include "floor/paths.hpp"
#include "floor/rest_checks.hpp"
#include "tables/materials.hpp"

namespace awlmark::floor {
namespace {

constexpr double kDepths_in[] = {11.25, 9.25, 7.25, 5.5, 3.5};
constexpr double kPly_in = 1.5;
constexpr int kMostPlies = 3;
constexpr double kLongest_in = 240;  // of a stick at an ordinary yard

// Sections of No. 2 that a yard sells, of one depth, in rising breadth: single, doubled and tripled 2-in.
// lumber for joists; for girders also 4-in. pieces and four plies.
std::vector<mechanics::Section> sold_sections(double depth_in, bool girder, double least_b_in) {
  std::vector<mechanics::Section> all{mechanics::rectangle(1.5, depth_in), mechanics::rectangle(3, depth_in, 2)};
  if (girder) all.push_back(mechanics::rectangle(3.5, depth_in));
  all.push_back(mechanics::rectangle(4.5, depth_in, 3));
  if (girder) all.push_back(mechanics::rectangle(6, depth_in, 4));
  std::vector<mechanics::Section> out;
  for (const auto& section : all)
    if (section.b_in >= least_b_in - 0.55) out.push_back(section);
  if (out.empty()) out.push_back(all.back());
  return out;
}

std::string fastening(const mechanics::Section& sister) {
  return sister.plies > 1 ? "structural screws 0.22 in. through all plies, two rows 12 in. apart, staggered, two more at each end and beside each cut"
                          : "16d common nails (0.162 x 3 1/2 in.), two rows 12 in. apart, staggered, four more at each end and beside each cut";
}

}  // namespace

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
  line.rests_at_in = member.rests_in();
  line.note = note;
  return line;
}

double sold_depth_in(double d_in) {
  for (const double d : kDepths_in)
    if (d <= d_in + 0.05) return d;
  return kDepths_in[4];
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

std::vector<std::size_t> members_to_treat(OptionPlan& plan, const Site& site, bool damage_only) {
  settle_standing(plan, site);
  const auto checks = check_members(plan.model, load_paths(plan.model, Case::known)).checks;
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < plan.model.members.size(); ++i) {
    const auto& member = plan.model.members[i];
    if (member.new_wood || member.sister || member.cleated) continue;
    const bool rot = has_rot(member);
    const bool fails = !member.lies_on && std::any_of(checks.begin(), checks.end(), [&](const Check& check) {
      return check.member == member.id && failing(check) && check.kind != "rests" && (!damage_only || check.standing.value_or("") == "damaged");
    });
    if (rot || fails) out.push_back(i);
  }
  return out;
}

plan::Rest hung_at(const Model& model, std::size_t carrier, double along_in, Point at) {
  plan::Rest rest;
  rest.along_in = along_in;
  rest.on = RestOn::hanger;
  rest.bearing_known = true;
  rest.carrier = plan::MemberIx{static_cast<int>(carrier)};
  rest.along_carrier_in = along_segment_in(at, model.members[carrier].from, model.members[carrier].to);
  return rest;
}

void price_member(OptionPlan& plan, const Site& site, const Member& member) {
  const bool girder = member.role == SupportRole::girder;
  buy_lumber(plan, site, girder ? goods::Kind::girder : goods::Kind::joist,
             yard_name({member.section.ply_b_in(), member.section.d_in, 1}) + (girder ? " girder, No. 2" : " joist, No. 2"), member.section, member.length_in(),
             with_members());
  add_good(plan, site, goods::connectors(2), with_members());
  add_hours(plan, "replace_member", (girder ? 2.0 : 1.0) * member.section.plies, with_members());
}

void price_sister(OptionPlan& plan, const Site& site, const Member& member) {
  const auto& sister = *member.sister;
  buy_lumber(plan, site, goods::Kind::sister, yard_name({kPly_in, sister.d_in, 1}) + " sister", sister, member.length_in(), with_members());
  add_hours(plan, "sister", sister.plies * std::max(1.0, member.length_in() / 96), with_members());
  std::size_t hung = 0;
  for (const auto& rest : member.rests) hung += rest.on == RestOn::hanger || rest.on == RestOn::header || rest.on == RestOn::joist ? 1 : 0;
  if (hung > 0) add_good(plan, site, goods::connectors(static_cast<double>(hung)), with_members());
}

void replace_member(OptionPlan& plan, const Site& site, std::size_t index, bool upsize) {
  const double depth = sold_depth_in(plan.model.members[index].section.d_in);
  const bool girder = plan.model.members[index].role == SupportRole::girder;
  const double old_b = plan.model.members[index].section.b_in, old_d = plan.model.members[index].section.d_in;
  for (const auto& section : sold_sections(depth, girder, old_b)) {
    auto& member = plan.model.members[index];
    member.decay.clear();
    member.cuts.clear();
    member.new_wood = true;
    // New lumber is bought as No. 2 or better of the job's species, or of whatever the yard has: then the worst No. 2.
    member.grade = Grade::no_2;
    member.section = section;
    member.values = lumber_values(site, member.role, member.species, section);
    member.repetitive = member.repetitive && section.plies == 1;
    if (member.length_in() <= kLongest_in)
      for (auto& rest : member.rests) rest.over = rest.over == OverRest::unknown ? OverRest::continuous : rest.over;
    if (!upsize || member.lies_on || member_passes(plan.model, index, Case::low)) break;
  }
  const auto& member = plan.model.members[index];
  plan.option.framing.push_back(line_of(member, "new_member", member.section, "replaces " + member.id));
  price_member(plan, site, member);
  say_for_member(plan.option.steps, member.id, "Shore beside ",
                 " (one at a time): take it out, set a new " + yard_name(member.section) + " " + format_length(member.length_in()) + " long on sound rests" +
                     (old_d - depth > 0.05 ? ", packed up " + format_inches(old_d - depth) + " with treated wood or steel shims to the old height" : "") + ".");
  if (member.section.plies > 1) say_for_member(plan.option.steps, member.id, "Fasten the plies of ", " with " + fastening(member.section) + ".");
}

bool cleat_member(OptionPlan& plan, const Site& site, std::size_t index) {
  auto& member = plan.model.members[index];
  constexpr double kShallow = 0.25;  // of the depth
  double from = 1e300, to = -1e300;
  for (const auto& zone : member.decay) {
    if (!zone.rot) continue;
    if (!(zone.top_depth_in > 0) || zone.top_depth_in > kShallow * member.section.d_in || zone.bottom_depth_in > 0) return false;
    from = std::min(from, zone.from_in), to = std::max(to, zone.to_in);
  }
  if (to < from || member.lies_on || member.sister) return false;
  member.cleated = true;
  if (!member_passes(plan.model, index, Case::low)) {
    member.cleated = false;
    return false;
  }
  const double low = std::max(0.0, from - 12), high = std::min(member.length_in(), to + 12);
  Member cleat = member;
  cleat.from = member.at(low);
  cleat.to = member.at(high);
  cleat.rests.clear();
  const auto section = mechanics::rectangle(1.5, 3.5);
  for (int side = 0; side < 2; ++side) {
    plan.option.framing.push_back(line_of(cleat, "cleat", section, "beside the pared top of " + member.id));
    buy_lumber(plan, site, goods::Kind::cleat, "2x4 cleat, No. 2", section, cleat.length_in(), with_members());
  }
  add_hours(plan, "sister", 0.7 * std::max(1.0, cleat.length_in() / 96), with_members());
  say_for_member(plan.option.steps, member.id, "Pare the decayed top of ",
                 " back to sound, dry wood, treat the cut against new decay (it restores nothing), pack it to the old height with treated wood in construction "
                 "adhesive, and bolt a 2x4 cleat to each "
                 "side, 12 in. past the cut at both ends, 1/2 in. through bolts 16 in. apart with washers: the deck sits and nails on the cleats.");
  return true;
}

namespace {

bool carries_header(const Model& model, std::size_t index) {
  return std::any_of(model.members.begin(), model.members.end(), [&](const Member& other) {
    return other.new_wood && other.id.compare(0, 6, "header") == 0 &&
           std::any_of(other.rests.begin(), other.rests.end(), [&](const plan::Rest& rest) { return rest.carrier.known() && rest.carrier.of() == index; });
  });
}

// As the plan is drawn: x to the right, y up.
const char* side_words(const Member& member, int side) {
  const double nx = -(member.to.y_in - member.from.y_in) * side, ny = (member.to.x_in - member.from.x_in) * side;
  if (std::fabs(nx) >= std::fabs(ny)) return nx > 0 ? "right" : "left";
  return ny > 0 ? "upper" : "lower";
}

void say_in_the_way(OptionPlan& plan, const Member& member, const SisterSide& side) {
  for (const auto* obstacle : side.in_the_way) {
    const std::string what = doc::word_of(obstacle->kind) + " " + obstacle->id, where = what + " runs where the sister of " + member.id + " goes";
    if (!obstacle->can_move)
      plan.option.asks.push_back(where + ", and the other side is no freer: can it move? Until then this way stands under that question.");
    else if (!*obstacle->can_move)
      plan.option.fails_for.push_back(where + ", it cannot move, and the other side is no freer");
    else if (std::find(plan.moved.begin(), plan.moved.end(), obstacle->id) == plan.moved.end()) {
      plan.moved.push_back(obstacle->id);
      add_hours(plan, "move_pipe", 1);
      plan.option.steps.push_back("Move " + what + " out of the bay beside " + member.id + " first.");
    }
  }
}

// A sister bypasses notches and holes past what the code allows: the old wood counts for nothing there, the
// sister takes all of it.
bool bypass_cuts(Model& model, std::size_t index) {
  auto& member = model.members[index];
  if (member.cuts.empty()) return false;
  FloorChecks found;
  check_cuts(member, member_forces(member, load_paths(model, Case::known).loads[index], creep_of(member)), found);
  if (found.ok) return false;
  for (const auto& cut : member.cuts) {
    const double half = (cut.hole_diameter_in ? *cut.hole_diameter_in : cut.notch_length_in.value_or(2.0)) / 2;
    DecayZone zone;
    zone.from_in = std::max(0.0, cut.along_in - half);
    zone.to_in = std::min(member.length_in(), cut.along_in + half);
    zone.loss.top_in = member.section.d_in;
    zone.rot = false;
    zone.why = "notch or hole that the sister bypasses";
    member.decay.push_back(zone);
  }
  member.cuts.clear();
  return true;
}

}  // namespace

void sister_member(OptionPlan& plan, const Site& site, std::size_t index) {
  const double depth = sold_depth_in(plan.model.members[index].section.d_in);
  const bool bypassed = bypass_cuts(plan.model, index);
  const int most = plan.model.members[index].lies_on ? 1 : kMostPlies;
  for (int plies = 1; plies <= most; ++plies) {
    auto& member = plan.model.members[index];
    member.sister = mechanics::rectangle(kPly_in * plies, depth, plies);
    member.sister_values = lumber_values(site, member.role, member.species, mechanics::rectangle(kPly_in, depth, 1));
    if (member.lies_on || member_passes(plan.model, index, Case::low)) break;
  }
  const auto side = sister_side(plan, site, index, plan.model.members[index].sister->b_in);
  plan.model.members[index].sister_side = side.side;
  make_room(plan.model, index, side.side, plan.model.members[index].sister->b_in);
  const auto& member = plan.model.members[index];
  const auto& sister = *member.sister;
  const bool trimmer = carries_header(plan.model, index);
  plan.option.framing.push_back(line_of(member, trimmer ? "trimmer" : "sister", sister,
                                        std::to_string(sister.plies) + (sister.plies == 1 ? " sister" : " sisters") + " beside " + member.id +
                                            (trimmer ? ", which carries a header" : "") + ", on its " + side_words(member, side.side) +
                                            " side, full length, from rest to rest"));
  say_in_the_way(plan, member, side);
  price_sister(plan, site, member);
  const bool rot = has_rot(member);
  double narrow = 0;
  for (const auto& rest : member.rests)
    if (sister_bearing_in(member, rest) < sister.b_in - 0.01) narrow = std::max(narrow, member.section.b_in + 2 * sister.b_in);
  say_for_member(plan.option.steps, member.id, rot ? "Cut the rot out of " : "Beside ",
                 std::string(rot ? " back to sound, dry wood (preservative restores nothing), pack its seat with treated wood or steel where the cut took it"
                                 : (bypassed ? ", which notches or holes have weakened" : ", which what it must carry asks more of")) +
                     ": set " + std::to_string(sister.plies) + " " + yard_name({kPly_in, depth, 1}) + (sister.plies == 1 ? " sister " : " sisters ") +
                     format_length(member.length_in()) + " long, from rest to rest; " + fastening(sister) + ".");
  if (narrow > 0)
    say_for_member(plan.option.steps, member.id, "The posts under ",
                   " are too narrow for the sister: it bears there only by what the checks count; a steel cap " + format_inches(narrow) +
                       " wide, or a second post under it, gives it a seat of its own.");
}

void add_joists(OptionPlan& plan, const Site& site) {
  constexpr double kSpacing_in = 16;
  const auto lines = board_lines(site.found, kSpacing_in);
  double longest = 0;
  for (const auto& line : lines)
    for (std::size_t s = 0; s + 1 < line.supports_in.size(); ++s) longest = std::max(longest, line.supports_in[s + 1] - line.supports_in[s]);
  const double radians = site.found.deck.degrees * kPi / 180;
  const Point u{det_cos(radians), det_sin(radians)};
  // The shallowest joist that passes; they hang beside the girders.
  const char* sizes[] = {"2x4", "2x6", "2x8", "2x10"};
  for (std::size_t pick = 0; pick < 4; ++pick) {
    Model trial = plan.model;
    const auto section = mechanics::section_from(*section_of(sizes[pick]));
    int number = 0;
    for (const auto& line : lines) {
      std::vector<double> places = line.supports_in;
      std::vector<int> carriers;
      for (const std::size_t m : line.members) carriers.push_back(static_cast<int>(m));
      if (line.edge_bay_start) places.insert(places.begin(), 0.0), carriers.insert(carriers.begin(), -1);
      if (line.edge_bay_end) places.push_back(line.length_in), carriers.push_back(-1);
      // From face to face of what they hang between.
      const auto half = [&](int carrier) { return carrier < 0 ? 0.0 : trial.members[static_cast<std::size_t>(carrier)].section.b_in / 2; };
      for (std::size_t s = 0; s + 1 < places.size(); ++s) {
        const double from = places[s] + half(carriers[s]), to = places[s + 1] - half(carriers[s + 1]);
        if (to - from < 6) continue;
        Member joist;
        joist.id = "new" + std::to_string(++number);
        joist.role = SupportRole::joist;
        joist.from = {line.start.x_in + from * u.x_in, line.start.y_in + from * u.y_in};
        joist.to = {line.start.x_in + to * u.x_in, line.start.y_in + to * u.y_in};
        joist.section = section;
        joist.grade = Grade::no_2;
        joist.values = lumber_values(site, SupportRole::joist, Species::unknown, section);
        for (const std::size_t end : {s, s + 1}) {
          plan::Rest rest;
          rest.along_in = end == s ? 0 : to - from;
          rest.on = carriers[end] < 0 ? RestOn::wall : RestOn::hanger;
          rest.bearing_known = true;
          if (carriers[end] >= 0) {
            const auto& carrier = trial.members[static_cast<std::size_t>(carriers[end])];
            rest.carrier = plan::MemberIx{carriers[end]};
            rest.along_carrier_in = along_segment_in(end == s ? joist.from : joist.to, carrier.from, carrier.to);
          }
          joist.rests.push_back(rest);
        }
        joist.repetitive = lines.size() >= 3;
        joist.new_wood = true;
        trial.members.push_back(joist);
      }
    }
    trial.deck.degrees = site.found.deck.degrees + 90;
    // What is bought anyway is sized for the most that a wall may bring.
    const auto checks = check_members(trial, load_paths(trial, trial.open_walls.empty() ? Case::known : Case::high));
    const auto added = trial.members.begin() + static_cast<std::ptrdiff_t>(plan.model.members.size());
    const bool good = std::none_of(checks.checks.begin(), checks.checks.end(), [&](const Check& check) {
      return failing(check) && std::any_of(added, trial.members.end(), [&](const Member& member) { return member.id == check.member; });
    });
    if (!good && pick + 1 < 4) continue;
    std::size_t count = 0;
    for (auto it = added; it != trial.members.end(); ++it) {
      const Member& member = *it;
      ++count;
      const double cut = member.length_in();
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
