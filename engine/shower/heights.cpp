// The height budget: from the framing's top to the finish at door, room, shower edge and drain.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "mechanics/panel.hpp"
#include "shower/site.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::shower {
namespace {

constexpr double kLevel_in = 1.0 / 32;  // below this two finishes are level

const std::vector<std::vector<std::string>>& packs() {
  static const std::vector<std::vector<std::string>> sets = {{},
                                                             {"raise_quarter"},
                                                             {"raise_three_eighths"},
                                                             {"raise_half"},
                                                             {"raise_five_eighths"},
                                                             {"raise_three_quarters"},
                                                             {"raise_one_eighth"},
                                                             {"raise_three_quarters", "raise_half"},
                                                             {"raise_three_quarters", "raise_three_quarters"},
                                                             {"raise_one_eighth", "raise_three_eighths"},
                                                             {"raise_one_eighth", "raise_half"},
                                                             {"raise_one_eighth", "raise_three_quarters"}};
  return sets;
}

// The floor as it was and as the chosen way leaves it.
struct Base {
  double deck_in = 0;      // structural deck as found
  double build_up_in = 0;  // deck and underlayment as found
  double finish_in = 0;    // finish as found
  double hall_in = 0;      // finish beyond the door
  bool hall_known = false;
  double new_build_up_in = 0;
  const floor::Option* chosen = nullptr;
  const floor::Option* dropped = nullptr;
  double bay_drop_in = 0;
  double widest_clear_in = 1e300;  // between supports under the shower
};

double thickness_of(const Layer& layer) { return layer.thickness_in.value_or(tables::material_facts(doc::word_of(layer.material)).usual_thickness_in); }

double drop_of(const floor::Option& option, const Polygon& ring) {
  double drop = 0;
  for (const auto& part : option.deck) {
    if (part.top_drop_in <= 0) continue;
    for (const auto& outline : part.outlines_in)
      if (contains(outline, centroid(ring))) drop = std::max(drop, part.top_drop_in);
  }
  return drop;
}

// Widest clear gap between the members that cross or border the shower, at right angles to them.
double widest_clear_in(const Place& place, const floor::Floor& floor) {
  const Point middle = centroid(place.ring);
  std::vector<double> at;
  double width = 0;
  Point u{1, 0};
  for (const auto& line : floor.framing) {
    if (line.kind == "ledger" || line.kind == "wall") continue;
    const double length = distance_in(line.from_in, line.to_in);
    if (length < 1) continue;
    if (at.empty()) u = {(line.to_in.x_in - line.from_in.x_in) / length, (line.to_in.y_in - line.from_in.y_in) / length};
    const double across = u.x_in * (line.from_in.y_in - middle.y_in) - u.y_in * (line.from_in.x_in - middle.x_in);
    const double skew = std::fabs(u.x_in * (line.to_in.y_in - line.from_in.y_in) - u.y_in * (line.to_in.x_in - line.from_in.x_in));
    if (skew > 0.2 * length) continue;
    at.push_back(across);
    width = std::max(width, line.b_in);
  }
  if (at.size() < 2) return 1e300;
  std::sort(at.begin(), at.end());
  double low = 1e300, high = -1e300;
  for (const Point& p : place.ring) {
    const double across = u.x_in * (p.y_in - middle.y_in) - u.y_in * (p.x_in - middle.x_in);
    low = std::min(low, across);
    high = std::max(high, across);
  }
  double widest = 0;
  bool covered = at.front() <= low + 24 && at.back() >= high - 24;
  for (std::size_t i = 0; i + 1 < at.size(); ++i)
    if (at[i + 1] > low && at[i] < high) widest = std::max(widest, at[i + 1] - at[i] - width);
  return covered && widest > 0 ? widest : 1e300;
}

Base base_of(const Place& place, const floor::Floor* floor, Shower& found) {
  Base base;
  for (const auto& layer : place.job.layers) {
    const auto& kind = tables::material_facts(doc::word_of(layer.material)).kind;
    if (layer.outline_in) continue;
    if (kind == "deck") base.deck_in += thickness_of(layer);
    if (kind == "deck" || kind == "underlayment") base.build_up_in += thickness_of(layer);
    if (kind == "finish") base.finish_in += thickness_of(layer);
  }
  base.hall_in = base.build_up_in + base.finish_in;
  for (const auto& door : place.job.room.doors)
    if (door.meets_height_in && !base.hall_known) {
      base.hall_in = base.deck_in + *door.meets_height_in;
      base.hall_known = true;
    }
  if (!base.hall_known) {
    found.assumed.push_back("no height is given beyond the door: it is taken level with the floor as it is today");
    found.asks.push_back("How high is the finish beyond the door above this room's deck? (room.doors[0].meets_height_in)");
  }
  base.new_build_up_in = base.deck_in;
  if (!floor) return base;
  base.widest_clear_in = widest_clear_in(place, *floor);
  for (const auto& option : floor->options) {
    if (option.id == floor->chosen) base.chosen = &option;
    if (option.id.rfind("dropped_bay", 0) == 0 && drop_of(option, place.ring) > 0 && (!base.dropped || option.id == floor->chosen)) base.dropped = &option;
  }
  if (base.chosen) base.new_build_up_in = std::max(0.0, base.build_up_in + base.chosen->height_change_in);
  if (base.dropped) base.bay_drop_in = drop_of(*base.dropped, place.ring);
  return base;
}

struct Trial {
  double score = 1e300;
  ShowerAnswer answer;
};

std::string finish_row(const Job& job) { return job.rebuild ? std::string(doc::word_of(job.rebuild->finish)) : "other"; }

HeightStack stack(std::string at, std::vector<StackPart> parts) {
  HeightStack out{std::move(at), std::move(parts), 0};
  for (const auto& part : out.parts) out.top_in += part.thickness_in;
  return out;
}

std::vector<StackPart> room_parts(const Job& job, double build_up_in, const std::vector<std::string>& raise, const std::string& under) {
  std::vector<StackPart> parts{{"deck and underlayment of the way chosen", build_up_in}};
  for (const auto& id : raise) parts.push_back({spoken(id), usual_in(id)});
  const std::string finish = finish_row(job);
  if (job.rebuild && job.rebuild->finish_thickness_in) {
    parts.push_back({"new finish with its setting bed", *job.rebuild->finish_thickness_in});
    return parts;
  }
  if (!under.empty()) {
    parts.push_back({spoken(under), usual_in(under)});
    parts.push_back({spoken("thinset"), usual_in("thinset")});
  }
  parts.push_back({spoken(finish), usual_in(finish)});
  return parts;
}

std::vector<StackPart> shower_parts(double deck_in, double drop_in, bool panel, const std::vector<std::string>& packing, double bed_in, double fall_in) {
  std::vector<StackPart> parts;
  if (drop_in > 0) {
    parts.push_back({panel ? "plywood between the supports, its top level with the framing" : "old deck's height", deck_in});
    parts.push_back({"lowered by", -drop_in});
  } else {
    parts.push_back({"deck", deck_in});
  }
  for (const auto& id : packing) parts.push_back({spoken(id) + " below the bed", usual_in(id)});
  parts.push_back({"bed at the drain", bed_in});
  if (fall_in > 0) parts.push_back({"fall to the drain", fall_in});
  for (const char* id : {"membrane", "thinset", "mosaic"}) parts.push_back({spoken(id), usual_in(id)});
  return parts;
}

double sum_in(const std::vector<std::string>& ids) {
  double sum = 0;
  for (const auto& id : ids) sum += usual_in(id);
  return sum;
}

// One kind of deck under the shower; tries every raise, underlay and packing.
struct Kind {
  std::string id;
  double room_build_up_in;
  double old_deck_in;  // from which the drop counts
  double drop_in;      // 0: the shower's deck is the room's
  bool panel = false;
  bool may_raise = false;
  bool must_flush = false;
};

std::vector<std::string> underlays(const Job& job) {
  const auto finish = finish_row(job);
  if (job.rebuild && job.rebuild->finish_thickness_in) return {""};
  if (finish == "sheet_vinyl" || finish == "other") return {""};
  return {"membrane", "mat", "backer"};
}

ShowerAnswer build(const Place& place, const Base& base, const Kind& kind, const std::vector<std::string>& raise, const std::string& under,
                   const std::vector<std::string>& packing, double bed_in) {
  ShowerAnswer answer;
  answer.id = kind.id;
  answer.drop_in = kind.drop_in;
  answer.bed_at_drain_in = bed_in;
  const double deck_in = kind.drop_in > 0 ? kind.old_deck_in : kind.room_build_up_in;
  const auto room = room_parts(place.job, kind.room_build_up_in, raise, under);
  answer.stacks.push_back(stack("door", room));
  answer.stacks.push_back(stack("room", room));
  answer.stacks.push_back(stack("shower_edge", shower_parts(deck_in, kind.drop_in, kind.panel, packing, bed_in, place.entry_high_in)));
  answer.stacks.push_back(stack("drain", shower_parts(deck_in, kind.drop_in, kind.panel, packing, bed_in, 0)));
  answer.step_at_door_in = answer.stacks[0].top_in - base.hall_in;
  answer.step_at_entry_in = answer.stacks[2].top_in - answer.stacks[1].top_in;
  if (std::fabs(answer.step_at_entry_in) < 1e-9) answer.step_at_entry_in = 0;
  answer.flange_up_in = answer.stacks[1].top_in - (base.build_up_in + base.finish_in);
  return answer;
}

std::optional<ShowerAnswer> best(const Place& place, const Base& base, const Kind& kind) {
  Trial top;
  const auto* bed = tables::table("shower_build.csv").find("id", "bed");
  const double least = bed->number("least_in"), most = bed->number("most_in"), usual = bed->number("usual_in");
  for (const auto& raise : packs()) {
    if (!raise.empty() && !kind.may_raise) break;
    for (const auto& under : underlays(place.job))
      for (const auto& packing : packs()) {
        if (!packing.empty() && kind.drop_in <= 0) break;
        double room = 0;
        for (const auto& part : room_parts(place.job, kind.room_build_up_in, raise, under)) room += part.thickness_in;
        double shower = kind.drop_in > 0 ? kind.old_deck_in - kind.drop_in : kind.room_build_up_in;
        shower += sum_in(packing) + place.entry_high_in + usual_in("membrane") + usual_in("thinset") + usual_in("mosaic");
        const double wanted = kind.must_flush ? room - shower : usual;
        const double bed_in = std::clamp(wanted, least, most);
        auto answer = build(place, base, kind, raise, under, packing, bed_in);
        const double step = kind.must_flush ? std::fabs(answer.step_at_entry_in) : 0;
        const double score = 100 * std::floor(step * 16 + 0.5) + 4 * std::floor(std::fabs(answer.step_at_door_in) * 16 + 0.5) +
                             1.5 * static_cast<double>(raise.size() + packing.size()) + std::max(0.0, usual - bed_in) + 0.2 * std::max(0.0, bed_in - 1.25) +
                             (under == "membrane" ? 0.1 : 0.0);
        if (score < top.score) top = {score, std::move(answer)};
      }
  }
  if (top.score > 1e200) return std::nullopt;
  if (kind.must_flush && std::fabs(top.answer.step_at_entry_in) > kLevel_in) return std::nullopt;
  return top.answer;
}

std::string threshold(double step_in) {
  const double size = std::fabs(step_in);
  if (size <= rule("step_plain")) return "level within 1/4 in.: nothing is asked";
  const std::string length = format_inches(size) + (step_in > 0 ? " up into the room at the door: " : " down into the room at the door: ");
  if (size <= rule("step_bevel")) return length + "bevel it 1 in 2, over " + format_inches(2 * (size - rule("step_plain"))) + " above the first 1/4 in.";
  if (size <= rule("threshold_existing")) return length + "an existing threshold bevelled 1 in 2 on both sides takes it up, a new one does not";
  return length + "more than a threshold takes up; a ramp 1 in 12 is " + format_inches(12 * size) + " long" +
         (step_in > 0 ? ", or the build-up comes down" : ", or the room's floor is built up");
}

// A flange stands on the finished floor, its top 1/4 in. above it; 3/8 in. is the most that seals.
std::string flange_words(double up_in) {
  if (up_in > rule("flange_most") - rule("flange_usual"))
    return "a closet flange that stood on the old finish ends up " + format_inches(up_in) + " too low: raise it with rings or a new flange";
  if (up_in < -(rule("flange_most") - rule("flange_usual")))
    return "a closet flange that stood on the old finish ends up " + format_inches(-up_in) + " too high: the riser is cut down and the flange set anew";
  return "a closet flange on the old finish stays within what its seal takes up";
}

// The panel between the supports under bed, tile and live load, on cleats at both ends: one span.
void check_panel(const Place& place, double clear_in, ShowerAnswer& answer) {
  const auto* row = mechanics::panel_by_category(mechanics::PanelKind::single_floor, usual_in("panel_bay"));
  if (!row) return;
  const double area_in2_ = area_in2(place.ring);
  const double mean_in = answer.bed_at_drain_in + (area_in2_ > 0 ? place.pan->bed_volume_ft3 * 1728 / area_in2_ : 0);
  const double dead_psf =
      mean_in * tables::material_facts("mortar_bed").weight_psf_per_in + usual_in("mosaic") * tables::material_facts("ceramic_tile").weight_psf_per_in;
  const double live_psf = place.job.rebuild && place.job.rebuild->live_psf ? *place.job.rebuild->live_psf : 40;
  const auto capacity = mechanics::panel_capacity(*row, clear_in, 1);
  Reason reason = capacity.reason;
  reason.compares =
      "bed, tile and live load on the panel between the supports, against what one span of " + format_inches(clear_in) + " carries (" + capacity.governs + ")";
  reason.unit = "psf";
  reason.steps.push_back(format_number(live_psf, 0) + " live and " + format_number(dead_psf, 1) + " dead: a bed " + format_inches(mean_in) +
                         " thick on average");
  answer.checks.push_back(make_check("between_supports.panel", "panel between the supports", "panel", live_psf + dead_psf, capacity.capacity_psf, reason));
}

void finish_answer(const Place& place, const floor::Option* option, ShowerAnswer& answer) {
  answer.door_threshold = threshold(answer.step_at_door_in);
  answer.flange = flange_words(answer.flange_up_in);
  const auto* hours = tables::table("shower_hours.csv").find("id", answer.id);
  if (hours) answer.extra_hours = {hours->number("low"), hours->number("likely"), hours->number("high")};
  switch (place.plan.entry) {
    case Entry::flush:
      answer.as_asked = std::fabs(answer.step_at_entry_in) <= kLevel_in && answer.id != "curb";
      break;
    case Entry::curb:
      answer.as_asked = answer.id == "curb";
      break;
    case Entry::step:
      answer.as_asked = answer.id == "step";
      break;
  }
  if (!option) {
    if (answer.strength.empty()) answer.strength = "the floor's chosen way is another: what carries this one is not checked";
    return;
  }
  answer.floor_checked = true;
  answer.needs_engineer = option->needs_engineer;
  const auto failed = std::count_if(option->checks.begin(), option->checks.end(), [](const Check& c) { return failing(c); });
  answer.strength =
      option->ok ? "passes the floor's checks" : "fails " + std::to_string(failed) + " of the floor's " + std::to_string(option->checks.size()) + " checks";
  if (option->needs_engineer) answer.strength += "; an engineer is asked";
}

std::string how_words(const ShowerAnswer& answer) {
  const std::string bed = "a bed " + format_inches(answer.bed_at_drain_in) + " thick at the drain";
  if (answer.id == "dropped_bay") return "the deck under the shower " + format_inches(answer.drop_in) + " lower, " + bed;
  if (answer.id == "between_supports") return "the deck out in the shower, 23/32 in. plywood on cleats between the supports and level with their tops, " + bed;
  if (answer.id == "raised_room") return "the deck as it lies, the room's floor built up to the shower, " + bed;
  if (answer.id == "curb") return "the deck as it lies and a curb, " + bed;
  return "the deck as it lies and a step up to the shower, " + bed;
}

// A curb in place of a level edge: its top against the room, and 2 to 9 in. above the drain.
void set_curb(ShowerAnswer& answer) {
  HeightStack top{"curb", answer.stacks[1].parts, 0};
  top.parts.resize(1);
  top.parts.push_back({spoken("curb"), usual_in("curb")});
  for (const char* id : {"membrane", "thinset", "porcelain_tile"}) top.parts.push_back({spoken(id), usual_in(id)});
  for (const auto& part : top.parts) top.top_in += part.thickness_in;
  answer.step_at_entry_in = top.top_in - answer.stacks[1].top_in;
  answer.stacks.push_back(top);
}

// Height first (door, and a flange that has to move counts a little), then strength, then hours.
double rank_of(const ShowerAnswer& a) {
  const bool weak =
      (a.floor_checked && a.strength.rfind("fails", 0) == 0) || std::any_of(a.checks.begin(), a.checks.end(), [](const Check& c) { return !c.ok; });
  return (a.as_asked ? 0 : 1e6) + (weak ? 1e5 : 0) + 8000 * std::fabs(a.step_at_door_in) + 100 * std::fabs(a.flange_up_in) + (a.needs_engineer ? 400 : 0) +
         (a.floor_checked ? 0 : 100) + a.extra_hours.likely;
}

}  // namespace

