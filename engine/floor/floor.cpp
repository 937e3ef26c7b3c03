#include "floor/floor.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/as_found.hpp"
#include "floor/build.hpp"
#include "floor/option_plan.hpp"
#include "floor/options.hpp"
#include "floor/sills.hpp"
#include "floor/while_open.hpp"

namespace awlmark::floor {
namespace {

std::string choose(const Job& job, const std::vector<Option>& options, std::vector<std::string>& cautions) {
  if (options.empty()) return "";
  if (job.rebuild && !job.rebuild->option.empty() && job.rebuild->option != "auto") {
    for (const auto& option : options)
      if (option.id == job.rebuild->option) {
        if (!option.ok) cautions.push_back("The job asks for " + option.id + ", which does not meet every check.");
        return option.id;
      }
    cautions.push_back("The job asks for " + job.rebuild->option + ", which this floor does not allow; " + options.front().id + " is taken.");
  }
  if (!options.front().ok) cautions.push_back("No rebuild option meets every check as recorded: an engineer has to design this floor.");
  return options.front().id;
}

// Members that nobody read under deck that is soft or gone: read them first, hold them until then.
std::vector<std::string> unread_members(const Job& job, const Model& model) {
  constexpr double kNear_in = 12;
  std::vector<std::string> out;
  for (const auto& member : model.members) {
    std::optional<double> at;
    for (const auto& mark : job.marks) {
      if (!mark.layer || *mark.layer != model.deck.layer || !mark.reads || (*mark.reads != Reading::soft && *mark.reads != Reading::gone)) continue;
      const auto place = place_of(job, mark);
      if (!place || distance_to_segment_in(*place, member.from, member.to) > member.section.b_in / 2 + 3) continue;
      const double along = along_segment_in(*place, member.from, member.to);
      const bool read = std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& other) {
        return other.support && *other.support == member.id && other.along_in && other.reads && other.tool == Tool::awl &&
               std::fabs(*other.along_in - along) <= kNear_in;
      });
      if (!read) at = along;
    }
    if (at)
      out.push_back("Read " + member.id + " at " + format_length(*at) +
                    " along it with the awl before the deck over it comes off: the deck there is soft or gone and nobody has read the member. Until it reads "
                    "sound, set a shore under it on both sides.");
  }
  return out;
}

// Shores are the answer to who may use the floor until it is mended.
void say_shores(AsFound& found, const WhileOpen& open) {
  if (found.today.bathe || open.shores.empty()) return;
  std::string list;
  for (const auto& shore : open.shores)
    list += (list.empty() ? "" : ", ") + shore.id + " under " + shore.under + " for " + format_number(shore.load_lb, 0) + " lb";
  found.today.words.push_back("Shores first, where the framing sheet draws them: " + list + ".");
}

}  // namespace

Floor floor(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back) {
  Floor out;
  const Model model = build_model(job, survey, cut_back);
  const Judged judged = judge(model);
  const auto edges = edge_rot(job, model);
  out.as_found = as_found(job, model, judged, edges);
  out.framing = framing_of(job, model);
  FloorChecks checks;
  checks.checks = judged.checks;
  out.while_open = while_open(job, model, cut_back, checks);
  shore_edges(model, edges, out.while_open);
  say_shores(out.as_found, out.while_open);
  out.holds = unread_members(job, model);
  for (auto& hold : unread_sills(job, model)) out.holds.push_back(std::move(hold));
  const Site site = site_of(job, model, cut_back, out.while_open);
  out.options = rebuild_options(site, out.cautions);
  out.chosen = choose(job, out.options, out.cautions);
  out.cautions.push_back(
      "Capacities are design values for sound wood of the grade recorded. Grade and species by eye are a guess; a lumber grader or an engineer can settle "
      "them.");
  out.cautions.push_back("Local code and the building department decide; figures here follow the NDS (ASD) and the model codes named beside them.");
  return out;
}

}  // namespace awlmark::floor
