// The same quantities for every draw: the planned cut-back is made, and what opening up shows is
// followed until it is sound. A piece shows when a piece beside it in its layer is out, or a piece
// that lies over it; a plate shows when the deck at its foot is out, a member where the deck over it is.
#include <algorithm>

#include "cutback/report.hpp"

namespace awlmark::cutback {
namespace {

struct Links {
  std::vector<std::vector<int>> shows;   // what one sees when this piece is out
  std::vector<std::vector<int>> brings;  // what comes out with it
};

Links links_of(const Model& model) {
  Links links;
  links.shows.resize(model.blocks.size());
  links.brings.resize(model.blocks.size());
  for (const auto& joint : model.joints) {
    links.shows[joint.a].push_back(joint.b);
    links.shows[joint.b].push_back(joint.a);
  }
  for (const auto& over : model.over) links.shows[over.upper].push_back(over.lower);
  for (const auto& above : model.above) links.brings[above.lower].push_back(above.upper);
  for (std::size_t p = 0; p < model.blocks.size(); ++p) {
    if (model.sheets[model.blocks[p].sheet].build != Build::plate) continue;
    for (std::size_t b = 0; b < model.blocks.size(); ++b) {
      const Block &plate = model.blocks[p], &block = model.blocks[b];
      if (block.wall != kNone || !model.sheets[block.sheet].bears) continue;
      if (gap_in(block.outline_in, plate.outline_in) < 1) links.shows[b].push_back(static_cast<int>(p));
    }
  }
  return links;
}

// Follows one draw from the plan until everything that shows is sound.
void follow(const Links& links, const Chances& chances, int draw, const std::vector<char>& plan, std::vector<char>& out, std::vector<int>& open) {
  out = plan;
  open.clear();
  for (std::size_t b = 0; b < out.size(); ++b)
    if (out[b]) open.push_back(static_cast<int>(b));
  const auto take = [&](int block) {
    if (out[block]) return;
    out[block] = 1;
    open.push_back(block);
  };
  for (std::size_t k = 0; k < open.size(); ++k) {
    for (const int above : links.brings[open[k]]) take(above);
    for (const int seen : links.shows[open[k]])
      if (!out[seen] && chances.unsound_in(draw, seen)) take(seen);
  }
}

// A member's decay at a rest takes more than a sister: within this much of one.
constexpr double kAtRest_in = 6;

// Where it rests; at its ends when nobody has said where.
std::vector<double> rest_places_in(const Support& support) {
  std::vector<double> places;
  for (const auto& rest : rests_of(support)) places.push_back(*rest.at_in);
  if (places.empty()) places = {0, distance_in(support.from_in, support.to_in)};
  return places;
}

bool near_rest(const std::vector<double>& rests, double from_in, double to_in) {
  return std::any_of(rests.begin(), rests.end(), [&](double at) { return at >= from_in - kAtRest_in && at <= to_in + kAtRest_in; });
}

// Where each support can be seen: station by station, the deck pieces over it.
struct SupportLine {
  const survey::FieldDraws::OfLine* line = nullptr;
  std::vector<double> rests_in;
  std::vector<std::vector<int>> over;
};

std::vector<SupportLine> support_lines(const Job& job, const survey::Result& survey, const Model& model, int draws) {
  std::vector<SupportLine> lines;
  for (const auto& support : job.supports) {
    SupportLine line;
    line.rests_in = rest_places_in(support);
    for (const auto& of : survey.draws.supports)
      if (of.id == support.id && of.degree.size() >= of.along_in.size() * draws) line.line = &of;
    const double length = distance_in(support.from_in, support.to_in);
    for (std::size_t k = 0; line.line && k < line.line->along_in.size(); ++k) {
      const double t = length > 0 ? line.line->along_in[k] / length : 0;
      const Point at{support.from_in.x_in + t * (support.to_in.x_in - support.from_in.x_in),
                     support.from_in.y_in + t * (support.to_in.y_in - support.from_in.y_in)};
      std::vector<int> over;
      for (std::size_t b = 0; b < model.blocks.size(); ++b)
        if (model.sheets[model.blocks[b].sheet].bears && distance_to_in(model.blocks[b].outline_in, at) <= 1) over.push_back(static_cast<int>(b));
      line.over.push_back(std::move(over));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

// Decay that is seen anywhere is followed along the member to its ends.
measure::MemberState state_in(const SupportLine& line, int draw, const std::vector<char>& out) {
  const std::size_t count = line.over.size();
  const auto unsound = [&](std::size_t k) { return line.line->degree[static_cast<std::size_t>(draw) * count + k] != survey::kSound; };
  auto state = measure::MemberState::whole;
  for (std::size_t k = 0; k < count;) {
    if (!unsound(k)) {
      ++k;
      continue;
    }
    std::size_t end = k;
    bool seen = false;
    for (; end < count && unsound(end); ++end)
      seen = seen || std::any_of(line.over[end].begin(), line.over[end].end(), [&](int block) { return out[block] != 0; });
    if (seen) {
      const bool rest = near_rest(line.rests_in, line.line->along_in[k], line.line->along_in[end - 1]);
      state = std::max(state, rest ? measure::MemberState::decayed_at_rest : measure::MemberState::decayed);
    }
    k = end;
  }
  return state;
}

}  // namespace

measure::Map map_of(const Job& job, const Model& model, const Plan& plan) {
  const bool block_ends = rules_of(job).ends_on_support;
  measure::Map map;
  map.layers = job.layers.size();
  for (const auto& block : model.blocks) {
    const Sheet& sheet = model.sheets[block.sheet];
    const double length_in = block.wall_to_in - block.wall_from_in;
    if (sheet.build == Build::plate)
      map.parts.push_back({measure::Part::What::plate, measure::kNone, length_in / 12});
    else if (sheet.build == Build::wallboard)
      map.parts.push_back({measure::Part::What::wallboard, measure::kNone, length_in * figure("wallboard_strip") / 144});
    else
      map.parts.push_back({measure::Part::What::layer, sheet.order, block.area_in2 / 144});
  }
  for (const auto& joint : model.joints)
    map.lines.push_back({joint.a, joint.b, joint.length_in / 12, joint.kind != EdgeKind::seam, joint.kind == EdgeKind::cross_in_air && block_ends});
  for (const auto& rim : model.rims) {
    if (!model.sheets[model.blocks[rim.block].sheet].bears) continue;
    map.lines.push_back({rim.block, measure::kNone, rim.length_in / 12, rim.cut, rim_needs_blocking(rim) && block_ends});
  }
  for (const auto& blocking : plan.joint_blocking) map.blocking_ft += blocking.length_in / 12;
  return map;
}

std::vector<measure::MemberState> planned_members(const Job& job, const std::vector<MemberDecay>& members) {
  std::vector<measure::MemberState> states(job.supports.size(), measure::MemberState::whole);
  for (std::size_t s = 0; s < states.size(); ++s)
    for (const auto& decay : members) {
      if (!decay.known || decay.support != job.supports[s].id) continue;  // the ways mend what is known; the rest is looked at
      const bool rest = near_rest(rest_places_in(job.supports[s]), decay.from_in, decay.to_in);
      states[s] = std::max(states[s], rest ? measure::MemberState::decayed_at_rest : measure::MemberState::decayed);
    }
  return states;
}

std::vector<measure::Quantities> draw_quantities(const Job& job, const survey::Result& survey, const Model& model, const measure::Map& map, const Plan& plan,
                                                 const Chances& chances, const std::vector<measure::MemberState>& planned) {
  const Links links = links_of(model);
  const auto lines = support_lines(job, survey, model, chances.draws);
  std::vector<measure::Quantities> draws;
  std::vector<char> out;
  std::vector<int> open;
  for (int d = 0; d < chances.draws; ++d) {
    follow(links, chances, d, plan.out, out, open);
    auto members = planned;
    for (std::size_t s = 0; s < members.size(); ++s)
      if (lines[s].line) members[s] = std::max(members[s], state_in(lines[s], d, out));
    draws.push_back(measure::quantities(map, out, std::move(members)));
  }
  return draws;
}

}  // namespace awlmark::cutback
