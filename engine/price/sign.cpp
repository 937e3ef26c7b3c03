#include "price/sign.hpp"

#include <algorithm>
#include <cmath>

#include "base/dollars.hpp"
#include "base/length.hpp"
#include "price/weighted.hpp"
#include "tables/materials.hpp"

namespace awlmark::price {
namespace {

std::string spoken(const Layer& layer) { return tables::material_facts(doc::word_of(layer.material)).spoken; }

void base_quantities(const Job& job, const cutback::CutBack& cut, const floor::Option* option, Price& out) {
  const auto add = [&](const std::string& item, double quantity, const char* unit) {
    if (quantity > 0) out.base_quantities.push_back({item, quantity, unit});
  };
  for (std::size_t i = 0; i < job.layers.size() && i < cut.quantities.layer_sf.size(); ++i)
    add(spoken(job.layers[i]) + " (" + job.layers[i].id + ")", cut.quantities.layer_sf[i], "sf");
  add("bottom plate", cut.quantities.plate_ft, "ft");
  add("wallboard above the plate", cut.quantities.wallboard_sf, "sf");
  add("blocking", cut.quantities.blocking_ft, "ft");
  if (!option) return;
  double sisters = 0, renewed = 0, added = 0;
  for (const auto& line : option->framing) {
    sisters += line.kind == "sister";
    renewed += line.kind == "new_member";
    added += line.kind == "added_joist" || line.kind == "bay_joist" || line.kind == "header" || line.kind == "trimmer";
  }
  add("members sistered", sisters, "each");
  add("members renewed", renewed, "each");
  add("joists and headers added", added, "each");
}

void unit_prices(const Job& job, const Rates& rates, const floor::Option* option, const RunCosts& mild, Price& out) {
  using goods::Extent;
  const auto add = [&](const std::string& item, const char* unit, const goods::Growth& what) {
    const double price = mild.one_more(what);
    if (price > 0) out.unit_prices.push_back({item, unit, price, what});
  };
  for (const auto& layer : job.layers) add(spoken(layer) + " (" + layer.id + ")", "sf", {Extent::layer_sf, layer.id});
  add("bottom plate", "ft", {Extent::plate_ft, {}});
  add("wallboard above the plate", "sf", {Extent::wallboard_sf, {}});
  add("blocking", "ft", {Extent::blocking_ft, {}});
  add("saw cut", "ft", {Extent::saw_ft, {}});
  // One member of each size and state, by its own repair.
  const double hour = mild.one_more({Extent::members, {}});
  std::vector<std::string> said;
  for (std::size_t s = 0; s < job.supports.size(); ++s) {
    const auto& support = job.supports[s];
    if (support.role != SupportRole::joist && support.role != SupportRole::girder) continue;
    for (const auto state : {measure::MemberState::decayed, measure::MemberState::decayed_at_rest}) {
      const auto repair = work::repair_of(job, option, s, state);
      std::string item = doc::spoken(support.role) + (support.size ? " " + section_text(*support.size) : std::string()) + ", " +
                         format_length(distance_in(support.from_in, support.to_in)) +
                         (repair.goods.front().kind == goods::Kind::sister ? ", sistered" : ", renewed");
      if (std::find(said.begin(), said.end(), item) != said.end()) continue;
      said.push_back(item);
      double goods = 0;
      for (const auto& good : repair.goods) goods += goods::cost(job, good);
      out.unit_prices.push_back({item, "each", repair.hours.likely * hour + goods * rates.tax.on_goods() * rates.scale(), {Extent::members, {}}});
    }
  }
}

bool has_task(const work::Result& work, const char* id) {
  return std::any_of(work.findings.tasks.begin(), work.findings.tasks.end(), [&](const work::Task& task) { return task.id == id; });
}

void not_included(const Job& job, const work::Result& work, Price& out) {
  auto& list = out.not_included;
  const auto open = [&](const char* prefix) {
    return std::any_of(work.findings.open.begin(), work.findings.open.end(), [&](const work::Outcome& o) { return o.id.rfind(prefix, 0) == 0; });
  };
  if (open("laboratory.")) list.push_back("licensed removal, should the laboratory find asbestos: its own price stands beside the base");
  if (open("engineer.")) list.push_back("what an engineer asks for beyond the framing drawn");
  if (!has_task(work, "stop_water")) list.push_back("repair of the leak itself");
  bool toilet = false;
  for (const auto& fixture : job.fixtures) toilet = toilet || fixture.kind == FixtureKind::toilet;
  if (toilet) list.push_back("closet flange and bend, should they be found broken");
  list.push_back("pipes, wires and ducts that nobody could see, beyond moving them aside");
  list.push_back("what an inspector orders beyond this work");
  if (job.job.below == Below::room) list.push_back("the ceiling of the room below");
  if (job.job.below == Below::crawl_space) list.push_back("cover and insulation of the crawl space");
  if (job.shower) list.push_back("shower walls, valve and glass");
  list.push_back("fan, lights and wiring");
  if (!has_task(work, "toilet_hire") && toilet) list.push_back("a temporary toilet");
  list.push_back("growth or pests beyond the area opened");
}

// What differs from state to state; what nobody has set is asked, never guessed.
void terms(const Job& job, Price& out) {
  const auto settings = job.settings.value_or(StateSettings{});
  const std::string source = settings.source.value_or("") + (settings.date ? (settings.source ? ", " : "") + *settings.date : std::string());
  const auto add = [&](const char* what, const std::optional<std::string>& value) {
    out.terms.push_back({what, value.value_or("ask"), value ? source : std::string()});
  };
  std::optional<std::string> deposit, cancel, changes;
  if (settings.deposit_max_percent) {
    out.deposit_most = (out.base + out.opening) * *settings.deposit_max_percent / 100;
    deposit = "at most " + format_number(*settings.deposit_max_percent, 1) + " percent: " + format_dollars(std::floor(*out.deposit_most));
  }
  if (settings.cancellation_days) cancel = format_number(*settings.cancellation_days, 0) + " business days; work waits for their end";
  if (settings.written_changes)
    changes = *settings.written_changes ? "in writing, signed before their work" : "the law asks for none; these papers write them all the same";
  add("deposit", deposit);
  add("licence number", settings.licence_number);
  add("notice of lien", settings.lien_notice);
  add("days to cancel", cancel);
  add("changes", changes);
}

// What the owner has declined is signed as declined and offered no more.
void decide(const Job& job, std::vector<Scope>& parts) {
  Scope declined{"declined", {}};
  for (const auto& decision : job.decisions) {
    if (decision.answer != Answer::declined) continue;
    declined.items.push_back(decision.what + " (declined by " + decision.by + ", " + decision.time.substr(0, 10) + ")");
    for (auto& part : parts) part.items.erase(std::remove(part.items.begin(), part.items.end(), decision.what), part.items.end());
  }
  if (!declined.items.empty()) parts.push_back(std::move(declined));
}

void scope(const Job& job, const floor::Option* option, const work::Result& work, Price& out) {
  Scope must{"must", {}}, should{"should", {}}, offer{"offer", {}};
  must.items.push_back("take out the rot found and what hides it, back to sound wood");
  if (option) must.items.push_back(option->title);
  if (has_task(work, "dry_out")) must.items.push_back("dry the framing before it is closed");
  if (has_task(work, "stop_water")) must.items.push_back("stop the water first");
  if (has_task(work, "rough_inspection")) should.items.push_back("permit and inspection");
  if (has_task(work, "contain")) should.items.push_back("keep dust and growth inside the room");
  should.items.push_back("photographs and readings before covering");
  if (job.rebuild) offer.items.push_back("new " + doc::spoken(job.rebuild->finish) + " over the whole room");
  if (job.shower) offer.items.push_back("the new shower");
  offer.items.push_back("base and paint of the whole room");
  out.scope = {must, should, offer};
  decide(job, out.scope);
}

// Markup on cost and margin of the price are told apart every time.
std::string markup_words(const money::Markup& markup) {
  const auto percent = [](double share) { return format_number(share * 100, 1) + " percent"; };
  const std::string on_cost = percent(markup.times - 1);
  if (markup.by_margin) return "The margin is " + percent(markup.margin) + " of the price, which is " + on_cost + " added to cost.";
  return "Overhead " + percent(markup.overhead) + " is added to cost, then profit " + percent(markup.profit) + " to cost and overhead: together " + on_cost +
         ", not " + percent(markup.overhead + markup.profit) + ". As a margin that is " + percent(markup.margin) + " of the price.";
}

std::string tax_words(const money::SalesTax& tax) {
  const std::string law = " Local law may ask for another treatment.";
  const std::string percent = format_number(tax.share * 100, 2) + " percent";
  switch (tax.on) {
    case TaxOn::goods:
      return "Sales tax of " + percent + " is added to what goods cost, none to labour." + law;
    case TaxOn::invoice:
      return "Sales tax of " + percent + " is added to the whole invoice, and every figure here holds it." + law;
    case TaxOn::none:
      return "No sales tax is added, as the rates say." + law;
    case TaxOn::in_prices:
      break;
  }
  return "Goods stand at counter prices with sales tax in them; none is added to labour." + law;
}

void say(const Rates& rates, Price& out) {
  auto& words = out.words;
  words.push_back("Half of jobs like this end below " + rough_dollars(out.p50) + "; four in five below " + rough_dollars(out.p80) + "; nine in ten below " +
                  rough_dollars(out.p90) + ".");
  words.push_back("What is signed is the base of " + rough_dollars(out.base) +
                  " with its quantities, and unit prices for what turns up, added and credited, measured together and photographed before it is covered; each "
                  "change is signed before its work.");
  words.push_back("At " + rough_dollars(out.cap) + " work stops, safe, until the owner signs for more; a day of waiting then is " + rough_dollars(out.standby) +
                  ".");
  for (const auto& branch : out.branches)
    if (branch.id.rfind("laboratory.", 0) == 0 || branch.id.rfind("engineer.", 0) == 0)
      words.push_back("If " + branch.words + " (about " + format_number(branch.chance * 100, 0) + " in 100): " + rough_dollars(branch.p50) +
                      ", four in five below " + rough_dollars(branch.p80) + ".");
  const int in_ten = static_cast<int>(std::lround(out.from_floor_share * 10));
  words.push_back(in_ten == 0 ? "Hardly any of the spread comes from floor not yet seen: more openings would not narrow this price."
                              : "About " + std::to_string(in_ten) + (in_ten == 1 ? " tenth" : " tenths") +
                                    " of the spread comes from floor not yet seen, which openings narrow.");
  words.push_back(markup_words(rates.markup));
  words.push_back(tax_words(rates.tax));
  words.push_back("Percentiles do not add: the sum of the highs of the lines is far above the high of the whole.");
}

}  // namespace

void sign(const Job& job, const Rates& rates, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off,
          const work::Result& work, const RunCosts& mild, Price& out) {
  (void)take_off;
  const auto chosen = std::find_if(floor.options.begin(), floor.options.end(), [&](const floor::Option& o) { return o.id == floor.chosen; });
  const floor::Option* option = chosen != floor.options.end() ? &*chosen : nullptr;
  out.base = mild.as_planned();
  out.opening = rates.opening * rates.scale();
  out.standby = rates.standby;
  out.markup_percent = (rates.markup.times - 1) * 100;
  out.margin_percent = rates.markup.margin * 100;
  out.sales_tax_on = rates.tax.on;
  out.sales_tax_percent = rates.tax.share * 100;
  std::vector<Sample> totals;
  const std::size_t floors = std::max<std::size_t>(1, work.reveal.draws());
  for (std::size_t d = 0; d < floors; ++d) totals.push_back({mild.of(d, {d % mild.pairs(), d % mild.pairs(), d % mild.pairs()}).total(), 1});
  sort_samples(totals);
  out.cap = std::max(out.base, weighted_quantile(totals, 0.8));
  base_quantities(job, cut_back.findings, option, out);
  unit_prices(job, rates, option, mild, out);
  not_included(job, work, out);
  scope(job, option, work, out);
  terms(job, out);
  say(rates, out);
}

}  // namespace awlmark::price
