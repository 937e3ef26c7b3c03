#include "plan/framing.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::plan {
namespace {

constexpr double kLeastSine = 0.26;   // 15 degrees
constexpr double kOn_in = 4;          // a rest this near to a member's line lies on it
constexpr double kInside_in = 2;      // an end carries another end only from here inwards
constexpr double kAtEdge_in = 12;     // an end this near to the room's edge is taken to rest there
constexpr double kAtWall_in = 6;      // or to a wall's line
constexpr double kSill_in = 3.5;      // breadth of a plate or sill, 2x4 (PS 20)
constexpr double kHanger_in = 1.5;    // least seat of a hanger or ledger (IRC R502.6)
constexpr double kGirderSeat_in = 3;  // least bearing on masonry (IRC R502.6)
constexpr double kUnderWall_in = 4;   // a girder's line this near to a wall's line runs under it

double cross(Point a, Point b) { return a.x_in * b.y_in - a.y_in * b.x_in; }
Point unit(Point a, Point b) {
  const double length = distance_in(a, b);
  return length > 0 ? Point{(b.x_in - a.x_in) / length, (b.y_in - a.y_in) / length} : Point{1, 0};
}
Point step(Point p, Point u, double by_in) { return {p.x_in + u.x_in * by_in, p.y_in + u.y_in * by_in}; }

double breadth_in(const Support& support) {
  if (support.size && support.size->b_in > 0) return support.size->b_in;
  return support.role == SupportRole::girder ? 3.5 : 1.5;
}

class Framer {
 public:
  explicit Framer(const Job& job) : job_(job) {}

  Framing make() {
    for (std::size_t i = 0; i < job_.supports.size(); ++i) add_member(i);
    for (std::size_t m = 0; m < out_.members.size(); ++m) add_rests(m);
    for (std::size_t m = 0; m < out_.members.size(); ++m)
      for (auto& rest : out_.members[m].rests) find_carrier(m, rest);
    for (std::size_t m = 0; m < out_.members.size(); ++m)
      for (auto& rest : out_.members[m].rests) find_bearing(m, rest);
    for (std::size_t w = 0; w < job_.walls.size(); ++w) add_wall(w);
    return std::move(out_);
  }

 private:
  void assume(const std::string& id, const std::string& about, const std::string& words) { out_.assumed.push_back({id, about, words}); }
  const Support& support_of(std::size_t member) const { return job_.supports[out_.members[member].support.of()]; }

  void add_member(std::size_t i) {
    const Support& support = job_.supports[i];
    const double length = distance_in(support.from_in, support.to_in);
    if (length < 1) {
      assume("no_length", support.id, support.id + " has no length on the plan and is left out.");
      return;
    }
    FramingMember member;
    member.support = SupportIx{static_cast<int>(i)};
    member.from = support.from_in;
    member.to = support.to_in;
    double farthest = length;
    for (const auto& rest : rests_of(support))
      if (rest.at_in) farthest = std::max(farthest, *rest.at_in);
    if (farthest > length + 1e-6) member.to = step(support.from_in, unit(support.from_in, support.to_in), farthest);
    member.lies_on = support.role == SupportRole::ledger || support.role == SupportRole::wall;
    out_.members.push_back(member);
  }

  void add_rests(std::size_t m) {
    auto& member = out_.members[m];
    const Support& support = support_of(m);
    if (member.lies_on) return;
    const auto recorded = rests_of(support);
    for (const auto& from : recorded) {
      if (from.on == RestOn::nothing || !from.at_in || !std::isfinite(*from.at_in)) continue;
      Rest rest;
      rest.along_in = std::max(0.0, *from.at_in);
      if (!member.rests.empty() && rest.along_in - member.rests.back().along_in < 1) continue;
      rest.on = from.on;
      rest.over = from.over;
      rest.cap_in = from.cap_in;
      rest.post_size = from.post_size;
      rest.post_length_in = from.post_length_in;
      rest.pad_in = from.pad_in;
      if (from.bearing_in) rest.bearing_in = *from.bearing_in, rest.bearing_known = true;
      if (from.support) named_.push_back({m, member.rests.size(), *from.support});
      member.rests.push_back(rest);
    }
    if (recorded.empty()) guess_rests(m);
  }

