#include "floor/options.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/layout.hpp"

namespace awlmark::floor {
namespace {

constexpr double kWide_in = 24.5;        // past this supports count as wide-spaced girders
constexpr double kThickReach_in = 48.5;  // 48 oc panels

bool wants_flush(const Site& site) { return site.job.shower && site.job.shower->entry == Entry::flush && site.job.shower->outline_in.size() >= 3; }

const char* const kNoFlush = "a flush shower entry, unless the floor outside is built up to meet it";

void treat_in_kind(OptionPlan& plan, const Site& site) {
  for (const std::size_t i : members_to_treat(plan)) replace_member(plan, site, i, false);
}
// Weak members are seen to before any deck is laid, so their steps come first.
void treat_by_sisters(OptionPlan& plan, const Site& site) {
  auto later = std::move(plan.option.steps);
  plan.option.steps.clear();
  for (const std::size_t i : members_to_treat(plan)) sister_member(plan, site, i);
  plan.option.steps.insert(plan.option.steps.end(), later.begin(), later.end());
}

OptionPlan like_for_like(const Site& site) {
  auto plan = plan_from(site, "like_for_like", "Mend like for like");
  mend_deck(plan, site);
  treat_in_kind(plan, site);
  if (wants_flush(site)) plan.option.rules_out.push_back(kNoFlush);
  finish_plan(plan, site);
  return plan;
}

OptionPlan with_sisters(const Site& site) {
  auto plan = plan_from(site, "sisters", "Mend the deck, sister the weak members");
  mend_deck(plan, site);
  treat_by_sisters(plan, site);
  plan.option.rules_out.push_back("pipes or ducts in the bays on the sisters' side, until they are moved");
  if (wants_flush(site)) plan.option.rules_out.push_back(kNoFlush);
  finish_plan(plan, site);
  return plan;
}

OptionPlan with_new_members(const Site& site) {
  auto plan = plan_from(site, "replaced_members", "Mend the deck, replace the weak members with stronger ones");
  mend_deck(plan, site);
  for (const std::size_t i : members_to_treat(plan)) replace_member(plan, site, i, true);
  plan.option.rules_out.push_back("keeping the ceiling below whole");
  if (wants_flush(site)) plan.option.rules_out.push_back(kNoFlush);
  finish_plan(plan, site);
  return plan;
}

OptionPlan panels(const Site& site, double spacing_in) {
  const bool wide = spacing_in > kWide_in;
  auto plan = plan_from(site, "panels_on_added_joists",
                        wide ? "Panels over the whole room on joists added between the girders" : "Panels over the whole room on the joists, blocked");
  if (wide) add_joists(plan, site);
  lay_panels(plan, site, {"20 oc", "24 oc", "32 oc", "48 oc"});
  treat_by_sisters(plan, site);
  // Joists that are added carry the panels flush with the old deck; on the joists as they are the panels' own thickness decides.
  if (wide) plan.build_up_in = site.found.deck.thickness_in;
  plan.option.rules_out.push_back("keeping the old deck: all of it comes out");
  if (wants_flush(site)) plan.option.rules_out.push_back(kNoFlush);
  finish_plan(plan, site);
  return plan;
}

OptionPlan thick_panels(const Site& site) {
  auto plan = plan_from(site, "thick_panels_on_girders", "Thick panels over the whole room, straight on the girders");
  lay_panels(plan, site, {"48 oc"});
  treat_by_sisters(plan, site);
  plan.option.rules_out.push_back("keeping the old deck: all of it comes out");
  plan.option.rules_out.push_back("loads above 65 psf all told, which the panels' rating ends at");
  if (wants_flush(site)) plan.option.rules_out.push_back(kNoFlush);
  finish_plan(plan, site);
  return plan;
}

std::optional<OptionPlan> dropped_bay(const Site& site) {
  auto plan = plan_from(site, "dropped_bay", "Mend the deck and drop it under the shower for a flush entry");
  mend_deck(plan, site);
  treat_by_sisters(plan, site);
  if (!drop_bay(plan, site)) return std::nullopt;
  const auto bay_checks = plan.option.checks;
  plan.option.rules_out.push_back("pipes through the bay under the shower, except the drain");
  finish_plan(plan, site);
  for (const auto& check : bay_checks) {
    plan.option.checks.push_back(check);
    if (check.ok) continue;
    plan.option.ok = false;
    plan.option.needs_engineer = true;
    plan.option.engineer_for.push_back("the dropped bay does not meet " + check.id);
  }
  return plan;
}

double score(const Option& option) { return option.cost * (1 + 0.1 * std::max(0.0, option.height_change_in)); }

void rank(std::vector<Option>& options, bool flush) {
  const auto misses_wish = [&](const Option& option) {
    return flush && std::find(option.rules_out.begin(), option.rules_out.end(), kNoFlush) != option.rules_out.end();
  };
  std::stable_sort(options.begin(), options.end(), [&](const Option& a, const Option& b) {
    if (a.ok != b.ok) return a.ok;
    if (misses_wish(a) != misses_wish(b)) return !misses_wish(a);
    if (a.needs_engineer != b.needs_engineer) return !a.needs_engineer;
    // Equal to the cent counts as equal, so that the last bits of a sum cannot decide.
    const double sa = std::floor(score(a) * 100 + 0.5), sb = std::floor(score(b) * 100 + 0.5);
    return sa < sb;
  });
  for (std::size_t i = 0; i < options.size(); ++i) options[i].rank = static_cast<int>(i) + 1;
}

std::string signed_inches(double height_in) {
  if (std::fabs(height_in) < 1.0 / 32) return "leaves the height as it is";
  return std::string(height_in > 0 ? "raises" : "lowers") + " the floor " + format_inches(std::fabs(height_in));
}

void say_trade_off(std::vector<Option>& options) {
  const Option* cheapest = nullptr;
  for (const auto& option : options)
    if (option.ok && (!cheapest || option.cost < cheapest->cost - 0.005)) cheapest = &option;
  const double least = cheapest ? cheapest->cost : 0;
  const int least_rank = cheapest ? cheapest->rank : 0;
  for (auto& option : options) {
    std::string words = option.ok ? "Passes every check, " : "Fails a check, ";
    words += signed_inches(option.height_change_in) + ", weighs " + format_number(option.weight_psf, 1) + " psf and takes about " +
             format_number(option.hours.likely, 0) + " hours";
    if (!cheapest || option.rank == least_rank)
      words += option.ok ? ", at the least cost of those that pass" : "";
    else
      words += ", at $" + format_number(std::fabs(option.cost - least), 0) + (option.cost >= least ? " more than way " : " less than way ") +
               std::to_string(least_rank);
    if (!option.rules_out.empty()) words += "; it rules out " + option.rules_out.back();
    option.trade_off = words + ".";
  }
}

// The same members in the same sizes: a reader would be shown one way twice.
bool same_framing(const Option& a, const Option& b) {
  return a.framing.size() == b.framing.size() && std::equal(a.framing.begin(), a.framing.end(), b.framing.begin(),
                                                            [](const auto& x, const auto& y) { return x.id == y.id && x.kind == y.kind && x.size == y.size; });
}

}  // namespace

std::vector<Option> rebuild_options(const Site& site) {
  std::vector<Option> out;
  if (site.found.room.size() < 3) return out;
  out.push_back(like_for_like(site).option);
  const double spacing = widest_spacing_in(site.found);
  const auto probe = [&] {
    auto plan = plan_from(site, "probe", "");
    return !members_to_treat(plan).empty();
  }();
  if (probe) {
    out.push_back(with_sisters(site).option);
    auto stronger = with_new_members(site).option;
    if (!same_framing(stronger, out.front())) out.push_back(std::move(stronger));
  }
  if (spacing > 0 && site.found.deck.kind != DeckModel::Kind::none) {
    out.push_back(panels(site, spacing).option);
    if (spacing > kWide_in && spacing <= kThickReach_in) out.push_back(thick_panels(site).option);
  }
  if (wants_flush(site))
    if (auto plan = dropped_bay(site)) out.push_back(plan->option);
  rank(out, wants_flush(site));
  say_trade_off(out);
  return out;
}

}  // namespace awlmark::floor
