#include "survey/evidence.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "tables/materials.hpp"
#include "tables/usual.hpp"

namespace awlmark::survey {
namespace {

constexpr double kSameSpot_in = 1.0;  // two marks nearer than this are one spot
double wet_where_none_percent() {
  static const double percent = tables::moisture_percent("wet_where_none");
  return percent;
}
constexpr double kEyeWet_sd = 1.2;    // a look at the surface against the wood's moisture
constexpr double kStained_sd = 2.0;   // stains outlive what made them
constexpr double kStainedCut = -0.7;  // wood is stained before it is soft
constexpr double kGrowth_sd = 3.0;    // growth raises the gate rather than the degree
constexpr double kGrowthCut = -0.7;
constexpr double kSideFace_sd = 0.5;  // a member's side or bottom against its top
constexpr double kBottomFace_sd = 0.9;
constexpr double kStudPerFoot_sd = 0.8;  // a reading above the plate, by its height
constexpr double kWallboard_sd = 0.8;

// How much farther a reading may be off because it was taken beside the surface that the field is of.
double aside_sd(const Mark& mark) {
  double variance = 0;
  if (mark.support && mark.face) {
    if (*mark.face == Face::side || *mark.face == Face::end) variance += kSideFace_sd * kSideFace_sd;
    if (*mark.face == Face::bottom) variance += kBottomFace_sd * kBottomFace_sd;
  }
  if (mark.wall) {
    if (mark.part && *mark.part == WallPart::wallboard) variance += kWallboard_sd * kWallboard_sd;
    const double feet = std::max(0.0, mark.height_in.value_or(0)) / 12;
    variance += kStudPerFoot_sd * kStudPerFoot_sd * feet;
  }
  return std::sqrt(variance);
}

double with_aside(double sd, double aside) { return std::sqrt(sd * sd + aside * aside); }

struct Wood {
  Species species = Species::unknown;
  Material material = Material::board;
  double wet_limit_percent = wet_where_none_percent();
};

Wood wood_of(const Job& job, const Mark& mark) {
  Wood wood;
  if (mark.layer) {
    if (const Layer* layer = find_layer(job, *mark.layer)) {
      wood.species = layer->species;
      wood.material = layer->material;
      wood.wet_limit_percent = tables::material_facts(doc::word_of(layer->material)).wet_limit_percent.value_or(wet_where_none_percent());
    }
  } else if (mark.support) {
    if (const Support* support = find_support(job, *mark.support)) wood.species = support->species;
  }
  return wood;
}

int node_of(const Job& job, const Mark& mark) {
  if (mark.layer)
    if (const Layer* layer = find_layer(job, *mark.layer)) return layer_node(static_cast<std::size_t>(layer - job.layers.data()));
  if (mark.support)
    if (const Support* support = find_support(job, *mark.support)) return support_node(job, static_cast<std::size_t>(support - job.supports.data()));
  // The rim and the mudsill are members of their own below the plate: what they read says nothing sound about it.
  if (mark.wall && mark.part != WallPart::rim && mark.part != WallPart::mudsill)
    if (const Wall* wall = find_wall(job, *mark.wall)) return wall_node(job, static_cast<std::size_t>(wall - job.walls.data()));
  return -1;
}

std::string name_of(const Mark& mark) { return mark.id.empty() ? std::string("a mark") : "mark " + mark.id; }

class Reader {
 public:
  explicit Reader(const Job& job) : job_(job) {}

  Evidence all() {
    for (std::size_t i = 0; i < job_.marks.size(); ++i) read(i);
    settle();
    for (std::size_t i = 0; i < job_.sources.size(); ++i) far_source(i);
    for (const Problem& w : evidence_.warnings) evidence_.notes.push_back(w.at + " " + w.what + ": " + w.mend + ".");
    return std::move(evidence_);
  }

 private:
  void warn(std::size_t mark, const char* key, std::string what, std::string mend) {
    evidence_.warnings.push_back({"marks[" + std::to_string(mark) + "]" + key, std::move(what), std::move(mend)});
  }

  void read(std::size_t i) {
    const Mark& mark = job_.marks[i];
    const int node = node_of(job_, mark);
    const auto at = place_of(job_, mark);
    if (node < 0 || !at) return;  // a rim or a mudsill; anything else validation has refused
    under_fixture(i, *at);
    off_layer(i, *at);
    Observation seen;
    seen.place = {node, kRot, *at};
    seen.mark = i;
    if (mark.tool == Tool::meter) {
      if (mark.mc_percent) meter(seen, mark, i);
    } else if (mark.reads) {
      touch_or_look(seen, mark);
    }
  }

