#include "cutback/chances.hpp"

#include <algorithm>
#include <cmath>

#include "cutback/settings.hpp"

namespace awlmark::cutback {
namespace {

struct Share {
  std::size_t place = 0;  // cell or station
  double area_in2 = 0;
};

struct Thresholds {
  double least_in2 = figure("unsound_least");
  double least_share = figure("unsound_least_share");
  double again_in2 = figure("opened_again_least");
};

bool valid_cell(const Job& job, const Layer& layer, const survey::LayerField* field, std::size_t cell, Point centre) {
  if (field && cell < field->p_unsound.size()) return std::isfinite(field->p_unsound[cell]);
  return contains(job.room.outline_in, centre) && covers(job, layer, centre);
}

// The survey's cells inside the block; areas scaled to the block's own, since cells whose centre
// lies outside the room hold nothing. A block that no valid cell meets takes the nearest one.
std::vector<Share> cells_of(const Block& block, const survey::GridFindings& grid, const std::vector<char>& valid) {
  std::vector<Share> shares;
  const auto column = [&](double x) { return static_cast<int>(std::floor((x - grid.origin_in.x_in) / grid.cell_in)); };
  const auto row = [&](double y) { return static_cast<int>(std::floor((y - grid.origin_in.y_in) / grid.cell_in)); };
  double sum = 0;
  for (int j = std::max(0, row(block.box.y0_in)); j <= std::min(grid.ny - 1, row(block.box.y1_in)); ++j)
    for (int i = std::max(0, column(block.box.x0_in)); i <= std::min(grid.nx - 1, column(block.box.x1_in)); ++i) {
      const std::size_t cell = static_cast<std::size_t>(j) * grid.nx + i;
      if (!valid[cell]) continue;
      const double x = grid.origin_in.x_in + i * grid.cell_in, y = grid.origin_in.y_in + j * grid.cell_in;
      const double area = area_in_box_in2(block.outline_in, {x, y, x + grid.cell_in, y + grid.cell_in});
      if (area <= 0) continue;
      shares.push_back({cell, area});
      sum += area;
    }
  if (shares.empty()) {
    const Point middle = centroid(block.outline_in);
    double nearest = 1e300;
    for (int j = 0; j < grid.ny; ++j)
      for (int i = 0; i < grid.nx; ++i) {
        const std::size_t cell = static_cast<std::size_t>(j) * grid.nx + i;
        const double away = distance_in(middle, {grid.origin_in.x_in + (i + 0.5) * grid.cell_in, grid.origin_in.y_in + (j + 0.5) * grid.cell_in});
        if (!valid[cell] || away >= nearest - 1e-9) continue;
        nearest = away;
        shares.assign(1, {cell, 1.0});
        sum = 1;
      }
  }
  for (auto& share : shares) share.area_in2 *= block.area_in2 / sum;
  return shares;
}

// Stations of a wall's line inside the plate piece, the plate's area shared among them.
std::vector<Share> stations_of(const Block& block, const std::vector<double>& along_in) {
  std::vector<Share> shares;
  for (std::size_t k = 0; k < along_in.size(); ++k)
    if (along_in[k] >= block.wall_from_in - 1e-9 && along_in[k] < block.wall_to_in - 1e-9) shares.push_back({k, 0});
  if (shares.empty() && !along_in.empty()) {
    const double middle = (block.wall_from_in + block.wall_to_in) / 2;
    std::size_t nearest = 0;
    for (std::size_t k = 1; k < along_in.size(); ++k)
      if (std::fabs(along_in[k] - middle) < std::fabs(along_in[nearest] - middle) - 1e-9) nearest = k;
    shares.push_back({nearest, 0});
  }
  for (auto& share : shares) share.area_in2 = block.area_in2 / static_cast<double>(shares.size());
  return shares;
}

// Share of the draws, expected area, and one flag a draw.
void from_draws(Model& model, std::size_t b, const std::vector<Share>& shares, const std::vector<std::uint8_t>& degree, std::size_t places,
                const Thresholds& limits, Chances& chances) {
  Block& block = model.blocks[b];
  const double least = std::min(limits.least_in2, limits.least_share * block.area_in2);
  // A smaller piece is opened whole.
  const double again = std::min(limits.again_in2, block.area_in2);
  int unsound = 0;
  double sum = 0, sum_again = 0;
  for (int d = 0; d < chances.draws; ++d) {
    const std::uint8_t* of_draw = degree.data() + static_cast<std::size_t>(d) * places;
    double area = 0;
    for (const auto& share : shares)
      if (of_draw[share.place] != survey::kSound) area += share.area_in2;
    sum += area;
    if (area < least - 1e-9 || area <= 0) continue;
    ++unsound;
    sum_again += std::max(area, again);
    chances.unsound[static_cast<std::size_t>(d) * chances.blocks + b] = 1;
  }
  block.p_unsound = static_cast<double>(unsound) / chances.draws;
  block.unsound_in2 = std::min(sum / chances.draws, block.area_in2);
  block.opened_again_in2 = std::max(sum_again / chances.draws, block.unsound_in2);
}

// Without draws only the expected area is known; the chance is then that share, a lower bound.
void from_field(Block& block, const std::vector<Share>& shares, const std::vector<double>& p_unsound) {
  double sum = 0;
  for (const auto& share : shares)
    if (share.place < p_unsound.size() && std::isfinite(p_unsound[share.place])) sum += share.area_in2 * p_unsound[share.place];
  block.unsound_in2 = block.opened_again_in2 = std::min(sum, block.area_in2);
  block.p_unsound = block.area_in2 > 0 ? block.unsound_in2 / block.area_in2 : 0;
}

const survey::LayerField* field_of(const survey::Survey& findings, const std::string& layer) {
  for (const auto& field : findings.layers)
    if (field.layer == layer) return &field;
  return nullptr;
}

void read_layer(const Job& job, const survey::Result& survey, std::size_t sheet, Model& model, Chances& chances, const Thresholds& limits) {
  const auto& grid = survey.draws.count > 0 ? survey.draws.grid : survey.findings.grid;
  const std::size_t cells = static_cast<std::size_t>(std::max(0, grid.nx)) * std::max(0, grid.ny);
  const Layer* layer = model.sheets[sheet].layer.known() ? &job.layers[model.sheets[sheet].layer.of()] : nullptr;
  const auto* field = field_of(survey.findings, model.sheets[sheet].id);
  const std::vector<std::uint8_t>* degree = nullptr;
  for (const auto& of : survey.draws.layers)
    if (of.layer == model.sheets[sheet].id && of.degree.size() >= cells * chances.draws) degree = &of.degree;
  if (!layer || cells == 0 || (!degree && !field)) return;
  std::vector<char> valid(cells);
  for (std::size_t c = 0; c < cells; ++c) {
    const Point centre{grid.origin_in.x_in + (static_cast<double>(c % grid.nx) + 0.5) * grid.cell_in,
                       grid.origin_in.y_in + (static_cast<double>(c / grid.nx) + 0.5) * grid.cell_in};
    valid[c] = valid_cell(job, *layer, field, c, centre);
  }
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (model.blocks[b].sheet != static_cast<int>(sheet)) continue;
    const auto shares = cells_of(model.blocks[b], grid, valid);
    if (degree && chances.draws > 0)
      from_draws(model, b, shares, *degree, cells, limits, chances);
    else if (field)
      from_field(model.blocks[b], shares, field->p_unsound);
  }
}

void read_wall(const Job& job, const survey::Result& survey, std::size_t sheet, Model& model, Chances& chances, const Thresholds& limits) {
  const survey::FieldDraws::OfLine* line = nullptr;
  const survey::LineField* field = nullptr;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    Block& block = model.blocks[b];
    if (block.sheet != static_cast<int>(sheet)) continue;
    const auto& id = job.walls[block.wall].id;
    for (const auto& of : survey.draws.walls)
      if (of.id == id) line = &of;
    for (const auto& of : survey.findings.walls)
      if (of.id == id) field = &of;
    if (line && chances.draws > 0 && !line->along_in.empty() && line->degree.size() >= line->along_in.size() * chances.draws)
      from_draws(model, b, stations_of(block, line->along_in), line->degree, line->along_in.size(), limits, chances);
    else if (field)
      from_field(block, stations_of(block, field->along_in), field->p_unsound);
  }
}

}  // namespace

