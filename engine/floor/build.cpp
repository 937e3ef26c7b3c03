#include "floor/build.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/decay_zones.hpp"
#include "floor/layout.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

constexpr double kWet_percent = 19;   // NDS: wet service above 19 percent
constexpr double kCeiling_psf = 2.2;  // 1/2 in. gypsum board, ASCE 7 Table C3-1: 0.55 psf per 1/8 in.
constexpr double kRepetitive_in = 24;

double load_value(const char* id) { return tables::table("floor_loads.csv").find("id", id)->number("value"); }

const char* smallest_size(SupportRole role) { return role == SupportRole::girder ? "4x6" : "2x6"; }

std::vector<double> rests_of(const Support& support, double length_in, std::vector<std::string>& assumed) {
  std::vector<double> rests = support.rests_at_in;
  std::sort(rests.begin(), rests.end());
  std::vector<double> out;
  for (const double rest : rests)
    if (std::isfinite(rest) && (out.empty() || rest - out.back() > 1)) out.push_back(rest);
  if (out.size() >= 2) return out;
  const double end = std::max(length_in, 2.0);
  if (out.empty()) {
    assumed.push_back("Where " + support.id + " rests is not recorded: taken at the two ends as drawn, " + format_length(end) + " apart. Measure it.");
    return {0, end};
  }
  const double other = out[0] > end / 2 ? 0.0 : end;
  assumed.push_back("Only one rest of " + support.id + " is recorded: the other is taken at its far end.");
  if (std::fabs(other - out[0]) < 2) return {0, end};
  return out[0] < other ? std::vector<double>{out[0], other} : std::vector<double>{other, out[0]};
}

bool meter_wet(const Job& job, const std::optional<std::string> Mark::*field, const std::string& id) {
  return std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& mark) {
    const auto& of = mark.*field;
    return of && *of == id && ((mark.mc_percent && *mark.mc_percent > kWet_percent) || (mark.reads && *mark.reads == Reading::wet));
  });
}

Member member_of(const Job& job, const Support& support, std::vector<std::string>& assumed) {
  Member member;
  member.id = support.id;
  member.role = support.role;
  member.from = support.from_in;
  member.to = support.to_in;
  const double length = distance_in(support.from_in, support.to_in);
  const double farthest = support.rests_at_in.empty() ? length : std::max(length, *std::max_element(support.rests_at_in.begin(), support.rests_at_in.end()));
  if (farthest > length + 1e-6 && length > 0) {
    // It rests beyond where it was drawn: it is as long as its rests say.
    const double scale = farthest / length;
    member.to = {support.from_in.x_in + (support.to_in.x_in - support.from_in.x_in) * scale,
                 support.from_in.y_in + (support.to_in.y_in - support.from_in.y_in) * scale};
  }
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
  member.rests_in = rests_of(support, std::max(length, farthest), assumed);
  for (double& rest : member.rests_in) rest = std::max(rest, 0.0);
  member.cuts = support.cuts;
  member.wet = meter_wet(job, &Mark::support, support.id);
  if (support.post_size) {
    member.post = mechanics::section_from(*support.post_size);
    member.bearing_length_in = std::max(1.5, std::min(member.post->b_in, member.post->d_in));
    member.post_length_known = support.post_length_in.has_value();
    member.post_length_in = support.post_length_in.value_or(job.job.below == Below::basement ? 96.0 : 36.0);
  } else if (support.role == SupportRole::girder) {
    member.bearing_length_in = 3;
    assumed.push_back("What " + support.id + " rests on is not recorded: 3 in. of bearing, the code's least on masonry, is taken.");
  }
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

void add_bearing_walls(const Job& job, Model& model) {
  for (const auto& bearing : bearing_walls(job)) {
    const double feet = distance_in(bearing.wall->from_in, bearing.wall->to_in) / 12;
    const std::string what = "what wall " + bearing.wall->id + " carries" + (bearing.load_given ? ", " : " (assumed), ");
    const auto put = [&](double plf, bool lasting) {
      if (!(plf > 0)) return;
      PlanLoad load;
      load.item = what + format_number(plf, 0) + (lasting ? " lb/ft lasting" : " lb/ft live and snow");
      load.reason = bearing.reason;
      load.from = bearing.wall->from_in;
      load.to = bearing.wall->to_in;
      load.lb = plf * feet;
      load.lasting = lasting;
      model.loads.push_back(load);
    };
    put(bearing.dead_plf, true);
    put(bearing.live_plf, false);
    model.assumed.push_back(bearing.words);
  }
}

void add_plan_loads(const Job& job, Model& model) {
  for (const auto& fixture : job.fixtures) {
    PlanLoad load;
    const std::string kind = doc::word_of(fixture.kind);
    const auto* row = tables::table("floor_loads.csv").find("id", kind);
    load.item = fixture_item(kind, fixture.id);
    load.row = row ? kind : "other";
    load.lb = fixture.weight_lb.value_or(row ? row->number("value") : load_value("other"));
    load.lasting = row ? row->flag("lasting") : true;
    load.area = fixture.outline_in;
    // Nobody stands in the tub besides who bathes: its own load replaces the floor's live load there.
    if (!load.lasting) load.replaces_live_psf = model.live_psf;
    if (load.lb > 0 && load.area.size() >= 3) model.loads.push_back(load);
  }
  for (const auto& wall : job.walls) {
    if (wall.stands_on == StandsOn::framing) continue;
    PlanLoad load;
    load.item = "wall " + wall.id + ", its own weight";
    load.row = "partition";
    load.from = wall.from_in;
    load.to = wall.to_in;
    load.lb = load_value("partition") * distance_in(wall.from_in, wall.to_in) / 12;
    if (load.lb > 0) model.loads.push_back(load);
  }
  add_bearing_walls(job, model);
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
  for (const auto& support : job.supports) {
    if (distance_in(support.from_in, support.to_in) < 1) {
      model.assumed.push_back(support.id + " has no length on the plan and is left out.");
      continue;
    }
    model.members.push_back(member_of(job, support, model.assumed));
    add_decay(job, survey, cut_back, support, model.members.back(), model.assumed);
  }
  add_plan_loads(job, model);
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
  for (const auto& load : model.loads) {
    auto line = from_table(load.item, load.row.c_str(), 0, load.lb, load.lasting ? "dead" : "live");
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
  const double radians = model.deck.degrees * 3.14159265358979323846 / 180;
  const Point u{det_cos(radians), det_sin(radians)}, v{-det_sin(radians), det_cos(radians)};
  for (std::size_t k = 0; k < lines.size(); ++k) {
    const auto& line = lines[k];
    std::vector<std::pair<double, double>> parts;
    for (const auto& piece : cut_back.pieces) {
      if (!piece.out || piece.layer != model.deck.layer || piece.outline_in.size() < 3) continue;
      const Point c = centroid(piece.outline_in);
      const double across = (c.x_in - line.start.x_in) * v.x_in + (c.y_in - line.start.y_in) * v.y_in;
      if (std::fabs(across) > model.deck.plank_width_in / 2) continue;
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