  void far_source(std::size_t i) {
    const Source& source = job_.sources[i];
    if (!source.at_in || !far_outside(job_, *source.at_in)) return;
    evidence_.warnings.push_back({"sources[" + std::to_string(i) + "].at_in",
                                  "lies " + format_number(distance_to_in(job_.room.outline_in, *source.at_in) / 12, 0) + " ft outside the room",
                                  "its place is taken as unknown; correct the point, or leave it out where nobody knows it"});
  }

  void under_fixture(std::size_t i, Point at) {
    const Mark& mark = job_.marks[i];
    if (!mark.layer || mark.from == From::below) return;
    for (const Fixture& fixture : job_.fixtures)
      if (fixture.stands && fixture.outline_in.size() >= 3 && contains(fixture.outline_in, at))
        warn(i, ".at_in", "lies under fixture '" + fixture.id + "', which still stands, and is not said to be seen from below",
             "it is used as it stands; say from: below, or stands: false once the fixture is lifted");
  }

  // A mark on wood that the plan says is not there: used, since what someone touched was there.
  void off_layer(std::size_t i, Point at) {
    const Mark& mark = job_.marks[i];
    if (!mark.layer) return;
    const Layer* layer = find_layer(job_, *mark.layer);
    if (layer == nullptr) return;
    for (const Polygon& hole : layer->absent_in)
      if (contains(hole, at)) {
        warn(i, ".at_in", "lies where layer '" + layer->id + "' is said to be missing", "it is used as seen before the layer went");
        return;
      }
    if (layer->outline_in && distance_to_in(*layer->outline_in, at) > kMarkReach_in)
      warn(i, ".at_in", "lies far outside the part that layer '" + layer->id + "' covers",
           "it is used where it lies; correct the point or the layer's outline");
  }

  void meter(Observation seen, const Mark& mark, std::size_t i) {
    const Wood wood = wood_of(job_, mark);
    const MoistureReading mc = corrected_moisture(*mark.mc_percent, mark.wood_temp_f, wood.species, wood.material);
    seen.place.attribute = kWet;
    const double sd = with_aside(mc.sd_percent / kMoisturePerUnit_percent, aside_sd(mark));
    if (mc.percent >= tables::fibre_saturation_percent()) {
      if (*mark.mc_percent > 100)
        warn(i, ".mc_percent", "is " + format_number(*mark.mc_percent, 0) + " percent, past what a meter can tell", "it is read as: at least fibre saturation");
      seen.fixed = Likelihood::above((tables::fibre_saturation_percent() - wood.wet_limit_percent) / kMoisturePerUnit_percent, sd);
    } else {
      seen.fixed = Likelihood::measured((mc.percent - wood.wet_limit_percent) / kMoisturePerUnit_percent, sd);
    }
    evidence_.observations.push_back(seen);
  }

  void touch_or_look(Observation seen, const Mark& mark) {
    const double aside = aside_sd(mark);
    seen.noise_sd = with_aside(kAwl_sd, aside);
    switch (*mark.reads) {
      case Reading::sound:
        seen.says = Observation::Says::sound;
        break;
      case Reading::soft:
        seen.says = Observation::Says::soft;
        break;
      case Reading::gone:
        seen.says = Observation::Says::gone;
        break;
      case Reading::dry:
        seen.place.attribute = kWet;
        seen.fixed = Likelihood::below(0, with_aside(kEyeWet_sd, aside));
        break;
      case Reading::wet:
        seen.place.attribute = kWet;
        seen.fixed = Likelihood::above(0, with_aside(kEyeWet_sd, aside));
        break;
      case Reading::stained:
        seen.fixed = Likelihood::above(kStainedCut, with_aside(kStained_sd, aside));
        break;
      case Reading::growth:
        seen.fixed = Likelihood::above(kGrowthCut, with_aside(kGrowth_sd, aside));
        break;
      case Reading::insects:
        evidence_.insects.push_back(seen.mark);
        return;
    }
    evidence_.observations.push_back(seen);
  }

