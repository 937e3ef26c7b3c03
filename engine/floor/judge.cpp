#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/as_found.hpp"
#include "floor/deck_checks.hpp"

namespace awlmark::floor {
namespace {

void append(std::vector<std::string>& to, const std::vector<std::string>& from) {
  for (const auto& line : from)
    if (std::find(to.begin(), to.end(), line) == to.end()) to.push_back(line);
}

bool same(const Check& a, const Check& b) { return a.state == b.state && std::fabs(a.demand - b.demand) <= 1e-9 * (1 + std::fabs(a.demand)); }

// The checks of both runs; one that a wall's load does not touch stands once.
std::vector<Check> merged(const std::vector<Check>& low, const std::vector<Check>& high) {
  std::vector<Check> out;
  for (const auto& check : high) {
    // A member may bear the deck's name: the id alone does not tell them apart.
    const auto twin = std::find_if(low.begin(), low.end(), [&](const Check& other) {
      return other.id == check.id && other.member == check.member && (other.kind.rfind("deck_", 0) == 0) == (check.kind.rfind("deck_", 0) == 0);
    });
    if (twin != low.end() && same(*twin, check)) {
      out.push_back(check);
      continue;
    }
    if (twin != low.end()) {
      out.push_back(*twin);
      out.back().case_ = "low";
    }
    out.push_back(check);
    out.back().case_ = "high";
  }
  return out;
}

void weigh(const Model& model, Judged& out) {
  if (model.members.empty() || balanced(out.balance)) return;
  out.verdict = Verdict::fails;
  out.fails_for.push_back("of " + format_number(out.balance.applied_lb, 0) + " lb on the framing only " + format_number(out.balance.carried_lb, 0) +
                          " lb reach a rest: something here is held by nothing, or by less than two rests");
}

}  // namespace

bool balanced(const Balance& balance) { return std::fabs(balance.applied_lb - balance.carried_lb) <= kBalance * std::max(1.0, std::fabs(balance.applied_lb)); }

ModelChecks check_model(const Model& model, Case which) {
  ModelChecks out;
  const auto paths = load_paths(model, which);
  out.balance = paths.balance;
  out.checks = check_members(model, paths);
  const auto deck = check_deck(model);
  for (const auto& check : deck.checks) add(out.checks, check);
  append(out.checks.words, deck.words);
  out.checks.ok = out.checks.ok && deck.ok && !model.members.empty();
  check_deck_loads(model, which, out.checks);
  check_deck_fixtures(model, out.checks);
  return out;
}

Judged judge(const Model& model) {
  Judged out;
  const auto take = [&](const ModelChecks& run) {
    out.balance = run.balance;
    append(out.words, run.checks.words);
    append(out.asks, run.checks.asks);
  };
  if (model.open_walls.empty()) {
    const auto run = check_model(model, Case::known);
    take(run);
    out.checks = run.checks.checks;
    out.verdict = run.checks.ok ? Verdict::passes : Verdict::fails;
  } else {
    const auto low = check_model(model, Case::low), high = check_model(model, Case::high);
    take(high);
    out.checks = merged(low.checks.checks, high.checks.checks);
    if (low.checks.ok && high.checks.ok)
      out.verdict = Verdict::passes;
    else if (low.checks.ok)
      out.verdict = Verdict::ask;
    else
      out.verdict = check_model(model, Case::known).checks.ok ? Verdict::engineer : Verdict::fails;
  }
  weigh(model, out);
  return out;
}

}  // namespace awlmark::floor
