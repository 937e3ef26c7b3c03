#include "survey/sound_lines.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/length.hpp"

namespace awlmark::survey {
namespace {

constexpr double kOutside_share = 0.02;  // of the layer: what may lie outside a line that a crew can use
constexpr double kOutside_most_sf = 1;   // and no more than this

// For each draw the chance below which less than `outside_sf` of it is unsound: a line drawn there leaves
// less outside. 2 where the whole draw has less.
std::vector<double> thresholds(const std::vector<double>& p, const std::vector<double>& area_sf, const std::vector<std::uint8_t>& degree, int draws,
                               double outside_sf) {
  std::vector<std::size_t> rising(p.size());
  std::iota(rising.begin(), rising.end(), std::size_t{0});
  std::sort(rising.begin(), rising.end(), [&](std::size_t a, std::size_t b) { return p[a] != p[b] ? p[a] < p[b] : a < b; });
  std::vector<double> least(static_cast<std::size_t>(draws), 2);
  for (std::size_t d = 0; d < least.size(); ++d) {
    double outside = 0;
    for (const std::size_t c : rising) {
      if (degree[d * p.size() + c] == kSound) continue;
      outside += area_sf[c];
      if (outside < outside_sf) continue;
      least[d] = p[c];
      break;
    }
  }
  return least;
}

// Cells merged into runs along x first: fewer, longer rectangles to unite.
std::vector<Polygon> runs_of(const GridFindings& grid, const std::vector<int>& cells) {
  std::vector<Polygon> runs;
  for (std::size_t k = 0; k < cells.size();) {
    std::size_t end = k + 1;
    while (end < cells.size() && cells[end] == cells[end - 1] + 1 && cells[end] / grid.nx == cells[k] / grid.nx) ++end;
    const int i = cells[k] % grid.nx, j = cells[k] / grid.nx;
    const double x = grid.origin_in.x_in + i * grid.cell_in, y = grid.origin_in.y_in + j * grid.cell_in;
    runs.push_back(rectangle(x, y, x + static_cast<double>(end - k) * grid.cell_in, y + grid.cell_in));
    k = end;
  }
  return runs;
}

Region layer_region(const Job& job, const std::string& id) {
  Region region = as_region(job.room.outline_in);
  const Layer* layer = find_layer(job, id);
  if (layer == nullptr) return region;
  if (layer->outline_in) region = intersect(region, as_region(*layer->outline_in));
  for (const Polygon& hole : layer->absent_in)
    if (hole.size() >= 3) region = subtract(region, as_region(hole));
  return region;
}

std::string chances_in_words(double confidence) {
  for (const int of : {2, 3, 4, 5, 10, 20, 50, 100}) {
    const double hits = confidence * of;
    if (std::fabs(hits - std::round(hits)) < 1e-6) return format_number(std::round(hits), 0) + " chances in " + std::to_string(of);
  }
  return format_number(100 * confidence, 0) + " chances in 100";
}

std::string sf_text(double sf) { return format_number(sf, sf < 1 ? 2 : 0) + " sq ft"; }

}  // namespace

SoundLine sound_line(const Job& job, const LayerCells& layer, const GridFindings& grid, const std::vector<double>& p_unsound,
                     const std::vector<std::uint8_t>& degree, int draws, double confidence) {
  SoundLine line;
  line.layer = layer.layer;
  line.confidence = confidence;
  const std::string chances = chances_in_words(confidence);
  if (draws <= 0 || p_unsound.empty()) {
    line.words = "No line can be drawn: " + std::string(draws <= 0 ? "no draws were asked for." : "the layer covers nothing of the room.");
    return line;
  }
  double layer_sf = 0;
  for (const double sf : layer.area_sf) layer_sf += sf;
  line.outside_sf = std::min(kOutside_most_sf, kOutside_share * layer_sf);
  std::vector<double> least = thresholds(p_unsound, layer.area_sf, degree, draws, line.outside_sf);
  std::sort(least.begin(), least.end());
  // At most this many draws may have more outside.
  const int outside = static_cast<int>(std::floor((1 - confidence) * draws + 1e-9));
  const double threshold = least[static_cast<std::size_t>(std::min(outside, draws - 1))];
  std::vector<int> cells;
  for (std::size_t c = 0; c < p_unsound.size(); ++c)
    if (p_unsound[c] >= threshold) {
      cells.push_back(layer.cells[c]);
      line.inside_sf += layer.area_sf[c];
    }
  if (cells.empty()) {
    line.words = "Less than " + sf_text(line.outside_sf) + " of this layer is unsound, " + chances + ".";
    return line;
  }
  const Region region = intersect(unite(runs_of(grid, cells)), layer_region(job, layer.layer));
  for (const auto& part : region) {
    line.rings_in.push_back(part.outline);
    for (const Polygon& hole : part.holes) line.rings_in.push_back(hole);
  }
  const bool whole = cells.size() == p_unsound.size();
  line.words =
      whole ? "The whole layer is in doubt: outside no line smaller than the layer is less than " + sf_text(line.outside_sf) + " unsound, " + chances + "."
            : "Outside this line less than " + sf_text(line.outside_sf) + " of this layer is unsound, " + chances + ".";
  return line;
}

}  // namespace awlmark::survey
