#include "hazards/hazards.hpp"

#include "reckon/topic.hpp"

namespace awlmark::hazards {
inline doc::FieldRules field_rules(const WorkFacts*) {
  return {{.name = "painted_sf", .text = "old paint disturbed in this room", .min = 0, .max = 1e5},
          {.name = "hours_wet", .min = 0, .max = 1e6},
          {.name = "growth_sf", .text = "as measured", .min = 0, .max = 1e5}};
}
}  // namespace awlmark::hazards

namespace awlmark::reckon {
namespace hazards_topic {

// As in the job document, but nothing has to be there.
struct LayerIn {
  std::optional<std::string> id;
  Material material = Material::board;
  std::optional<int> installed_year;
  std::optional<bool> shown_asbestos_free;
};
BOOST_DESCRIBE_STRUCT(LayerIn, (), (id, material, installed_year, shown_asbestos_free))
doc::FieldRules field_rules(const LayerIn*) { return {{.name = "material", .required = true}, {.name = "installed_year", .min = 1600, .max = 2100}}; }

struct SourceIn {
  std::optional<std::string> id;
  SourceKind kind = SourceKind::unknown;
  std::optional<int> water_category;
  std::optional<Point> at_in;
  Activity active = Activity::unknown;
};
BOOST_DESCRIBE_STRUCT(SourceIn, (), (id, kind, water_category, at_in, active))
doc::FieldRules field_rules(const SourceIn*) { return {{.name = "water_category", .text = "1 clean, 2 grey, 3 black", .min = 1, .max = 3}}; }

struct HazardsIn {
  std::optional<int> year_built;
  Below below = Below::unknown;
  Storey storey = Storey::unknown;
  std::vector<LayerIn> layers;
  std::vector<SourceIn> sources;
  std::vector<Fixture> fixtures;
  std::optional<hazards::WorkFacts> work;
};
BOOST_DESCRIBE_STRUCT(HazardsIn, (), (year_built, below, storey, layers, sources, fixtures, work))

doc::FieldRules field_rules(const HazardsIn*) {
  return {{.name = "year_built", .min = 1600, .max = 2100},
          {.name = "layers", .text = "from the top down: material, installed_year, shown_asbestos_free", .max_items = 50},
          {.name = "sources", .text = "kind, water_category", .max_items = 50},
          {.name = "work", .text = "what is planned; whatever is left out is not known, and the stricter branch is taken"}};
}

struct HazardsOut {
  std::vector<hazards::Gate> gates;
  std::vector<hazards::Protection> protection;
  std::vector<std::string> contaminated_layers;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(HazardsOut, (), (gates, protection, contaminated_layers, reason))

doc::FieldRules field_rules(const HazardsOut*) { return {{.name = "gates", .text = "what must be true before touching, opening, cutting or covering"}}; }

Outcome<HazardsOut> answer(const HazardsIn& in) {
  Job job;
  job.job.year_built = in.year_built;
  job.job.below = in.below;
  job.job.storey = in.storey;
  job.fixtures = in.fixtures;
  for (std::size_t i = 0; i < in.layers.size(); ++i) {
    Layer layer;
    layer.id = in.layers[i].id.value_or("layer " + std::to_string(i + 1));
    layer.material = in.layers[i].material;
    layer.installed_year = in.layers[i].installed_year;
    layer.shown_asbestos_free = in.layers[i].shown_asbestos_free;
    job.layers.push_back(std::move(layer));
  }
  for (std::size_t i = 0; i < in.sources.size(); ++i) {
    Source source;
    source.id = in.sources[i].id.value_or(std::to_string(i + 1));
    source.kind = in.sources[i].kind;
    source.water_category = in.sources[i].water_category;
    source.active = in.sources[i].active;
    job.sources.push_back(std::move(source));
  }
  auto found = hazards::hazards(job, in.work.value_or(hazards::WorkFacts{}));
  HazardsOut out{std::move(found.gates), std::move(found.protection), std::move(found.contaminated_layers), {}};
  out.reason.compares = "facts given against the rules of data/hazards.json";
  out.reason.rule = "unknown takes the stricter branch; each gate names its facts and carries its own source";
  out.reason.source = "see each gate";
  out.reason.edition = "2026";
  out.reason.status = SourceStatus::derived;
  return answered(std::move(out));
}

}  // namespace hazards_topic

Topic hazards() {
  using namespace hazards_topic;
  return make_topic<HazardsIn, HazardsOut>(
      {.id = "hazards",
       .asks = "What must be true before anyone touches, opens, cuts or covers?",
       .sources = {"29 CFR 1926 (OSHA): asbestos, lead, silica, demolition, falls, confined spaces",
                   "40 CFR 745 subpart E (EPA): renovation, repair and painting", "EPA 402-K-01-001: mould", "CDC: sewage and flood water",
                   "data/hazards.json: every rule with its section and how it is known"},
       .example =
           R"({"year_built": 1954, "layers": [{"material": "sheet_vinyl", "installed_year": 1971}, {"material": "board"}], "sources": [{"kind": "drain_leak"}], "work": {"painted_sf": 20}})"},
      answer);
}

}  // namespace awlmark::reckon
