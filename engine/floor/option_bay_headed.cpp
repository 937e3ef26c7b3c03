// A dropped bay where joists run through the shower: cut at its edges, headed off, lower joists between.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/member_parts.hpp"
#include "floor/option_bay.hpp"

namespace awlmark::floor {
namespace {

constexpr double kHeader_in = 3;      // two plies stand between a tail and the bay
constexpr double kLeastTail_in = 12;  // a shorter one is left away: the bay runs to the joists' own rest
constexpr double kReach_in = 96;      // a longer header is a girder
constexpr double kEdge_in = 0.5;      // an edge on a member's line counts as clear of it

double dot(Point a, Point b) { return a.x_in * b.x_in + a.y_in * b.y_in; }

// The shower in the joists' own frame: w along them, v across.
struct Through {
  std::vector<std::size_t> joists;
  std::size_t low = 0, high = 0;  // the members on either side, which carry the headers
  Point w, v;
  double from_in = 0, to_in = 0;  // of the shower along w
  double left_in = 0, right_in = 0;
};

Point at(const Through& t, double along_in, double across_in) {
  return {t.w.x_in * along_in + t.v.x_in * across_in, t.w.y_in * along_in + t.v.y_in * across_in};
}
// Where the line `along_in` crosses a member, along that member.
double on_member(const Through& t, const Member& member, double along_in) {
  const double s = dot(member.from, t.w), e = dot(member.to, t.w);
  return member.length_in() * (along_in - s) / (e - s);
}

std::string names(const Model& model, const std::vector<std::size_t>& list) {
  std::string out;
  for (const std::size_t i : list) out += (out.empty() ? "" : ", ") + model.members[i].id;
  return out;
}

std::string collect(const Model& model, const Site& site, Through& t) {
  const auto& ring = site.job.shower->outline_in;
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const auto& member = model.members[i];
    if (member.lies_on || member.length_in() < 1) continue;
    const double length = member.length_in();
    int inside = 0;
    const Point n{-(member.to.y_in - member.from.y_in) / length, (member.to.x_in - member.from.x_in) / length};
    for (int k = 0; k <= 200; ++k) {
      // A member on the shower's edge does not run through it.
      const Point p = member.at(length * k / 200);
      inside += contains(ring, {p.x_in + n.x_in, p.y_in + n.y_in}) && contains(ring, {p.x_in - n.x_in, p.y_in - n.y_in}) ? 1 : 0;
    }
    if (inside * length / 200 < 2) continue;
    if (member.role != SupportRole::joist) return "girder " + member.id + " runs under it, and a girder's top is not cut";
    t.joists.push_back(i);
  }
  if (t.joists.empty()) return "no members were found to hang it on";
  const auto& first = model.members[t.joists.front()];
  t.w = {(first.to.x_in - first.from.x_in) / first.length_in(), (first.to.y_in - first.from.y_in) / first.length_in()};
  t.v = {-t.w.y_in, t.w.x_in};
  t.from_in = t.left_in = 1e300;
  t.to_in = t.right_in = -1e300;
  for (const Point& p : ring) {
    t.from_in = std::min(t.from_in, dot(p, t.w)), t.to_in = std::max(t.to_in, dot(p, t.w));
    t.left_in = std::min(t.left_in, dot(p, t.v)), t.right_in = std::max(t.right_in, dot(p, t.v));
  }
  for (const auto& wall : bearing_walls(site.job, plan::framing_of(site.job))) {
    if (!(wall.high.sum() > 0)) continue;
    for (const auto& off : off_rests(model, *wall.wall))
      if (std::find(t.joists.begin(), t.joists.end(), off.member) != t.joists.end())
        return "wall " + wall.wall->id + ", which may bear, stands on " + model.members[off.member].id + " under it";
  }
  return "";
}

std::string fit(const Model& model, const Through& t) {
  for (const std::size_t i : t.joists) {
    const auto& member = model.members[i];
    if (std::fabs((member.to.x_in - member.from.x_in) * t.v.x_in + (member.to.y_in - member.from.y_in) * t.v.y_in) > 1)
      return "the joists under it do not run one way";
    for (const auto& rest : member.rests) {
      const double where = dot(member.at(rest.along_in), t.w);
      if (where > t.from_in + kEdge_in && where < t.to_in - kEdge_in) return member.id + " rests on something under it, which no lower joist passes";
    }
    for (const auto& other : model.members)
      for (const auto& rest : other.rests)
        if (rest.carrier.known() && rest.carrier.of() == i) return other.id + " hangs on " + member.id + ", which would be cut";
  }
  return "";
}

// The nearest members on either side that run past both edges of the shower.
bool find_sides(const Model& model, Through& t) {
  double low = -1e300, high = 1e300;
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const auto& member = model.members[i];
    if (member.length_in() < 1 || (member.rests.size() < 2 && !member.lies_on) || std::find(t.joists.begin(), t.joists.end(), i) != t.joists.end()) continue;
    if (std::fabs(dot({member.to.x_in - member.from.x_in, member.to.y_in - member.from.y_in}, t.v)) > 1) continue;
    const double a = std::min(dot(member.from, t.w), dot(member.to, t.w)), b = std::max(dot(member.from, t.w), dot(member.to, t.w));
    if (a > t.from_in + kEdge_in || b < t.to_in - kEdge_in || (has_rot(member) && !member.sister)) continue;
    const double off = dot(member.from, t.v);
    if (off <= t.left_in + kEdge_in + member.section.b_in / 2 && off > low) low = off, t.low = i;
    if (off >= t.right_in - kEdge_in - member.section.b_in / 2 && off < high) high = off, t.high = i;
  }
  return low > -1e299 && high < 1e299 && high - low <= kReach_in;
}

