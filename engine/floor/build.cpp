#include "floor/build.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/decay_zones.hpp"
#include "floor/layout.hpp"
#include "floor/member_forces.hpp"
#include "plan/frame.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

constexpr double kWet_percent = 19;   // NDS: wet service above 19 percent
constexpr double kCeiling_psf = 2.2;  // 1/2 in. gypsum board, ASCE 7 Table C3-1: 0.55 psf per 1/8 in.
constexpr double kRepetitive_in = 24;

double load_value(const char* id) { return tables::table("floor_loads.csv").find("id", id)->number("value"); }

const char* smallest_size(SupportRole role) { return role == SupportRole::girder ? "4x6" : "2x6"; }

bool meter_wet(const Job& job, const std::optional<std::string> Mark::*field, const std::string& id) {
  return std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& mark) {
    const auto& of = mark.*field;
    return of && *of == id && ((mark.mc_percent && *mark.mc_percent > kWet_percent) || (mark.reads && *mark.reads == Reading::wet));
  });
}

Member member_of(const Job& job, const plan::FramingMember& framed, std::vector<std::string>& assumed) {
  const Support& support = job.supports[framed.support.of()];
  Member member;
  member.id = support.id;
  member.role = support.role;
  member.from = framed.from;
  member.to = framed.to;
  if (support.size && support.size->b_in > 0 && support.size->d_in > 0) {
    member.section = mechanics::section_from(*support.size);
  } else {
    const char* size = smallest_size(support.role);
    member.section = mechanics::section_from(*section_of(size));
    if (support.role == SupportRole::joist || support.role == SupportRole::girder)
      assumed.push_back("The size of " + support.id + " is not recorded: " + size + ", the smallest in common use, is taken. Measure it.");
  }
  member.species = support.species;
  member.grade = support.grade;
  member.values = mechanics::design_values(support.species, support.grade, member.section);
  if (support.role == SupportRole::joist || support.role == SupportRole::girder)
    for (const auto& line : member.values.assumed) assumed.push_back(support.id + ": " + line);
  member.rests = framed.rests;
  member.lies_on = framed.lies_on;
  member.cuts = support.cuts;
  member.wet = meter_wet(job, &Mark::support, support.id);
  for (const auto& rest : member.rests)
    if (!rest.bearing_known && support.role == SupportRole::girder)
      assumed.push_back("What " + support.id + " rests on at " + format_length(rest.along_in) + " is not recorded: " + format_inches(rest.bearing_in) +
                        " of bearing taken. Measure it.");
  if (splice_unsaid(member))
    assumed.push_back("Nobody said whether " + support.id +
                      " runs through over its inner rests or is spliced there: each check takes the worse of the two. Look from below.");
  return member;
}

// Cr needs three joists or more, 24 in. apart or closer, joined by the deck (NDS 4.3.9).
void mark_repetitive(Model& model) {
  std::size_t joists = 0;
  for (const auto& member : model.members) joists += member.role == SupportRole::joist ? 1 : 0;
  const bool close = widest_spacing_in(model) <= kRepetitive_in + 0.5;
  for (auto& member : model.members) member.repetitive = member.role == SupportRole::joist && joists >= 3 && close && member.section.plies == 1;
}

double across_supports_degrees(const Job& job, bool& known) {
  const Support* longest = nullptr;
  for (const auto& support : job.supports) {
    if (support.role == SupportRole::girder &&
        std::any_of(job.supports.begin(), job.supports.end(), [](const Support& s) { return s.role == SupportRole::joist; }))
      continue;
    if (!longest || distance_in(support.from_in, support.to_in) > distance_in(longest->from_in, longest->to_in) + 1e-9) longest = &support;
  }
  known = longest != nullptr;
  if (!longest) return 0;
  const double dx = std::fabs(longest->to_in.x_in - longest->from_in.x_in), dy = std::fabs(longest->to_in.y_in - longest->from_in.y_in);
  return dx >= dy ? 90 : 0;
}

