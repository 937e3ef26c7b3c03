#include "takeoff/goods.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "money/money.hpp"
#include "tables/table.hpp"

namespace awlmark::takeoff {
namespace {

constexpr double kKerf_in = 0.125;
// Lengths that every yard keeps.
constexpr double kStock_in[] = {96, 120, 144, 168, 192};

}  // namespace

Stocked good(const Job& job, const std::string& id) {
  const auto* row = tables::table("goods.csv").find("id", id);
  if (!row) throw std::logic_error("data: goods.csv has no " + id);
  return {row->text("item"), row->text("unit"), money::price_of_goods(job, id), row->number("covers")};
}

double packs(double need, double per_pack) { return need <= 0 || per_pack <= 0 ? 0 : std::ceil(need / per_pack - 1e-9); }

void buy_sticks(const Job& job, const std::string& id, const std::string& item, double price_per_ft, std::vector<PieceNeed> pieces, const std::string& from,
                const goods::Growth& grows, TakeOff& found) {
  (void)job;
  CutQuestion question;
  question.kerf_in = kKerf_in;
  question.max_nodes = 20000;
  question.max_steps = 1e7;  // a tenth of a second: a take-off has several lists
  for (const double length_in : kStock_in) question.stock.push_back({length_in, std::round(price_per_ft * length_in / 12 * 100) / 100, {}});
  double longest_in = 0;
  for (auto& piece : pieces) {
    while (piece.length_in > kStock_in[4]) {
      piece.length_in /= 2;
      piece.count *= 2;
    }
    // To the sixteenth above: a piece is never cut short.
    piece.length_in = std::ceil(piece.length_in * 16 - 1e-6) / 16;
    longest_in = std::max(longest_in, piece.length_in);
  }
  pieces.erase(std::remove_if(pieces.begin(), pieces.end(), [](const PieceNeed& p) { return p.count <= 0 || p.length_in <= 0; }), pieces.end());
  if (pieces.empty()) return;
  question.pieces = std::move(pieces);
  const auto plan = cut_plan(question);
  if (!plan) {
    found.notes.push_back(item + ": no cut list; " + (plan.problems.empty() ? std::string("the search gave up") : describe(plan.problems.front())));
    return;
  }
  if (!plan.value->proven)
    found.notes.push_back(item + ": the cut list costs at most " + format_number(std::ceil(plan.value->gap * 1000) / 10, 1) +
                          " percent more than the least there is; the search ended there.");
  double feet = 0;
  for (const auto& stick : plan.value->sticks) feet += stick.times * stick.stock_in / 12;
  int sticks = 0;
  for (const auto& stick : plan.value->sticks) sticks += stick.times;
  found.lines.push_back({id, item, feet, "lf", from + "; " + std::to_string(sticks) + (sticks == 1 ? " stick" : " sticks") + " by the cut list", "put_back",
                         plan.value->cost / feet, grows});
  found.cut_lists.push_back({item, kKerf_in, plan.value->sticks, plan.value->cost, plan.value->lower_bound, plan.value->proven});
}

}  // namespace awlmark::takeoff
