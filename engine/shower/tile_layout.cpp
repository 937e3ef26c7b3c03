// Tile laid out on the room and on the pan: where the first tile lies, what is cut, how many, and where
// the field parts.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

constexpr double kPerimeter_in = 0.25;  // movement joint at the walls
constexpr double kEven_in = 0.02;       // a cut this near to nothing or to a tile is none
constexpr int kMostTiles = 60000;

// An edge of the floor that runs with the tile, seen along one axis.
struct Edge {
  double at_in = 0;     // where tile ends: the wall less its joint
  bool before = false;  // the floor lies before it, else after
  double wall_in = 0;
};

struct Axis {
  double low_in = 0, high_in = 0;
  double tile_in = 0, joint_in = 0;
  std::vector<Edge> edges;
  double module_in() const { return tile_in + joint_in; }
};

// How wide the tile at the edge is left when one whole tile begins at `start`.
double cut_at(const Axis& axis, const Edge& edge, double start) {
  const double module = axis.module_in();
  double into = std::fmod(edge.at_in - start, module);
  if (into < 0) into += module;
  if (into < kEven_in || into > module - kEven_in) return axis.tile_in;
  if (into > axis.tile_in - kEven_in) return axis.tile_in;  // the edge lies in a joint
  return edge.before ? into : axis.tile_in - into;
}

double least_cut(const Axis& axis, double start, const Edge** where = nullptr) {
  double least = axis.tile_in;
  for (const auto& edge : axis.edges) {
    const double cut = cut_at(axis, edge, start);
    if (cut >= least - 1e-9) continue;
    least = cut;
    if (where) *where = &edge;
  }
  return least;
}

// Edges along x (vertical ones) or y of every ring; rings run counter-clockwise, holes the other way.
std::vector<Edge> edges_of(const Region& floor, bool along_x) {
  std::vector<Edge> out;
  const auto add = [&](const Polygon& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i], b = ring[(i + 1) % ring.size()];
      const double run = along_x ? b.y_in - a.y_in : b.x_in - a.x_in, off = along_x ? b.x_in - a.x_in : b.y_in - a.y_in;
      if (std::fabs(off) > 1e-6 || std::fabs(run) < 1) continue;
      const double wall = along_x ? a.x_in : a.y_in;
      // Counter-clockwise: the floor lies to the left of the edge.
      const bool before = along_x ? run > 0 : run < 0;
      out.push_back({before ? wall - kPerimeter_in : wall + kPerimeter_in, before, wall});
    }
  };
  for (const auto& part : floor) {
    Polygon outline = part.outline;
    if (signed_area_in2(outline) < 0) std::reverse(outline.begin(), outline.end());
    add(outline);
    for (auto hole : part.holes) {
      if (signed_area_in2(hole) > 0) std::reverse(hole.begin(), hole.end());
      add(hole);
    }
  }
  return out;
}

double sliver_of(const Axis& axis) { return rule("sliver") * axis.tile_in; }

// A joint or a tile in the middle, whichever leaves the wider cut; moved off the middle only where both
// would leave a sliver at some edge and another start does not.
double centred(const Axis& axis, bool& moved) {
  const double middle = (axis.low_in + axis.high_in) / 2;
  const double on_joint = middle + axis.joint_in / 2, on_tile = middle - axis.tile_in / 2;
  double start = least_cut(axis, on_tile) > least_cut(axis, on_joint) + 0.01 ? on_tile : on_joint;
  double least = least_cut(axis, start);
  if (least >= sliver_of(axis) - 1e-9) return start;
  constexpr int kTries = 48;
  const double from = start;
  for (int k = 1; k < kTries; ++k) {
    const double tried = from + axis.module_in() * k / kTries, here = least_cut(axis, tried);
    if (here <= least + 0.01) continue;
    least = here;
    start = tried;
    moved = true;
  }
  return start;
}