  // Nothing recorded: the two ends as drawn, and girders that it crosses; an end in the open is free.
  void guess_rests(std::size_t m) {
    auto& member = out_.members[m];
    const Support& support = support_of(m);
    const double length = member.length_in();
    std::vector<double> places;
    std::string free;
    for (const double at : {0.0, length}) {
      if (end_holds(m, step(member.from, unit(member.from, member.to), at)))
        places.push_back(at);
      else
        free += (free.empty() ? "" : " and ") + format_length(at);
    }
    for (std::size_t c = 0; c < out_.members.size(); ++c) {
      if (c == m || support_of(c).role != SupportRole::girder || support.role == SupportRole::girder) continue;
      const auto at = crossing_in(m, c);
      if (at && std::none_of(places.begin(), places.end(), [&](double place) { return std::fabs(place - *at) < 12; })) places.push_back(*at);
    }
    std::sort(places.begin(), places.end());
    for (const double at : places) {
      Rest rest;
      rest.along_in = at;
      member.rests.push_back(rest);
    }
    assume("rests", support.id,
           "Where " + support.id + " rests is not recorded: taken " +
               (free.empty() ? "at the two ends as drawn, " : "where the plan shows something to hold it, ") + format_length(length) + " long" +
               (free.empty() ? "" : "; its end at " + free + " along it hangs in the open and counts as free") + ". Measure it.");
  }

  bool end_holds(std::size_t m, Point p) const {
    const auto& outline = job_.room.outline_in;
    if (outline.size() < 3 || !contains(outline, p)) return true;
    for (std::size_t i = 0; i < outline.size(); ++i)
      if (distance_to_segment_in(p, outline[i], outline[(i + 1) % outline.size()]) <= kAtEdge_in) return true;
    for (const auto& wall : job_.walls)
      if (distance_to_segment_in(p, wall.from_in, wall.to_in) <= kAtWall_in) return true;
    const Point u = unit(out_.members[m].from, out_.members[m].to);
    for (std::size_t c = 0; c < out_.members.size(); ++c)
      if (c != m && std::fabs(cross(u, unit(out_.members[c].from, out_.members[c].to))) >= kLeastSine &&
          distance_to_segment_in(p, out_.members[c].from, out_.members[c].to) <= kOn_in)
        return true;
    return false;
  }

  std::optional<double> crossing_in(std::size_t m, std::size_t c) const {
    const auto& a = out_.members[m];
    const auto& b = out_.members[c];
    const Point u = unit(a.from, a.to), v = unit(b.from, b.to);
    const double sine = cross(u, v);
    if (std::fabs(sine) < kLeastSine) return std::nullopt;
    const Point d{b.from.x_in - a.from.x_in, b.from.y_in - a.from.y_in};
    const double along = cross(d, v) / sine, other = cross(d, u) / sine;
    if (along < 0 || along > a.length_in() || other < -kOn_in || other > b.length_in() + kOn_in) return std::nullopt;
    return along;
  }

  // Whether member c may carry member m at p, and how well the two fit: a lower figure is better.
  std::optional<int> fits(std::size_t m, const Rest& rest, std::size_t c, Point p) const {
    const SupportRole mine = support_of(m).role, its = support_of(c).role;
    const auto& carrier = out_.members[c];
    const double along = along_segment_in(p, carrier.from, carrier.to);
    const bool asked = rest.on == RestOn::hanger || rest.on == RestOn::header || rest.on == RestOn::joist || rest.on == RestOn::girder;
    if (mine == SupportRole::girder && its != SupportRole::girder && !asked) return std::nullopt;
    if (its == SupportRole::girder && mine != SupportRole::girder) return 0;
    if (carrier.lies_on) return 1;
    // Alike: the one whose end meets the other's side rests on it. Two that both rest there stand on the same thing.
    if (along < kInside_in || along > carrier.length_in() - kInside_in) return std::nullopt;
    for (const auto& other : carrier.rests)
      if (std::fabs(other.along_in - along) <= kOn_in && !asked) return std::nullopt;
    const double to_end = std::min(rest.along_in, out_.members[m].length_in() - rest.along_in);
    if (to_end > kOn_in && !asked) return std::nullopt;
    return 2;
  }

  void find_carrier(std::size_t m, Rest& rest) {
    auto& member = out_.members[m];
    const auto index = static_cast<std::size_t>(&rest - member.rests.data());
    const Point u = unit(member.from, member.to), p = step(member.from, u, rest.along_in);
    for (const auto& [of, which, id] : named_) {
      if (of != m || which != index) continue;
      for (std::size_t c = 0; c < out_.members.size(); ++c)
        if (c != m && support_of(c).id == id) {
          rest.carrier = MemberIx{static_cast<int>(c)};
          rest.along_carrier_in = along_segment_in(p, out_.members[c].from, out_.members[c].to);
          return;
        }
    }
    if (rest.on == RestOn::post || rest.on == RestOn::foundation || rest.on == RestOn::wall) return;
    int best = 9;
    double nearest = 1e300;
    for (std::size_t c = 0; c < out_.members.size(); ++c) {
      const auto& carrier = out_.members[c];
      if (c == m || std::fabs(cross(u, unit(carrier.from, carrier.to))) < kLeastSine) continue;
      const double off = distance_to_segment_in(p, carrier.from, carrier.to);
      if (off > std::max(kOn_in, breadth_in(support_of(c)) / 2 + 1.5)) continue;
      const auto fit = fits(m, rest, c, p);
      if (!fit || *fit > best || (*fit == best && off >= nearest - 1e-9)) continue;
      best = *fit;
      nearest = off;
      rest.carrier = MemberIx{static_cast<int>(c)};
      rest.along_carrier_in = along_segment_in(p, carrier.from, carrier.to);
    }
    if (rest.carrier.known() && rest.on == RestOn::unknown) {
      const SupportRole role = support_of(rest.carrier.of()).role;
      rest.on = role == SupportRole::girder   ? RestOn::girder
                : role == SupportRole::ledger ? RestOn::ledger
                : role == SupportRole::wall   ? RestOn::wall
                                              : RestOn::joist;
    }
  }

