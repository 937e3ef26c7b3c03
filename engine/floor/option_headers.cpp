// Ends that hang free, and rotten stretches of joists, carried by headers between the neighbours.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/member_forces.hpp"
#include "floor/option_plan.hpp"
#include "floor/paths.hpp"

namespace awlmark::floor {
namespace {

constexpr double kReach_in = 72;    // a header longer than this is a girder
constexpr double kSameLine_in = 4;  // ends this near to a header's line hang on it
constexpr double kBeyondRot_in = 12;
constexpr int kMostPlies = 3;

Point unit(Point a, Point b) {
  const double length = distance_in(a, b);
  return {(b.x_in - a.x_in) / length, (b.y_in - a.y_in) / length};
}

struct Neighbour {
  std::size_t member = 0;
  double off_in = 0;  // from the end, across
  Point at;
};

// The next sound member alongside that holds itself, on one side of p.
std::optional<Neighbour> neighbour(const Model& model, std::size_t of, Point p, Point v) {
  std::optional<Neighbour> out;
  const Point u{v.y_in, -v.x_in};
  for (std::size_t c = 0; c < model.members.size(); ++c) {
    const auto& member = model.members[c];
    if (c == of || member.in_bay || member.length_in() < 1) continue;
    const Point w = unit(member.from, member.to);
    if (std::fabs(u.x_in * w.y_in - u.y_in * w.x_in) > 0.09) continue;
    if (!member.lies_on && (member.rests.size() < 2 || (has_rot(member) && !member.sister))) continue;
    const double dx = member.from.x_in - p.x_in, dy = member.from.y_in - p.y_in;
    const double off = dx * v.x_in + dy * v.y_in;
    if (off < 1 || off > kReach_in || (out && off >= out->off_in)) continue;
    const Point at{p.x_in + v.x_in * off, p.y_in + v.y_in * off};
    if (distance_to_segment_in(at, member.from, member.to) > 0.5) continue;
    out = Neighbour{c, off, at};
  }
  return out;
}

plan::Rest hung_on(const Model& model, std::size_t carrier, double along_in, Point at, RestOn on) {
  plan::Rest rest;
  rest.along_in = along_in;
  rest.on = on;
  rest.bearing_known = true;
  rest.carrier = plan::MemberIx{static_cast<int>(carrier)};
  rest.along_carrier_in = along_segment_in(at, model.members[carrier].from, model.members[carrier].to);
  return rest;
}

// A header at p across member `of`, from face to face of the two neighbours; its index, or nothing.
std::optional<std::size_t> set_header(OptionPlan& plan, const Site& site, std::size_t of, Point p, double depth_in) {
  auto& model = plan.model;
  const Point u = unit(model.members[of].from, model.members[of].to);
  const auto left = neighbour(model, of, p, {-u.y_in, u.x_in}), right = neighbour(model, of, p, {u.y_in, -u.x_in});
  if (!left || !right) return std::nullopt;
  const auto face = [&](const Neighbour& n, const Neighbour& other) {
    const Point w = unit(n.at, other.at);
    const double half = model.members[n.member].section.b_in / 2;
    return Point{n.at.x_in + w.x_in * half, n.at.y_in + w.y_in * half};
  };
  Member header;
  std::size_t number = 1;
  for (const auto& member : model.members) number += member.id.compare(0, 6, "header") == 0 ? 1 : 0;
  header.id = "header" + std::to_string(number);
  header.from = face(*left, *right);
  header.to = face(*right, *left);
  header.grade = Grade::no_2;
  header.new_wood = true;
  header.section = mechanics::rectangle(1.5, depth_in);
  header.values = mechanics::design_values(Species::unknown, Grade::no_2, header.section);
  header.rests = {hung_on(model, left->member, 0, header.from, RestOn::hanger), hung_on(model, right->member, header.length_in(), header.to, RestOn::hanger)};
  model.members.push_back(header);
  (void)site;
  return model.members.size() - 1;
}

// Plies until it passes, then bought and drawn.
void settle_header(OptionPlan& plan, const Site& site, std::size_t index) {
  const double depth = plan.model.members[index].section.d_in;
  for (int plies = plan.model.members[index].length_in() > 48 ? 2 : 1; plies <= kMostPlies; ++plies) {  // IRC R502.10: doubled past 4 ft
    auto& header = plan.model.members[index];
    header.section = mechanics::rectangle(1.5 * plies, depth, plies);
    header.values = mechanics::design_values(Species::unknown, Grade::no_2, header.section);
    if (member_passes(plan.model, index, Case::low)) break;
  }
  const auto& header = plan.model.members[index];
  plan.option.framing.push_back(line_of(header, "header", header.section, "hung between the members on either side"));
  buy_lumber(plan, site, goods::Kind::header, yard_name(header.section) + " header, No. 2", header.section, header.length_in(), with_members());
  add_good(plan, site, goods::connectors(2), with_members());
  add_hours(plan, "header", 1, with_members());
  plan.option.steps.push_back("Shore the tails, set header " + header.id + ", " + yard_name(header.section) + " " + format_length(header.length_in()) +
                              " long, in hangers between its neighbours; every hole of the hangers gets its nail.");
}

void hang_on(OptionPlan& plan, const Site& site, std::size_t member, std::size_t header, double along_in) {
  auto& model = plan.model;
  model.members[member].rests.push_back(hung_on(model, header, along_in, model.members[member].at(along_in), RestOn::header));
  auto& rests = model.members[member].rests;
  std::sort(rests.begin(), rests.end(), [](const plan::Rest& a, const plan::Rest& b) { return a.along_in < b.along_in; });
  add_good(plan, site, goods::connectors(1), with_members());
}

double free_end_in(const Member& member) { return member.rests.front().along_in > member.length_in() / 2 ? 0.0 : member.length_in(); }

}  // namespace

void hang_free_ends(OptionPlan& plan, const Site& site) {
  for (std::size_t i = 0; i < site.found.members.size(); ++i) {
    const Member member = plan.model.members[i];
    if (member.lies_on || member.rests.size() != 1) continue;
    const double end = free_end_in(member);
    const auto header = set_header(plan, site, i, member.at(end), sold_depth_in(member.section.d_in));
    if (!header) continue;
    hang_on(plan, site, i, *header, end);
    for (std::size_t j = i + 1; j < site.found.members.size(); ++j) {
      const Member other = plan.model.members[j];
      if (other.lies_on || other.rests.size() != 1) continue;
      const auto& line = plan.model.members[*header];
      if (distance_to_segment_in(other.at(free_end_in(other)), line.from, line.to) <= kSameLine_in) hang_on(plan, site, j, *header, free_end_in(other));
    }
    settle_header(plan, site, *header);
  }
}

bool head_off(OptionPlan& plan, const Site& site) {
  const std::size_t before = plan.model.members.size();
  hang_free_ends(plan, site);
  for (std::size_t i = 0; i < site.found.members.size(); ++i) {
    const Member old = plan.model.members[i];
    if (old.role != SupportRole::joist || !has_rot(old) || old.sister || old.rests.size() < 2) continue;
    double from = 1e300, to = -1e300;
    for (const auto& zone : old.decay)
      if (zone.rot) from = std::min(from, zone.from_in), to = std::max(to, zone.to_in);
    // The sound side that is longer stays; the other end is made new.
    const bool keep_start = from > old.length_in() - to;
    const double cut = keep_start ? from - kBeyondRot_in : to + kBeyondRot_in;
    if (cut < 24 || cut > old.length_in() - 12) continue;
    std::vector<plan::Rest> kept, rest_of_it;
    for (const auto& rest : old.rests) ((rest.along_in < cut) == keep_start ? kept : rest_of_it).push_back(rest);
    if (kept.empty() || rest_of_it.empty()) continue;
    const auto header = set_header(plan, site, i, old.at(cut), sold_depth_in(old.section.d_in));
    if (!header) continue;
    Member fresh = old;
    fresh.id = old.id + ".new";
    fresh.decay.clear();
    fresh.cuts.clear();
    fresh.new_wood = true;
    fresh.section = mechanics::rectangle(1.5, sold_depth_in(old.section.d_in));
    fresh.grade = Grade::no_2;
    fresh.values = mechanics::design_values(fresh.species, Grade::no_2, fresh.section);
    const double shift = keep_start ? cut : 0;
    fresh.from = keep_start ? old.at(cut) : old.from;
    fresh.to = keep_start ? old.to : old.at(cut);
    fresh.rests = rest_of_it;
    for (auto& rest : fresh.rests) rest.along_in -= shift;
    auto& stays = plan.model.members[i];
    stays.decay.clear();
    stays.changed = true;
    stays.from = keep_start ? old.from : old.at(cut);
    stays.to = keep_start ? old.at(cut) : old.to;
    stays.rests = kept;
    if (!keep_start)
      for (auto& rest : stays.rests) rest.along_in -= cut;
    stays.cuts.clear();
    for (auto one : old.cuts)
      if ((one.along_in < cut) == keep_start) {
        one.along_in -= keep_start ? 0 : cut;
        stays.cuts.push_back(one);
      }
    hang_on(plan, site, i, *header, keep_start ? plan.model.members[i].length_in() : 0);
    plan.model.members.push_back(fresh);
    hang_on(plan, site, plan.model.members.size() - 1, *header, keep_start ? 0 : fresh.length_in());
    plan.option.framing.push_back(line_of(fresh, "new_member", fresh.section, "from the header to the old rest of " + old.id));
    price_member(plan, site, fresh);
    plan.option.steps.push_back("Cut " + old.id + " off at " + format_length(cut) + " in sound wood, hang what stays and a new " + yard_name(fresh.section) +
                                " " + format_length(fresh.length_in()) + " long on the header there.");
    settle_header(plan, site, *header);
  }
  return plan.model.members.size() > before;
}

}  // namespace awlmark::floor
