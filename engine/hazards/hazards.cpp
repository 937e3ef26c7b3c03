#include "hazards/hazards.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "hazards/facts.hpp"
#include "tables/embedded.hpp"

namespace awlmark::hazards {
namespace {

using doc::Json;

const Json& rules() {
  static const Json parsed = Json::parse(tables::embedded("hazards.json"));
  return parsed.at("rules");
}

// A rule as it came out for this job.
struct Fired {
  bool fires = false;
  std::vector<std::string> because;
  std::vector<std::string> unknown;  // what nobody stated and the rule would fall with
  std::vector<const Layer*> layers;
  std::optional<double> demand;
  std::optional<double> capacity;
};

void take(const Answer& answer, Fired& fired) {
  // Unknown takes the stricter branch: the rule holds until someone knows better.
  if (answer.truth == Truth::no) return;
  fired.fires = true;
  for (const auto& words : answer.because)
    if (std::find(fired.because.begin(), fired.because.end(), words) == fired.because.end()) fired.because.push_back(words);
  for (const auto& words : answer.truth == Truth::unknown ? answer.unknown : std::vector<std::string>{})
    if (std::find(fired.unknown.begin(), fired.unknown.end(), words) == fired.unknown.end()) fired.unknown.push_back(words);
  if (!fired.demand) fired.demand = answer.demand;
  if (!fired.capacity) fired.capacity = answer.capacity;
}

Fired try_rule(const Json& rule, const Job& job, const Facts& facts) {
  Fired fired;
  if (rule.at("each").get<std::string>() == "job") {
    take(evaluate(rule.at("when"), facts), fired);
    return fired;
  }
  for (const auto& layer : job.layers) {
    const Answer answer = evaluate(rule.at("when"), with_layer(facts, job, layer));
    take(answer, fired);
    if (answer.truth != Truth::no) fired.layers.push_back(&layer);
  }
  return fired;
}

std::string name_layers(const std::vector<const Layer*>& layers) {
  std::string text;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    if (i > 0) text += i + 1 == layers.size() ? " and " : ", ";
    text += spoken_layer(*layers[i]);
  }
  return text;
}

std::string fill_in(std::string text, const std::vector<const Layer*>& layers) {
  static const std::string mark = "{layers}";
  for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark)) {
    std::string name = name_layers(layers);
    const bool starts = at == 0 || (at >= 2 && text[at - 2] == '.');
    if (starts && !name.empty() && name[0] >= 'a' && name[0] <= 'z') name[0] = static_cast<char>(name[0] - 'a' + 'A');
    text.replace(at, mark.size(), name);
  }
  return text;
}

Reason reason_of(const Json& rule, const Fired& fired) {
  const Json& from = rule.at("reason");
  Reason reason;
  reason.compares = from.at("compares").get<std::string>();
  reason.unit = from.at("unit").get<std::string>();
  reason.rule = from.at("where").get<std::string>();
  reason.source = from.at("source").get<std::string>();
  reason.edition = from.at("edition").get<std::string>();
  const auto status = doc::from_word<SourceStatus>(from.at("status").get<std::string>());
  if (!status) throw std::logic_error("hazards.json: " + rule.at("id").get<std::string>() + " has no known status");
  reason.status = *status;
  if (!reason.unit.empty()) {
    reason.demand = fired.demand;
    reason.capacity = fired.capacity;
  }
  reason.steps = fired.because;
  return reason;
}

void add(const Json& rule, const Fired& fired, Hazards& found) {
  const Reason reason = reason_of(rule, fired);
  if (rule.contains("gates"))
    for (const auto& gate : rule.at("gates")) {
      const auto before = doc::from_word<Before>(gate.at("before").get<std::string>());
      if (!before) throw std::logic_error("hazards.json: a gate of " + rule.at("id").get<std::string>() + " has no known 'before'");
      Gate made{gate.at("id").get<std::string>(),
                *before,
                rule.at("hazard").get<std::string>(),
                fill_in(gate.at("text").get<std::string>(), fired.layers),
                fired.because,
                gate.at("who").get<std::string>(),
                reason};
      made.deadly = gate.value("deadly", false);
      made.brief = fill_in(gate.at("brief").get<std::string>(), fired.layers);
      made.lifted_by = fired.unknown;
      found.gates.push_back(std::move(made));
    }
  if (rule.contains("protection"))
    for (const auto& one : rule.at("protection"))
      found.protection.push_back({one.at("id").get<std::string>(), fill_in(one.at("text").get<std::string>(), fired.layers), reason});
  if (rule.value("contaminates", false))
    for (const auto* layer : fired.layers) found.contaminated_layers.push_back(layer->id);
  if (rule.value("presumes", false))
    for (const auto* layer : fired.layers) found.presumed_layers.push_back(layer->id);
}

// Gates that only a laboratory lifts.
bool lifted_by_laboratory(const std::string& gate_id) {
  for (const auto& rule : rules())
    if (rule.contains("gates"))
      for (const auto& gate : rule.at("gates"))
        if (gate.at("id") == gate_id) return gate.value("lifted", std::string()) == "laboratory";
  return false;
}

