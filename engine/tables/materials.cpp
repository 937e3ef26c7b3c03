#include "tables/materials.hpp"

#include <map>
#include <stdexcept>

#include "tables/table.hpp"

namespace awlmark::tables {
namespace {

MaterialFacts facts_of(const Row& row) {
  MaterialFacts facts;
  facts.id = row.text("id");
  facts.spoken = row.text("spoken");
  facts.usual_thickness_in = row.number("usual_thickness_in");
  facts.weight_psf_per_in = row.number("weight_psf_per_in");
  facts.kind = row.text("kind");
  facts.porous = row.flag("porous");
  facts.structural = row.flag("structural");
  facts.flexible = row.flag("flexible");
  facts.usual_width_in = row.maybe_number("usual_width_in");
  facts.wet_limit_percent = row.maybe_number("wet_limit_percent");
  facts.awl_reads = row.flag("awl_reads");
  facts.reason = row.reason();
  return facts;
}

}  // namespace

const MaterialFacts& material_facts(const std::string& id) {
  static const std::map<std::string, MaterialFacts> facts = [] {
    std::map<std::string, MaterialFacts> all;
    for (const auto& row : table("materials.csv").rows()) all.emplace(row.text("id"), facts_of(row));
    return all;
  }();
  const auto found = facts.find(id);
  if (found == facts.end()) throw std::logic_error("data/materials.csv has no row for " + id);
  return found->second;
}

namespace {
RateFacts figure(const std::string& file, const std::string& id) {
  const Row* row = table(file).find("id", id);
  if (row == nullptr) throw std::logic_error("data/" + file + " has no row for " + id);
  return {row->number("value"), row->text("unit"), row->text("what"), row->reason()};
}
}  // namespace

RateFacts rate(const std::string& id) { return figure("rates.csv", id); }
double moisture_percent(const std::string& id) { return figure("moisture.csv", id + "_percent").value; }
double fibre_saturation_percent() {
  static const double percent = moisture_percent("fibre_saturation");
  return percent;
}

}  // namespace awlmark::tables
