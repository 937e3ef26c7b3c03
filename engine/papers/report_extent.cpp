// How far it goes, what could not be seen, where to look next, and the water.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/condition_plan.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

// Area whose state is anybody's guess: neither likely sound nor likely unsound.
double foggy_sf(const survey::Survey& survey, const survey::LayerField& field) {
  const double cell_sf = survey.grid.cell_in * survey.grid.cell_in / 144;
  double sf = 0;
  for (const double p : field.p_unsound)
    if (std::isfinite(p) && p >= 0.2 && p < 0.8) sf += cell_sf;
  return sf;
}

void write_extent_table(const Report& report) {
  const auto& survey = report.findings.survey;
  Table table{{"Layer", "Middle figure", "8 chances in 10 that it is", "19 chances in 20 that all of it lies inside", "Could be either"}, {}, "cards"};
  for (const auto& [layer, range] : survey.unsound_sf) {
    std::string inside = "not worked out";
    for (const auto& line : survey.sound_lines)
      if (line.layer == layer && line.confidence >= 0.9) inside = square_feet(line.inside_sf);
    std::string fog;
    for (const auto& field : survey.layers)
      if (field.layer == layer && usable(survey.grid, field)) fog = square_feet(foggy_sf(survey, field));
    table.rows.push_back({{layer_title(report.job, layer), ""},
                          {square_feet(range.p50), "num"},
                          {between_square_feet(range.p10, range.p90), ""},
                          {inside, "num"},
                          {fog, "num"}});
  }
  report.sheet.table(table);
}

void write_plans(const Report& report) {
  const auto& survey = report.findings.survey;
  const auto* main = main_field(report.job, survey);
  if (main == nullptr) {
    report.sheet.say("There is no map: the survey holds no layer.");
    return;
  }
  ConditionPlanStyle style;
  report.sheet.figure(condition_plan(report.job, survey, *main, style),
                      "Plan of the " + layer_title(report.job, main->layer) + ": how likely unsound wood is, and what was read where.",
                      condition_legend(report.job, survey));
  std::vector<const survey::LayerField*> others;
  for (const auto& field : survey.layers)
    if (&field != main && usable(survey.grid, field) && std::any_of(field.p_unsound.begin(), field.p_unsound.end(), [](double p) { return p >= 0.05; }))
      others.push_back(&field);
  if (others.empty()) return;
  report.sheet.out().open("div", {{"class", "keep"}});
  report.sheet.sub("The other layers, same shading");
  report.sheet.out().open("div", {{"class", "pair"}});
  int count = 0;
  for (const auto* field : others)
    report.sheet.figure(condition_plan(report.job, survey, *field, {"small" + std::to_string(++count), 3.4, 3.2, 0.375, false}),
                        layer_title(report.job, field->layer) + ".");
  report.sheet.out().close().close();
}

}  // namespace

std::vector<std::string> unseen_items(const Report& report) {
  const auto& job = report.job;
  std::vector<std::string> items;
  std::set<std::string> layers, supports, walls;
  for (const auto& mark : job.marks) {
    if (mark.layer) layers.insert(*mark.layer);
    if (mark.support) supports.insert(*mark.support);
    if (mark.wall) walls.insert(*mark.wall);
  }
  for (const auto& layer : job.layers)
    if (layers.count(layer.id) == 0) items.push_back("The " + spoken_id(layer.id) + " (" + material_words(layer.material) + ") was not read anywhere.");
  for (const auto& fixture : job.fixtures)
    if (fixture.stands)
      items.push_back("The floor under the " + fixture_words(fixture.kind) + (fixture.id == fixture_words(fixture.kind) ? "" : " (" + fixture.id + ")") +
                      " is hidden: it still stands there.");
  const auto untouched = [](const auto& list, const std::set<std::string>& seen) {
    std::vector<std::string> ids;
    for (const auto& item : list)
      if (seen.count(item.id) == 0) ids.push_back(item.id);
    return ids;
  };
  const auto some = [](std::vector<std::string> ids) {
    constexpr std::size_t kNamed = 12;
    if (ids.size() <= kNamed) return joined(ids);
    const auto more = ids.size() - kNamed;
    ids.resize(kNamed);
    ids.push_back(std::to_string(more) + " more");
    return joined(ids);
  };
  if (const auto ids = untouched(job.supports, supports); !ids.empty())
    items.push_back("No reading was taken on " + std::string(ids.size() == 1 ? "support " : "supports ") + some(ids) + ".");
  if (const auto ids = untouched(job.walls, walls); !ids.empty())
    items.push_back("No reading was taken at the foot of " + std::string(ids.size() == 1 ? "wall " : "walls ") + some(ids) + ".");
  if (job.job.below == Below::unknown) items.push_back("What lies below the floor is not known.");
  return items;
}