  bool same_spot(const Observation& a, const Observation& b) const {
    return a.place.node == b.place.node && a.place.attribute == b.place.attribute && distance_in(a.place.at_in, b.place.at_in) <= kSameSpot_in;
  }

  // Whether b holds against a for wet: later, or with no times the wetter.
  bool overrides(const Observation& b, const Observation& a) const {
    const auto& ta = job_.marks[a.mark].time;
    const auto& tb = job_.marks[b.mark].time;
    if (ta && tb && *ta != *tb) return *tb > *ta;
    const double wa = wetness(a), wb = wetness(b);
    return wb > wa || (wb == wa && b.mark < a.mark);
  }

  static double wetness(const Observation& o) {
    if (o.fixed.kind == Likelihood::Kind::gaussian) return o.fixed.value;
    return std::isinf(o.fixed.high) ? std::max(o.fixed.low, 0.0) + 0.5 : -0.5;
  }

  static int degree(const Observation& o) { return o.says == Observation::Says::sound ? 0 : (o.says == Observation::Says::soft ? 1 : 2); }

  // Marks that contradict each other at one spot. Wet is today, so the later look holds; rot is
  // history and cannot heal, so both readings count.
  void settle() {
    auto& seen = evidence_.observations;
    std::vector<char> dropped(seen.size(), 0);
    for (std::size_t i = 0; i < seen.size(); ++i)
      for (std::size_t j = i + 1; j < seen.size(); ++j) {
        if (!same_spot(seen[i], seen[j])) continue;
        if (seen[i].place.attribute == kWet)
          wet_again(seen[i], seen[j], dropped[i], dropped[j]);
        else if (seen[i].says != Observation::Says::fixed && seen[j].says != Observation::Says::fixed && degree(seen[i]) != degree(seen[j]))
          report(seen[i], seen[j], "for rot", "both count");
      }
    std::vector<Observation> kept;
    for (std::size_t i = 0; i < seen.size(); ++i)
      if (!dropped[i]) kept.push_back(seen[i]);
    seen = std::move(kept);
  }

  void wet_again(const Observation& a, const Observation& b, char& a_dropped, char& b_dropped) {
    const bool b_holds = overrides(b, a);
    (b_holds ? a_dropped : b_dropped) = 1;
    // Only readings on different sides of the limit contradict; a second reading alone does not.
    if ((wetness(a) > 0) == (wetness(b) > 0)) return;
    const auto& ta = job_.marks[a.mark].time;
    const auto& tb = job_.marks[b.mark].time;
    const bool timed = ta && tb && *ta != *tb;
    report(a, b, "for wet",
           (timed ? "the later, " : "with no times that tell them apart the wetter, ") + name_of(job_.marks[b_holds ? b.mark : a.mark]) + ", holds");
  }

  void report(const Observation& a, const Observation& b, const std::string& what, const std::string& mend) {
    warn(std::max(a.mark, b.mark), "", "contradicts " + name_of(job_.marks[std::min(a.mark, b.mark)]) + " at the same spot " + what, mend);
  }

  const Job& job_;
  Evidence evidence_;
};

}  // namespace

Likelihood Observation::likelihood(double gap) const {
  switch (says) {
    case Says::sound:
      return Likelihood::awl(0, gap, noise_sd, kAwlStray);
    case Says::soft:
      return Likelihood::awl(1, gap, noise_sd, kAwlStray);
    case Says::gone:
      return Likelihood::awl(2, gap, noise_sd, kAwlStray);
    default:
      return fixed;
  }
}

MoistureReading corrected_moisture(double shown_percent, std::optional<double> wood_temp_f, Species species, Material material) {
  const auto figure = [](const std::string& id) { return tables::pin_meter(id.c_str()); };
  MoistureReading reading{shown_percent, figure(species == Species::unknown ? "spread_unknown_points" : "spread_points")};
  if (wood_temp_f) reading.percent += figure("points_per_f") * (figure("calibrated_at_f") - *wood_temp_f);
  reading.percent += figure(doc::word_of(species));
  // Glue and chips mislead the pins.
  const bool board = material == Material::board || material == Material::plank_tg || material == Material::wall_plate;
  if (!board) reading.sd_percent += figure("spread_glued_points");
  reading.percent = std::max(0.0, reading.percent);
  return reading;
}

Evidence evidence_of(const Job& job) { return Reader(job).all(); }

}  // namespace awlmark::survey