// One end of the bay: a header with the joists' tails hung on it, or the joists' own rest.
struct End {
  std::optional<std::size_t> header;
  double at_in = 0;  // along w: where the bay's joists end
  plan::Rest own;    // without a header
};

// At the shower's edge `edge_in`; `start` where the joists' own start (along w) lies on that side.
std::optional<End> make_end(OptionPlan& plan, const Site& site, const Through& t, double edge_in, bool start, double depth_in, std::vector<Member>& tails) {
  auto& model = plan.model;
  const double out = start ? -1 : 1;
  bool room = true;
  for (const std::size_t i : t.joists) {
    const auto& member = model.members[i];
    const double s = dot(member.from, t.w), e = dot(member.to, t.w), end = start ? std::min(s, e) : std::max(s, e);
    room = room && (edge_in - end) * -out >= kLeastTail_in + kHeader_in;
  }
  End made;
  if (!room) {
    const auto& member = model.members[t.joists.front()];
    const bool rises = dot(member.to, t.w) > dot(member.from, t.w);
    const auto& rest = start == rises ? member.rests.front() : member.rests.back();
    if ((dot(member.at(rest.along_in), t.w) - edge_in) * out < -kEdge_in) return std::nullopt;
    made.own = rest;
    made.at_in = dot(member.at(start == rises ? 0 : member.length_in()), t.w);
    return made;
  }
  made.at_in = edge_in;
  const double centre = edge_in + out * kHeader_in / 2;
  const auto point = [&](std::size_t i) { return at(t, centre, dot(model.members[i].from, t.v)); };
  made.header = header_between(plan, site, t.low, point(t.low), t.high, point(t.high), depth_in);
  for (const std::size_t i : t.joists) {
    const auto& member = model.members[i];
    const double cut = on_member(t, member, edge_in + out * kHeader_in);
    const bool low_piece = start == (dot(member.to, t.w) > dot(member.from, t.w));
    Member tail = piece_of(member, low_piece ? 0 : cut, low_piece ? cut : member.length_in());
    tail.changed = true;
    auto rest = hung_at(model, *made.header, low_piece ? tail.length_in() : 0, tail.at(low_piece ? tail.length_in() : 0));
    rest.on = RestOn::header;
    add_rest(tail, rest);
    tails.push_back(tail);
  }
  return made;
}

