// Joists of its own for a wall that the deck between two supports is too weak for.
//
// A wall that runs along the boards stands on one or two of them over a whole bay. Hung between the same
// supports straight under it, a joist takes it off the boards and hands it to the members that carried it
// before. A wall across the boards in mid-bay gets a joist like its neighbour, from rest to rest.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/layout.hpp"
#include "floor/option_plan.hpp"
#include "floor/paths.hpp"

namespace awlmark::floor {
namespace {

constexpr double kAlongSine = 0.1;
constexpr double kLeastBay_in = 6;

struct WallBay {
  double from_in = 0, to_in = 0;  // along the wall
  std::size_t joist = 0;          // of the model
};

Point on(const PlanLoad& wall, double along_in) {
  const double length = distance_in(wall.from, wall.to);
  return {wall.from.x_in + (wall.to.x_in - wall.from.x_in) * along_in / length, wall.from.y_in + (wall.to.y_in - wall.from.y_in) * along_in / length};
}

// A joist in every bay that the wall crosses, from face to face of the supports.
std::vector<WallBay> set_joists(Model& model, const PlanLoad& wall) {
  std::vector<WallBay> out;
  const double length = distance_in(wall.from, wall.to);
  const Point w{(wall.to.x_in - wall.from.x_in) / length, (wall.to.y_in - wall.from.y_in) / length}, u = direction(model.deck.degrees);
  const double sense = u.x_in * w.x_in + u.y_in * w.y_in < 0 ? -1 : 1;
  auto hits = crossings(model, deck_supports(model), wall.from);
  for (auto& hit : hits) hit.at_in *= sense;
  std::sort(hits.begin(), hits.end(), [](const Crossing& a, const Crossing& b) { return a.at_in < b.at_in; });
  for (std::size_t h = 0; h + 1 < hits.size(); ++h) {
    const double from = hits[h].at_in + model.members[hits[h].member].section.b_in / 2,
                 to = hits[h + 1].at_in - model.members[hits[h + 1].member].section.b_in / 2;
    if (to - from < kLeastBay_in || std::min(to, length) - std::max(from, 0.0) < kLeastBay_in) continue;
    Member joist;
    joist.id = wall.wall_id + "." + std::to_string(out.size() + 1);
    joist.from = on(wall, from);
    joist.to = on(wall, to);
    joist.grade = Grade::no_2;
    joist.new_wood = joist.in_bay = true;  // the deck's own load stays where it was: only the wall stands here
    joist.rests = {hung_at(model, hits[h].member, 0, joist.from), hung_at(model, hits[h + 1].member, to - from, joist.to)};
    out.push_back({std::max(0.0, hits[h].at_in), std::min(length, hits[h + 1].at_in), model.members.size()});
    model.members.push_back(joist);
  }
  return out;
}

// A joist straight under a wall that runs with the framing: as long as its neighbour, on the same rests.
std::vector<WallBay> set_beside(Model& model, const PlanLoad& wall) {
  const double length = distance_in(wall.from, wall.to);
  const Point middle = on(wall, length / 2);
  const Crossing* near = nullptr;
  const auto hits = crossings(model, deck_supports(model), middle);
  for (const auto& hit : hits)
    if (!model.members[hit.member].lies_on && (!near || std::fabs(hit.at_in) < std::fabs(near->at_in))) near = &hit;
  if (!near) return {};
  const Member like = model.members[near->member];
  const Point w{(like.to.x_in - like.from.x_in) / like.length_in(), (like.to.y_in - like.from.y_in) / like.length_in()};
  const double off = (middle.y_in - like.from.y_in) * w.x_in - (middle.x_in - like.from.x_in) * w.y_in;
  const double skew = std::fabs(w.x_in * (wall.to.y_in - wall.from.y_in) - w.y_in * (wall.to.x_in - wall.from.x_in));
  if (skew > kAlongSine * length || std::fabs(off) < like.section.b_in) return {};
  Member joist;
  joist.id = wall.wall_id + ".1";
  joist.from = {like.from.x_in - w.y_in * off, like.from.y_in + w.x_in * off};
  joist.to = {like.to.x_in - w.y_in * off, like.to.y_in + w.x_in * off};
  joist.grade = Grade::no_2;
  joist.new_wood = joist.in_bay = true;  // the deck's own load stays where it was: only the wall stands here
  for (auto rest : like.rests) {
    if (rest.carrier.known()) {
      const auto& carrier = model.members[rest.carrier.of()];
      rest.along_carrier_in = along_segment_in(joist.at(rest.along_in), carrier.from, carrier.to);
    }
    joist.rests.push_back(rest);
  }
  model.members.push_back(joist);
  return {{0, length, model.members.size() - 1}};
}

void set_section(const Site& site, Model& model, const std::vector<WallBay>& bays, const char* size) {
  for (const auto& bay : bays) {
    auto& joist = model.members[bay.joist];
    joist.section = mechanics::section_from(*section_of(size));
    joist.values = lumber_values(site, SupportRole::joist, Species::unknown, joist.section);
  }
}

// The wall's load, bay by bay, on the joists; what lies past them stays as it was.
void move_loads(std::vector<PlanLoad>& loads, const std::string& id, const std::vector<WallBay>& bays) {
  std::vector<PlanLoad> out;
  for (const auto& load : loads) {
    if (!load.wall || load.wall_id != id || load.onto >= 0) {
      out.push_back(load);
      continue;
    }
    const double length = distance_in(load.from, load.to);
    double at = 0;
    const auto put = [&](double from, double to, int onto) {
      if (to - from < 0.01) return;
      PlanLoad part = load;
      part.from = on(load, from);
      part.to = on(load, to);
      part.lb = load.lb * (to - from) / length;
      part.onto = onto;
      out.push_back(part);
    };
    for (const auto& bay : bays) {
      put(at, bay.from_in, -1);
      put(bay.from_in, bay.to_in, static_cast<int>(bay.joist));
      at = bay.to_in;
    }
    put(at, length, -1);
  }
  loads = out;
}

bool passes(const Model& model, const std::vector<WallBay>& bays) {
  const auto checks = check_members(model, load_paths(model, model.open_walls.empty() ? Case::known : Case::high)).checks;
  return std::none_of(checks.begin(), checks.end(), [&](const Check& check) {
    return failing(check) && std::any_of(bays.begin(), bays.end(), [&](const WallBay& bay) { return model.members[bay.joist].id == check.member; });
  });
}

}  // namespace

void hold_walls_on_deck(OptionPlan& plan, const Site& site) {
  FloorChecks found;
  check_deck_loads(plan.model, plan.model.open_walls.empty() ? Case::known : Case::low, found);
  for (const auto& check : found.checks) {
    if (!failing(check) || check.kind.compare(0, 9, "deck_wall") != 0) continue;
    const std::string id = check.id.substr(std::string("deck.wall.").size());
    const auto wall = std::find_if(plan.model.loads.begin(), plan.model.loads.end(), [&](const PlanLoad& load) { return load.wall && load.wall_id == id; });
    if (wall == plan.model.loads.end()) continue;
    const PlanLoad line = *wall;
    const double length = distance_in(line.from, line.to);
    const Point u = direction(plan.model.deck.degrees);
    const bool along = std::fabs(u.x_in * (line.to.y_in - line.from.y_in) - u.y_in * (line.to.x_in - line.from.x_in)) <= kAlongSine * length;
    Model trial = plan.model;
    const auto bays = along ? set_joists(trial, line) : set_beside(trial, line);
    if (bays.empty()) continue;
    for (auto* loads : {&trial.loads, &trial.low_loads, &trial.high_loads}) move_loads(*loads, id, bays);
    for (const char* size : {"2x6", "2x8", "2x10", "2-2x8", "2-2x10", "3-2x10"}) {
      set_section(site, trial, bays, size);
      if (passes(trial, bays)) break;
    }
    plan.model = trial;
    for (const auto& bay : bays) {
      const auto& joist = trial.members[bay.joist];
      plan.option.framing.push_back(line_of(joist, "added_joist", joist.section,
                                            "straight under wall " + id + (along ? ", hung between the supports" : ", on the rests of the joists beside it")));
      buy_lumber(plan, site, goods::Kind::added_joist, yard_name(joist.section) + " under wall " + id + ", No. 2", joist.section, joist.length_in(), {});
    }
    if (along) add_good(plan, site, goods::connectors(2.0 * static_cast<double>(bays.size())));
    add_hours(plan, "add_joist", static_cast<double>(bays.size()));
    plan.option.steps.push_back("Hold wall " + id + " on shores of its own, then set " + yard_name(trial.members[bays.front().joist].section) +
                                " straight under it " + (along ? "in every bay" : "from rest to rest") +
                                ", tight to the deck: the boards alone are too weak for it.");
  }
}

}  // namespace awlmark::floor
