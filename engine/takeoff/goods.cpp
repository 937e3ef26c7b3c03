#include "takeoff/goods.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/length.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::takeoff {
namespace {

constexpr double kKerf_in = 0.125;
// Lengths that every yard keeps.
constexpr double kStock_in[] = {96, 120, 144, 168, 192};

double scale(const Job& job) { return job.rates && job.rates->material_scale ? *job.rates->material_scale : 1; }

}  // namespace

Good good(const Job& job, const std::string& id) {
  const auto* row = tables::table("goods.csv").find("id", id);
  if (!row) throw std::logic_error("data: goods.csv has no " + id);
  return {row->text("item"), row->text("unit"), row->number("price") * scale(job), row->number("covers")};
}

double packs(double need, double per_pack) { return need <= 0 || per_pack <= 0 ? 0 : std::ceil(need / per_pack - 1e-9); }

double lumber_price_per_ft(const Job& job, double nominal_b_in, double nominal_d_in, bool decking) {
  return tables::rate(decking ? "decking_per_bf" : "lumber_per_bf").value * scale(job) * nominal_b_in * nominal_d_in / 12;
}

double nominal_of(double dressed_in) { return dressed_in <= 0.875 ? 1 : dressed_in <= 1.125 ? 1.25 : std::ceil(dressed_in / 2 - 1e-9) * 2; }

bool find_section(const std::string& text, double& b_in, double& d_in) {
  for (std::size_t at = 1; at + 1 < text.size(); ++at) {
    if (text[at] != 'x') continue;
    const auto digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
    if (!digit(at - 1) || !digit(at + 1)) continue;
    std::size_t start = at - 1;
    while (start > 0 && digit(start - 1)) --start;
    b_in = std::strtod(text.substr(start, at - start).c_str(), nullptr);
    std::size_t end = at + 1;
    while (digit(end)) ++end;
    d_in = std::strtod(text.substr(at + 1, end - at - 1).c_str(), nullptr);
    return b_in > 0 && d_in > 0;
  }
  return false;
}

void buy_sticks(const Job& job, const std::string& id, const std::string& item, double price_per_ft, std::vector<PieceNeed> pieces, const std::string& from,
                const std::string& grows_with, TakeOff& found) {
  (void)job;
  CutQuestion question;
  question.kerf_in = kKerf_in;
  question.max_nodes = 20000;
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
  double feet = 0;
  for (const auto& stick : plan.value->sticks) feet += stick.times * stick.stock_in / 12;
  int sticks = 0;
  for (const auto& stick : plan.value->sticks) sticks += stick.times;
  found.lines.push_back({id, item, feet, "lf", from + "; " + std::to_string(sticks) + (sticks == 1 ? " stick" : " sticks") + " by the cut list", "put_back",
                         plan.value->cost / feet, grows_with});
  found.cut_lists.push_back({item, kKerf_in, plan.value->sticks, plan.value->cost, plan.value->lower_bound, plan.value->proven});
}

}  // namespace awlmark::takeoff