void write_extent(const Report& report) {
  report.sheet.section("How far it goes");
  const auto& survey = report.findings.survey;
  write_plans(report);
  if (!survey.unsound_sf.empty()) {
    report.sheet.say(
        "How much unsound wood there is, by layer. The middle figure is as likely too high as too low. The line on the plan marked 95 % is the one to trust "
        "when all of it must be inside.");
    write_extent_table(report);
  }
  if (survey.last_change && !survey.last_change->words.empty()) report.sheet.say("What the newest readings changed: " + survey.last_change->words);
  if (!survey.inference.converged) report.sheet.say("The reckoning of the map did not settle fully. Treat its chances as rough and take more readings.", "bad");
}

void write_unseen(const Report& report) {
  report.sheet.section("What could not be seen");
  const auto items = unseen_items(report);
  if (items.empty())
    report.sheet.say("Every layer, support and wall of the job was read at least once. Between the readings, wood is still judged from its neighbours.");
  else
    report.sheet.list(items);
  const auto& findings = report.findings;
  if (findings.price && std::isfinite(findings.price->from_floor_share))
    report.sheet.say("What that means for the price: about " + percent(findings.price->from_floor_share) +
                     " of its uncertainty comes from floor that nobody has seen; the rest from how long work takes and what things cost. The step from the "
                     "even chance to 9 chances in 10 is " +
                     rough_money(findings.price->p90 - findings.price->p50) + ".");
  else
    report.sheet.say(
        "What that means for the price: no price range was worked out with this report. Treat any figure given before these places are open as incomplete.");
}

void write_openings(const Report& report) {
  const auto& survey = report.findings.survey;
  report.sheet.section(survey.stop ? "Why to stop looking" : "Where to look next");
  if (survey.stop) {
    report.sheet.say(survey.stop_why.empty() ? "No further opening is worth what it costs." : survey.stop_why);
  } else if (survey.next_openings.empty()) {
    report.sheet.say("No opening was proposed: the search was not asked for, or nothing is left to learn.");
  }
  if (survey.next_openings.empty()) return;
  report.sheet.say(survey.stop ? "The best of the openings left, for the record:"
                               : "An opening is worth what it is expected to save: rot not left behind, sound wood not torn out.");
  Table table{{"Spot", "Place", "Worth", "Costs", "Why"}, {}, "cards"};
  for (std::size_t i = 0; i < survey.next_openings.size(); ++i) {
    const auto& opening = survey.next_openings[i];
    std::string place = place_words(report.job, opening.at_in);
    if (opening.support) place += ", on " + *opening.support;
    if (opening.wall) place += ", under wall " + *opening.wall;
    std::string why = opening.why;
    if (opening.lifts) why += (why.empty() ? "" : " ") + std::string("Lift first: ") + *opening.lifts + ".";
    table.rows.push_back({{letter_of(i), "good"}, {place, ""}, {rough_money(opening.worth), "num"}, {rough_money(opening.cost), "num"}, {why, ""}});
  }
  report.sheet.table(table);
  if (survey.expected_loss > 0)
    report.sheet.say("Deciding now, without another opening, leaves an expected loss of about " + rough_money(survey.expected_loss) + ".", "small");
}

void write_cause(const Report& report) {
  report.sheet.section("Cause of the water");
  if (report.job.sources.empty()) {
    report.sheet.say("Not known yet. Find it and stop it before the floor is closed: a new floor over live water rots like the old one.");
    return;
  }
  std::vector<std::string> items;
  for (const auto& source : report.job.sources) {
    std::string text = sentence_case(source_kind_words(source.kind)) + " (" + source.id + ")";
    text += source.at_in ? ", at " + place_words(report.job, *source.at_in) : ", place not known";
    if (source.water_category) text += ", water of category " + std::to_string(*source.water_category);
    text += source.active == Activity::yes  ? ". Water still comes: stop it first"
            : source.active == Activity::no ? ". It has stopped"
                                            : ". Whether water still comes is not known; taken as if it does";
    if (source.stopped) text += ", stopped on " + *source.stopped;
    text += ".";
    if (source.note) text += " " + *source.note;
    items.push_back(text);
  }
  report.sheet.list(items);
}

}  // namespace awlmark::papers