// The bay's joists between two ends; `slots` are the places of joists that are cut away whole.
Model with_bay(const OptionPlan& plan, const Site& site, const Through& t, const End& low, const End& high, const std::vector<std::size_t>& slots,
               const char* size, double spacing_in, double panel_in) {
  Model trial = plan.model;
  Bay bay;
  bay.outline = low.header && high.header
                    ? site.job.shower->outline_in
                    : Polygon{at(t, low.header ? t.from_in : low.at_in, t.left_in), at(t, high.header ? t.to_in : high.at_in, t.left_in),
                              at(t, high.header ? t.to_in : high.at_in, t.right_in), at(t, low.header ? t.from_in : low.at_in, t.right_in)};
  if (signed_area_in2(bay.outline) < 0) std::reverse(bay.outline.begin(), bay.outline.end());
  bay.degrees = trial.deck.degrees;
  bay.dead_psf = bay_dead_psf(plan, site, panel_in);
  const auto section = mechanics::section_from(*section_of(size));
  const double wide = t.right_in - t.left_in - 1.5;
  const int bays = std::max(1, static_cast<int>(std::ceil(wide / spacing_in - 1e-6)));
  for (int k = 0; k <= bays; ++k) {
    const double across = t.left_in + 0.75 + wide * k / bays;
    Member joist;
    joist.id = "bay" + std::to_string(k + 1);
    joist.section = section;
    joist.grade = Grade::no_2;
    joist.values = lumber_values(site, SupportRole::joist, Species::unknown, section);
    joist.new_wood = joist.in_bay = true;
    joist.repetitive = bays >= 2;
    joist.from = at(t, low.at_in, across);
    joist.to = at(t, high.at_in, across);
    for (const End* end : {&low, &high}) {
      const double where = end == &low ? 0 : joist.length_in();
      plan::Rest rest = end->own;
      if (end->header) {
        rest = hung_at(trial, *end->header, where, joist.at(where));
      } else if (rest.carrier.known()) {
        const auto& carrier = trial.members[rest.carrier.of()];
        rest.along_carrier_in = along_segment_in(joist.at(where), carrier.from, carrier.to);
      }
      rest.along_in = where;
      joist.rests.push_back(rest);
    }
    const auto slot = static_cast<std::size_t>(k);
    bay.supports.push_back(slot < slots.size() ? slots[slot] : trial.members.size());
    if (slot < slots.size())
      trial.members[slots[slot]] = joist;
    else
      trial.members.push_back(joist);
  }
  trial.bay = bay;
  return trial;
}

void say_bay(OptionPlan& plan, const Site& site, const Through& t, const End& low, const End& high, double recess_in, double drop_in, const std::string& cut,
             const mechanics::PanelRow& panel) {
  const auto& first = plan.model.members[plan.model.bay->supports.front()];
  const std::string size = yard_name(first.section);
  for (const std::size_t i : plan.model.bay->supports) {
    const auto& joist = plan.model.members[i];
    auto line = line_of(joist, "bay_joist", joist.section, "in hangers, top " + format_inches(drop_in) + " below the old joists' tops");
    line.top_drop_in = drop_in;
    plan.option.framing.push_back(line);
    buy_lumber(plan, site, goods::Kind::added_joist, size + " bay joist, No. 2", joist.section, joist.length_in(), {});
    add_hours(plan, "add_joist", 1);
  }
  const std::size_t count = plan.model.bay->supports.size(), hung = (low.header ? count : 0) + (high.header ? count : 0);
  add_good(plan, site, goods::connectors(static_cast<double>(hung)));
  std::vector<std::string> later = std::move(plan.option.steps);
  plan.option.steps = {"Shore " + cut + " on both sides of the shower, then cut " + (t.joists.size() == 1 ? "it" : "them") + " out of it; " +
                       plan.model.members[t.low].id + " and " + plan.model.members[t.high].id + " carry the headers."};
  for (const End* end : {&low, &high})
    if (end->header) settle_header(plan, site, *end->header);
  plan.option.steps.push_back(
      "Hang " + std::to_string(count) + " " + size + " joists " + format_inches(first.length_in()) + " long, " + format_inches(bay_spacing_in(plan.model)) +
      " apart, " + (low.header && high.header ? "between the headers" : "between the header and the old rest of " + cut) +
      " in hangers with every hole nailed, so that " + panel.category + " in. plywood lies " + format_inches(recess_in) +
      " below the deck outside; the old deck's planks, splines and overlay stop at the bay, their ends on the headers and on a 2x rim.");
  plan.option.steps.insert(plan.option.steps.end(), later.begin(), later.end());
}

}  // namespace

