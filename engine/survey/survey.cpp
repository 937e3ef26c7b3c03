#include "survey/survey.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/length.hpp"
#include "base/special.hpp"
#include "base/stats.hpp"
#include "survey/draws.hpp"
#include "survey/evidence.hpp"
#include "survey/fit.hpp"
#include "survey/glance.hpp"
#include "survey/plan.hpp"
#include "survey/posterior.hpp"
#include "survey/propose.hpp"
#include "survey/sound_lines.hpp"

namespace awlmark::survey {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr int kMostDraws = 20000;
constexpr int kDrawsBefore = 400;  // for what the newest spot changed

std::size_t at(int i) { return static_cast<std::size_t>(i); }

LayerField field_of(const LayerCells& layer, const GridFindings& grid, const Chances& chances) {
  const std::size_t n = at(grid.nx) * at(grid.ny);
  LayerField field{layer.layer, std::vector<double>(n, kNaN), std::vector<double>(n, kNaN), std::vector<double>(n, kNaN)};
  for (std::size_t c = 0; c < layer.cells.size(); ++c) {
    field.p_unsound[at(layer.cells[c])] = chances.unsound[c];
    field.p_gone[at(layer.cells[c])] = std::min(chances.gone[c], chances.unsound[c]);
    if (!chances.wet.empty()) field.p_wet[at(layer.cells[c])] = chances.wet[c];
  }
  return field;
}

LineField line_of(const LineStations& line, const Fit& fit) {
  Chances chances = chances_at(fit, line.node, line.points);
  for (std::size_t i = 0; i < chances.gone.size(); ++i) chances.gone[i] = std::min(chances.gone[i], chances.unsound[i]);
  return {line.id, line.wall ? "plate" : "top", line.along_in, chances.unsound, chances.gone, chances.wet};
}

std::vector<DrawTarget> targets_of(const SurveyPlan& plan, bool lines) {
  std::vector<DrawTarget> targets;
  for (const LayerCells& layer : plan.layers) targets.push_back({layer.node, layer.centres});
  if (lines) {
    for (const LineStations& line : plan.supports) targets.push_back({line.node, line.points});
    for (const LineStations& line : plan.walls) targets.push_back({line.node, line.points});
  }
  return targets;
}

Range range_of(const LayerCells& layer, const std::vector<std::uint8_t>& degree, int draws) {
  std::vector<double> areas;
  for (std::size_t d = 0; d < at(draws); ++d) {
    double sum = 0;
    for (std::size_t c = 0; c < layer.cells.size(); ++c)
      if (degree[d * layer.cells.size() + c] != kSound) sum += layer.area_sf[c];
    areas.push_back(sum);
  }
  std::sort(areas.begin(), areas.end());
  return {quantile_sorted(areas, 0.1), quantile_sorted(areas, 0.5), quantile_sorted(areas, 0.9)};
}

std::map<std::string, Range> ranges_of(const SurveyPlan& plan, const DegreeDraws& draws) {
  std::map<std::string, Range> ranges;
  if (draws.count == 0) return ranges;
  for (std::size_t l = 0; l < plan.layers.size(); ++l) ranges[plan.layers[l].layer] = range_of(plan.layers[l], draws.degree[l], draws.count);
  return ranges;
}

FieldDraws spread_out(const SurveyPlan& plan, DegreeDraws draws) {
  FieldDraws out;
  out.count = draws.count;
  out.grid = plan.grid;
  const std::size_t cells = at(plan.grid.nx) * at(plan.grid.ny);
  std::size_t t = 0;
  for (const LayerCells& layer : plan.layers) {
    FieldDraws::OfLayer of{layer.layer, std::vector<std::uint8_t>(at(draws.count) * cells, kSound)};
    const auto& from = draws.degree[t++];
    for (std::size_t d = 0; d < at(draws.count); ++d)
      for (std::size_t c = 0; c < layer.cells.size(); ++c) of.degree[d * cells + at(layer.cells[c])] = from[d * layer.cells.size() + c];
    out.layers.push_back(std::move(of));
  }
  for (const LineStations& line : plan.supports) out.supports.push_back({line.id, line.along_in, std::move(draws.degree[t++])});
  for (const LineStations& line : plan.walls) out.walls.push_back({line.id, line.along_in, std::move(draws.degree[t++])});
  return out;
}

// The newest spot: the mark with the latest time (the last in the list when no mark has one) and
// every mark of the same opening, whatever its layer.
std::vector<std::size_t> newest_spot(const Job& job) {
  std::vector<std::size_t> spot;
  if (job.marks.empty()) return spot;
  std::size_t newest = job.marks.size() - 1;
  for (std::size_t i = 0; i < job.marks.size(); ++i)
    if (job.marks[i].time && (!job.marks[newest].time || *job.marks[i].time > *job.marks[newest].time)) newest = i;
  const auto place = place_of(job, job.marks[newest]);
  for (std::size_t i = 0; i < job.marks.size(); ++i) {
    const auto here = place_of(job, job.marks[i]);
    if (i == newest || (place && here && distance_in(*place, *here) <= 1)) spot.push_back(i);
  }
  return spot;
}

std::string sf_text(double sf) { return format_number(sf, sf < 10 ? 1 : 0); }

std::string change_in_words(const LastChange& change, const std::string& layer) {
  const auto before = change.before_sf.find(layer), after = change.after_sf.find(layer);
  if (before == change.before_sf.end() || after == change.after_sf.end()) return "The newest spot changed nothing that is counted.";
  return "The newest spot moved the unsound area of the " + layer + " from " + sf_text(before->second.p50) + " (" + sf_text(before->second.p10) + " to " +
         sf_text(before->second.p90) + ") to " + sf_text(after->second.p50) + " (" + sf_text(after->second.p10) + " to " + sf_text(after->second.p90) +
         ") sq ft.";
}

std::string layer_that_counts(const Job& job, const SurveyPlan& plan) {
  if (const Layer* deck = structural_deck(job)) return deck->id;
  for (auto layer = plan.layers.rbegin(); layer != plan.layers.rend(); ++layer)
    if (layer->can_decay) return layer->layer;
  return plan.layers.empty() ? std::string() : plan.layers.back().layer;
}

std::optional<LastChange> last_change_of(const Job& job, const SurveyPlan& plan, const Model& model, const Evidence& evidence, const Survey& after,
                                         const Options& options) {
  const std::vector<std::size_t> spot = newest_spot(job);
  if (spot.empty() || options.draws <= 0) return std::nullopt;
  LastChange change;
  std::vector<Observation> earlier;
  for (const Observation& o : evidence.observations)
    if (std::find(spot.begin(), spot.end(), o.mark) == spot.end()) earlier.push_back(o);
  for (const std::size_t i : spot) change.marks.push_back(job.marks[i].id);
  const Fit before = fit(model, std::move(earlier));
  change.before_sf = ranges_of(plan, draw_degrees(before, targets_of(plan, false), std::min(options.draws, kDrawsBefore), options.seed));
  change.after_sf = after.unsound_sf;
  change.words = change_in_words(change, layer_that_counts(job, plan));
  return change;
}

double expected_loss(const Job& job, const SurveyPlan& plan, const money::Stakes& rates, const Survey& findings) {
  double sum = 0;
  const auto add = [&](double p, double sf) { sum += loss_of(p, {0, {}, sf, sf * rates.leave_unsound_per_sf, sf * rates.tear_out_sound_per_sf}); };
  for (std::size_t l = 0; l < plan.layers.size(); ++l) {
    if (!plan.layers[l].can_decay || job.layers[l].goes.value_or(false)) continue;
    for (std::size_t c = 0; c < plan.layers[l].cells.size(); ++c) add(findings.layers[l].p_unsound[at(plan.layers[l].cells[c])], plan.layers[l].area_sf[c]);
  }
  for (std::size_t s = 0; s < plan.supports.size(); ++s)
    for (const double p : findings.supports[s].p_unsound) add(p, plan.supports[s].spacing_in / 12);
  for (std::size_t w = 0; w < plan.walls.size(); ++w)
    for (const double p : findings.walls[w].p_unsound) add(p, plan.walls[w].spacing_in / 12);
  return sum;
}

// Marks whose awl went in where everything else says sound. They may have strayed (likelihood.hpp),
// and the one who holds the awl can settle it at once, so it is said.
std::vector<std::string> doubts_in_words(const Job& job, const Fit& fit) {
  std::vector<std::string> words;
  for (const Doubt& doubt : doubted(fit)) {
    const Observation& o = fit.observations[doubt.observation];
    words.push_back("Mark " + job.marks[o.mark].id + " says " + (o.says == Observation::Says::soft ? "soft" : "gone") +
                    " where all else says sound; the chance there is put at " + format_number(100 * doubt.chance, 0) +
                    " in 100. Probe it again: two readings alike settle it. Until then it counts as unsound for the cut.");
  }
  return words;
}

std::vector<std::string> words_of(const Job& job, const Survey& findings, const Evidence& evidence, const Fit& fit) {
  std::vector<std::string> words;
  for (const Layer& layer : job.layers) {
    const auto range = findings.unsound_sf.find(layer.id);
    if (range == findings.unsound_sf.end() || !can_decay(layer.material)) continue;
    words.push_back("Unsound wood in the " + layer.id + ": most likely about " + sf_text(range->second.p50) + " sq ft, between " + sf_text(range->second.p10) +
                    " and " + sf_text(range->second.p90) + " sq ft four times in five.");
  }
  for (const SoundLine& line : findings.sound_lines) words.push_back("Layer " + line.layer + ": " + line.words);
  if (job.marks.empty()) words.push_back("Nobody has looked yet: this is what such leaks usually do, not what this one did.");
  for (std::string& doubt : doubts_in_words(job, fit)) words.push_back(std::move(doubt));
  if (!evidence.insects.empty()) words.push_back("Insects were found: that is a question of its own and says nothing here about decay.");
  if (findings.stop) words.push_back(findings.stop_why);
  for (const NextOpening& next : findings.next_openings) words.push_back("Next: " + next.why);
  for (const std::string& hold : findings.holds) words.push_back("Hold: " + hold);
  return words;
}

Inference inference_of(const Fit& fit, const std::vector<std::string>& model_notes, const std::vector<std::string>& plan_notes, const Evidence& evidence) {
  Inference inference;
  inference.converged = fit.converged;
  inference.sweeps = fit.sweeps;
  inference.largest_step = fit.largest_step;
  inference.settings_averaged = static_cast<int>(fit.members.size());
  inference.log_evidence = fit.log_evidence;
  for (const auto* notes : {&plan_notes, &model_notes, &evidence.notes}) inference.notes.insert(inference.notes.end(), notes->begin(), notes->end());
  if (!fit.converged) inference.notes.push_back("The inference stopped before it settled: treat the chances as rough.");
  return inference;
}

}  // namespace