DeckModel deck_of(const Job& job, std::vector<std::string>& assumed) {
  DeckModel deck;
  const Layer* layer = structural_deck(job);
  bool along_known = false;
  const double across = across_supports_degrees(job, along_known);
  deck.degrees = across;
  if (!layer) return deck;
  const auto& facts = tables::material_facts(doc::word_of(layer->material));
  deck.layer = layer->id;
  deck.spoken = facts.spoken;
  deck.material = layer->material;
  const bool planks = layer->material == Material::board || layer->material == Material::plank_tg;
  deck.kind = planks ? DeckModel::Kind::planks : DeckModel::Kind::panels;
  if (layer->runs) {
    deck.degrees = layer->runs->degrees;
  } else {
    assumed.push_back("Which way the deck runs is not recorded: taken across its supports.");
  }
  deck.thickness_in = thickness_in(*layer);
  if (!layer->thickness_in)
    assumed.push_back("The thickness of the deck is not recorded: " + format_inches(deck.thickness_in) + " taken. Measure it at an edge.");
  deck.plank_width_in = std::clamp(layer->face_width_in.value_or(facts.usual_width_in.value_or(5.5)), 1.0, 48.0);
  deck.tongues = layer->material == Material::plank_tg;
  deck.species = layer->species;
  deck.grade = layer->grade;
  deck.wet = meter_wet(job, &Mark::layer, layer->id);
  for (const auto& mark : job.marks) {
    if (!mark.layer || *mark.layer != layer->id || !mark.reads) continue;
    if (*mark.reads != Reading::soft && *mark.reads != Reading::gone) continue;
    // A depth that was not measured counts as right through: rotten wood carries nothing.
    if (!mark.depth_in) deck.no_depth = true;
    const double depth = mark.depth_in.value_or(deck.thickness_in);
    deck.rot_depth_in = std::max(deck.rot_depth_in, std::min(depth, deck.thickness_in));
  }
  return deck;
}

// "toilet" when it has no name of its own, else "washing machine (old-washer)".
std::string fixture_item(const std::string& kind, const std::string& id) {
  std::string words = kind;
  std::replace(words.begin(), words.end(), '_', ' ');
  const bool named = !id.empty() && id != kind && id != words;
  return named ? words + " (" + id + ")" : words;
}

void add_walls(const Job& job, const plan::Framing& framing, Model& model) {
  for (const auto& bearing : bearing_walls(job, framing)) {
    const Wall& wall = *bearing.wall;
    PlanLoad load;
    load.from = wall.from_in;
    load.to = wall.to_in;
    load.wall = true;
    load.wall_id = wall.id;
    load.onto = bearing.onto;
    load.on_deck = wall.stands_on != StandsOn::framing;
    const double feet = distance_in(wall.from_in, wall.to_in) / 12;
    const auto put = [&](double plf, PlanLoad::Kind kind, const std::string& item, const char* row, std::vector<PlanLoad>& to) {
      if (!(plf > 0)) return;
      load.item = item;
      load.row = row;
      load.reason = *row ? std::nullopt : std::optional<Reason>(bearing.reason);
      load.lb = plf * feet;
      load.kind = kind;
      to.push_back(load);
    };
    put(load_value("partition"), PlanLoad::Kind::dead, "wall " + wall.id + ", its own weight", "partition", model.loads);
    const auto carried = [&](const WallPlf& plf, const std::string& how, std::vector<PlanLoad>& to) {
      const std::string what = "what wall " + wall.id + " carries" + how + ", ";
      put(plf.dead, PlanLoad::Kind::dead, what + format_number(plf.dead, 0) + " lb/ft lasting", "", to);
      put(plf.live, PlanLoad::Kind::live, what + format_number(plf.live, 0) + " lb/ft live", "", to);
      put(plf.snow, PlanLoad::Kind::snow, what + format_number(plf.snow, 0) + " lb/ft snow", "", to);
    };
    if (bearing.known) {
      carried(bearing.low, "", model.loads);
    } else {
      carried(bearing.low, " (assumed, least)", model.low_loads);
      carried(bearing.high, " (assumed, most)", model.high_loads);
      model.open_walls.push_back(wall.id);
    }
    if (!bearing.words.empty()) model.assumed.push_back(bearing.words);
  }
}