// The nearest shift of the line that leaves no sliver; nothing when none does.
std::optional<double> cure_in(const Axis& axis, double start) {
  for (int k = 1; k <= 24; ++k)
    for (const double sign : {1.0, -1.0}) {
      const double shift = sign * axis.module_in() * k / 48;
      if (least_cut(axis, start + shift) >= sliver_of(axis)) return shift;
    }
  return std::nullopt;
}

void say_sliver(const Axis& axis, double start, bool along_x, bool from_line, TileLayout& out) {
  const Edge* where = nullptr;
  const double least = least_cut(axis, start, &where);
  if (!where || least >= sliver_of(axis) - 1e-9) return;
  out.sliver += (out.sliver.empty() ? "" : "; ") + ("a cut of " + format_inches(least)) + " along the edge at " + (along_x ? "x " : "y ") +
                format_number(where->wall_in, 2);
  const auto shift = cure_in(axis, start);
  if (shift && from_line)
    out.sliver += ": move the line by " + format_inches(std::fabs(*shift)) +
                  (along_x ? (*shift > 0 ? " to the right" : " to the left") : (*shift > 0 ? " up" : " down")) + " on the plan";
  else
    out.sliver += ": no start of a tile this size avoids it; another size or a border does";
}

bool inside(const Region& floor, Point p) {
  for (const auto& part : floor) {
    if (!contains(part.outline, p)) continue;
    if (std::none_of(part.holes.begin(), part.holes.end(), [&](const Polygon& hole) { return contains(hole, p); })) return true;
  }
  return false;
}

// Whether an edge of the floor comes this near to the point: only such tiles can be cut.
bool near_edge(const Region& floor, Point p, double reach_in) {
  const auto near = [&](const Polygon& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i)
      if (distance_to_segment_in(p, ring[i], ring[(i + 1) % ring.size()]) < reach_in) return true;
    return false;
  };
  for (const auto& part : floor)
    if (near(part.outline) || std::any_of(part.holes.begin(), part.holes.end(), near)) return true;
  return false;
}

void count(const Region& floor, const Box& box, double mx, double my, TileLayout& out) {
  const auto first = [](double start, double low, double module) { return start - std::ceil((start - low) / module) * module; };
  const double x0 = first(out.start_in.x_in, box.x0_in, mx), y0 = first(out.start_in.y_in, box.y0_in, my);
  if ((box.width_in() / mx + 2) * (box.height_in() / my + 2) > kMostTiles) return;
  const double whole_in2 = out.tile_length_in * out.tile_width_in;
  for (double x = x0; x < box.x1_in; x += mx)
    for (double y = y0; y < box.y1_in; y += my) {
      const Point middle{x + out.tile_length_in / 2, y + out.tile_width_in / 2};
      if (!near_edge(floor, middle, std::hypot(out.tile_length_in, out.tile_width_in) / 2 + 1e-6)) {
        out.whole += inside(floor, middle) ? 1 : 0;
        continue;
      }
      const double area = area_in2(intersect(floor, as_region(rectangle(x, y, x + out.tile_length_in, y + out.tile_width_in))));
      if (area < 0.01 * whole_in2) continue;
      (area > 0.995 * whole_in2 ? out.whole : out.cut) += 1;
    }
  out.tiles = out.whole + out.cut;
  out.bought_sf = out.tiles * mx * my / 144;
}

// The field parts at tile joints, no part longer than the rule allows.
void movement(const Axis& axis, const Box& box, double start, bool along_x, TileLayout& out) {
  const double most = 12 * rule("movement_wet"), length = axis.high_in - axis.low_in;
  const int parts = static_cast<int>(std::ceil(length / most - 1e-9));
  for (int k = 1; k < parts; ++k) {
    const double wanted = axis.low_in + length * k / parts;
    const double at = start - axis.joint_in / 2 + std::floor((wanted - start) / axis.module_in()) * axis.module_in();
    out.joints_in.push_back(along_x ? Polygon{{at, box.y0_in}, {at, box.y1_in}} : Polygon{{box.x0_in, at}, {box.x1_in, at}});
    out.movement_joints.push_back(std::string("a soft joint across the field at ") + (along_x ? "x " : "y ") + format_number(at, 2) +
                                  ", so that no field is longer than " + format_number(rule("movement_wet"), 0) + " ft");
  }
}