Result survey(const Job& job, const hazards::Hazards& hazards, const Options& options) {
  Result result;
  Survey& findings = result.findings;
  const int count = std::clamp(options.draws, 0, kMostDraws);
  const SurveyPlan plan = plan_survey(job, options.cell_in);
  std::vector<std::string> model_notes;
  const Model model = model_of(job, &model_notes);
  const Evidence evidence = evidence_of(job);
  findings.grid = plan.grid;
  if (plan.layers.empty() && plan.supports.empty() && plan.walls.empty()) {
    findings.stop = true;
    findings.stop_why = "Stop opening: the job names no layer, member or wall to look into.";
    result.draws.count = count;
    result.draws.grid = plan.grid;
    return result;
  }
  const Fit posterior = fit(model, evidence.observations);
  std::vector<Chances> chances;
  for (const LayerCells& layer : plan.layers) {
    chances.push_back(chances_at(posterior, layer.node, layer.centres));
    findings.layers.push_back(field_of(layer, plan.grid, chances.back()));
  }
  for (const LineStations& line : plan.supports) findings.supports.push_back(line_of(line, posterior));
  for (const LineStations& line : plan.walls) findings.walls.push_back(line_of(line, posterior));
  DegreeDraws draws = draw_degrees(posterior, targets_of(plan, true), count, options.seed);
  findings.unsound_sf = ranges_of(plan, draws);
  for (std::size_t l = 0; l < plan.layers.size(); ++l)
    if (plan.layers[l].can_decay && count > 0)
      for (const double confidence : {0.80, 0.95})
        findings.sound_lines.push_back(sound_line(job, plan.layers[l], plan.grid, chances[l].unsound, draws.degree[l], count, confidence));
  findings.expected_loss = expected_loss(job, plan, money::stakes_of(job), findings);
  if (options.openings > 0) {
    Proposal proposal = propose(Site(job, plan, hazards, model, options.turn), posterior, options.openings);
    findings.holds = std::move(proposal.holds);
    findings.next_openings = std::move(proposal.openings);
    findings.stop = proposal.stop;
    findings.stop_why = std::move(proposal.stop_why);
  }
  if (options.last_change) findings.last_change = last_change_of(job, plan, model, evidence, findings, options);
  findings.inference = inference_of(posterior, model_notes, plan.notes, evidence);
  findings.words = words_of(job, findings, evidence, posterior);
  result.draws = spread_out(plan, std::move(draws));
  return result;
}

Survey glance(const Job& job, const std::string& layer, double cell_in) {
  Survey findings;
  const SurveyPlan plan = plan_survey(job, cell_in);
  findings.grid = plan.grid;
  const auto asked = std::find_if(plan.layers.begin(), plan.layers.end(), [&](const LayerCells& l) { return l.layer == layer; });
  if (asked == plan.layers.end()) return findings;
  std::vector<std::string> model_notes;
  const Model model = model_of(job, &model_notes);
  const Evidence evidence = evidence_of(job);
  const Fit posterior = fit(model, evidence.observations);
  findings.layers.push_back(field_of(*asked, plan.grid, chances_at(posterior, asked->node, asked->centres, false)));
  findings.inference = inference_of(posterior, model_notes, plan.notes, evidence);
  return findings;
}

Result survey(const Job& job, const Options& options) { return survey(job, hazards::hazards(job), options); }

doc::FieldRules field_rules(const LayerField*) {
  return {{.name = "p_unsound", .gaps = true}, {.name = "p_gone", .gaps = true}, {.name = "p_wet", .gaps = true}};
}

Problems warnings(const Job& job) { return evidence_of(job).warnings; }

}  // namespace awlmark::survey
