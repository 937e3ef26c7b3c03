#include "takeoff/cut_plan.hpp"

#include "reckon/topic.hpp"

namespace awlmark::takeoff {

inline doc::FieldRules field_rules(const Stock*) {
  return {{.name = "length_in", .required = true, .min = 0, .max = 1e5, .above_min = true},
          {.name = "price", .text = "of one stick; 1 where only their number counts, 0 for an offcut on hand", .required = true, .min = 0, .max = 1e7},
          {.name = "available", .text = "no limit when left out; what costs nothing needs one", .min = 0, .max = 100000},
          {.name = "defects", .text = "stretches of an offcut on hand that no piece may use", .max_items = 20}};
}
inline doc::FieldRules field_rules(const Defect*) {
  return {{.name = "from_in", .required = true, .min = 0, .max = 1e5}, {.name = "to_in", .required = true, .min = 0, .max = 1e5, .above_min = true}};
}
inline doc::FieldRules field_rules(const PieceNeed*) {
  return {{.name = "length_in", .required = true, .min = 0, .max = 1e5, .above_min = true}, {.name = "count", .required = true, .min = 0, .max = 100000}};
}

}  // namespace awlmark::takeoff

namespace awlmark::reckon {
namespace cut_plan_topic {

struct CutPlanIn {
  std::vector<takeoff::Stock> stock;
  std::vector<takeoff::PieceNeed> pieces;
  double kerf_in = 0.125;
};
BOOST_DESCRIBE_STRUCT(CutPlanIn, (), (stock, pieces, kerf_in))

doc::FieldRules field_rules(const CutPlanIn*) {
  return {{.name = "stock", .text = "lengths that can be bought", .required = true, .min_items = 1, .max_items = 30},
          {.name = "pieces", .required = true, .min_items = 1, .max_items = 120},
          {.name = "kerf_in", .text = "width of the saw cut", .min = 0, .max = 2}};
}

struct CutPlanOut {
  std::vector<takeoff::Stick> sticks;
  int stick_count = 0;
  double cost = 0;
  bool proven = false;
  double lower_bound = 0;
  double gap_percent = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(CutPlanOut, (), (sticks, stick_count, cost, proven, lower_bound, gap_percent, reason))

doc::FieldRules field_rules(const CutPlanOut*) {
  return {{.name = "sticks", .text = "what to buy, how many times, and the cuts of each"},
          {.name = "proven", .text = "no cheaper plan exists"},
          {.name = "lower_bound", .text = "of the relaxation, rounded up to what the prices can add up to"},
          {.name = "gap_percent", .text = "how far above the least the cost can be at most; 0 when proven"}};
}

Outcome<CutPlanOut> answer(const CutPlanIn& in) {
  takeoff::CutQuestion question;
  question.stock = in.stock;
  question.pieces = in.pieces;
  question.kerf_in = in.kerf_in;
  auto plan = takeoff::cut_plan(question);
  if (!plan) return refused<CutPlanOut>(plan.problems);
  CutPlanOut out;
  out.sticks = std::move(plan.value->sticks);
  for (const auto& stick : out.sticks) out.stick_count += stick.times;
  out.cost = plan.value->cost;
  out.proven = plan.value->proven;
  out.lower_bound = plan.value->lower_bound;
  out.gap_percent = plan.value->gap * 100;
  out.reason.compares = "cost of the plan against the least that any plan can cost";
  out.reason.demand = out.lower_bound;
  out.reason.capacity = out.cost;
  out.reason.rule = "column generation and search; pieces fit when lengths and the kerfs between them add up to at most the stick";
  out.reason.source = "Gilmore and Gomory, Operations Research 9";
  out.reason.edition = "1961";
  out.reason.status = SourceStatus::memory;
  auto outcome = answered(std::move(out));
  if (!outcome.value->proven) outcome.warnings.push_back({"", "was not proven within the limits of the search", "a plan below lower_bound does not exist"});
  return outcome;
}

}  // namespace cut_plan_topic

Topic cut_plan() {
  using namespace cut_plan_topic;
  return make_topic<CutPlanIn, CutPlanOut>(
      {.id = "cut-plan",
       .asks = "Which sticks to buy, and how to cut them, at the least cost?",
       .sources = {"Gilmore and Gomory (1961): column generation; the optimum is then proven by search"},
       .example =
           R"({"stock": [{"length_in": 96, "price": 7.48}, {"length_in": 120, "price": 9.22}], "pieces": [{"length_in": 58.5, "count": 6}, {"length_in": 14.5, "count": 8}], "kerf_in": 0.125})"},
      answer);
}

}  // namespace awlmark::reckon
