#include "cutback/settings.hpp"

#include <stdexcept>

#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::cutback {
namespace {

const tables::Row& row(const std::string& id) {
  const auto* found = tables::table("cut_rules.csv").find("id", id);
  if (!found) throw std::logic_error("data/cut_rules.csv: there is no " + id);
  return *found;
}

}  // namespace

double figure(const std::string& id) { return row(id).number("value"); }

Reason figure_reason(const std::string& id) {
  Reason reason = row(id).reason();
  reason.compares = row(id).text("what");
  reason.unit = row(id).text("unit");
  reason.demand = row(id).number("value");
  return reason;
}

Rules rules_of(const Job& job) {
  const CutRules given = job.cut_rules.value_or(CutRules{});
  Rules rules;
  rules.margin_in = given.margin_in.value_or(figure("margin_along"));
  rules.margin = rules.margin_in > 0;
  rules.ends_on_support = given.ends_on_support.value_or(true);
  rules.two_supports = given.two_supports.value_or(true);
  rules.stagger = given.stagger.value_or(true);
  rules.no_slivers = given.no_slivers.value_or(true);
  rules.spare_bearing_walls = given.spare_bearing_walls.value_or(true);
  rules.contaminated_goes = given.contaminated_goes.value_or(true);
  return rules;
}

}  // namespace awlmark::cutback
