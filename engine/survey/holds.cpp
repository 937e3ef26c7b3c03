#include "survey/holds.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::survey {
namespace {

constexpr double kUnder_in = 9;      // a member whose middle lies this near carries the wood that was probed (half of 16 in. and a little)
constexpr double kReach_in = 13;     // the nearest one does, when members stand wider apart
constexpr double kPlate_in = 8;      // a plate this near stands on it
constexpr double kReadNear_in = 12;  // a reading this near along the line answers for it

struct Near {
  const LineStations* line = nullptr;
  double distance_in = 0;
};

double along(const LineStations& line, Point p) { return along_segment_in(p, line.points.front(), line.points.back()); }

Point point_at(const LineStations& line, double along_in) {
  const Point a = line.points.front(), b = line.points.back();
  const double t = along_in / std::max(1e-9, awlmark::distance_in(a, b));
  return {a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)};
}

// Members under the spot: all within reach of a usual spacing, else the nearest.
std::vector<const LineStations*> under(const std::vector<LineStations>& lines, Point p, double all_within, double nearest_within) {
  std::vector<Near> near;
  for (const LineStations& line : lines) {
    const double d = distance_to_segment_in(p, line.points.front(), line.points.back());
    if (d <= nearest_within) near.push_back({&line, d});
  }
  std::stable_sort(near.begin(), near.end(), [](const Near& a, const Near& b) { return a.distance_in < b.distance_in - 1e-9; });
  std::vector<const LineStations*> out;
  for (const Near& n : near)
    if (n.distance_in <= all_within || out.empty()) out.push_back(n.line);
  return out;
}

}  // namespace

std::vector<Unread> unread_below(const Site& site) {
  std::vector<Unread> all;
  const auto add = [&](const LineStations* line, Point p, const Mark& mark) {
    const double s = along(*line, p);
    if (site.was_read(line->node, point_at(*line, s), kReadNear_in)) return;
    if (std::any_of(all.begin(), all.end(), [&](const Unread& u) { return u.line == line; })) return;
    all.push_back({line, s, mark.id});
  };
  for (const Mark& mark : site.job().marks) {
    const auto p = place_of(site.job(), mark);
    if (!p || !mark.layer || (mark.reads != Reading::soft && mark.reads != Reading::gone)) continue;
    for (const LineStations* line : under(site.plan().supports, *p, kUnder_in, kReach_in)) add(line, *p, mark);
    for (const LineStations* line : under(site.plan().walls, *p, kPlate_in, kPlate_in)) add(line, *p, mark);
  }
  return all;
}

std::string hold_in_words(const Site& site, const Unread& unread) {
  const std::string what = unread.line->wall ? "The plate of wall " + unread.line->id : "Member " + unread.line->id;
  return what + " is unread under mark " + unread.mark + ", which found the wood over it unsound: read it " +
         site.say(point_at(*unread.line, unread.along_in)) + " before work starts.";
}

}  // namespace awlmark::survey
