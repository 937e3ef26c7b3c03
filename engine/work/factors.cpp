#include "work/factors.hpp"

#include <cmath>

#include "base/random.hpp"
#include "base/special.hpp"
#include "tables/usual.hpp"

namespace awlmark::work {
namespace {

std::vector<double> lognormal(const std::vector<double>& p, double spread) {
  std::vector<double> out;
  for (const double one : p) out.push_back(det_exp(spread * normal_quantile(one) - spread * spread / 2));
  return out;
}

// FNV-1a: the same number for a name on every target.
std::uint64_t number_of(const std::string& name) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return hash;
}

// Quantiles at the middle of every slice, read off a grid of exact ones by a cubic; a beta quantile is dear.
std::vector<double> slices(double mode, std::size_t count) {
  constexpr std::size_t kGrid = 96, kEnds = 3;
  const ThreePoint unit{0, mode, 1};
  if (count <= kGrid) {
    std::vector<double> out;
    for (std::size_t i = 0; i < count; ++i) out.push_back(pert_quantile(unit, (static_cast<double>(i) + 0.5) / static_cast<double>(count)));
    return out;
  }
  std::vector<double> grid;
  for (std::size_t i = 0; i <= kGrid; ++i) grid.push_back(pert_quantile(unit, static_cast<double>(i) / kGrid));
  std::vector<double> out;
  for (std::size_t i = 0; i < count; ++i) {
    const double p = (static_cast<double>(i) + 0.5) / static_cast<double>(count);
    const auto k = static_cast<std::size_t>(p * kGrid);
    if (k < kEnds || k + kEnds >= kGrid) {
      out.push_back(pert_quantile(unit, p));
      continue;
    }
    const double t = p * kGrid - static_cast<double>(k), a = grid[k - 1], b = grid[k], c = grid[k + 1], d = grid[k + 2];
    out.push_back(-a * t * (t - 1) * (t - 2) / 6 + b * (t + 1) * (t - 1) * (t - 2) / 2 - c * (t + 1) * t * (t - 2) / 2 + d * (t + 1) * t * (t - 1) / 6);
  }
  return out;
}

}  // namespace

Factors::Factors(std::size_t count, std::uint64_t seed) : seed_(seed), pace_(count), market_(count) {
  pace_ = lognormal(order("pace"), tables::usual().pace_spread);
  market_ = lognormal(order("market"), tables::usual().market_spread);
}

std::vector<double> Factors::order(const std::string& name) const {
  const std::size_t n = pace_.size();
  std::vector<double> p(n);
  for (std::size_t i = 0; i < n; ++i) p[i] = (static_cast<double>(i) + 0.5) / static_cast<double>(n);
  Random random(stream_seed(seed_, number_of(name)));
  for (std::size_t i = n; i > 1; --i) std::swap(p[i - 1], p[random.below(i)]);
  return p;
}

std::vector<double> Factors::shares(const std::string& name, const ThreePoint& range) {
  const std::size_t n = count();
  if (!(range.high > range.low)) return std::vector<double>(n, 0);
  const double mode = (range.likely - range.low) / (range.high - range.low);
  const auto key = static_cast<std::int64_t>(std::llround(mode * 1e6));
  auto found = shapes_.find(key);
  if (found == shapes_.end()) found = shapes_.emplace(key, slices(static_cast<double>(key) / 1e6, n)).first;
  auto out = order(name);
  for (double& p : out) p = found->second[static_cast<std::size_t>(p * static_cast<double>(n))];
  return out;
}

}  // namespace awlmark::work
