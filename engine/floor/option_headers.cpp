// Ends that hang free, and rotten stretches of joists, carried by headers between the neighbours.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/member_parts.hpp"
#include "floor/option_plan.hpp"
#include "floor/paths.hpp"

namespace awlmark::floor {
namespace {

constexpr double kReach_in = 72;    // a header longer than this is a girder
constexpr double kSameLine_in = 4;  // ends this near to a header's line hang on it
constexpr double kBeyondRot_in = 12;

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

// A header at p across member `of`, from face to face of the two neighbours; its index, or nothing.
std::optional<std::size_t> set_header(OptionPlan& plan, const Site& site, std::size_t of, Point p, double depth_in) {
  auto& model = plan.model;
  const Point u = unit(model.members[of].from, model.members[of].to);
  const auto left = neighbour(model, of, p, {-u.y_in, u.x_in}), right = neighbour(model, of, p, {u.y_in, -u.x_in});
  if (!left || !right) return std::nullopt;
  return header_between(plan, site, left->member, left->at, right->member, right->at, depth_in);
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

namespace {

// One joist cut in two at a header.
struct Headed {
  std::size_t stays = 0, fresh = 0, header = 0;
  bool keep_start = true;
  std::string id;
  double cut_in = 0;
};

// A header set for a neighbour that crosses this joist in sound wood too, not far from where it is to be cut.
std::optional<std::pair<std::size_t, double>> shared_header(const Model& model, const std::vector<Headed>& done, const Member& old, double cut_in,
                                                            bool keep_start) {
  constexpr double kFar_in = 24;
  for (const auto& one : done) {
    const auto& line = model.members[one.header];
    const Point middle{(line.from.x_in + line.to.x_in) / 2, (line.from.y_in + line.to.y_in) / 2};
    const double along = along_segment_in(middle, old.from, old.to);
    const bool sound = keep_start ? along <= cut_in + 1e-6 : along >= cut_in - 1e-6;
    if (sound && std::fabs(along - cut_in) <= kFar_in && distance_to_segment_in(old.at(along), line.from, line.to) < 0.5) return std::pair{one.header, along};
  }
  return std::nullopt;
}

std::optional<Headed> head_joist(OptionPlan& plan, const Site& site, std::size_t i, const std::vector<Headed>& done) {
  const Member old = plan.model.members[i];
  if (old.role != SupportRole::joist || !has_rot(old) || old.sister || old.rests.size() < 2) return std::nullopt;
  double from = 1e300, to = -1e300;
  for (const auto& zone : old.decay)
    if (zone.rot) from = std::min(from, zone.from_in), to = std::max(to, zone.to_in);
  // The sound side that is longer stays; the other end is made new.
  Headed out;
  out.keep_start = from > old.length_in() - to;
  out.id = old.id;
  out.cut_in = out.keep_start ? from - kBeyondRot_in : to + kBeyondRot_in;
  const auto shared = shared_header(plan.model, done, old, out.cut_in, out.keep_start);
  if (shared) out.cut_in = shared->second;
  const double cut = out.cut_in;
  if (cut < 24 || cut > old.length_in() - 12) return std::nullopt;
  const auto below = std::count_if(old.rests.begin(), old.rests.end(), [&](const plan::Rest& rest) { return rest.along_in < cut; });
  if (below == 0 || below == static_cast<std::ptrdiff_t>(old.rests.size())) return std::nullopt;
  const auto header = shared ? std::optional<std::size_t>(shared->first) : set_header(plan, site, i, old.at(cut), sold_depth_in(old.section.d_in));
  if (!header) return std::nullopt;
  Member fresh = piece_of(old, out.keep_start ? cut : 0, out.keep_start ? old.length_in() : cut);
  fresh.id = old.id + ".new";
  fresh.decay.clear();
  fresh.cuts.clear();
  fresh.new_wood = true;
  fresh.section = mechanics::rectangle(1.5, sold_depth_in(old.section.d_in));
  fresh.grade = Grade::no_2;
  fresh.values = lumber_values(site, SupportRole::joist, fresh.species, fresh.section);
  Member stays = piece_of(old, out.keep_start ? 0 : cut, out.keep_start ? cut : old.length_in());
  stays.decay.clear();
  stays.changed = true;
  out.stays = i;
  out.header = *header;
  out.fresh = plan.model.members.size();
  plan.model.members[i] = stays;
  plan.model.members.push_back(fresh);
  hang_on(plan, site, i, *header, out.keep_start ? stays.length_in() : 0);
  hang_on(plan, site, out.fresh, *header, out.keep_start ? 0 : fresh.length_in());
  return out;
}

}  // namespace

bool head_off(OptionPlan& plan, const Site& site) {
  const std::size_t before = plan.model.members.size();
  hang_free_ends(plan, site);
  std::vector<Headed> done;
  std::vector<std::size_t> settled;
  for (std::size_t i = 0; i < site.found.members.size(); ++i)
    if (auto one = head_joist(plan, site, i, done)) done.push_back(*one);
  for (const auto& one : done) {
    const std::size_t step = plan.option.steps.size();
    if (std::find(settled.begin(), settled.end(), one.header) == settled.end()) {
      settle_header(plan, site, one.header);
      settled.push_back(one.header);
    }
    // Both end at the header's faces.
    const double half = plan.model.members[one.header].section.b_in / 2;
    shorten(plan.model.members[one.stays], one.keep_start, half);
    shorten(plan.model.members[one.fresh], !one.keep_start, half);
    const auto& made = plan.model.members[one.fresh];
    plan.option.framing.push_back(line_of(made, "new_member", made.section, "from " + plan.model.members[one.header].id + " to the old rest of " + one.id));
    price_member(plan, site, made);
    plan.option.steps.insert(plan.option.steps.begin() + static_cast<std::ptrdiff_t>(step),
                             "Cut " + one.id + " off at " + format_length(one.cut_in + (one.keep_start ? -half : half)) +
                                 " in sound wood; what stays and a new " + yard_name(made.section) + " " + format_length(made.length_in()) + " long hang on " +
                                 plan.model.members[one.header].id + " there.");
  }
  return plan.model.members.size() > before;
}

}  // namespace awlmark::floor