Chances read_chances(const Job& job, const survey::Result& survey, Model& model) {
  Chances chances;
  chances.draws = std::max(0, survey.draws.count);
  chances.blocks = model.blocks.size();
  chances.unsound.assign(static_cast<std::size_t>(chances.draws) * chances.blocks, 0);
  const Thresholds limits;
  for (std::size_t s = 0; s < model.sheets.size(); ++s) {
    if (model.sheets[s].build == Build::plate)
      read_wall(job, survey, s, model, chances, limits);
    else if (model.sheets[s].build != Build::wallboard)
      read_layer(job, survey, s, model, chances, limits);
  }
  if (chances.draws == 0) model.notes.push_back("The survey was made without draws: a piece's chance is the expected share of it, a lower bound.");
  return chances;
}

void read_known(const Job& job, Model& model) {
  for (const auto& mark : job.marks) {
    const bool decayed = mark.tool == Tool::awl && (mark.reads == Reading::soft || mark.reads == Reading::gone);
    if (!decayed || mark.support) continue;
    const auto at = place_of(job, mark);
    if (!at) continue;
    const auto part = mark.part.value_or(WallPart::plate);
    if (part == WallPart::rim || part == WallPart::mudsill) continue;
    std::vector<std::size_t> hit;
    double nearest = 1e300;
    std::size_t near_block = 0;
    for (std::size_t b = 0; b < model.blocks.size(); ++b) {
      const Block& block = model.blocks[b];
      const Sheet& sheet = model.sheets[block.sheet];
      bool here = false;
      double away = 1e300;
      if (mark.wall) {
        const Build wanted = part == WallPart::wallboard ? Build::wallboard : Build::plate;
        // A stud that is soft at its foot stands on a plate that has to come out to mend it.
        if (sheet.build != wanted || block.wall == kNone || job.walls[block.wall].id != *mark.wall) continue;
        const double along = mark.along_in ? *mark.along_in : along_segment_in(*at, job.walls[block.wall].from_in, job.walls[block.wall].to_in);
        away = std::max({0.0, block.wall_from_in - along, along - block.wall_to_in});
        here = away <= 1e-9;
      } else {
        if (!mark.layer || sheet.id != *mark.layer || block.wall != kNone) continue;
        away = distance_to_in(block.outline_in, *at);
        here = away <= 0.02;
      }
      if (here) hit.push_back(b);
      if (away < nearest - 1e-9) {
        nearest = away;
        near_block = b;
      }
    }
    // Under a wall, at the edge of the framing: the piece that runs on to there goes.
    const bool outside = mark.wall || !contains(job.room.outline_in, *at);
    if (hit.empty() && nearest < 1e300) {
      if (outside && nearest <= kMarkReach_in) {
        hit.push_back(near_block);
        model.notes.push_back("Mark " + mark.id + " lies beyond the room's outline: the nearest piece goes, and the wood under the wall with it.");
      } else {
        model.notes.push_back("Mark " + mark.id + " lies where " + mark.layer.value_or("that wall") + " is already out: nothing more to take there.");
      }
    }
    for (const std::size_t b : hit) {
      if (!model.blocks[b].known) model.blocks[b].known_by = mark.id;
      model.blocks[b].known = true;
    }
  }
}

}  // namespace awlmark::cutback