void add_fixtures(const Job& job, Model& model) {
  for (const auto& fixture : job.fixtures) {
    PlanLoad load;
    const std::string kind = doc::word_of(fixture.kind);
    const auto* row = tables::table("floor_loads.csv").find("id", kind);
    load.item = fixture_item(kind, fixture.id);
    load.row = row ? kind : "other";
    load.lb = fixture.weight_lb.value_or(row ? row->number("value") : load_value("other"));
    load.area = fixture.outline_in;
    // Nobody stands in the tub besides who bathes: its own load replaces the floor's live load there.
    if (row && !row->flag("lasting")) {
      load.kind = PlanLoad::Kind::live;
      load.replaces_live_psf = model.live_psf;
    }
    if (load.lb > 0 && load.area.size() >= 3) model.loads.push_back(load);
  }
}

LoadLine from_table(const std::string& item, const char* id, double psf, double lb, const char* kind) {
  LoadLine line;
  line.item = item;
  line.psf = psf;
  line.lb = lb;
  line.kind = kind;
  if (const auto* row = tables::table("floor_loads.csv").find("id", id)) line.reason = row->reason();
  return line;
}

}  // namespace

double layer_psf(const Layer& layer) { return thickness_in(layer) * tables::material_facts(doc::word_of(layer.material)).weight_psf_per_in; }

double dead_psf(const Job& job) {
  double psf = 0;
  for (const auto& layer : job.layers)
    if (!layer.outline_in) psf += layer_psf(layer);
  if (job.job.below == Below::room || job.job.below == Below::unknown) psf += kCeiling_psf;
  return psf;
}

bool has_rot(const Member& member) {
  return std::any_of(member.decay.begin(), member.decay.end(), [](const DecayZone& zone) { return zone.rot; });
}

Model build_model(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back) {
  Model model;
  model.room = job.room.outline_in;
  if (model.room.size() >= 3 && signed_area_in2(model.room) < 0) std::reverse(model.room.begin(), model.room.end());
  if (job.rebuild) {
    model.finish = job.rebuild->finish;
    model.deflection_over = job.rebuild->deflection_over;
  }
  model.live_psf = job.rebuild && job.rebuild->live_psf ? *job.rebuild->live_psf : load_value("live");
  model.point_lb = load_value("point");
  model.deck = deck_of(job, model.assumed);
  model.dead_psf = dead_psf(job);
  model.below = job.job.below;
  model.soil = doc::from_word<mechanics::Soil>(doc::word_of(job.job.soil)).value_or(mechanics::Soil::unknown);
  model.former_strength = !job.settings || job.settings->existing_building_rule != ExistingBuildingRule::today;
  model.outside_dead_psf = model.dead_psf;
  model.outside_degrees = model.deck.degrees;
  const auto framing = plan::framing_of(job);
  for (const auto& line : framing.assumed) model.assumed.push_back(line.words);
  for (const auto& framed : framing.members) {
    model.members.push_back(member_of(job, framed, model.assumed));
    auto& member = model.members.back();
    add_decay(job, survey, cut_back, job.supports[framed.support.of()], member, model.assumed);
    member.was_damaged = has_rot(member);
    member.as_it_was = model.former_strength && !member.was_damaged;
  }
  model.deck.as_it_was = model.former_strength;
  add_fixtures(job, model);
  add_walls(job, framing, model);
  for (const auto& layer : job.layers) {
    if (!layer.outline_in) continue;
    PlanLoad load;
    load.item = tables::material_facts(doc::word_of(layer.material)).spoken + " " + layer.id;
    load.area = *layer.outline_in;
    load.lb = layer_psf(layer) * area_in2(load.area) / 144;
    if (load.lb > 0) model.loads.push_back(load);
  }
  mark_repetitive(model);
  if (model.members.empty())
    model.assumed.push_back("No joists or girders are recorded: nothing below the deck could be checked. Look from below and add them.");
  const auto lines = board_lines(model, std::max(1.0, model.deck.plank_width_in));
  bool edge = false;
  for (const auto& line : lines) edge = edge || (!line.supports_in.empty() && (line.edge_bay_start || line.edge_bay_end));
  if (edge)
    model.assumed.push_back(
        "Along one edge of the room no support is recorded within 6 in.: the wall's framing is taken to carry the deck there. Look before you cut.");
  model.assumed.push_back("The floor beyond the last support recorded is taken to go on for half a bay at the same load.");
  return model;
}

