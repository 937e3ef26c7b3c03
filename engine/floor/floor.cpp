#include "floor/floor.hpp"

#include <algorithm>

#include "floor/as_found.hpp"
#include "floor/build.hpp"
#include "floor/option_plan.hpp"
#include "floor/options.hpp"
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

}  // namespace

Floor floor(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back) {
  Floor out;
  const Model model = build_model(job, survey, cut_back);
  const FloorChecks checks = check_model(model);
  out.as_found = as_found(job, model, checks);
  out.framing = framing_of(job, model);
  out.while_open = while_open(job, model, cut_back, checks);
  const Site site = site_of(job, model, cut_back, out.while_open.shores.size());
  out.options = rebuild_options(site);
  out.chosen = choose(job, out.options, out.cautions);
  out.cautions.push_back(
      "Capacities are design values for sound wood of the grade recorded. Grade and species by eye are a guess; a lumber grader or an engineer can settle "
      "them.");
  out.cautions.push_back("Local code and the building department decide; figures here follow the NDS (ASD) and the model codes named beside them.");
  return out;
}

}  // namespace awlmark::floor
