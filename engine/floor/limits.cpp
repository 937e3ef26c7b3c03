#include "floor/limits.hpp"

#include "base/described.hpp"
#include "base/length.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

Limit strictest(Finish finish, const char* load, std::optional<double> job_over) {
  const auto& table = tables::table("deflection.csv");
  const std::string word = doc::word_of(finish);
  Limit limit;
  limit.over = 0;
  for (const auto& row : table.rows()) {
    if (row.text("load") != load || (row.text("finish") != "any" && row.text("finish") != word)) continue;
    const double over = row.number("over");
    // The finish's own row names the limit even where the code asks for the same.
    if (over >= limit.over) limit.over = over, limit.reason = row.reason();
  }
  if (job_over && *job_over > limit.over) {
    limit.over = *job_over;
    limit.reason = {};
    limit.reason.source = "the job";
    limit.reason.rule = "rebuild.deflection_over";
    limit.reason.status = SourceStatus::derived;
  }
  limit.reason.rule = "span / " + format_number(limit.over, 0) + (limit.reason.rule.empty() ? "" : ": " + limit.reason.rule);
  return limit;
}

}  // namespace

Limit live_limit(Finish finish, std::optional<double> job_over) { return strictest(finish, "live", job_over); }
Limit total_limit() { return strictest(Finish::other, "total", std::nullopt); }
Limit point_limit(Finish finish, std::optional<double> job_over) { return strictest(finish, "point", job_over); }

}  // namespace awlmark::floor
