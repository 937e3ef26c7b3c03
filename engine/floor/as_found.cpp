#include "floor/as_found.hpp"

#include <algorithm>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"

namespace awlmark::floor {

FloorChecks check_model(const Model& model) {
  FloorChecks out = check_members(model);
  const auto deck = check_deck(model);
  for (const auto& check : deck.checks) add(out, check);
  out.words.insert(out.words.end(), deck.words.begin(), deck.words.end());
  out.ok = out.ok && deck.ok && !model.members.empty();
  return out;
}

AsFound as_found(const Job& job, const Model& model, const FloorChecks& checks) {
  AsFound out;
  out.loads = load_lines(job, model);
  out.dead_psf = model.dead_psf;
  out.live_psf = model.live_psf;
  out.checks = checks.checks;
  out.ok = checks.ok;
  out.words = checks.words;
  out.assumed = model.assumed;
  if (model.deck.kind == DeckModel::Kind::planks)
    for (const auto& line : plank_values(model.deck).assumed) out.assumed.push_back("Deck: " + line);
  std::vector<std::string> failed;
  for (const auto& check : out.checks)
    if (!check.ok && std::find(failed.begin(), failed.end(), check.member) == failed.end()) failed.push_back(check.member);
  if (out.checks.empty()) {
    out.words.insert(out.words.begin(), "What is recorded is not enough to check the floor.");
  } else if (failed.empty()) {
    out.words.insert(out.words.begin(), out.ok ? "As found, the floor carries what it must and is stiff enough for the finish."
                                               : "What could be checked passes; some of the floor could not be checked.");
  } else {
    std::string list;
    for (const auto& id : failed) list += (list.empty() ? "" : ", ") + id;
    out.words.insert(out.words.begin(), "As found, the floor does not meet every check: " + list + ".");
  }
  return out;
}

std::vector<FramingLine> framing_of(const Job& job, const Model& model) {
  std::vector<FramingLine> out;
  for (const auto& member : model.members) {
    FramingLine line;
    line.id = member.id;
    line.kind = doc::word_of(member.role);
    line.from_in = member.from;
    line.to_in = member.to;
    line.b_in = member.section.b_in;
    line.d_in = member.section.d_in;
    const auto* support = find_support(job, member.id);
    line.size = support && support->size ? section_text(*support->size) : mechanics::section_words(member.section) + " (taken)";
    line.rests_at_in = member.rests_in;
    for (const auto& zone : member.decay) {
      if (!zone.rot) continue;
      LostStretch lost;
      lost.from_in = zone.from_in;
      lost.to_in = zone.to_in;
      lost.depth_in = zone.top_depth_in > 0 ? zone.top_depth_in : std::max({zone.loss.top_in, zone.loss.bottom_in, zone.loss.side_in});
      lost.width_in = zone.top_depth_in > 0 ? zone.top_width_in : member.section.b_in;
      lost.face = zone.top_depth_in > 0 ? "top" : zone.loss.side_in > 0 ? "side" : "bottom";
      line.lost.push_back(lost);
    }
    out.push_back(line);
  }
  return out;
}

}  // namespace awlmark::floor
