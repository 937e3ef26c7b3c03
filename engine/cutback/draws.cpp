// The same quantities for every draw: the planned cut-back is made, and what opening up shows is
// followed until it is sound. A piece shows when a piece beside it in its layer is out, or a piece
// that lies over it; a plate shows when the deck at its foot is out.
#include <algorithm>

#include "cutback/report.hpp"

namespace awlmark::cutback {
namespace {

struct Links {
  std::vector<std::vector<int>> shows;   // what one sees when this piece is out
  std::vector<std::vector<int>> brings;  // what comes out with it
};

Links links_of(const Model& model) {
  Links links;
  links.shows.resize(model.blocks.size());
  links.brings.resize(model.blocks.size());
  for (const auto& joint : model.joints) {
    links.shows[joint.a].push_back(joint.b);
    links.shows[joint.b].push_back(joint.a);
  }
  for (const auto& over : model.over) links.shows[over.upper].push_back(over.lower);
  for (const auto& above : model.above) links.brings[above.lower].push_back(above.upper);
  for (std::size_t p = 0; p < model.blocks.size(); ++p) {
    if (model.sheets[model.blocks[p].sheet].build != Build::plate) continue;
    for (std::size_t b = 0; b < model.blocks.size(); ++b) {
      const Block &plate = model.blocks[p], &block = model.blocks[b];
      if (block.wall != kNone || !model.sheets[block.sheet].bears) continue;
      if (gap_in(block.outline_in, plate.outline_in) < 1) links.shows[b].push_back(static_cast<int>(p));
    }
  }
  return links;
}

// Follows one draw from the plan until everything that shows is sound.
void follow(const Links& links, const Chances& chances, int draw, const std::vector<char>& plan, std::vector<char>& out, std::vector<int>& open) {
  out = plan;
  open.clear();
  for (std::size_t b = 0; b < out.size(); ++b)
    if (out[b]) open.push_back(static_cast<int>(b));
  const auto take = [&](int block) {
    if (out[block]) return;
    out[block] = 1;
    open.push_back(block);
  };
  for (std::size_t k = 0; k < open.size(); ++k) {
    for (const int above : links.brings[open[k]]) take(above);
    for (const int seen : links.shows[open[k]])
      if (!out[seen] && chances.unsound_in(draw, seen)) take(seen);
  }
}

// Where each support can be seen: station by station, the deck pieces over it.
struct SupportLine {
  bool known = false;
  const survey::FieldDraws::OfLine* line = nullptr;
  std::vector<std::vector<int>> over;
};

std::vector<SupportLine> support_lines(const Job& job, const survey::Result& survey, const Model& model, const std::vector<MemberDecay>& members, int draws) {
  std::vector<SupportLine> lines;
  for (const auto& support : job.supports) {
    SupportLine line;
    line.known = std::any_of(members.begin(), members.end(), [&](const MemberDecay& decay) { return decay.known && decay.support == support.id; });
    for (const auto& of : survey.draws.supports)
      if (of.id == support.id && of.degree.size() >= of.along_in.size() * draws) line.line = &of;
    const double length = distance_in(support.from_in, support.to_in);
    for (std::size_t k = 0; line.line && k < line.line->along_in.size(); ++k) {
      const double t = length > 0 ? line.line->along_in[k] / length : 0;
      const Point at{support.from_in.x_in + t * (support.to_in.x_in - support.from_in.x_in),
                     support.from_in.y_in + t * (support.to_in.y_in - support.from_in.y_in)};
      std::vector<int> over;
      for (std::size_t b = 0; b < model.blocks.size(); ++b)
        if (model.sheets[model.blocks[b].sheet].bears && distance_to_in(model.blocks[b].outline_in, at) <= 1) over.push_back(static_cast<int>(b));
      line.over.push_back(std::move(over));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

int members_in(const std::vector<SupportLine>& lines, int draw, const std::vector<char>& out) {
  int count = 0;
  for (const auto& line : lines) {
    bool work = line.known;
    for (std::size_t k = 0; !work && k < line.over.size(); ++k) {
      if (line.line->degree[static_cast<std::size_t>(draw) * line.over.size() + k] == survey::kSound) continue;
      work = std::any_of(line.over[k].begin(), line.over[k].end(), [&](int block) { return out[block] != 0; });
    }
    count += work;
  }
  return count;
}

}  // namespace

DrawQuantities draw_quantities(const Job& job, const survey::Result& survey, const Model& model, const Plan& plan, const Chances& chances,
                               const std::vector<MemberDecay>& members) {
  DrawQuantities quantities;
  const std::size_t draws = static_cast<std::size_t>(chances.draws);
  const bool block_ends = rules_of(job).ends_on_support;
  for (const auto& sheet : model.sheets)
    if (sheet.build != Build::plate && sheet.build != Build::wallboard) quantities.area_sf[sheet.id].assign(draws, 0);
  for (auto* list : {&quantities.edge_ft, &quantities.blocking_ft, &quantities.plate_ft, &quantities.wallboard_sf}) list->assign(draws, 0);
  quantities.members.assign(draws, 0);
  std::vector<std::vector<double>*> area(model.sheets.size(), nullptr);
  for (std::size_t s = 0; s < model.sheets.size(); ++s)
    if (const auto found = quantities.area_sf.find(model.sheets[s].id); found != quantities.area_sf.end()) area[s] = &found->second;

  const Links links = links_of(model);
  const auto lines = support_lines(job, survey, model, members, chances.draws);
  double joint_blocking_in = 0;
  for (const auto& blocking : plan.joint_blocking) joint_blocking_in += blocking.length_in;
  const double board_sf_per_in = figure("wallboard_strip") / 144;
  std::vector<char> out;
  std::vector<int> open;
  for (std::size_t d = 0; d < draws; ++d) {
    follow(links, chances, static_cast<int>(d), plan.out, out, open);
    for (std::size_t b = 0; b < out.size(); ++b) {
      if (!out[b]) continue;
      const Block& block = model.blocks[b];
      const Build build = model.sheets[block.sheet].build;
      if (build == Build::plate)
        quantities.plate_ft[d] += (block.wall_to_in - block.wall_from_in) / 12;
      else if (build == Build::wallboard)
        quantities.wallboard_sf[d] += (block.wall_to_in - block.wall_from_in) * board_sf_per_in;
      else
        (*area[block.sheet])[d] += block.area_in2 / 144;
    }
    double edge_in = 0, blocking_in = joint_blocking_in;
    for (const auto& joint : model.joints) {
      if (out[joint.a] == out[joint.b]) continue;
      edge_in += joint.length_in;
      if (joint.kind == EdgeKind::cross_in_air && block_ends) blocking_in += joint.length_in;
    }
    for (const auto& rim : model.rims) {
      if (!out[rim.block] || !model.sheets[model.blocks[rim.block].sheet].bears) continue;
      edge_in += rim.length_in;
      if (rim_needs_blocking(rim) && block_ends) blocking_in += rim.length_in;
    }
    quantities.edge_ft[d] = edge_in / 12;
    quantities.blocking_ft[d] = blocking_in / 12;
    quantities.members[d] = members_in(lines, static_cast<int>(d), out);
  }
  return quantities;
}

}  // namespace awlmark::cutback
