// Tile laid out on the room and on the pan: where the first tile lies, what is cut, how many.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

constexpr double kPerimeter_in = 0.25;  // movement joint at the walls
constexpr double kRoomTile_in = 12;     // the job does not say which tile
constexpr double kPanTile_in = 2;
constexpr int kMostTiles = 60000;

// Offset of the grid along one side so that the two end cuts are alike and not slivers: a joint or a
// tile in the middle, whichever leaves the wider cut. `cut_in` is that cut; 0 when tiles come out even.
double centred(double length_in, double tile_in, double joint_in, double& cut_in) {
  const double usable = length_in - 2 * kPerimeter_in, module = tile_in + joint_in;
  const auto end_cut = [&](int whole) { return (usable - whole * tile_in - (whole - 1) * joint_in - 2 * joint_in) / 2; };
  const int most = static_cast<int>(std::floor((usable + joint_in) / module + 1e-9));
  if (most <= 0) {
    cut_in = usable;
    return kPerimeter_in;
  }
  if (std::fabs(usable - most * tile_in - (most - 1) * joint_in) < 0.02) {
    cut_in = 0;
    return kPerimeter_in;
  }
  // One tile fewer turns two slivers into two wide cuts.
  const int whole = end_cut(most) >= tile_in / 2 || most == 1 ? most : (end_cut(most - 1) <= tile_in ? most - 1 : most);
  cut_in = end_cut(whole);
  return kPerimeter_in + cut_in + joint_in;
}

TileLayout lay(const std::string& where, const Region& floor, const Box& box, double length_in, double width_in, double joint_in) {
  TileLayout out;
  out.where = where;
  out.tile_length_in = length_in;
  out.tile_width_in = width_in;
  out.joint_in = joint_in;
  double cut_x = 0, cut_y = 0;
  const double x0 = box.x0_in + centred(box.width_in(), length_in, joint_in, cut_x), y0 = box.y0_in + centred(box.height_in(), width_in, joint_in, cut_y);
  out.start_in = {x0, y0};
  out.rule = "centred on the " + where + "; the cuts along opposite walls are alike";
  out.least_cut_in = std::min(cut_x > 0 ? cut_x : length_in, cut_y > 0 ? cut_y : width_in);
  const double mx = length_in + joint_in, my = width_in + joint_in;
  const int left = static_cast<int>(std::ceil((x0 - box.x0_in) / mx)) + 1, below = static_cast<int>(std::ceil((y0 - box.y0_in) / my)) + 1;
  const int nx = static_cast<int>(std::ceil(box.width_in() / mx)) + left + 1, ny = static_cast<int>(std::ceil(box.height_in() / my)) + below + 1;
  if (static_cast<double>(nx) * ny > kMostTiles) return out;
  for (int i = -left; i < nx; ++i)
    for (int j = -below; j < ny; ++j) {
      const double x = x0 + i * mx, y = y0 + j * my;
      if (x > box.x1_in || y > box.y1_in || x + length_in < box.x0_in || y + width_in < box.y0_in) continue;
      const double area = area_in2(intersect(floor, as_region(rectangle(x, y, x + length_in, y + width_in))));
      if (area < 0.02 * length_in * width_in) continue;
      (area > 0.995 * length_in * width_in ? out.whole : out.cut) += 1;
    }
  out.tiles = out.whole + out.cut;
  return out;
}

void movement(TileLayout& layout, const Box& box) {
  layout.movement_joints.push_back("1/4 in. along every wall and at every change of plane or backing, filled with sealant");
  const double most_in = 12 * rule("movement_wet");
  for (const double length : {box.width_in(), box.height_in()})
    if (length > most_in) layout.movement_joints.push_back("one across the field every " + format_number(rule("movement_wet"), 0) + " ft or closer");
}

}  // namespace

std::vector<TileLayout> tile_layouts(const Place& place) {
  std::vector<TileLayout> out;
  const auto& job = place.job;
  const bool tiled = job.rebuild && (job.rebuild->finish == Finish::porcelain_tile || job.rebuild->finish == Finish::ceramic_tile ||
                                     job.rebuild->finish == Finish::stone_tile);
  if (tiled) {
    Region floor = subtract(as_region(job.room.outline_in), as_region(place.ring));
    for (const auto& fixture : job.fixtures)
      if (fixture.stands && fixture.kind == FixtureKind::tub) floor = subtract(floor, as_region(fixture.outline_in));
    const Box box = bounds(job.room.outline_in);
    out.push_back(lay("room", floor, box, kRoomTile_in, kRoomTile_in, 0.125));
    movement(out.back(), box);
  }
  const Box box = bounds(place.ring);
  out.push_back(lay("pan", as_region(place.ring), box, kPanTile_in, kPanTile_in, 0.125));
  movement(out.back(), box);
  return out;
}

}  // namespace awlmark::shower