TileLayout lay(const std::string& where, const Region& floor, const TilePlan& tile) {
  TileLayout out;
  out.where = where;
  out.tile_length_in = tile.length_in;
  out.tile_width_in = tile.width_in;
  out.joint_in = tile.joint_in.value_or(0.125);
  Polygon corners;
  for (const auto& part : floor) corners.insert(corners.end(), part.outline.begin(), part.outline.end());
  if (corners.empty()) return out;
  const Box box = bounds(corners);
  const Axis x{box.x0_in, box.x1_in, tile.length_in, out.joint_in, edges_of(floor, true)},
      y{box.y0_in, box.y1_in, tile.width_in, out.joint_in, edges_of(floor, false)};
  const bool from_line = tile.full_tile_at_in.has_value();
  bool moved = false;
  out.start_in = from_line ? *tile.full_tile_at_in : Point{centred(x, moved), centred(y, moved)};
  if (from_line)
    out.rule = "from the lines through " + format_number(out.start_in.x_in, 2) + ", " + format_number(out.start_in.y_in, 2);
  else
    out.rule =
        moved ? "off the middle of the " + where + ", so that no cut is a sliver" : "centred on the " + where + "; the cuts along opposite walls are alike";
  out.least_cut_in = std::min(least_cut(x, out.start_in.x_in), least_cut(y, out.start_in.y_in));
  say_sliver(x, out.start_in.x_in, true, from_line, out);
  say_sliver(y, out.start_in.y_in, false, from_line, out);
  count(floor, box, x.module_in(), y.module_in(), out);
  out.movement_joints.push_back("1/4 in. along every wall and at every change of plane or backing, filled with sealant");
  movement(x, box, out.start_in.x_in, true, out);
  movement(y, box, out.start_in.y_in, false, out);
  return out;
}

// The job's tile, or what is taken and said.
TilePlan tile_of(const std::optional<TilePlan>& told, double usual_in_, const std::string& where, const std::string& key, Shower& found) {
  if (told) return *told;
  TilePlan tile;
  tile.length_in = tile.width_in = usual_in_;
  found.assumed.push_back("tile is taken as " + format_inches(usual_in_) + " square " + where);
  found.asks.push_back("Which tile is laid " + where + ", and from which line? (" + key + ": length_in, width_in, joint_in, full_tile_at_in)");
  return tile;
}

}  // namespace

std::vector<TileLayout> tile_layouts(const Place& place, Shower& found) {
  std::vector<TileLayout> out;
  const auto& job = place.job;
  const bool tiled = job.rebuild && (job.rebuild->finish == Finish::porcelain_tile || job.rebuild->finish == Finish::ceramic_tile ||
                                     job.rebuild->finish == Finish::stone_tile);
  if (tiled) {
    Region floor = subtract(as_region(job.room.outline_in), as_region(place.ring));
    for (const auto& fixture : job.fixtures)
      if (fixture.stands && fixture.kind == FixtureKind::tub) floor = subtract(floor, as_region(fixture.outline_in));
    out.push_back(lay("room", floor, tile_of(job.rebuild->tile, 12, "in the room", "rebuild.tile", found)));
  }
  out.push_back(lay("pan", as_region(place.ring), tile_of(place.plan.tile, 2, "in the shower", "shower.tile", found)));
  for (const auto& layout : out)
    if (!layout.sliver.empty()) found.conflicts.push_back("Tile in the " + layout.where + ": " + layout.sliver + ".");
  return out;
}

}  // namespace awlmark::shower
