#include "floor/loads.hpp"

#include <algorithm>
#include <cmath>

#include "floor/layout.hpp"

namespace awlmark::floor {
namespace {

constexpr double kStep_in = 6;      // the longest strip of a member
constexpr double kLine_in = 2;      // the widest strip of the plan
constexpr double kWallStep_in = 3;  // spots of a wall
constexpr double kPast_in = 6;      // a wall this far past a member's end stands on that end
constexpr double kSame_in = 1e-6;
constexpr std::size_t kMany = 80;

// One deck: where it lies, which way it carries, what it weighs and what holds it.
struct Deck {
  int place = 0;  // 0 in the room, 1 outside it, 2 the dropped bay
  double degrees = 0;
  double dead_psf = 0;
  std::vector<std::size_t> supports;
};

class Plan {
 public:
  explicit Plan(const Model& model) : model_(model) {
    const auto supports = deck_supports(model);
    decks_.push_back({0, model.deck.degrees, model.dead_psf, supports});
    Model outside = model;  // which members cross the boards depends on their direction
    outside.deck.degrees = model.outside_degrees;
    decks_.push_back({1, model.outside_degrees, model.outside_dead_psf, deck_supports(outside)});
    if (model.bay) decks_.push_back({2, model.bay->degrees, model.bay->dead_psf, model.bay->supports});
  }
  const std::vector<Deck>& decks() const { return decks_; }
  const Deck& deck_at(Point p) const { return decks_[static_cast<std::size_t>(place_of(p))]; }

  int place_of(Point p) const {
    if (model_.bay && contains(model_.bay->outline, p)) return 2;
    return model_.room.size() >= 3 && !contains(model_.room, p) ? 1 : 0;
  }

  // Integral over [from, to] of the line p + t u of what lies on the deck, weighed by 1 - t / fall (or 1).
  double covered_in(const Deck& deck, Point p, Point u, double from_in, double to_in, double fall_in) const {
    std::vector<double> cuts{from_in, to_in};
    cut_by(model_.room, p, u, from_in, to_in, cuts);
    if (model_.bay) cut_by(model_.bay->outline, p, u, from_in, to_in, cuts);
    std::sort(cuts.begin(), cuts.end());
    double sum = 0;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const double a = cuts[i], b = cuts[i + 1], m = (a + b) / 2;
      if (b - a < kSame_in || place_of({p.x_in + m * u.x_in, p.y_in + m * u.y_in}) != deck.place) continue;
      sum += (b - a) * (fall_in > 0 ? 1 - std::fabs(m) / fall_in : 1);
    }
    return sum;
  }

  // From the last support of the line outwards: how much of the floor hangs on it.
  double edge_share(const Deck& deck, Point p, Point u, double last_at_in, bool forward, double inner_in) const {
    double low = 0, high = 0, beyond = 0;
    if (deck.place != 1 && room_stretch(model_.room, p, u, low, high)) beyond = forward ? high - last_at_in : last_at_in - low;
    return edge_share_in(inner_in, beyond);
  }

 private:
  static void cut_by(const Polygon& ring, Point p, Point u, double from_in, double to_in, std::vector<double>& cuts) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i], b = ring[(i + 1) % ring.size()];
      const double dx = b.x_in - a.x_in, dy = b.y_in - a.y_in, denominator = u.x_in * dy - u.y_in * dx;
      if (std::fabs(denominator) < 1e-12) continue;
      const double t = ((a.x_in - p.x_in) * dy - (a.y_in - p.y_in) * dx) / denominator;
      const double s = ((a.x_in - p.x_in) * u.y_in - (a.y_in - p.y_in) * u.x_in) / denominator;
      if (s > -1e-9 && s < 1 + 1e-9 && t > from_in && t < to_in) cuts.push_back(t);
    }
  }
  const Model& model_;
  std::vector<Deck> decks_;
};