void take_off_met(const Job& job, Hazards& found) {
  if (!job.hazards) return;
  for (const GateMet& met : job.hazards->met) {
    if (lifted_by_laboratory(met.gate)) continue;
    const auto gone = std::remove_if(found.gates.begin(), found.gates.end(), [&](const Gate& g) { return g.id == met.gate; });
    found.gates.erase(gone, found.gates.end());
    found.met.push_back({met.gate, met.by, met.time, met.evidence.value_or("")});
  }
}

// A backing or a glue of unknown year is as old as what it holds.
void presume_with_neighbours(const Job& job, Hazards& found) {
  const auto presumed = [&](const Layer& layer) {
    return std::find(found.presumed_layers.begin(), found.presumed_layers.end(), layer.id) != found.presumed_layers.end();
  };
  const auto hangs_on = [](const Layer& layer) { return layer.material == Material::felt || layer.material == Material::adhesive; };
  for (std::size_t i = 0; i < job.layers.size(); ++i) {
    const Layer& layer = job.layers[i];
    if (!hangs_on(layer) || layer.installed_year || presumed(layer) || cleared(job, layer)) continue;
    const bool above = i > 0 && presumed(job.layers[i - 1]), below = i + 1 < job.layers.size() && presumed(job.layers[i + 1]);
    if (above || below) found.presumed_layers.push_back(layer.id);
  }
}

// Who may take suspect flooring, and from how many square feet a licence is asked, is the state's to set.
void say_who_removes(const Job& job, Hazards& found) {
  if (!job.settings || !job.settings->asbestos_removal_licensed_over_sf) return;
  const double over_sf = *job.settings->asbestos_removal_licensed_over_sf;
  double sf = 0;
  for (const auto& id : found.presumed_layers) {
    const Layer* layer = find_layer(job, id);
    if (layer == nullptr) continue;
    Region region = as_region(job.room.outline_in);
    if (layer->outline_in) region = intersect(region, as_region(*layer->outline_in));
    sf = std::max(sf, area_in2(region) / 144);
  }
  for (Gate& gate : found.gates)
    if (gate.id == "asbestos_removal")
      gate.who = sf > over_sf ? "licensed asbestos contractor, as the state asks above " + format_number(over_sf, 0) + " sq ft"
                              : "people trained for it, as the state asks no licence up to " + format_number(over_sf, 0) + " sq ft";
}

}  // namespace

WorkFacts stated_facts(const Job& job) {
  WorkFacts work;
  if (!job.hazards) return work;
  const HazardFacts& said = job.hazards->facts;
  work.painted_sf = said.painted_sf;
  work.demolishes_paint = said.demolishes_paint;
  if (said.paint_tested) work.paint_tested_free = *said.paint_tested == LaboratoryWord::clear;
  work.paid = said.paid;
  work.cuts_tile = said.cuts_tile;
  work.gas = said.gas;
  work.hours_wet = said.hours_wet;
  work.growth_sf = said.growth_sf;
  work.sewage = said.sewage;
  return work;
}

Hazards hazards(const Job& job) { return hazards(job, stated_facts(job)); }

Hazards hazards(const Job& job, const WorkFacts& work) {
  Facts facts = job_facts(job, work);
  Hazards found;
  for (const auto& rule : rules()) {
    const Fired fired = try_rule(rule, job, facts);
    if (!fired.fires) continue;
    add(rule, fired, found);
    if (rule.at("id") == "asbestos_flooring") facts["work.presumed_asbestos"] = flag_fact(true, "asbestos is presumed");
  }
  // In the order in which the job meets them; rules of one step stay in the order of the file.
  std::stable_sort(found.gates.begin(), found.gates.end(), [](const Gate& a, const Gate& b) { return a.before < b.before; });
  take_off_met(job, found);
  presume_with_neighbours(job, found);
  say_who_removes(job, found);
  return found;
}

std::vector<std::string> faults_of_rules() {
  std::vector<std::string> faults;
  std::set<std::string> ids;
  const auto once = [&](const std::string& id) {
    if (!ids.insert(id).second) faults.push_back(id + " is used twice");
  };
  for (const auto& rule : rules()) {
    const auto id = rule.at("id").get<std::string>();
    once("rule " + id);
    if (!rule.contains("gates") && !rule.contains("protection")) faults.push_back(id + " asks for nothing");
    for (const char* key : {"compares", "where", "source", "edition", "status"})
      if (!rule.at("reason").contains(key) || rule.at("reason").at(key).get<std::string>().empty()) faults.push_back(id + " has no " + key);
    if (rule.contains("gates"))
      for (const auto& gate : rule.at("gates")) once(gate.at("id").get<std::string>());
    if (rule.contains("protection"))
      for (const auto& one : rule.at("protection")) once("protection " + one.at("id").get<std::string>());
  }
  return faults;
}

}  // namespace awlmark::hazards
