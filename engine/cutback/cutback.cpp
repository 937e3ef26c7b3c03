#include "cutback/cutback.hpp"

#include <algorithm>
#include <utility>

#include "cutback/report.hpp"

namespace awlmark::cutback {
namespace {

const char* kind_word(Build build) {
  switch (build) {
    case Build::boards:
      return "plank";
    case Build::panel:
      return "panel";
    case Build::cover:
      return "flooring";
    case Build::plate:
      return "plate";
    case Build::wallboard:
      return "wallboard";
  }
  return "";
}

// "deck.7.2": layer, plank or row, bay; a letter more where a strip falls into parts.
std::string block_id(const Sheet& sheet, const Block& block, std::map<std::string, int>& used) {
  std::string id = sheet.id + ".";
  if (block.wall != kNone)
    id += std::string(kind_word(sheet.build)) + "." + std::to_string(block.bay);
  else
    id += std::to_string(sheet.build == Build::boards ? plank_number(sheet, block) : block.row) + "." + std::to_string(block.bay);
  const int before = used[id]++;
  return before == 0 ? id : id + "-" + std::to_string(before + 1);
}

double money_left(const Plan& plan) {
  std::int64_t cents = 0;
  for (std::size_t b = 0; b < plan.out.size(); ++b)
    if (!plan.out[b]) cents += plan.problem.stay_cents[b];
  return static_cast<double>(cents) / 100;
}

void add_amounts(const Job& job, const Model& model, const Plan& plan, CutBack& cut) {
  for (const auto& sheet : model.sheets)
    if (sheet.build != Build::plate && sheet.build != Build::wallboard) cut.area_sf[sheet.id] = 0;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    const Block& block = model.blocks[b];
    const Sheet& sheet = model.sheets[block.sheet];
    if (!plan.out[b]) continue;
    const double length_in = block.wall_to_in - block.wall_from_in;
    if (sheet.build == Build::plate)
      cut.plate_ft[job.walls[block.wall].id] += length_in / 12;
    else if (sheet.build == Build::wallboard)
      cut.wallboard_sf[job.walls[block.wall].id] += length_in * figure("wallboard_strip") / 144;
    else
      cut.area_sf[sheet.id] += block.area_in2 / 144;
  }
}

}  // namespace

std::vector<Piece> pieces_of(const Model& model, const Plan& plan) {
  std::vector<Piece> pieces;
  std::map<std::string, int> used;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    const Block& block = model.blocks[b];
    const Sheet& sheet = model.sheets[block.sheet];
    Piece piece;
    piece.id = block_id(sheet, block, used);
    piece.layer = sheet.id;
    piece.kind = kind_word(sheet.build);
    piece.outline_in = block.outline_in;
    piece.plank = plank_number(sheet, block);
    piece.row = sheet.build == Build::boards ? block.row - 1 : -1;
    piece.from_in = block.low_in;
    piece.to_in = block.high_in;
    piece.p_unsound = block.p_unsound;
    piece.out = plan.out[b] != 0;
    piece.known_decay = block.known;
    piece.by_way = block.by_way;
    piece.area_sf = (sheet.build == Build::wallboard ? (block.wall_to_in - block.wall_from_in) * figure("wallboard_strip") : block.area_in2) / 144;
    piece.unsound_sf = block.unsound_in2 / 144;
    piece.why = plan.because[b];
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

void add_outlines(const Model& model, const Plan& plan, CutBack& cut) {
  std::map<std::string, std::vector<Polygon>> rings;
  for (std::size_t b = 0; b < model.blocks.size(); ++b)
    if (plan.out[b] && model.sheets[model.blocks[b].sheet].build != Build::wallboard)
      rings[model.sheets[model.blocks[b].sheet].id].push_back(model.blocks[b].outline_in);
  for (const auto& [layer, list] : rings) {
    auto& outlines = cut.outlines_in[layer];
    for (const auto& part : unite(list)) {
      outlines.push_back(part.outline);
      // A hole is a ring that runs clockwise: what stays in the middle of what goes.
      outlines.insert(outlines.end(), part.holes.begin(), part.holes.end());
    }
  }
}

Extent::Extent(const plan::Plan& plan, const survey::Result& survey, std::vector<std::string> contaminated_layers)
    : plan_(plan), survey_(survey), contaminated_(std::move(contaminated_layers)), needed_(work_out({}, false).findings) {}

CutBack Extent::lines(const std::vector<Taken>& taken) const { return taken.empty() ? needed_ : work_out(taken, false).findings; }

Result Extent::chosen(const std::vector<Taken>& taken) const { return work_out(taken, true); }

Result Extent::work_out(const std::vector<Taken>& taken, bool draws) const {
  const Job& job = plan_.job;
  Model model;
  divide_layers(plan_, taken, model);
  divide_walls(job, model);
  join_blocks(job, model);
  const Chances chances = read_chances(job, survey_, model);
  read_known(job, model);
  const Plan plan = make_plan(job, model, contaminated_);

  Result result;
  CutBack& cut = result.findings;
  cut.pieces = pieces_of(model, plan);
  add_amounts(job, model, plan, cut);
  add_outlines(model, plan, cut);
  cut.edges = edges_of(job, model, plan);
  cut.blocking = blocking_of(job, model, plan, rules_of(job));
  cut.rules = plan.rules;
  cut.members = members_of(job, survey_);
  cut.expected_loss_left = money_left(plan);
  cut.cost = static_cast<double>(plan.price_cents()) / 100 - cut.expected_loss_left;
  cut.least_cost = static_cast<double>(plan.least_cents) / 100;
  cut.words = words_of_cut(plan_, model, plan);
  cut.notes = notes_of_cut(job, model, plan, cut);
  const auto map = map_of(job, model, plan);
  const auto planned = planned_members(job, cut.members);
  cut.quantities = measure::quantities(map, plan.out, planned);
  if (draws) result.draws = draw_quantities(job, survey_, model, map, plan, chances, planned);
  return result;
}

Result cut_back(const plan::Plan& plan, const survey::Result& survey, const std::vector<std::string>& contaminated_layers) {
  return Extent(plan, survey, contaminated_layers).chosen({});
}

}  // namespace awlmark::cutback