  void find_bearing(std::size_t m, Rest& rest) {
    const auto& member = out_.members[m];
    if (rest.bearing_known) return;
    if (rest.post_size) {
      // A post tells what the girder sits on there; the piece given for all rests counts at those that stand on posts.
      rest.bearing_in = std::max(1.5, std::min(rest.post_size->b_in, rest.post_size->d_in));
      rest.bearing_known = true;
      if (!rest.cap_in && (rest.on == RestOn::post || rest.on == RestOn::unknown)) rest.cap_in = std::max(rest.post_size->b_in, rest.post_size->d_in);
    } else if (rest.carrier.known()) {
      const double half = breadth_in(support_of(rest.carrier.of())) / 2;
      const double low = std::max(0.0, rest.along_in - half), high = std::min(member.length_in(), rest.along_in + half);
      const bool hung = rest.on == RestOn::hanger || rest.on == RestOn::header || rest.on == RestOn::joist || rest.on == RestOn::ledger;
      rest.bearing_in = hung ? kHanger_in : std::max(kHanger_in, high - low);
      rest.bearing_known = true;
    } else if (rest.on == RestOn::wall || rest.on == RestOn::foundation) {
      rest.bearing_in = kSill_in;
    } else {
      rest.bearing_in = support_of(m).role == SupportRole::girder ? kGirderSeat_in : kHanger_in;
    }
  }

  void add_wall(std::size_t w) {
    const Wall& wall = job_.walls[w];
    WallLine line;
    line.wall = WallIx{static_cast<int>(w)};
    line.below = wall.below;
    const Point u = unit(wall.from_in, wall.to_in);
    const Point middle{(wall.from_in.x_in + wall.to_in.x_in) / 2, (wall.from_in.y_in + wall.to_in.y_in) / 2};
    for (std::size_t m = 0; m < out_.members.size(); ++m) {
      if (support_of(m).role != SupportRole::girder) continue;
      const auto& member = out_.members[m];
      if (std::fabs(cross(u, unit(member.from, member.to))) > 0.09) continue;
      if (distance_to_segment_in(middle, member.from, member.to) <= kUnderWall_in) line.girder = MemberIx{static_cast<int>(m)};
    }
    out_.walls.push_back(line);
  }

  struct Named {
    std::size_t member;
    std::size_t rest;
    std::string id;
  };
  const Job& job_;
  Framing out_;
  std::vector<Named> named_;
};

}  // namespace

Framing framing_of(const Job& job) { return Framer(job).make(); }

std::optional<Carrier> carrier_at(Point p, Point direction, const std::vector<Line>& others, const std::vector<std::size_t>& among) {
  std::optional<Carrier> out;
  double nearest = 1e300;
  for (const std::size_t c : among) {
    const Line& line = others[c];
    if (std::fabs(cross(direction, unit(line.from, line.to))) < kLeastSine) continue;
    const double off = distance_to_segment_in(p, line.from, line.to);
    if (off > std::max(kOn_in, line.b_in / 2 + 1.5) || off >= nearest - 1e-9) continue;
    nearest = off;
    out = Carrier{MemberIx{static_cast<int>(c)}, along_segment_in(p, line.from, line.to)};
  }
  return out;
}

LoadOrder load_order(const std::vector<std::vector<std::size_t>>& carriers) {
  LoadOrder out;
  const std::size_t n = carriers.size();
  std::vector<int> waits(n, 0);  // members that still have to bring their load
  for (const auto& list : carriers)
    for (const std::size_t c : list) ++waits[c];
  std::vector<bool> done(n, false);
  for (bool moved = true; moved;) {
    moved = false;
    for (std::size_t i = 0; i < n; ++i) {
      if (done[i] || waits[i] > 0) continue;
      done[i] = moved = true;
      out.order.push_back(i);
      for (const std::size_t c : carriers[i]) --waits[c];
    }
  }
  // What is left carries itself in a ring, or waits for what does.
  for (std::size_t i = 0; i < n; ++i)
    if (!done[i]) out.in_ring.push_back(i);
  return out;
}

}  // namespace awlmark::plan