// The bay between a hit and the next one on either side, and the wider of the two.
struct Bays {
  double before_in = 0, after_in = 0;  // 0: none there
  double wider_in() const { return std::max(before_in, after_in); }
};
Bays bays_of(const std::vector<Crossing>& hits, std::size_t mine) {
  Bays bays;
  if (mine > 0) bays.before_in = hits[mine].at_in - hits[mine - 1].at_in;
  if (mine + 1 < hits.size()) bays.after_in = hits[mine + 1].at_in - hits[mine].at_in;
  return bays;
}

// Places along the member where the load on it may change: ends of other supports and corners of decks,
// carried over along the boards.
std::vector<double> strips_of(const Model& model, const Deck& deck, const Member& member) {
  const Point u = direction(deck.degrees);
  const double length = member.length_in();
  const Point v{(member.to.x_in - member.from.x_in) / length, (member.to.y_in - member.from.y_in) / length};
  const double sine = u.x_in * v.y_in - u.y_in * v.x_in;
  std::vector<double> cuts{0, length};
  const auto carry = [&](Point p) {
    const double along = (u.x_in * (p.y_in - member.from.y_in) - u.y_in * (p.x_in - member.from.x_in)) / sine;
    if (along > kSame_in && along < length - kSame_in) cuts.push_back(along);
  };
  // On a plan with very many members the plain strips are fine enough.
  if (deck.supports.size() <= kMany)
    for (const std::size_t i : deck.supports) carry(model.members[i].from), carry(model.members[i].to);
  for (const Point& p : model.room) carry(p);
  if (model.bay)
    for (const Point& p : model.bay->outline) carry(p);
  std::sort(cuts.begin(), cuts.end());
  std::vector<double> out{0};
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double wide = cuts[i + 1] - cuts[i];
    if (wide < 1e-4) continue;
    const int parts = std::max(1, static_cast<int>(std::ceil(wide / kStep_in - 1e-6)));
    for (int k = 1; k <= parts; ++k) out.push_back(cuts[i] + wide * k / parts);
  }
  return out;
}

void add_even_loads(const Model& model, const Plan& plan, const Deck& deck, std::vector<MemberLoads>& out) {
  const Point u = direction(deck.degrees);
  for (const std::size_t i : deck.supports) {
    const Member& member = model.members[i];
    const auto strips = strips_of(model, deck, member);
    for (std::size_t k = 0; k + 1 < strips.size(); ++k) {
      const Point p = member.at((strips[k] + strips[k + 1]) / 2);
      const auto hits = crossings(model, deck.supports, p, deck.degrees, kSame_in);
      std::size_t mine = hits.size();
      for (std::size_t h = 0; h < hits.size(); ++h)
        if (hits[h].member == i) mine = h;
      if (mine == hits.size()) continue;
      const Bays bays = bays_of(hits, mine);
      double share = 0;
      for (const bool forward : {true, false}) {
        const double bay = forward ? bays.after_in : bays.before_in;
        const Point way = forward ? u : Point{-u.x_in, -u.y_in};
        share += bay > 0 ? plan.covered_in(deck, p, way, 0, bay, bay)
                         : plan.covered_in(deck, p, way, 0, plan.edge_share(deck, p, u, hits[mine].at_in, forward, bays.wider_in()), 0);
      }
      const double width = share * hits[mine].sine;
      if (!(width > 1e-9)) continue;
      out[i].tributary_in = std::max(out[i].tributary_in, width);
      out[i].dead.lines.push_back(mechanics::uniform(deck.dead_psf * width / 144, strips[k], strips[k + 1]));
      out[i].live.lines.push_back(mechanics::uniform(model.live_psf * width / 144, strips[k], strips[k + 1]));
    }
  }
}

mechanics::Loads& of_kind(MemberLoads& loads, PlanLoad::Kind kind) {
  return kind == PlanLoad::Kind::dead ? loads.dead : kind == PlanLoad::Kind::live ? loads.live : loads.snow;
}

// A wall within the member's depth of a rest goes straight down there.
double down_at(const Member& member, double along_in) {
  for (const auto& rest : member.rests)
    if (std::fabs(rest.along_in - along_in) <= member.section.d_in) return rest.along_in;
  return along_in;
}