std::vector<LoadLine> load_lines(const Job& job, const Model& model) {
  std::vector<LoadLine> out;
  for (const auto& layer : job.layers) {
    const auto& facts = tables::material_facts(doc::word_of(layer.material));
    LoadLine line;
    line.item = facts.spoken + ", " + format_inches(thickness_in(layer)) + (layer.outline_in ? ", part of the room" : "");
    line.psf = layer_psf(layer);
    line.kind = "dead";
    line.reason = facts.reason;
    out.push_back(line);
  }
  if (job.job.below == Below::room || job.job.below == Below::unknown) {
    LoadLine line;
    line.item = job.job.below == Below::room ? "ceiling below" : "ceiling below (not known: taken as there)";
    line.psf = kCeiling_psf;
    line.kind = "dead";
    line.reason.source = "ASCE 7 Table C3-1";
    line.reason.edition = "2016";
    line.reason.rule = "gypsum board 0.55 psf per 1/8 in., 1/2 in. thick";
    line.reason.status = SourceStatus::read;
    out.push_back(line);
  }
  out.push_back(from_table("people and furniture", "live", model.live_psf, 0, "live"));
  out.push_back(from_table("one spot, anywhere", "point", 0, model.point_lb, "live"));
  auto loads = model.loads;
  loads.insert(loads.end(), model.low_loads.begin(), model.low_loads.end());
  loads.insert(loads.end(), model.high_loads.begin(), model.high_loads.end());
  for (const auto& load : loads) {
    auto line = from_table(load.item, load.row.c_str(), 0, load.lb,
                           load.kind == PlanLoad::Kind::dead   ? "dead"
                           : load.kind == PlanLoad::Kind::live ? "live"
                                                               : "snow");
    if (load.reason) line.reason = *load.reason;
    out.push_back(line);
  }
  return out;
}

std::vector<CutIn> cut_ins(const Model& model, const cutback::CutBack& cut_back) {
  std::vector<CutIn> out;
  if (model.deck.kind != DeckModel::Kind::planks) return out;
  const auto lines = board_lines(model, model.deck.plank_width_in);
  if (lines.empty()) return out;
  const Point u = plan::grain_frame(model.deck.degrees, model.room).along;
  for (std::size_t k = 0; k < lines.size(); ++k) {
    const auto& line = lines[k];
    std::vector<std::pair<double, double>> parts;
    for (const auto& piece : cut_back.pieces) {
      if (!piece.out || piece.by_way || piece.layer != model.deck.layer || piece.outline_in.size() < 3) continue;
      // By the plan's count of planks; what lies past the last line is the last plank.
      const bool past = k + 1 == lines.size() && piece.row > line.row;
      if (piece.row != line.row && !past) continue;
      double from = 1e300, to = -1e300;
      for (const Point& p : piece.outline_in) {
        const double along = (p.x_in - line.start.x_in) * u.x_in + (p.y_in - line.start.y_in) * u.y_in;
        from = std::min(from, along);
        to = std::max(to, along);
      }
      parts.emplace_back(from, to);
    }
    std::sort(parts.begin(), parts.end());
    for (const auto& [from, to] : parts) {
      if (!out.empty() && out.back().plank == static_cast<int>(k) && from <= out.back().to_in + 1)
        out.back().to_in = std::max(out.back().to_in, to);
      else
        out.push_back({static_cast<int>(k), from, to});
    }
  }
  return out;
}

}  // namespace awlmark::floor
