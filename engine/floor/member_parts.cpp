#include "floor/member_parts.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/paths.hpp"

namespace awlmark::floor {
namespace {

constexpr int kMostPlies = 3;

// Which side of a member's line a point lies on: 1 left of from -> to, -1 right, 0 on it.
int side_of(const Member& member, Point p) {
  const double cross = (member.to.x_in - member.from.x_in) * (p.y_in - member.from.y_in) - (member.to.y_in - member.from.y_in) * (p.x_in - member.from.x_in);
  const double off = cross / std::max(1e-9, member.length_in());
  return off > 0.01 ? 1 : off < -0.01 ? -1 : 0;
}

Point towards(Point a, Point b, double by_in) {
  const double length = distance_in(a, b);
  return {a.x_in + (b.x_in - a.x_in) * by_in / length, a.y_in + (b.y_in - a.y_in) * by_in / length};
}

// Whether it takes the room that wood of `reach_in` beside the member's line needs, and on which sides.
bool in_the_way(const Obstacle& obstacle, const Member& member, double reach_in, int side) {
  constexpr double kEvery_in = 2, kClear_in = 0.25;
  const double length = distance_in(obstacle.from_in, obstacle.to_in), half = obstacle.diameter_in.value_or(1.0) / 2;
  const int steps = std::max(1, static_cast<int>(std::ceil(length / kEvery_in)));
  for (int k = 0; k <= steps; ++k) {
    const Point p = length > 0 ? towards(obstacle.from_in, obstacle.to_in, length * k / steps) : obstacle.from_in;
    const double off = distance_to_segment_in(p, member.from, member.to);
    if (off <= reach_in + half + kClear_in && (side_of(member, p) == side || off <= half)) return true;
  }
  return false;
}

}  // namespace

Member piece_of(const Member& whole, double from_in, double to_in) {
  Member piece = whole;
  piece.from = whole.at(from_in);
  piece.to = whole.at(to_in);
  const auto inside = [&](double along_in) { return along_in >= from_in - 1e-6 && along_in <= to_in + 1e-6; };
  piece.rests.clear();
  for (auto rest : whole.rests)
    if (inside(rest.along_in)) rest.along_in -= from_in, piece.rests.push_back(rest);
  piece.cuts.clear();
  for (auto cut : whole.cuts)
    if (inside(cut.along_in)) cut.along_in -= from_in, piece.cuts.push_back(cut);
  piece.decay.clear();
  for (auto zone : whole.decay) {
    zone.from_in = std::max(zone.from_in, from_in) - from_in;
    zone.to_in = std::min(zone.to_in, to_in) - from_in;
    if (zone.to_in > zone.from_in) piece.decay.push_back(zone);
  }
  return piece;
}

void shorten(Member& member, bool at_end, double by_in) {
  const double length = member.length_in();
  if (at_end) {
    member.to = member.at(length - by_in);
    for (auto& rest : member.rests) rest.along_in = std::min(rest.along_in, length - by_in);
    return;
  }
  member.from = member.at(by_in);
  for (auto& rest : member.rests) rest.along_in = std::max(0.0, rest.along_in - by_in);
  for (auto& cut : member.cuts) cut.along_in -= by_in;
  for (auto& zone : member.decay) zone.from_in -= by_in, zone.to_in -= by_in;
}

void add_rest(Member& member, const plan::Rest& rest) {
  member.rests.push_back(rest);
  std::sort(member.rests.begin(), member.rests.end(), [](const plan::Rest& a, const plan::Rest& b) { return a.along_in < b.along_in; });
}

std::size_t header_between(OptionPlan& plan, const Site& site, std::size_t low, Point low_at, std::size_t high, Point high_at, double depth_in) {
  auto& model = plan.model;
  Member header;
  std::size_t number = 1;
  for (const auto& member : model.members) number += member.id.compare(0, 6, "header") == 0 ? 1 : 0;
  header.id = "header" + std::to_string(number);
  header.from = towards(low_at, high_at, model.members[low].section.b_in / 2);
  header.to = towards(high_at, low_at, model.members[high].section.b_in / 2);
  header.grade = Grade::no_2;
  header.new_wood = true;
  header.section = mechanics::rectangle(1.5, depth_in);
  header.values = lumber_values(site, SupportRole::joist, Species::unknown, header.section);
  header.rests = {hung_at(model, low, 0, header.from), hung_at(model, high, header.length_in(), header.to)};
  model.members.push_back(header);
  return model.members.size() - 1;
}

void settle_header(OptionPlan& plan, const Site& site, std::size_t index) {
  const double depth = plan.model.members[index].section.d_in;
  for (int plies = plan.model.members[index].length_in() > 48 ? 2 : 1; plies <= kMostPlies; ++plies) {  // IRC R502.10: doubled past 4 ft
    auto& header = plan.model.members[index];
    header.section = mechanics::rectangle(1.5 * plies, depth, plies);
    header.values = lumber_values(site, SupportRole::joist, Species::unknown, header.section);
    if (member_passes(plan.model, index, Case::low)) break;
  }
  const auto& header = plan.model.members[index];
  plan.option.framing.push_back(line_of(header, "header", header.section, "hung between the members on either side"));
  buy_lumber(plan, site, goods::Kind::header, yard_name(header.section) + " header, No. 2", header.section, header.length_in(), with_members());
  add_good(plan, site, goods::connectors(2), with_members());
  add_hours(plan, "header", 1, with_members());
  plan.option.steps.push_back("Shore the tails, set " + header.id + ", " + yard_name(header.section) + " " + format_length(header.length_in()) +
                              " long, in hangers between its neighbours; every hole of the hangers gets its nail.");
}

void hang_on(OptionPlan& plan, const Site& site, std::size_t member, std::size_t header, double along_in) {
  auto& model = plan.model;
  auto rest = hung_at(model, header, along_in, model.members[member].at(along_in));
  rest.on = RestOn::header;
  add_rest(model.members[member], rest);
  add_good(plan, site, goods::connectors(1), with_members());
}

SisterSide sister_side(const OptionPlan& plan, const Site& site, std::size_t index, double b_in) {
  const auto& member = plan.model.members[index];
  const double reach = member.section.b_in / 2 + b_in;
  const Point middle = member.at(member.length_in() / 2);
  const int inside = site.found.room.size() >= 3 && side_of(member, centroid(site.found.room)) < 0 ? -1 : 1;
  SisterSide best;
  double least = 1e300;
  for (const int side : {inside, -inside}) {
    SisterSide one{side, {}};
    double cost = 0;
    for (const auto& obstacle : site.job.in_bays) {
      if (!in_the_way(obstacle, member, reach, side)) continue;
      one.in_the_way.push_back(&obstacle);
      cost += obstacle.can_move ? (*obstacle.can_move ? 1 : 100) : 10;
    }
    for (const auto& other : plan.model.members)
      for (const auto& rest : other.rests) {
        if (!rest.carrier.known() || rest.carrier.of() != index) continue;
        const bool hung = rest.on == RestOn::hanger || rest.on == RestOn::header || rest.on == RestOn::joist;
        const Point far = distance_in(other.from, middle) > distance_in(other.to, middle) ? other.from : other.to;
        if (hung && side_of(member, far) == side) cost += 3;
      }
    if (cost < least) least = cost, best = one;
  }
  return best;
}

void make_room(Model& model, std::size_t index, int side, double b_in) {
  for (auto& other : model.members) {
    if (!other.new_wood) continue;
    for (const auto& rest : other.rests) {
      if (!rest.carrier.known() || rest.carrier.of() != index || rest.on != RestOn::hanger) continue;
      const bool at_end = rest.along_in > other.length_in() / 2;
      if (side_of(model.members[index], at_end ? other.from : other.to) != side) continue;
      shorten(other, at_end, b_in);
      break;
    }
  }
}

}  // namespace awlmark::floor
