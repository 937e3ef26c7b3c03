#include "hazards/facts.hpp"

#include <algorithm>
#include <cmath>

#include "tables/materials.hpp"

namespace awlmark::hazards {
namespace {

constexpr double kForever = std::numeric_limits<double>::infinity();
// Below 6 ft nobody stands upright: the common meaning of a crawl space, and the fall rule's figure.
constexpr double kCrawlDrop_ft = 6;
constexpr double kStoreyDrop_ft = 7;
constexpr int kLastAsbestosYear = 1980;  // flooring put in by then is presumed to hold asbestos; it counts itself (29 CFR 1926.1101(k)(1))

std::string count_of(int count, const std::string& one, const std::string& many) { return std::to_string(count) + " " + (count == 1 ? one : many); }

bool reads_unsound(const Mark& mark) { return mark.reads == Reading::soft || mark.reads == Reading::gone; }

bool shows_water(const Mark& mark) {
  if (reads_unsound(mark) || mark.reads == Reading::stained || mark.reads == Reading::wet || mark.reads == Reading::growth) return true;
  return mark.mc_percent && *mark.mc_percent >= tables::moisture_percent("shows_water");
}

int count_marks(const Job& job, bool (*wanted)(const Mark&)) { return static_cast<int>(std::count_if(job.marks.begin(), job.marks.end(), wanted)); }

Fact optional_flag(const std::optional<bool>& value, const std::string& yes, const std::string& no, const std::string& unknown) {
  if (!value) return unknown_fact(unknown);
  return flag_fact(*value, *value ? yes : no);
}

// The dirtiest water that a source may have brought: bounds where the job does not give it.
Fact category_of(const Source& source) {
  const std::string name = source.id.empty() ? "the source" : "source " + source.id;
  if (source.water_category) return number_fact(*source.water_category, name + " is water of category " + std::to_string(*source.water_category));
  const std::string kind = doc::spoken(source.kind);
  const auto unsure = [&](double low, double high) { return between_fact(low, high, name + " (" + kind + ") has no water category, so it is not known"); };
  switch (source.kind) {
    case SourceKind::supply_leak:
    case SourceKind::condensation:
    case SourceKind::roof:
      return number_fact(1, name + " (" + kind + ") starts as category 1");
    case SourceKind::surface_water:
      return number_fact(3, name + " (surface water) is category 3");
    case SourceKind::drain_leak:
    case SourceKind::seal_leak:
    case SourceKind::overflow:
      return unsure(2, 3);
    case SourceKind::unknown:
      break;
  }
  return unsure(1, 3);
}

Fact water_category(const Job& job) {
  if (job.sources.empty()) return between_fact(1, 3, "no source of the water is named, so its category is not known");
  Fact worst = category_of(job.sources.front());
  for (const auto& source : job.sources) {
    const Fact one = category_of(source);
    const bool dirtier = one.high > worst.high || (one.high == worst.high && one.low > worst.low);
    const double low = std::max(one.low, worst.low), high = std::max(one.high, worst.high);
    if (dirtier) worst.says = one.says;
    worst.low = low;
    worst.high = high;
  }
  return worst;
}

void water_facts(const Job& job, const WorkFacts& work, Facts& facts) {
  const int signs = count_marks(job, shows_water);
  if (signs > 0 || !job.sources.empty()) {
    facts["water.seen"] = flag_fact(true, job.sources.empty() ? count_of(signs, "mark shows water", "marks show water") : "");
  } else {
    facts["water.seen"] = job.marks.empty() ? unknown_fact("nothing is marked yet, so water is not ruled out") : flag_fact(false, "no mark shows water");
  }
  facts["water.category"] = work.sewage == true ? number_fact(3, "the water carried sewage") : water_category(job);
  facts["water.source_unknown"] =
      flag_fact(job.sources.empty() ||
                    std::any_of(job.sources.begin(), job.sources.end(), [](const Source& s) { return s.kind == SourceKind::unknown && !s.water_category; }),
                "the source of the water is not known");
  const bool all_stopped =
      !job.sources.empty() && std::all_of(job.sources.begin(), job.sources.end(), [](const Source& s) { return s.active == Activity::no; });
  const bool some_run = std::any_of(job.sources.begin(), job.sources.end(), [](const Source& s) { return s.active == Activity::yes; });
  if (all_stopped)
    facts["water.stopped"] = flag_fact(true, "the water is stopped");
  else if (some_run)
    facts["water.stopped"] = flag_fact(false, "water still comes");
  else
    facts["water.stopped"] = unknown_fact("it is not known whether water still comes");
  facts["water.hours_wet"] = work.hours_wet ? number_fact(*work.hours_wet, "wet for " + format_number(*work.hours_wet, 0) + " hours")
                                            : between_fact(0, kForever, "how long it has been wet is not known");
}

// Growth marks show at least where they stand; at most the room can be covered.
Fact growth_area(const Job& job, const WorkFacts& work, int growth_marks) {
  if (work.growth_sf) return number_fact(*work.growth_sf, format_number(*work.growth_sf, 1) + " sf of growth, as measured");
  const double room_sf = job.room.outline_in.size() < 3 ? kForever : area_in2(job.room.outline_in) / 144;
  Box seen{};
  bool first = true;
  for (const auto& mark : job.marks) {
    const auto at = place_of(job, mark);
    if (mark.reads != Reading::growth || !at) continue;
    if (first) seen = {at->x_in, at->y_in, at->x_in, at->y_in};
    seen = {std::min(seen.x0_in, at->x_in), std::min(seen.y0_in, at->y_in), std::max(seen.x1_in, at->x_in), std::max(seen.y1_in, at->y_in)};
    first = false;
  }
  // Spread marks may be separate patches: half of their bounding box is what a prudent eye would count.
  const double spread_sf = first ? 0 : seen.width_in() * seen.height_in() / 144 / 2;
  return between_fact(std::min(spread_sf, room_sf), std::max(room_sf, spread_sf),
                      count_of(growth_marks, "mark reads growth", "marks read growth") + "; its area is not measured, so it is not known");
}

void mark_facts(const Job& job, const WorkFacts& work, Facts& facts) {
  const int unsound = count_marks(job, reads_unsound);
  const int growth = count_marks(job, [](const Mark& m) { return m.reads == Reading::growth; });
  const int insects = count_marks(job, [](const Mark& m) { return m.reads == Reading::insects; });
  facts["marks.unsound"] = flag_fact(unsound > 0, count_of(unsound, "mark reads soft or gone", "marks read soft or gone"));
  facts["marks.growth"] =
      flag_fact(growth > 0 || work.growth_sf.value_or(0) > 0, growth > 0 ? count_of(growth, "mark reads growth", "marks read growth") : "growth was measured");
  facts["marks.insects"] = flag_fact(insects > 0, count_of(insects, "mark reads insects", "marks read insects"));
  facts["growth.area_sf"] = growth_area(job, work, growth);
  double highest = -1;
  for (const auto& mark : job.marks)
    if (mark.mc_percent) highest = std::max(highest, *mark.mc_percent);
  facts["moist.highest_mc_percent"] = highest >= 0 ? number_fact(highest, "the highest reading so far is " + format_number(highest, 1) + " percent")
                                                   : unknown_fact("no moisture reading yet, so it is not known");
}

void structure_facts(const Job& job, Facts& facts) {
  Fact bearing = flag_fact(false, "no bearing wall");
  for (const auto& wall : job.walls) {
    if (wall.bearing == true)
      bearing = flag_fact(true, "wall " + wall.id + " is bearing");
    else if (!wall.bearing && !(bearing.kind == Fact::Kind::flag && bearing.flag))
      bearing = unknown_fact("whether wall " + wall.id + " is bearing is not known");
  }
  facts["structure.bearing_wall"] = bearing;
  const auto decayed = std::find_if(job.marks.begin(), job.marks.end(), [](const Mark& m) { return m.support && reads_unsound(m); });
  const bool probed = std::any_of(job.marks.begin(), job.marks.end(), [](const Mark& m) { return m.support.has_value(); });
  if (decayed != job.marks.end())
    facts["structure.member_decay"] = flag_fact(true, "support " + *decayed->support + " reads " + doc::word_of(*decayed->reads));
  else if (!probed && facts.at("marks.unsound").flag)
    facts["structure.member_decay"] = unknown_fact("rot above, and no support probed yet, so theirs is not known");
  else
    facts["structure.member_decay"] = flag_fact(false, "no support reads soft or gone");
}

void place_facts(const Job& job, const WorkFacts& work, Facts& facts) {
  facts["job.year_built"] =
      job.job.year_built ? number_fact(*job.job.year_built, "built " + std::to_string(*job.job.year_built)) : unknown_fact("the year built is not known");
  const auto occupied = work.occupied ? work.occupied : job.job.occupied;
  facts["job.occupied"] = optional_flag(occupied, "the house is lived in", "nobody lives there", "whether people live there is not known");
  facts["job.only_toilet"] = optional_flag(job.job.only_toilet, "the household has no other toilet", "the household has another toilet",
                                           "whether there is another toilet is not known");
  const Below below = job.job.below;
  if (below == Below::crawl_space)
    facts["place.crawl_space"] = flag_fact(true, "there is a crawl space below");
  else if (below == Below::unknown && job.job.storey != Storey::upper)
    facts["place.crawl_space"] = unknown_fact("what lies below is not known");
  else
    facts["place.crawl_space"] = flag_fact(false, "no crawl space");
  if (below == Below::crawl_space)
    facts["place.drop_ft"] = between_fact(0, kCrawlDrop_ft, "a crawl space below");
  else if (below == Below::unknown)
    facts["place.drop_ft"] = between_fact(0, kForever, "how far it is down is not known");
  else
    facts["place.drop_ft"] = between_fact(kStoreyDrop_ft, kForever, "a " + doc::spoken(below) + " below");
}

bool is_mineral(Material material) {
  return material == Material::ceramic_tile || material == Material::porcelain_tile || material == Material::stone_tile || material == Material::mortar_bed ||
         material == Material::cement_board;
}

void work_facts(const Job& job, const WorkFacts& work, Facts& facts) {
  const auto mineral = std::find_if(job.layers.begin(), job.layers.end(), [](const Layer& l) { return is_mineral(l.material); });
  const bool tile_finish = job.rebuild && (job.rebuild->finish == Finish::porcelain_tile || job.rebuild->finish == Finish::ceramic_tile ||
                                           job.rebuild->finish == Finish::stone_tile);
  std::string silica = "no tile, mortar or cement board is in the job";
  if (mineral != job.layers.end())
    silica = spoken_layer(*mineral) + " comes out or is cut";
  else if (tile_finish)
    silica = "the new finish is " + doc::spoken(job.rebuild->finish);
  else if (job.shower)
    silica = "a tiled shower is planned";
  facts["work.silica"] = flag_fact(work.cuts_tile.value_or(mineral != job.layers.end() || tile_finish || job.shower),
                                   work.cuts_tile == true ? "tile or mortar will be cut" : silica);
  facts["work.shower"] = flag_fact(job.shower.has_value(), "a shower is planned");
  const bool heater = std::any_of(job.fixtures.begin(), job.fixtures.end(), [](const Fixture& f) { return f.kind == FixtureKind::water_heater; });
  facts["fixtures.water_heater"] = flag_fact(heater, "a water heater stands here; its fuel is not known");
  // Gas near a floor is asked about where an appliance suggests it; nothing suggests it elsewhere.
  facts["work.gas"] = flag_fact(work.gas.value_or(false), "gas is near");
  const bool toilet = std::any_of(job.fixtures.begin(), job.fixtures.end(), [](const Fixture& f) { return f.kind == FixtureKind::toilet && f.stands; });
  facts["fixtures.toilet"] = flag_fact(toilet, "a toilet stands here");
  const bool plumbed =
      std::any_of(job.fixtures.begin(), job.fixtures.end(), [](const Fixture& f) { return f.kind != FixtureKind::cabinet && f.kind != FixtureKind::other; });
  facts["fixtures.plumbed"] = flag_fact(plumbed || job.shower, "fixtures on water and drains");
  facts["work.painted_sf"] = work.painted_sf ? number_fact(*work.painted_sf, format_number(*work.painted_sf, 1) + " sf of paint is disturbed")
                                             : between_fact(0, kForever, "how much old paint is disturbed is not known");
  facts["work.painted_sf_known"] = flag_fact(work.painted_sf.has_value(), "");
  facts["work.demolishes_paint"] = optional_flag(work.demolishes_paint, "painted parts are pulled or broken", "no painted part is pulled or broken", "");
  facts["work.wallboard"] = job.walls.empty() ? unknown_fact("whether wallboard is cut is not known") : flag_fact(true, "walls stand on this floor");
  facts["work.wallboard_clear"] = flag_fact(walls_cleared(job), "no laboratory has cleared the walls");
  facts["work.paid"] = optional_flag(work.paid, "done for pay", "not done for pay", "");
  facts["work.paint_tested_free"] = optional_flag(work.paint_tested_free, "tested free of lead", "tested: there is lead", "no paint test is known");
}

}  // namespace

bool found_positive(const Job& job, const Layer& layer) {
  for (const auto part : {LaboratoryPart::layer, LaboratoryPart::backing, LaboratoryPart::adhesive})
    if (laboratory_of(job, layer, part) == LaboratoryWord::positive) return true;
  return layer.shown_asbestos_free == false;
}

bool cleared(const Job& job, const Layer& layer) {
  if (found_positive(job, layer)) return false;
  if (layer.shown_asbestos_free == true) return true;
  for (const auto part : {LaboratoryPart::layer, LaboratoryPart::backing, LaboratoryPart::adhesive})
    if (laboratory_of(job, layer, part) != LaboratoryWord::clear) return false;
  return true;
}

bool walls_cleared(const Job& job) {
  if (job.walls.empty() || !job.hazards) return false;
  const auto word = [&](const Wall& wall, LaboratoryPart part) {
    bool clear = false;
    for (const auto& result : job.hazards->facts.laboratory) {
      if (result.wall != wall.id || (result.part && *result.part != part)) continue;
      if (result.result == LaboratoryWord::positive) return false;
      clear = true;
    }
    return clear;
  };
  for (const Wall& wall : job.walls)
    for (const auto part : {LaboratoryPart::wallboard, LaboratoryPart::joint_compound, LaboratoryPart::texture})
      if (!word(wall, part)) return false;
  return true;
}

std::string spoken_layer(const Layer& layer) {
  const std::string material = tables::material_facts(doc::word_of(layer.material)).spoken;
  return layer.id.empty() ? material : material + " (" + layer.id + ")";
}

Facts job_facts(const Job& job, const WorkFacts& work) {
  Facts facts;
  place_facts(job, work, facts);
  water_facts(job, work, facts);
  mark_facts(job, work, facts);
  structure_facts(job, facts);
  work_facts(job, work, facts);
  facts["work.presumed_asbestos"] = flag_fact(false, "presumed asbestos");
  return facts;
}

Facts with_layer(const Facts& facts, const Job& job, const Layer& layer) {
  Facts all = facts;
  const std::string name = spoken_layer(layer);
  const auto& material = tables::material_facts(doc::word_of(layer.material));
  all["layer.material"] = word_fact(doc::word_of(layer.material), "");
  all["layer.finish"] = flag_fact(material.kind == "finish", "");
  all["layer.porous"] = flag_fact(material.porous, "");
  all["layer.asbestos_free"] = found_positive(job, layer) ? flag_fact(false, name + " was found to hold asbestos")
                               : cleared(job, layer)      ? flag_fact(true, name + " was shown free of asbestos")
                                                          : unknown_fact("no laboratory has cleared " + name + " with its backing and glue");
  all["layer.asbestos_found"] = flag_fact(found_positive(job, layer), name + " was found to hold asbestos");
  all["layer.year_known_above_1980"] = flag_fact(layer.installed_year.value_or(0) > kLastAsbestosYear, "");
  if (layer.installed_year) {
    all["layer.year"] = number_fact(*layer.installed_year, name + " put in " + std::to_string(*layer.installed_year));
  } else if (job.job.year_built) {
    // A layer is not older than the house; how much younger, nobody knows.
    all["layer.year"] =
        between_fact(*job.job.year_built, kForever, "the year " + name + " was put in is not known; the house is of " + std::to_string(*job.job.year_built));
  } else {
    all["layer.year"] = unknown_fact("neither the year " + name + " was put in nor the year built is known");
  }
  return all;
}

}  // namespace awlmark::hazards