std::string head_off_bay(OptionPlan& plan, const Site& site, double recess_in, const mechanics::PanelRow*& panel) {
  Through t;
  auto why = collect(plan.model, site, t);
  if (why.empty()) why = fit(plan.model, t);
  if (!why.empty()) return why;
  if (!find_sides(plan.model, t)) return "no sound joists run past it on both sides, near enough to carry headers";
  const std::string cut = names(plan.model, t.joists);
  double depth = 0;
  for (const std::size_t i : t.joists) depth = std::max(depth, sold_depth_in(plan.model.members[i].section.d_in));
  std::vector<Member> low_tails, high_tails;
  const auto low = make_end(plan, site, t, t.from_in, true, depth, low_tails), high = make_end(plan, site, t, t.to_in, false, depth, high_tails);
  if (!low || !high) return "the joists under it do not reach a rest past its edges";
  std::vector<std::size_t> slots;
  for (std::size_t k = 0; k < t.joists.size(); ++k) {
    const bool both = !low_tails.empty() && !high_tails.empty();
    if (low_tails.empty() && high_tails.empty()) {
      slots.push_back(t.joists[k]);
      continue;
    }
    plan.model.members[t.joists[k]] = low_tails.empty() ? high_tails[k] : low_tails[k];
    if (!both) continue;
    high_tails[k].id += ".far";
    plan.model.members.push_back(high_tails[k]);
  }
  add_good(plan, site, goods::connectors(static_cast<double>(low_tails.size() + high_tails.size())), with_members());
  for (const double spacing : {16.0, 12.0})
    for (const char* rating : kBayPanels) {
      const auto& row = bay_panel(rating);
      const double drop = std::max(0.0, recess_in + row.category_in - plan.model.deck.thickness_in);
      Model trial = with_bay(plan, site, t, *low, *high, slots, "2x6", spacing, row.category_in);
      FloorChecks deck;
      check_bay_deck(trial, row, bay_spacing_in(trial), deck);
      if (!deck.ok && !(spacing < 13 && rating == kBayPanels[2])) continue;
      // The deepest that still hangs on the header's face; one in its old rest may be as deep as the old joist.
      const char* chosen = nullptr;
      for (const char* size : {"2x4", "2x6", "2x8", "2x10"}) {
        if (section_of(size)->d_in + drop > depth + 0.01) break;
        chosen = size;
        trial = with_bay(plan, site, t, *low, *high, slots, size, spacing, row.category_in);
        if (bay_passes(trial)) break;
      }
      if (!chosen || (!bay_passes(trial) && spacing > 13)) break;
      if (!bay_passes(trial)) return "joists low enough to hang on the headers are too weak for its span";
      plan.model = trial;
      plan.bay_checks = deck.checks;
      panel = &row;
      say_bay(plan, site, t, *low, *high, recess_in, drop, cut, row);
      return "";
    }
  return "joists low enough to hang on the headers are too weak for its span";
}

}  // namespace awlmark::floor
