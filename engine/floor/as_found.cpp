#include "floor/as_found.hpp"

#include <algorithm>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/sills.hpp"

namespace awlmark::floor {

namespace {

bool bends(const Check& check) { return check.kind.find("deflection") != std::string::npos || check.kind == "lateral" || check.kind == "deck_thickness"; }

std::string listed(const std::vector<std::string>& items) {
  std::string out;
  for (const auto& item : items) out += (out.empty() ? "" : ", ") + item;
  return out;
}

// Strength alone decides whether people may use the floor; a check that hangs on the most that a wall may
// carry asks a question and closes no room.
// A spot of rotten deck or a rotten top edge closes that spot, not the room.
bool of_one_spot(const Check& check) { return check.kind.rfind("deck_", 0) == 0 || check.kind == "top_seat" || check.kind == "nail_holding"; }

// Whether a tub or a shower stands within reach of deck that an awl found soft or gone.
bool bath_over_rot(const Job& job, const std::string& layer) {
  constexpr double kReach_in = 12;
  return std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& mark) {
    if (!mark.layer || *mark.layer != layer || !mark.reads || (*mark.reads != Reading::soft && *mark.reads != Reading::gone)) return false;
    const auto at = place_of(job, mark);
    return at && std::any_of(job.fixtures.begin(), job.fixtures.end(), [&](const Fixture& fixture) {
             if (!fixture.stands || (fixture.kind != FixtureKind::tub && fixture.kind != FixtureKind::shower) || fixture.outline_in.size() < 3) return false;
             double off = contains(fixture.outline_in, *at) ? 0 : 1e300;
             for (std::size_t i = 0; i < fixture.outline_in.size(); ++i)
               off = std::min(off, distance_to_segment_in(*at, fixture.outline_in[i], fixture.outline_in[(i + 1) % fixture.outline_in.size()]));
             return off <= kReach_in;
           });
  });
}

Today today_of(const Job& job, const Model& model, const Judged& judged) {
  Today today;
  std::vector<std::string> weak, falls, spots;
  const auto name = [](std::vector<std::string>& list, const std::string& id) {
    if (std::find(list.begin(), list.end(), id) == list.end()) list.push_back(id);
  };
  for (const auto& check : judged.checks) {
    if (!failing(check) || bends(check) || check.case_.value_or("low") == "high") continue;
    if (of_one_spot(check)) {
      name(spots, check.member);
      continue;
    }
    const bool nothing = check.state == CheckState::nothing_left || check.kind == "rests";
    name(nothing ? falls : weak, check.member);
    today.bathe = false;
    // Where nobody may stand, a crew does not work either until shores hold it.
    if (nothing || check.ratio > kDangerous) today.stand = today.work = false;
  }
  if (model.members.empty()) {
    today.words.push_back("What carries the floor is not recorded: look from below before anybody uses it or works on it.");
    today.stand = today.bathe = today.work = false;
    return today;
  }
  if (!falls.empty())
    today.words.push_back("Nobody stands, bathes or works over " + listed(falls) + " until shores hold it: nothing that was found there carries a load.");
  if (!weak.empty())
    today.words.push_back(std::string(today.stand ? "People may walk here, no tub or shower is used" : "Keep people and crew off, and use no tub or shower") +
                          ", until " + listed(weak) + " is mended or shored: found too weak for what it must carry.");
  if (!spots.empty()) {
    if (bath_over_rot(job, model.deck.layer)) today.bathe = false;
    today.words.push_back("Nobody steps on the soft and gone spots of " + listed(spots) +
                          ": fence them off, or cover them with 3/4 in. plywood that reaches a sound joist or board on every side" +
                          (today.bathe ? "." : "; the tub or shower over them is not used."));
  }
  if (today.bathe && spots.empty()) today.words.push_back("By what was found and read, people may stand, bathe and work here today.");
  return today;
}

}  // namespace

AsFound as_found(const Job& job, const Model& model, Judged judged, const std::vector<EdgeRot>& edges) {
  AsFound out;
  check_edges(edges, judged.checks);
  if (!edges.empty()) judged.verdict = Verdict::fails;
  out.loads = load_lines(job, model);
  out.dead_psf = model.dead_psf;
  out.live_psf = model.live_psf;
  out.balance = judged.balance;
  out.checks = judged.checks;
  out.ok = judged.verdict == Verdict::passes || judged.verdict == Verdict::ask;
  out.today = today_of(job, model, judged);
  out.words = judged.words;
  out.words.insert(out.words.end(), judged.fails_for.begin(), judged.fails_for.end());
  out.asks = judged.asks;
  if (job.rebuild && (job.rebuild->level == LevelPlan::unknown || !job.rebuild->out_of_level_in))
    out.asks.push_back(
        "Measure how far the floor is out of level over the room and out of flat under a 10 ft straightedge, and settle whether the new floor is brought level "
        "or "
        "follows the old one.");
  out.assumed = model.assumed;
  if (model.deck.kind == DeckModel::Kind::planks)
    for (const auto& line : plank_values(model.deck).assumed) out.assumed.push_back("Deck: " + line);
  std::vector<std::string> failed, stands;
  const auto name = [](std::vector<std::string>& list, const std::string& id) {
    if (std::find(list.begin(), list.end(), id) == list.end()) list.push_back(id);
  };
  for (const auto& check : out.checks) {
    if (failing(check)) name(failed, check.member);
    if (check.state == CheckState::stands) name(stands, check.member);
  }
  std::string first;
  if (out.checks.empty())
    first = "What is recorded is not enough to check the floor.";
  else if (failed.empty())
    first = out.ok ? "As found, the floor carries what it must." : "What could be checked passes; some of the floor could not be checked.";
  else if (judged.verdict == Verdict::ask)
    first = "As found, the floor carries what it must unless a wall brings the most that such walls carry: then " + listed(failed) +
            " would not. Ask what it carries.";
  else
    first = "As found, the floor does not meet every check: " + listed(failed) + ".";
  out.words.insert(out.words.begin(), first);
  if (!stands.empty())
    out.words.push_back("Old, sound and past today's limits without being dangerous: " + listed(stands) +
                        ". A repair may leave it as it was; making it stiffer is offered apart.");
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
    line.rests_at_in = member.rests_in();
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
