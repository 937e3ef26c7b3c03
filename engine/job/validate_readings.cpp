// Marks, openings, photographs and what is known of hazards.
#include <set>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "job/judge.hpp"
#include "job/rules.hpp"
#include "tables/materials.hpp"

namespace awlmark {
void Judge::readings() {
  mark_ids();
  ids("openings", job_.openings);
  ids("photos", job_.photos);
  each("marks", job_.marks, [&](const Mark& mark, const std::string& at) { this->mark(mark, at); });
  each("openings", job_.openings, [&](const Opening& opening, const std::string& at) { this->opening(opening, at); });
  each("photos", job_.photos, [&](const Photo& photo, const std::string& at) { this->photo(photo, at); });
  if (!job_.hazards) return;
  each("hazards.facts.laboratory", job_.hazards->facts.laboratory, [&](const LaboratoryResult& result, const std::string& at) { laboratory(result, at); });
  each("hazards.met", job_.hazards->met, [&](const GateMet& met, const std::string& at) { time_or_date(met.time, at + ".time"); });
}

// Marks and readings of openings share one set of ids.
void Judge::mark_ids() {
  ids("marks", job_.marks);
  std::set<std::string> seen;
  for (const auto& mark : job_.marks) seen.insert(mark.id);
  for (std::size_t i = 0; i < job_.openings.size(); ++i)
    for (std::size_t j = 0; j < job_.openings[i].readings.size(); ++j) {
      const std::string at = "openings[" + std::to_string(i) + "].readings[" + std::to_string(j) + "].id";
      const auto& id = job_.openings[i].readings[j].id;
      if (judged(at)) continue;
      if (id.empty()) problem(at, "is empty", "give it a short text, unique among marks and readings");
      if (!id.empty() && !seen.insert(id).second) problem(at, "is '" + id + "' again", "readings and marks share one set of ids: give each one of its own");
    }
  if (full_.marks.size() > job_rules::kMaxMarks && !judged("openings"))
    problem("openings", "hold " + std::to_string(full_.marks.size()) + " readings with the single marks; the limit is " + std::to_string(job_rules::kMaxMarks),
            "split the job");
}

void Judge::mark(const Mark& mark, const std::string& at) {
  const int targets = int(mark.layer.has_value()) + int(mark.support.has_value()) + int(mark.wall.has_value());
  if (targets != 1) {
    problem(at, targets == 0 ? "says neither layer, support nor wall" : "names more than one of layer, support and wall",
            "a mark is one finding at one spot: name exactly one");
    return;
  }
  bool known = true;
  if (mark.layer) known = reference(at + ".layer", *mark.layer, ids_of(job_.layers), "layer");
  if (mark.support) known = reference(at + ".support", *mark.support, ids_of(full_.supports), "support");
  if (mark.wall) known = reference(at + ".wall", *mark.wall, ids_of(job_.walls), "wall");
  if (known) place(mark, at);
  reading(mark, at);
  time(mark.time, at + ".time");
}

void Judge::place(const Mark& mark, const std::string& at) {
  if (mark.plank.has_value() != mark.tape_in.has_value()) {
    problem(at + (mark.plank ? ".tape_in" : ".plank"), "is missing", "plank and tape_in go together");
    return;
  }
  if (mark.layer && !mark.at_in && !mark.plank) {
    problem(at + ".at_in", "is missing", "give [x, y] in inches, or plank and tape_in");
    return;
  }
  if (!mark.layer && !mark.along_in) {
    problem(at + ".along_in", "is missing", "give the distance along it from its from_in");
    return;
  }
  if (mark.along_in && (mark.support || mark.wall)) {
    const auto* support = mark.support ? find_support(full_, *mark.support) : nullptr;
    const auto* wall = mark.wall ? find_wall(job_, *mark.wall) : nullptr;
    const double length = support != nullptr ? distance_in(support->from_in, support->to_in) : distance_in(wall->from_in, wall->to_in);
    if (*mark.along_in > length + kMarkReach_in)
      problem(at + ".along_in", "is " + format_length(*mark.along_in) + " along a length of " + format_length(length),
              "measure it from from_in; it may pass the end by 24 in.");
    return;
  }
  const auto spot = place_of(full_, mark);
  if (spot && within_reach(*spot, at + (mark.at_in ? ".at_in" : ".tape_in"), "a mark") && outline_ok_) on_layer(mark, *spot, at);
}

void Judge::on_layer(const Mark& mark, Point spot, const std::string& at) {
  const auto* layer = find_layer(job_, *mark.layer);
  const bool inside = contains(job_.room.outline_in, spot);
  if (layer != nullptr && inside && !covers(job_, *layer, spot))
    warning(at + ".at_in", "lies where the layer '" + layer->id + "' is absent",
            "the mark still counts for the wood around it; correct absent_in if the layer was there");
  for (const auto& fixture : job_.fixtures)
    if (fixture.stands && mark.from.value_or(From::above) == From::above && contains(fixture.outline_in, spot))
      warning(at + ".at_in", "lies under '" + fixture.id + "', which still stands there",
              "the mark is used as read; say \"from\": \"below\", or \"stands\": false once it is lifted");
}

void Judge::reading(const Mark& mark, const std::string& at) {
  if (mark.tool == Tool::meter) {
    if (mark.reads) problem(at + ".reads", "does not go with a meter", "give mc_percent alone");
    if (!mark.mc_percent)
      problem(at + ".mc_percent", "is missing", "a meter mark gives the moisture content in percent");
    else if (*mark.mc_percent > tables::moisture_percent("most"))
      problem(
          at + ".mc_percent",
          "is " + format_number(*mark.mc_percent, 1) + "; wood in a floor holds less than " + format_number(tables::moisture_percent("most"), 0) + " percent",
          "correct the reading");
    else if (*mark.mc_percent > tables::moisture_percent("fibre_saturation"))
      warning(at + ".mc_percent", "is past a meter's range", "it is taken as 'above fibre saturation', not as a number");
    return;
  }
  if (mark.mc_percent) problem(at + ".mc_percent", "goes only with a meter", "set \"tool\": \"meter\", or leave it out");
  if (!mark.reads) {
    problem(at + ".reads", "is missing", mark.tool == Tool::awl ? "an awl reads sound, soft or gone" : "an eye reads dry, stained, wet, growth or insects");
    return;
  }
  const bool awl_word = *mark.reads == Reading::sound || *mark.reads == Reading::soft || *mark.reads == Reading::gone;
  if (awl_word != (mark.tool == Tool::awl))
    problem(
        at + ".reads", "is '" + doc::word_of(*mark.reads) + "', which " + (mark.tool == Tool::awl ? "an awl" : "an eye") + " does not read",
        mark.tool == Tool::awl ? "use sound, soft or gone, or set \"tool\": \"eye\"" : "use dry, stained, wet, growth or insects, or set \"tool\": \"awl\"");
}

void Judge::opening(const Opening& opening, const std::string& at) {
  if (!judged(at + ".at_in")) within_reach(opening.at_in, at + ".at_in", "an opening");
  for (std::size_t i = 0; i < opening.probes_in.size(); ++i) within_reach(opening.probes_in[i], at + ".probes_in[" + std::to_string(i) + "]", "a probe");
  time(opening.time, at + ".time");
  for (std::size_t i = 0; i < opening.photos.size(); ++i) reference(at + ".photos[" + std::to_string(i) + "]", opening.photos[i], ids_of(job_.photos), "photo");
  // The reading with what it has from the opening; the opening's own faults are said once.
  const bool sound = !judged(at + ".at_in") && !judged(at + ".time");
  for (std::size_t j = 0, n = 0; j < full_.marks.size() && sound; ++j)
    if (full_.marks[j].from_opening == opening.id) {
      const std::string where = at + ".readings[" + std::to_string(n++) + "]";
      if (!judged(where)) mark(full_.marks[j], where);
    }
}

void Judge::photo(const Photo& photo, const std::string& at) {
  if (photo.mark) reference(at + ".mark", *photo.mark, ids_of(full_.marks), "mark");
  if (photo.opening) reference(at + ".opening", *photo.opening, ids_of(job_.openings), "opening");
  if (photo.sha256) {
    const auto& hash = *photo.sha256;
    const bool hex = std::all_of(hash.begin(), hash.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
    if (hash.size() != 64 || !hex) problem(at + ".sha256", "is not a SHA-256", "write 64 hexadecimal digits in lower case");
  }
  time(photo.time, at + ".time");
}

void Judge::laboratory(const LaboratoryResult& result, const std::string& at) {
  if (result.layer.has_value() == result.wall.has_value())
    return problem(at, result.layer ? "names both a layer and a wall" : "says neither layer nor wall", "a result is about one of them: name exactly one");
  if (result.layer) reference(at + ".layer", *result.layer, ids_of(job_.layers), "layer");
  if (result.wall) reference(at + ".wall", *result.wall, ids_of(job_.walls), "wall");
  if (result.part) {
    const bool floor_part = *result.part == LaboratoryPart::layer || *result.part == LaboratoryPart::backing || *result.part == LaboratoryPart::adhesive;
    if (floor_part != result.layer.has_value())
      problem(at + ".part", "is '" + doc::word_of(*result.part) + "', which a " + (result.layer ? "layer" : "wall") + " does not have",
              result.layer ? "use layer, backing or adhesive" : "use wallboard, joint_compound or texture");
  }
  if (result.date) time_or_date(*result.date, at + ".date");
}

}  // namespace awlmark