struct Share {
  std::size_t member;
  double along_in;
  double share;
};
// Who takes a spot on the deck, by the lever rule; past the last support that one alone, for half a bay.
std::vector<Share> parts_of(const Model& model, const Plan& plan, const PlanLoad& load, Point p) {
  std::vector<Share> out;
  const auto put = [&](const Crossing& hit, double share) {
    if (share > 0) out.push_back({hit.member, load.wall ? down_at(model.members[hit.member], hit.along_member_in) : hit.along_member_in, share});
  };
  if (load.onto >= 0) {
    const auto& member = model.members[static_cast<std::size_t>(load.onto)];
    out.push_back({static_cast<std::size_t>(load.onto), along_segment_in(p, member.from, member.to), 1});
    return out;
  }
  const Deck& deck = plan.deck_at(p);
  const auto hits = crossings(model, deck.supports, p, deck.degrees, kPast_in);
  if (hits.empty()) return out;
  std::size_t after = 0;
  while (after < hits.size() && hits[after].at_in < 0) ++after;
  if (after > 0 && after < hits.size()) {
    const Crossing &a = hits[after - 1], &b = hits[after];
    const double gap = b.at_in - a.at_in, to_b = gap > 1e-9 ? -a.at_in / gap : 0.5;
    put(a, 1 - to_b);
    put(b, to_b);
    return out;
  }
  const bool forward = after == hits.size();
  const std::size_t last = forward ? hits.size() - 1 : 0;
  const double reach = plan.edge_share(deck, p, direction(deck.degrees), hits[last].at_in, forward, bays_of(hits, last).wider_in());
  if (std::fabs(hits[last].at_in) <= reach + kPast_in / 2) put(hits[last], 1);
  return out;
}

struct Spots {
  std::vector<Point> places;
  double lb_each = 0;
};
Spots spots_of(const PlanLoad& load) {
  Spots out;
  if (load.area.size() >= 3) {
    const Box box = bounds(load.area);
    const int nx = std::clamp(static_cast<int>(std::ceil(box.width_in() / 4)), 2, 40), ny = std::clamp(static_cast<int>(std::ceil(box.height_in() / 4)), 2, 40);
    for (int i = 0; i < nx; ++i)
      for (int j = 0; j < ny; ++j) {
        const Point p{box.x0_in + box.width_in() * (i + 0.5) / nx, box.y0_in + box.height_in() * (j + 0.5) / ny};
        if (contains(load.area, p)) out.places.push_back(p);
      }
    if (out.places.empty()) out.places.push_back(centroid(load.area));
  } else {
    const double length = distance_in(load.from, load.to);
    const int parts = std::max(1, static_cast<int>(std::ceil(length / kWallStep_in)));
    for (int k = 0; k < parts; ++k) {
      const double t = (k + 0.5) / parts;
      out.places.push_back({load.from.x_in + t * (load.to.x_in - load.from.x_in), load.from.y_in + t * (load.to.y_in - load.from.y_in)});
    }
  }
  const double relief_lb = load.area.size() >= 3 ? load.replaces_live_psf * area_in2(load.area) / 144 : 0;
  out.lb_each = std::max(0.0, load.lb - relief_lb) / static_cast<double>(out.places.size());
  return out;
}

std::vector<const PlanLoad*> loads_in(const Model& model, Case which) {
  std::vector<const PlanLoad*> out;
  for (const auto& load : model.loads) out.push_back(&load);
  if (which != Case::known)
    for (const auto& load : which == Case::low ? model.low_loads : model.high_loads) out.push_back(&load);
  return out;
}

double own_weight_pli(const Member& member) {
  double plf = mechanics::weight_plf(member.values, member.section);
  if (member.sister) plf += mechanics::weight_plf(member.sister_values.value_or(member.values), *member.sister);
  return plf / 12;
}

}  // namespace