std::vector<ShowerAnswer> answers(const Place& place, const floor::Floor* floor, Shower& found) {
  const Base base = base_of(place, floor, found);
  std::vector<ShowerAnswer> out;
  const auto add = [&](const Kind& kind, const floor::Option* option) {
    auto answer = best(place, base, kind);
    if (!answer) return;
    if (kind.panel) {
      check_panel(place, base.widest_clear_in, *answer);
      const bool holds = std::all_of(answer->checks.begin(), answer->checks.end(), [](const Check& c) { return c.ok; });
      answer->strength = "plywood 23/32 in. over " + format_inches(base.widest_clear_in) + " clear " + (holds ? "carries" : "does not carry") +
                         " bed, tile and live load; the members stay whole; each cleat takes half of it: 2x4, glued, screwed to the member every 6 in. "
                         "(common practice, no source; its screws are not reckoned)";
    }
    if (kind.id == "curb") set_curb(*answer);
    finish_answer(place, option, *answer);
    answer->how = how_words(*answer);
    out.push_back(std::move(*answer));
  };
  const bool chose_drop = base.dropped && base.chosen == base.dropped;
  const floor::Option* flat = chose_drop ? nullptr : base.chosen;
  const double flat_in = flat ? base.new_build_up_in : base.deck_in;
  if (base.dropped)
    add({"dropped_bay", std::max(0.0, base.build_up_in + base.dropped->height_change_in), base.deck_in, base.bay_drop_in, false, true, true}, base.dropped);
  if (base.widest_clear_in <= 24) add({"between_supports", flat_in, base.deck_in, base.deck_in, true, true, true}, nullptr);
  add({"raised_room", flat_in, base.deck_in, 0, false, true, true}, flat);
  add({"curb", flat_in, base.deck_in, 0, false, false, false}, flat);
  add({"step", flat_in, base.deck_in, 0, false, false, false}, flat);
  std::stable_sort(out.begin(), out.end(), [](const ShowerAnswer& a, const ShowerAnswer& b) { return rank_of(a) < rank_of(b); });
  const auto fits = [&](const ShowerAnswer& a) { return !base.chosen || (chose_drop ? a.id == "dropped_bay" : a.id != "dropped_bay"); };
  for (const auto& answer : out)
    if (found.chosen.empty() && fits(answer) && answer.as_asked) found.chosen = answer.id;
  for (const auto& answer : out)
    if (found.chosen.empty() && fits(answer)) found.chosen = answer.id;
  if (found.chosen.empty() && !out.empty()) found.chosen = out.front().id;
  const auto taken = std::find_if(out.begin(), out.end(), [&](const ShowerAnswer& a) { return a.id == found.chosen; });
  if (taken != out.end() && !taken->as_asked)
    found.conflicts.push_back("The entry that the job asks for (" + std::string(doc::word_of(place.plan.entry)) +
                              ") cannot be had with the way chosen for the floor: " + taken->how + " leaves " + format_inches(taken->step_at_entry_in) +
                              " at the entry.");
  if (taken != out.end() && taken != out.begin() && out.front().as_asked &&
      std::fabs(out.front().step_at_door_in) < std::fabs(taken->step_at_door_in) - kLevel_in)
    found.conflicts.push_back("The floor's chosen way does not give the best height: with '" + out.front().id + "' the step at the door is " +
                              format_inches(out.front().step_at_door_in) + " instead of " + format_inches(taken->step_at_door_in) + ".");
  return out;
}

}  // namespace awlmark::shower
