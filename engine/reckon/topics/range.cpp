#include "price/range.hpp"

#include "reckon/topic.hpp"

namespace awlmark::price {

inline doc::FieldRules field_rules(const RangeItem*) {
  return {{.name = "low", .required = true, .min = -1e12, .max = 1e12},
          {.name = "likely", .required = true, .min = -1e12, .max = 1e12},
          {.name = "high", .required = true, .min = -1e12, .max = 1e12},
          {.name = "shape", .text = "triangular when left out"}};
}
BOOST_DESCRIBE_STRUCT(RangeItem, (), (low, likely, high, shape))

}  // namespace awlmark::price

namespace awlmark::reckon {
namespace range_topic {

constexpr int kMostDraws = 200000;
constexpr double kMostWork = 4e6;  // draws times items

struct RangeIn {
  std::vector<price::RangeItem> items;
  int draws = 10000;
  std::uint64_t seed = 1954;
};
BOOST_DESCRIBE_STRUCT(RangeIn, (), (items, draws, seed))

doc::FieldRules field_rules(const RangeIn*) {
  return {{.name = "items", .text = "each low, likely, high and its shape; independent of each other", .required = true, .min_items = 1, .max_items = 500},
          {.name = "draws", .min = 100, .max = kMostDraws},
          {.name = "seed", .min = 0, .max = 9007199254740991}};
}

struct RangeOut {
  double mean = 0;
  double sd = 0;
  double p10 = 0;
  double p50 = 0;
  double p80 = 0;
  double p90 = 0;
  double sum_of_likely = 0;
  double chance_of_likely = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(RangeOut, (), (mean, sd, p10, p50, p80, p90, sum_of_likely, chance_of_likely, reason))

doc::FieldRules field_rules(const RangeOut*) {
  return {{.name = "mean", .text = "exact"},
          {.name = "sd", .text = "exact"},
          {.name = "p80", .text = "four in five end at or below"},
          {.name = "chance_of_likely", .text = "chance of ending at or below the sum of the likely figures"}};
}

Outcome<RangeOut> answer(const RangeIn& in) {
  Problems problems;
  for (std::size_t i = 0; i < in.items.size(); ++i) {
    const auto& item = in.items[i];
    const std::string at = "items[" + std::to_string(i) + "]";
    if (item.likely < item.low) problems.push_back({at + ".likely", "is below low", "low, likely and high must rise"});
    if (item.high < item.likely) problems.push_back({at + ".high", "is below likely", "low, likely and high must rise"});
  }
  if (static_cast<double>(in.draws) * static_cast<double>(in.items.size()) > kMostWork)
    problems.push_back({"draws", "times the items is more than 4,000,000", "ask for fewer draws"});
  if (!problems.empty()) return refused<RangeOut>(problems);
  const auto sum = price::range_of_sum(in.items, in.draws, in.seed);
  RangeOut out{sum.mean, sum.sd, sum.p10, sum.p50, sum.p80, sum.p90, sum.sum_of_likely, sum.chance_of_likely, {}};
  out.reason.compares = "sum of independent items, each with its range";
  out.reason.rule =
      "triangular: mean (a + m + b) / 3; PERT: beta with weight 4 on likely, variance (mean - a)(b - mean) / 7, not ((b - a) / 6)^2. Percentiles " +
      std::string(in.items.size() == 1 ? "exact" : "by stratified draws from the seed, between order statistics");
  out.reason.source = "Vose, Risk Analysis; McKay, Beckman and Conover, Technometrics 21";
  out.reason.edition = "2008; 1979";
  out.reason.status = SourceStatus::memory;
  return answered(std::move(out));
}

}  // namespace range_topic

Topic range() {
  using namespace range_topic;
  return make_topic<RangeIn, RangeOut>(
      {.id = "range",
       .asks = "What is the honest range of a sum of uncertain items?",
       .sources = {"Triangular and beta-PERT distributions: Vose, Risk Analysis", "Stratified draws: McKay, Beckman and Conover (1979)"},
       .example =
           R"({"items": [{"low": 2, "likely": 3, "high": 7, "shape": "triangular"}, {"low": 10, "likely": 12, "high": 18, "shape": "pert"}], "draws": 10000, "seed": 1954})"},
      answer);
}

}  // namespace awlmark::reckon
