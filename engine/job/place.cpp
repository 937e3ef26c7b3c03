// Questions about a job's plan: where a mark lies, what covers a point, which layer is the deck.
#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "job/job.hpp"
#include "tables/materials.hpp"

namespace awlmark {
namespace {

// The spot on plank `plank` (from 1, counted from the low side across the boards) at `tape_in` along
// it from the low end, for a layer whose boards run x or y or in between.
Point plank_spot(const Job& job, const Layer& layer, int plank, double tape_in) {
  const double radians = layer_runs(job, layer).degrees * (kPi / 180);
  const double along_x = det_cos(radians), along_y = det_sin(radians);
  const double across_x = -along_y, across_y = along_x;
  const Polygon& outline = layer.outline_in ? *layer.outline_in : job.room.outline_in;
  double low_along = 1e300, low_across = 1e300, high_across = -1e300;
  for (const Point& p : outline) {
    low_along = std::min(low_along, p.x_in * along_x + p.y_in * along_y);
    low_across = std::min(low_across, p.x_in * across_x + p.y_in * across_y);
    high_across = std::max(high_across, p.x_in * across_x + p.y_in * across_y);
  }
  // Planks are counted from the wall at the low side of the plan: for boards that run y the across
  // axis points to low x, so the count starts at its high end.
  const bool flip = across_x < -1e-9 && along_y > 0.7071;
  const double offset = (plank - 0.5) * board_width_in(layer);
  const double across = flip ? high_across - offset : low_across + offset;
  const double along = low_along + tape_in;
  return {along * along_x + across * across_x, along * along_y + across * across_y};
}

// 0 up to 180: a line has no sense of direction.
double half_turn(double degrees) {
  double d = std::fmod(degrees, 180.0);
  if (d < 0) d += 180;
  return d >= 180 - 1e-9 ? 0 : d;
}

template <class T>
const T* find_id(const std::vector<T>& list, const std::string& id) {
  for (const auto& item : list)
    if (item.id == id) return &item;
  return nullptr;
}

Point along(Point from, Point to, double along_in) {
  const double length = distance_in(from, to);
  const double t = length > 0 ? along_in / length : 0;
  return {from.x_in + t * (to.x_in - from.x_in), from.y_in + t * (to.y_in - from.y_in)};
}

}  // namespace

const Layer* find_layer(const Job& job, const std::string& id) { return find_id(job.layers, id); }
const Support* find_support(const Job& job, const std::string& id) { return find_id(job.supports, id); }
const Wall* find_wall(const Job& job, const std::string& id) { return find_id(job.walls, id); }

std::optional<Point> place_of(const Job& job, const Mark& mark) {
  if (mark.support && mark.along_in)
    if (const auto* support = find_support(job, *mark.support)) return along(support->from_in, support->to_in, *mark.along_in);
  if (mark.wall && mark.along_in)
    if (const auto* wall = find_wall(job, *mark.wall)) return along(wall->from_in, wall->to_in, *mark.along_in);
  if (mark.at_in) return mark.at_in;
  if (mark.layer && mark.plank && mark.tape_in)
    if (const auto* layer = find_layer(job, *mark.layer)) return plank_spot(job, *layer, *mark.plank, *mark.tape_in);
  return std::nullopt;
}

const Layer* structural_deck(const Job& job) {
  for (auto layer = job.layers.rbegin(); layer != job.layers.rend(); ++layer)
    if (tables::material_facts(doc::word_of(layer->material)).kind == "deck") return &*layer;
  return nullptr;
}

bool carries_deck(const Job& job, const Support& support) {
  if (support.role == SupportRole::joist) return true;
  const bool joists = std::any_of(job.supports.begin(), job.supports.end(), [](const Support& s) { return s.role == SupportRole::joist; });
  return !joists || support.role != SupportRole::girder;
}

std::optional<double> supports_run_degrees(const Job& job) {
  struct Way {
    double degrees = 0, length_in = 0;
  };
  // Ledgers and wall framing lie across the ends of the joists: they count only where nothing else is drawn.
  const auto main = [](const Support& s) { return s.role == SupportRole::joist || s.role == SupportRole::girder; };
  const bool any_main = std::any_of(job.supports.begin(), job.supports.end(), main);
  std::vector<Way> ways;
  for (const Support& support : job.supports) {
    const double length = distance_in(support.from_in, support.to_in);
    if (length <= 0 || !carries_deck(job, support) || (any_main && !main(support))) continue;
    const double degrees = line_degrees(support.from_in, support.to_in);
    auto way = std::find_if(ways.begin(), ways.end(), [&](const Way& w) {
      const double off = std::fabs(w.degrees - degrees);
      return std::min(off, 180 - off) < 0.5;
    });
    if (way == ways.end())
      ways.push_back({degrees, length});
    else
      way->length_in += length;
  }
  const Way* most = nullptr;
  for (const Way& way : ways)
    if (!most || way.length_in > most->length_in + 1e-6) most = &way;
  return most ? std::optional<double>(most->degrees) : std::nullopt;
}

bool is_boards(const Layer& layer) { return layer.material == Material::board || layer.material == Material::plank_tg; }

LayerRuns layer_runs(const Job& job, const Layer& layer) {
  if (layer.runs) return {half_turn(layer.runs->degrees), true, true};
  if (const auto supports = supports_run_degrees(job)) return {half_turn(*supports + 90), false, true};
  return {};
}

double board_width_in(const Layer& layer) {
  return layer.face_width_in.value_or(tables::material_facts(doc::word_of(layer.material)).usual_width_in.value_or(5.5));
}

double thickness_in(const Layer& layer) { return layer.thickness_in.value_or(tables::material_facts(doc::word_of(layer.material)).usual_thickness_in); }

bool covers(const Job& job, const Layer& layer, Point p) {
  if (!contains(layer.outline_in ? *layer.outline_in : job.room.outline_in, p)) return false;
  return std::none_of(layer.absent_in.begin(), layer.absent_in.end(), [&](const Polygon& hole) { return contains(hole, p); });
}

}  // namespace awlmark
