// Floors for the tests: jobs built by hand, and draws from a small generator of its own (ovals of
// rot around a centre that moves from draw to draw), so that these tests need no survey.
#pragma once

#include <cmath>
#include <limits>

#include "../support/property.hpp"
#include "cutback/cutback.hpp"

namespace awlmark::cutback::testing {

inline Support joist(const std::string& id, Point from, Point to, SupportRole role = SupportRole::joist) {
  Support support;
  support.id = id;
  support.role = role;
  support.from_in = from;
  support.to_in = to;
  return support;
}

inline Layer layer(const std::string& id, Material material) {
  Layer one;
  one.id = id;
  one.material = material;
  return one;
}

inline Mark awl(const std::string& id, const std::string& on, Point at, Reading reads) {
  Mark mark;
  mark.id = id;
  mark.layer = on;
  mark.at_in = at;
  mark.tool = Tool::awl;
  mark.reads = reads;
  return mark;
}

// A laundry of 9 by 6 ft: vinyl, underlayment, 1x6 boards across joists at 16 in.
inline Job laundry() {
  Job job;
  job.room.outline_in = rectangle(0, 0, 108, 72);
  job.layers = {layer("sheet", Material::sheet_vinyl), layer("under", Material::plywood_underlayment), layer("deck", Material::board)};
  job.layers[2].runs = Runs{0};
  job.layers[2].face_width_in = 5.5;
  for (int k = 1; k <= 6; ++k) job.supports.push_back(joist("j" + std::to_string(k), {16.0 * k, 0}, {16.0 * k, 72}));
  const Point corners[4] = {{0, 0}, {108, 0}, {108, 72}, {0, 72}};
  for (int w = 0; w < 4; ++w) {
    Wall wall;
    wall.id = "w" + std::to_string(w + 1);
    wall.from_in = corners[w];
    wall.to_in = corners[(w + 1) % 4];
    wall.stands_on = StandsOn::deck;
    wall.bearing = w == 0;
    job.walls.push_back(wall);
  }
  return job;
}

struct Oval {
  Point centre{84, 60};
  double along_in = 18;  // half axes
  double across_in = 10;
  double wander_in = 6;  // of the centre, from draw to draw
  double spread = 0.35;  // of the size
};

inline void fill_grid(const Job& job, double cell_in, survey::GridFindings& grid) {
  const Box box = bounds(job.room.outline_in);
  grid.cell_in = cell_in;
  grid.nx = static_cast<int>(std::ceil(box.width_in() / cell_in - 1e-9));
  grid.ny = static_cast<int>(std::ceil(box.height_in() / cell_in - 1e-9));
  grid.origin_in = {box.x0_in, box.y0_in};
}

// Draws of every layer, support and wall: rot inside the draw's oval, a little less in upper layers.
inline survey::Result survey_of(const Job& job, Random& random, int draws, const Oval& oval = {}, double cell_in = 3) {
  survey::Result result;
  fill_grid(job, cell_in, result.findings.grid);
  result.draws.count = draws;
  result.draws.grid = result.findings.grid;
  const auto& grid = result.draws.grid;
  const std::size_t cells = static_cast<std::size_t>(grid.nx) * grid.ny;
  for (const auto& one : job.layers) {
    result.draws.layers.push_back({one.id, std::vector<std::uint8_t>(cells * draws, survey::kSound)});
    result.findings.layers.push_back({one.id, std::vector<double>(cells, 0), std::vector<double>(cells, 0), std::vector<double>(cells, 0)});
  }
  const auto stations = [&](const std::string& id, Point a, Point b) {
    survey::FieldDraws::OfLine line;
    line.id = id;
    for (double s = 3; s < distance_in(a, b); s += 6) line.along_in.push_back(s);
    line.degree.assign(line.along_in.size() * draws, survey::kSound);
    return line;
  };
  for (const auto& support : job.supports) result.draws.supports.push_back(stations(support.id, support.from_in, support.to_in));
  for (const auto& wall : job.walls) result.draws.walls.push_back(stations(wall.id, wall.from_in, wall.to_in));
  for (int d = 0; d < draws; ++d) {
    const double dx = random.normal(), dy = random.normal(), size = random.normal();
    const Point centre{oval.centre.x_in + oval.wander_in * dx, oval.centre.y_in + oval.wander_in * dy};
    const double scale = std::max(0.1, 1 + oval.spread * size);
    const auto inside = [&](Point p, double share) {
      const double u = (p.x_in - centre.x_in) / (oval.along_in * scale * share), v = (p.y_in - centre.y_in) / (oval.across_in * scale * share);
      return u * u + v * v < 1;
    };
    for (std::size_t l = 0; l < job.layers.size(); ++l)
      for (std::size_t c = 0; c < cells; ++c) {
        const Point p{grid.origin_in.x_in + (static_cast<double>(c % grid.nx) + 0.5) * grid.cell_in,
                      grid.origin_in.y_in + (static_cast<double>(c / grid.nx) + 0.5) * grid.cell_in};
        if (!contains(job.room.outline_in, p)) {
          result.findings.layers[l].p_unsound[c] = std::numeric_limits<double>::quiet_NaN();
          continue;
        }
        if (!inside(p, 0.7 + 0.3 * static_cast<double>(l + 1) / static_cast<double>(job.layers.size()))) continue;
        result.draws.layers[l].degree[d * cells + c] = survey::kSoft;
        result.findings.layers[l].p_unsound[c] += 1.0 / draws;
      }
    const auto line = [&](survey::FieldDraws::OfLine& of, Point a, Point b) {
      for (std::size_t k = 0; k < of.along_in.size(); ++k) {
        const double t = of.along_in[k] / distance_in(a, b);
        if (inside({a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)}, 0.8)) of.degree[d * of.along_in.size() + k] = survey::kSoft;
      }
    };
    for (std::size_t s = 0; s < job.supports.size(); ++s) line(result.draws.supports[s], job.supports[s].from_in, job.supports[s].to_in);
    for (std::size_t w = 0; w < job.walls.size(); ++w) line(result.draws.walls[w], job.walls[w].from_in, job.walls[w].to_in);
  }
  return result;
}