void gather(mechanics::Loads& loads, double length_in) {
  const int strips = std::max(1, static_cast<int>(std::ceil(length_in / (kStep_in / 2))));
  std::vector<double> sum(static_cast<std::size_t>(strips), 0.0), moment(static_cast<std::size_t>(strips), 0.0);
  for (const auto& point : loads.points) {
    const auto k = static_cast<std::size_t>(std::clamp(static_cast<int>(point.at_in / length_in * strips), 0, strips - 1));
    sum[k] += point.p_lb;
    moment[k] += point.p_lb * point.at_in;
  }
  loads.points.clear();
  for (std::size_t k = 0; k < sum.size(); ++k)
    if (sum[k] > 0) loads.points.push_back({sum[k], moment[k] / sum[k]});
  std::vector<mechanics::LineLoad> lines;
  for (const auto& line : loads.lines) {
    const bool joins = !lines.empty() && std::fabs(lines.back().to_in - line.from_in) < 1e-9 && std::fabs(lines.back().w_to_pli - line.w_from_pli) < 1e-9 &&
                       std::fabs(line.w_from_pli - line.w_to_pli) < 1e-12 && std::fabs(lines.back().w_from_pli - lines.back().w_to_pli) < 1e-12;
    if (joins)
      lines.back().to_in = line.to_in;
    else
      lines.push_back(line);
  }
  loads.lines = lines;
}

std::vector<MemberLoads> own_loads(const Model& model, Case which) {
  std::vector<MemberLoads> out(model.members.size());
  const Plan plan(model);
  for (const auto& deck : plan.decks()) add_even_loads(model, plan, deck, out);
  for (const auto* load : loads_in(model, which)) {
    const auto spots = spots_of(*load);
    for (const Point& p : spots.places)
      for (const auto& part : parts_of(model, plan, *load, p))
        of_kind(out[part.member], load->kind).points.push_back({spots.lb_each * part.share, part.along_in});
  }
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const double length = std::max(1.0, model.members[i].length_in());
    out[i].dead.lines.push_back(mechanics::uniform(own_weight_pli(model.members[i]), 0, model.members[i].length_in()));
    for (auto* set : {&out[i].dead, &out[i].live, &out[i].snow}) {
      gather(*set, length);
      out[i].full.lines.insert(out[i].full.lines.end(), set->lines.begin(), set->lines.end());
      out[i].full.points.insert(out[i].full.points.end(), set->points.begin(), set->points.end());
    }
  }
  return out;
}

double applied_lb(const Model& model, Case which) {
  double sum = 0;
  const Plan plan(model);
  for (const auto& deck : plan.decks()) {
    const Point u = direction(deck.degrees), v{-u.y_in, u.x_in};
    std::vector<double> cuts;
    const auto across = [&](Point p) { cuts.push_back(p.x_in * v.x_in + p.y_in * v.y_in); };
    for (const std::size_t i : deck.supports) across(model.members[i].from), across(model.members[i].to);
    if (cuts.empty()) continue;
    for (const Point& p : model.room) across(p);
    if (model.bay)
      for (const Point& p : model.bay->outline) across(p);
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t c = 0; c + 1 < cuts.size(); ++c) {
      const double wide = cuts[c + 1] - cuts[c];
      if (wide < 1e-6) continue;
      const int parts = std::max(1, static_cast<int>(std::ceil(wide / kLine_in)));
      for (int k = 0; k < parts; ++k) {
        const double offset = cuts[c] + wide * (k + 0.5) / parts;
        const Point p{offset * v.x_in, offset * v.y_in};
        const auto hits = crossings(model, deck.supports, p, deck.degrees, kSame_in);
        if (hits.empty()) continue;
        const double before = plan.edge_share(deck, p, u, hits.front().at_in, false, bays_of(hits, 0).wider_in());
        const double after = plan.edge_share(deck, p, u, hits.back().at_in, true, bays_of(hits, hits.size() - 1).wider_in());
        const double covered = plan.covered_in(deck, p, u, hits.front().at_in - before, hits.back().at_in + after, 0);
        sum += covered * wide / parts * (deck.dead_psf + model.live_psf) / 144;
      }
    }
  }
  for (const auto* load : loads_in(model, which)) {
    const auto spots = spots_of(*load);
    for (const Point& p : spots.places)
      if (!parts_of(model, plan, *load, p).empty()) sum += spots.lb_each;
  }
  for (const auto& member : model.members) sum += own_weight_pli(member) * member.length_in();
  return sum;
}

}  // namespace awlmark::floor
