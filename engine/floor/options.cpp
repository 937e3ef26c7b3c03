#include "floor/options.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

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

void first_steps(OptionPlan& plan, const std::function<void()>& work) {
  // Weak members are seen to before any deck is laid, so their steps come first.
  auto later = std::move(plan.option.steps);
  plan.option.steps.clear();
  work();
  plan.option.steps.insert(plan.option.steps.end(), later.begin(), later.end());
}

void treat_by_sisters(OptionPlan& plan, const Site& site) {
  first_steps(plan, [&] {
    hang_free_ends(plan, site);
    hold_walls_on_deck(plan, site);
    // A new header loads its trimmers: a second look finds those that it makes too weak.
    for (int pass = 0; pass < 2; ++pass)
      for (const std::size_t i : members_to_treat(plan, site, false))
        if (!cleat_member(plan, site, i)) sister_member(plan, site, i);
  });
}

// Only the hole: members are sound and no more loaded than they may be.
constexpr double kPatch_sf = 16;
constexpr double kPatchShare = 0.3;
bool small(const Site& site) {
  const double out = cut_out_sf(site);
  return out > 0 && (out <= kPatch_sf || out <= kPatchShare * area_in2(site.found.room) / 144);
}

OptionPlan in_kind(const Site& site, bool patch) {
  auto plan = patch ? plan_from(site, "patch", "Patch the hole; the framing stays as it is") : plan_from(site, "like_for_like", "Mend like for like");
  mend_deck(plan, site);
  if (!patch)
    first_steps(plan, [&] {
      for (const std::size_t i : members_to_treat(plan, site, true)) replace_member(plan, site, i, false);
    });
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
  first_steps(plan, [&] {
    hang_free_ends(plan, site);
    hold_walls_on_deck(plan, site);
    for (const std::size_t i : members_to_treat(plan, site, false)) replace_member(plan, site, i, true);
  });
  plan.option.rules_out.push_back("keeping the ceiling below whole");
  if (wants_flush(site)) plan.option.rules_out.push_back(kNoFlush);
  finish_plan(plan, site);
  return plan;
}

// Cut or rotten joists on headers between their neighbours.
std::optional<OptionPlan> with_headers(const Site& site) {
  auto plan = plan_from(site, "headers", "Mend the deck, head off the cut or rotten joists between their neighbours");
  mend_deck(plan, site);
  bool any = false;
  first_steps(plan, [&] {
    any = head_off(plan, site);
    for (int pass = 0; pass < 2; ++pass)
      for (const std::size_t i : members_to_treat(plan, site, false)) sister_member(plan, site, i);
  });
  if (!any) return std::nullopt;
  plan.option.rules_out.push_back("pipes through the headers and the trimmers beside them");
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

std::optional<OptionPlan> dropped_bay(const Site& site, std::string& why) {
  auto plan = plan_from(site, "dropped_bay", "Mend the deck and drop it under the shower for a flush entry");
  // The bay first: what lies inside it is neither mended nor bought.
  why = drop_bay(plan, site);
  if (!why.empty()) return std::nullopt;
  auto bay_steps = std::move(plan.option.steps);
  plan.option.steps.clear();
  mend_deck(plan, site);
  treat_by_sisters(plan, site);
  plan.option.steps.insert(plan.option.steps.end(), bay_steps.begin(), bay_steps.end());
  plan.option.rules_out.push_back("pipes through the bay under the shower, except the drain");
  finish_plan(plan, site);
  return plan;
}

// Cost, and what a way does to the house: each member that it touches, each inch that it lifts the floor.
double score(const Option& option) {
  std::size_t touched = 0;
  for (const auto& line : option.framing) touched += line.kind != "blocking" ? 1 : 0;
  return option.cost * (1 + 0.1 * std::max(0.0, option.height_change_in) + 0.02 * static_cast<double>(touched));
}

void rank(std::vector<Option>& options, bool flush) {
  const auto misses_wish = [&](const Option& option) {
    return flush && std::find(option.rules_out.begin(), option.rules_out.end(), kNoFlush) != option.rules_out.end();
  };
  std::stable_sort(options.begin(), options.end(), [&](const Option& a, const Option& b) {
    if ((a.verdict == Verdict::fails) != (b.verdict == Verdict::fails)) return b.verdict == Verdict::fails;
    if (misses_wish(a) != misses_wish(b)) return !misses_wish(a);
    if (a.verdict != b.verdict) return a.verdict < b.verdict;
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
    std::string words = option.verdict == Verdict::passes     ? "Passes every check, "
                        : option.verdict == Verdict::ask      ? "Passes unless a wall carries the most that it may, "
                        : option.verdict == Verdict::engineer ? "Needs an engineer, "
                                                              : "Fails a check, ";
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

bool uses(const Option& option, const char* kind) {
  return std::any_of(option.framing.begin(), option.framing.end(), [&](const FramingLine& line) { return line.kind == kind; });
}

}  // namespace

std::vector<Option> rebuild_options(const Site& site, std::vector<std::string>& cautions) {
  std::vector<Option> out;
  if (site.found.room.size() < 3) return out;
  const double spacing = usual_spacing_in(site.found);
  const auto probe = [&](bool damage_only) {
    auto plan = plan_from(site, "probe", "");
    return !members_to_treat(plan, site, damage_only).empty();
  };
  const bool wall = [&] {
    auto plan = plan_from(site, "probe", "");
    hold_walls_on_deck(plan, site);
    return !plan.option.framing.empty();
  }();
  const bool weak = wall || probe(false);
  const bool falls = std::any_of(site.found.members.begin(), site.found.members.end(), [](const Member& m) { return !m.lies_on && m.rests.size() < 2; });
  out.push_back(in_kind(site, small(site) && !probe(true)).option);
  if (weak || falls) {
    auto sisters = with_sisters(site).option;
    if (uses(sisters, "sister") || uses(sisters, "trimmer") || uses(sisters, "cleat") || uses(sisters, "added_joist")) out.push_back(std::move(sisters));
    auto stronger = with_new_members(site).option;
    if (uses(stronger, "new_member") && !same_framing(stronger, out.front())) out.push_back(std::move(stronger));
    if (auto plan = with_headers(site)) out.push_back(plan->option);
  }
  if (spacing > 0 && site.found.deck.kind != DeckModel::Kind::none) {
    out.push_back(panels(site, spacing).option);
    if (spacing > kWide_in && spacing <= kThickReach_in) out.push_back(thick_panels(site).option);
  }
  if (wants_flush(site)) {
    std::string why;
    if (auto plan = dropped_bay(site, why))
      out.push_back(plan->option);
    else
      cautions.push_back("The shower's floor cannot be dropped between the framing: " + why +
                         ". For a flush entry build the floor outside up to the shower's, or move the shower; else it takes a curb.");
  }
  rank(out, wants_flush(site));
  say_trade_off(out);
  return out;
}

}  // namespace awlmark::floor
