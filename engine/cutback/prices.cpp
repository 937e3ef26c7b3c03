// What every piece and joint costs, in whole cents.
#include <algorithm>
#include <cmath>

#include "cutback/plan.hpp"

namespace awlmark::cutback {
namespace {

std::int64_t cents(double money) { return static_cast<std::int64_t>(std::llround(std::max(0.0, std::min(money, 1e12)) * 100)); }

double per_ft(const money::Stakes& prices, EdgeKind kind, bool with_blocking) {
  switch (kind) {
    case EdgeKind::rip:
      return prices.rip_per_ft;
    case EdgeKind::cross_on_support:
      return prices.cross_on_support_per_ft;
    // The rate holds the blocking; without the rule only the cut is paid.
    case EdgeKind::cross_in_air:
      return with_blocking ? prices.cross_in_air_per_ft : std::max(prices.cross_on_support_per_ft, prices.cross_in_air_per_ft - prices.blocking_per_ft);
    case EdgeKind::at_wall:
    case EdgeKind::seam:
      return 0;
  }
  return 0;
}

double tear_out(const Sheet& sheet, const Block& block, const money::Stakes& prices) {
  if (sheet.goes || block.by_way) return 0;  // it goes whatever the plan
  const double sound_sf = (block.area_in2 - block.unsound_in2) / 144;
  if (sheet.build == Build::wallboard)
    return prices.tear_out_sound_per_sf * sheet.share * (block.wall_to_in - block.wall_from_in) * figure("wallboard_strip") / 144;
  double money = prices.tear_out_sound_per_sf * sheet.share * sound_sf;
  if (sheet.stays) money += prices.patch_per_opening * block.area_in2 / 144;  // an opening is about a square foot
  return money;
}

}  // namespace

bool rim_needs_blocking(const Rim& rim) { return rim.cut && rim.is_end && rim.support == kNone; }

CutProblem price_model(const Model& model, const money::Stakes& prices, bool with_blocking) {
  const std::size_t count = model.blocks.size();
  CutProblem problem;
  std::vector<double> out(count);
  for (std::size_t b = 0; b < count; ++b) {
    const Block& block = model.blocks[b];
    const Sheet& sheet = model.sheets[block.sheet];
    out[b] = tear_out(sheet, block, prices);
    if (sheet.build == Build::wallboard) out[b] += prices.rip_per_ft * (block.wall_to_in - block.wall_from_in) / 12;
    problem.stay_cents.push_back(block.by_way ? 0 : cents(prices.leave_unsound_per_sf * sheet.share * block.opened_again_in2 / 144));
    problem.must_go.push_back(block.known || sheet.goes || block.by_way ? 1 : 0);
    problem.must_stay.push_back(0);
  }
  for (const auto& rim : model.rims) {
    if (!rim.cut || model.blocks[rim.block].by_way) continue;
    const EdgeKind like = !rim.is_end ? EdgeKind::rip : rim.support != kNone ? EdgeKind::cross_on_support : EdgeKind::cross_in_air;
    out[rim.block] += per_ft(prices, like, with_blocking) * rim.length_in / 12;
  }
  for (const double money : out) problem.out_cents.push_back(cents(money));
  for (const auto& joint : model.joints) problem.pairs.push_back({joint.a, joint.b, cents(per_ft(prices, joint.kind, with_blocking) * joint.length_in / 12)});
  problem.implies = model.above;
  return problem;
}

}  // namespace awlmark::cutback
