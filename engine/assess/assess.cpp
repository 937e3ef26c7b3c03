#include "assess/assess.hpp"

#include <algorithm>
#include <utility>

#include "assess/drawn.hpp"
#include "plan/plan.hpp"
#include "plan/redraw.hpp"
#include "survey/glance.hpp"

namespace awlmark {
namespace {

void enter(const AssessOptions& options, std::string_view stage) {
  if (options.on_stage) options.on_stage(stage);
}

survey::Options survey_options(const AssessOptions& options, const plan::Plan& plan) {
  survey::Options out;
  out.turn = plan.turn;
  out.cell_in = options.cell_in;
  out.draws = options.draws;
  out.seed = options.seed;
  return out;
}

// What the gates stand before now: the survey's next looks, or, when it stops, the first steps of the work.
hazards::Due due_now(const hazards::Hazards& found, const survey::Survey& survey) {
  using hazards::Before;
  if (survey.next_openings.empty()) return hazards::due_before(found, {Before::touching, Before::entering, Before::opening, Before::lifting, Before::cutting});
  std::vector<Before> steps{Before::touching};
  for (const auto& next : survey.next_openings) {
    if (next.from == survey::Vantage::below) steps.push_back(Before::entering);
    if (next.act == survey::Act::open || next.act == survey::Act::strip) steps.push_back(Before::opening);
    if (next.lifts) steps.push_back(Before::lifting);
  }
  return hazards::due_before(found, steps);
}

Findings start(const AssessOptions& options) {
  Findings findings;
  findings.engine = AWLMARK_VERSION;
  findings.seed = options.seed;
  return findings;
}

// The warnings of the document and of the survey; both look at the marks, so a place is named once.
void add_warnings(const Job& job, Findings& findings) {
  Problems ignored;
  validate(job, ignored, findings.warnings);
  for (auto& warning : survey::warnings(job)) {
    const bool said = std::any_of(findings.warnings.begin(), findings.warnings.end(), [&](const Problem& w) { return w.at == warning.at; });
    if (!said) findings.warnings.push_back(std::move(warning));
  }
  for (auto& warning : shower::warnings(job)) findings.warnings.push_back(std::move(warning));
}

// What the job does not say and a stage took instead, from all stages, each sentence once.
void add_assumed(const plan::Plan& plan, Findings& findings) {
  findings.assumed = plan.assumed;
  const auto take = [&](const char* id, const std::string& about, const std::vector<std::string>& sentences) {
    for (const auto& words : sentences)
      if (std::none_of(findings.assumed.begin(), findings.assumed.end(), [&](const plan::Assumption& a) { return a.words == words; }))
        findings.assumed.push_back({id, about, words});
  };
  take("survey", "", findings.survey.inference.notes);
  if (findings.floor) take("floor", "", findings.floor->as_found.assumed);
  if (findings.shower) take("shower", "", findings.shower->assumed);
  if (findings.drying)
    for (const auto& layer : findings.drying->layers) take("drying", layer.support ? *layer.support : layer.layer, layer.assumed);
}

std::vector<std::string> general_cautions(const Job& job) {
  std::vector<std::string> cautions = {
      "Local codes and the authority that enforces them decide. Structural, asbestos, lead, electrical, gas and plumbing work belongs to people licensed for "
      "it.",
      "This is a reckoning from the marks in the job, not a design. Nothing here is certain where nobody has looked.",
      "Do not stand on or under a floor that may be rotten. Spread your weight, keep people out from below, and shore before you weaken anything.",
  };
  if (!job.job.year_built) cautions.emplace_back("The year built is not known: the floor is treated as old, with asbestos and lead presumed until tested.");
  return cautions;
}

// Warnings and cautions, and everything back on the drawing of the person who asks.
void finish(const Job& drawn, const plan::Plan& plan, Findings& findings) {
  add_assumed(plan, findings);
  add_warnings(drawn, findings);
  findings.cautions = general_cautions(drawn);
  turn_back(findings, plan.turn);
}

// What the chosen way takes out beyond the needed extent, so that the lines are those of that way.
std::vector<cutback::Taken> taken_by(const plan::Plan& plan, const floor::Floor& floor) {
  std::vector<cutback::Taken> out;
  for (const auto& option : floor.options)
    if (option.id == floor.chosen)
      for (const auto& part : option.takes_out)
        if (const auto layer = plan.layer(part.layer); layer.known()) out.push_back({layer, part.whole, part.outlines_in});
  return out;
}

std::optional<shower::Shower> shower_of(const Job& drawn, floor::Floor floor, const plan::Turn& turn, const AssessOptions& options) {
  if (!drawn.shower) return std::nullopt;
  enter(options, "shower");
  plan::redraw(floor, plan::ToDrawn{turn});
  return shower::shower(drawn, &floor);
}

takeoff::ShowerAmounts amounts_of(const std::optional<shower::Shower>& shower) {
  takeoff::ShowerAmounts out;
  if (!shower) return out;
  if (shower->pan) out.bed_ft3 = shower->pan->bed_volume_ft3;
  if (shower->wet_area) out.membrane_sf = shower->wet_area->total_sf;
  for (const auto& layout : shower->tile_layouts) (layout.where == "pan" ? out.pan_tile_sf : out.room_tile_sf) = layout.bought_sf;
  return out;
}

std::optional<drying::Drying> drying_of(const Job& drawn, const AssessOptions& options) {
  if (!drying::asked(drawn)) return std::nullopt;
  enter(options, "drying");
  return drying::drying(drawn, options.seed);
}

// The drying stage speaks of places as drawn; work's cut-back lies in the floor's own frame.
work::DryingWord drying_word(const Job& job, const cutback::CutBack& cut, const plan::Turn& turn, drying::Drying dry) {
  for (auto& place : dry.layers)
    if (place.at_in) place.at_in = turn.own(*place.at_in);
  return work::drying_word(job, cut, dry);
}

}  // namespace

// Each stage works on the floor in its own frame, so that one floor has one answer however it is drawn.
Findings survey_only(const Job& drawn, const AssessOptions& options) {
  Findings findings = start(options);
  const plan::Plan plan = plan::plan_of(drawn);
  const Job& job = plan.job;
  enter(options, "hazards");
  findings.hazards = hazards::hazards(job);
  enter(options, "survey");
  findings.survey = options.only_layer ? survey::glance(job, *options.only_layer, options.cell_in)
                                       : survey::survey(job, *findings.hazards, survey_options(options, plan)).findings;
  findings.hazards->due = due_now(*findings.hazards, findings.survey);
  finish(drawn, plan, findings);
  return findings;
}

Findings assess(const Job& drawn, const AssessOptions& options) {
  Findings findings = start(options);
  const plan::Plan plan = plan::plan_of(drawn);
  const Job& job = plan.job;
  enter(options, "hazards");
  findings.hazards = hazards::hazards(job);
  enter(options, "survey");
  survey::Result survey = survey::survey(job, *findings.hazards, survey_options(options, plan));
  enter(options, "cut back");
  const cutback::Extent extent(plan, survey, findings.hazards->contaminated_layers);
  enter(options, "floor");
  findings.floor = floor::floor(job, survey.findings, extent.needed());
  enter(options, "cut lines");
  const cutback::Result cut = extent.chosen(taken_by(plan, *findings.floor));
  // These two speak of places in words: they work on the floor as drawn.
  const auto shower = shower_of(drawn, *findings.floor, plan.turn, options);
  const auto dry = drying_of(drawn, options);
  enter(options, "take-off");
  findings.takeoff = takeoff::take_off(job, cut.findings, *findings.floor, amounts_of(shower));
  enter(options, "work");
  work::Options work_options;
  work_options.seed = options.seed;
  if (dry) work_options.drying = drying_word(job, cut.findings, plan.turn, *dry);
  work::Result work = work::work(job, *findings.hazards, cut, *findings.floor, *findings.takeoff, work_options);
  enter(options, "price");
  findings.price = price::price(job, cut, *findings.floor, *findings.takeoff, work);
  findings.work = std::move(work.findings);
  findings.survey = std::move(survey.findings);
  findings.hazards->due = due_now(*findings.hazards, findings.survey);
  findings.cut_back = cut.findings;
  finish(drawn, plan, findings);
  findings.shower = shower;
  findings.drying = dry;
  for (const auto& caution : findings.floor->cautions) findings.cautions.push_back(caution);
  return findings;
}

}  // namespace awlmark