inline Region removed(const CutBack& cut, const std::string& layer_id) {
  std::vector<Polygon> rings;
  for (const auto& piece : cut.pieces)
    if (piece.out && piece.layer == layer_id) rings.push_back(piece.outline_in);
  return unite(rings);
}

inline Region covered(const CutBack& cut, const std::string& layer_id) {
  std::vector<Polygon> rings;
  for (const auto& piece : cut.pieces)
    if (piece.layer == layer_id) rings.push_back(piece.outline_in);
  return unite(rings);
}

inline double total_out_sf(const CutBack& cut) {
  double sum = 0;
  for (const auto& piece : cut.pieces)
    if (piece.out) sum += piece.area_sf;
  return sum;
}

inline CutRules no_rules() {
  CutRules rules;
  rules.margin_in = 0;
  rules.ends_on_support = rules.two_supports = rules.stagger = rules.no_slivers = rules.spare_bearing_walls = rules.contaminated_goes = false;
  return rules;
}

inline const Piece* piece_at(const CutBack& cut, const std::string& layer_id, Point at) {
  for (const auto& piece : cut.pieces)
    if (piece.layer == layer_id && contains(piece.outline_in, at)) return &piece;
  return nullptr;
}

inline const RuleEffect& effect(const CutBack& cut, const std::string& name) {
  for (const auto& rule : cut.rules)
    if (rule.rule == name) return rule;
  static const RuleEffect none;
  ADD_FAILURE() << "no rule " << name;
  return none;
}

// Every draw unsound around one spot and nowhere else; far outside the room, a sound floor.
inline Oval spot(Point at, double half_in) { return {at, half_in, half_in, 0, 0}; }

}  // namespace awlmark::cutback::testing
