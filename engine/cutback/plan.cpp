#include "cutback/plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::cutback {
namespace {

constexpr int kPasses = 40;  // each pass takes at least one piece more; small floors settle in three

std::string in_100(double p) { return format_number(p * 100, 0) + " in 100"; }

// Solves again after a rule and books what it changed.
class Planner {
 public:
  explicit Planner(Plan& plan) : plan_(plan) {}

  void solve(RuleEffect& effect, const std::string& why_forced, const std::string& why_follows) {
    const auto before = plan_.out;
    const auto price = plan_.price_cents();
    plan_.out = least_cut(plan_.problem).out;
    for (std::size_t b = 0; b < before.size(); ++b) {
      if (before[b] == plan_.out[b]) continue;
      ++effect.pieces_changed;
      if (plan_.out[b])
        plan_.because[b] = plan_.problem.must_go[b] ? why_forced : why_follows;
      else
        plan_.because[b].clear();
    }
    effect.added_cost += static_cast<double>(plan_.price_cents() - price) / 100;
  }

  void reprice(const CutProblem& priced, RuleEffect& effect) {
    const auto before = plan_.out;
    const auto price = plan_.price_cents();
    plan_.problem.out_cents = priced.out_cents;
    plan_.problem.pairs = priced.pairs;
    plan_.out = least_cut(plan_.problem).out;
    for (std::size_t b = 0; b < before.size(); ++b) effect.pieces_changed += before[b] != plan_.out[b];
    effect.added_cost += static_cast<double>(plan_.price_cents() - price) / 100;
  }

  bool must_go(const std::vector<char>& go) {
    bool any = false;
    for (std::size_t b = 0; b < go.size(); ++b)
      if (go[b] && !plan_.problem.must_go[b]) {
        plan_.problem.must_go[b] = 1;
        any = true;
      }
    return any;
  }
  bool must_go(const std::vector<int>& go) {
    for (const int b : go) plan_.problem.must_go[b] = 1;
    return !go.empty();
  }

 private:
  Plan& plan_;
};

RuleEffect rule(const char* name, bool on, const char* figure_id, const std::string& compares) {
  RuleEffect effect;
  effect.rule = name;
  effect.on = on;
  if (figure_id) effect.reason = figure_reason(figure_id);
  effect.reason.compares = compares;
  if (!figure_id) effect.reason.source = "common practice";
  return effect;
}

void close(RuleEffect& effect, const std::string& changed, const std::string& kept) {
  if (!effect.on)
    effect.words = "Switched off in this job: " + changed;
  else if (effect.pieces_changed == 0 && effect.added_cost < 0.005)
    effect.words = kept;
  else
    effect.words = changed + " " + std::to_string(effect.pieces_changed) + (effect.pieces_changed == 1 ? " piece" : " pieces") + " changed, $" +
                   format_number(effect.added_cost, 0) + " more.";
}

void base_reasons(const Model& model, Plan& plan) {
  std::vector<char> carries(model.blocks.size(), 0);
  for (const auto& arc : plan.problem.implies) carries[arc.upper] |= plan.out[arc.lower];
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (!plan.out[b]) continue;
    const Block& block = model.blocks[b];
    if (block.known)
      plan.because[b] = "The awl went in at mark " + block.known_by + ". Known decay always goes.";
    else if (block.by_way)
      plan.because[b] = "The way to rebuild takes it out, whatever its strength.";
    else if (model.sheets[block.sheet].goes)
      plan.because[b] = "This layer goes in any case.";
    else if (plan.problem.stay_cents[b] > plan.problem.out_cents[b])
      plan.because[b] = "Unsound in " + in_100(block.p_unsound) + " of the draws: leaving it would cost more than taking it out.";
    else if (carries[b])
      plan.because[b] = "It lies over what comes out.";
    else
      plan.because[b] = "Unsound in " + in_100(block.p_unsound) + " of the draws, and cheaper to take than to cut around.";
  }
}

void stay_reasons(const Model& model, Plan& plan) {
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (plan.out[b]) continue;
    const Block& block = model.blocks[b];
    if (plan.problem.must_stay[b] && plan.problem.stay_cents[b] > plan.problem.out_cents[b])
      plan.because[b] = "Stays until it is looked at: a bearing wall stands on it. Unsound in " + in_100(block.p_unsound) + " of the draws.";
    else if (block.p_unsound <= 0)
      plan.because[b] = "Sound in every draw.";
    else
      plan.because[b] = "Unsound in " + in_100(block.p_unsound) + " of the draws: leaving it costs less than taking it out.";
  }
}

// Slivers, bearings and staggered joints: each looks at the plan so far and asks for more.
void settle(const Model& model, const Rules& rules, const money::Stakes& prices, Planner& planner, Plan& plan, RuleEffect& slivers, RuleEffect& supports,
            RuleEffect& stagger) {
  const auto near = neighbours_of(model);
  for (int pass = 0; pass < kPasses; ++pass) {
    bool changed = false;
    if (rules.no_slivers && planner.must_go(sliver_pieces(model, near, plan.problem, plan.out))) {
      planner.solve(slivers, "It would leave or make a strip too narrow to nail.", "It goes with a strip too narrow to nail.");
      changed = true;
    }
    if (rules.two_supports && planner.must_go(short_bearing_pieces(model, near, plan.problem, plan.out))) {
      planner.solve(supports, "The new board needs two supports to bear on.", "It goes with a board that needs two supports.");
      changed = true;
    }
    if (!changed && rules.stagger) {
      const Stagger asked = stagger_joints(model, plan.problem, plan.out, prices.blocking_per_ft);
      if (planner.must_go(asked.take)) {
        planner.solve(stagger, "Its neighbour's joint would fall on the same support.", "It goes with a joint that had to be staggered.");
        changed = true;
      }
    }
    if (!changed) return;
  }
}

void block_joints(const Job& job, const Model& model, const money::Stakes& prices, Plan& plan, RuleEffect& stagger) {
  const Stagger asked = stagger_joints(model, plan.problem, plan.out, prices.blocking_per_ft);
  for (const int j : asked.blocked) {
    const Joint& joint = model.joints[j];
    const auto money = static_cast<std::int64_t>(std::llround(prices.blocking_per_ft * joint.length_in / 12 * 100));
    plan.joint_blocking_cents += money;
    stagger.added_cost += static_cast<double>(money) / 100;
    plan.joint_blocking.push_back({"joint." + std::to_string(plan.joint_blocking.size() + 1), joint.from_in, joint.to_in, joint.length_in,
                                   "Cleat on the side of " + job.supports[joint.support].id + ": the neighbouring board ends on the same support."});
  }
}

}  // namespace

Plan make_plan(const Job& job, const Model& model, const std::vector<std::string>& contaminated_layers) {
  const Rules rules = rules_of(job);
  const money::Stakes prices = money::stakes_of(job);
  Plan plan;
  plan.problem = price_model(model, prices, false);
  plan.because.resize(model.blocks.size());
  const CutSolution least = least_cut(plan.problem);
  plan.out = least.out;
  plan.least_cents = least.price_cents;
  Planner planner(plan);

  auto ends = rule("ends_on_support", rules.ends_on_support, nullptr, "ends land on the middle of a support or on added blocking");
  if (rules.ends_on_support) planner.reprice(price_model(model, prices, true), ends);
  base_reasons(model, plan);
  close(ends, "Ends land on the middle of a support, or on blocking that is added.", "Every end lands on a support already.");

  auto contaminated =
      rule("contaminated_goes", rules.contaminated_goes, nullptr, "porous layers that dirty water or growth reached go whatever their strength");
  if (rules.contaminated_goes && !contaminated_layers.empty() && planner.must_go(contaminated_pieces(model, contaminated_layers)))
    planner.solve(contaminated, "Contaminated and porous: it goes whatever its strength.", "It lies over a contaminated layer that goes.");
  close(contaminated, "Contaminated porous layers go whatever their strength.", "No layer is contaminated, or it goes already.");

  auto spare = rule("spare_bearing_walls", rules.spare_bearing_walls, "spare_chance", "chance from which unread wood under a bearing wall is planned to go");
  if (rules.spare_bearing_walls) {
    plan.problem.must_stay = spared_pieces(job, model);
    planner.solve(spare, "", "");
  }
  close(spare, "Nothing is cut under a bearing wall on a mere suspicion: it is looked at first.",
        "Nothing under a bearing wall was going to be cut on a mere suspicion.");

  auto margin = rule("margin", rules.margin, "margin_along", "distance cut back beyond the last unsound reading along the grain");
  margin.reason.demand = rules.margin_in;
  if (rules.margin && planner.must_go(margin_pieces(job, model, rules.margin_in)))
    planner.solve(margin, "Within " + format_length(rules.margin_in) + " of an unsound reading along the grain.",
                  "It lies over wood within the margin of an unsound reading.");
  close(margin, "Cut back at least " + format_length(rules.margin_in) + " beyond the last unsound reading along the grain.",
        "The cut already lies beyond the margin.");

  auto slivers = rule("no_slivers", rules.no_slivers, "sliver_panel", "narrowest strip that is left or laid");
  auto supports = rule("two_supports", rules.two_supports, nullptr, "a new board bears on at least two supports");
  auto stagger = rule("stagger", rules.stagger, nullptr, "end joints of neighbouring boards do not fall on one support, or are blocked");
  settle(model, rules, prices, planner, plan, slivers, supports, stagger);
  if (rules.stagger) block_joints(job, model, prices, plan, stagger);
  close(slivers, "No strip is left or laid too narrow to nail.", "No narrow strip is left.");
  close(supports, "Every new board bears on two supports.", "Every new board bears on two supports already.");
  close(stagger, "Joints of neighbouring boards on one support are staggered or blocked (" + std::to_string(plan.joint_blocking.size()) + " blocked).",
        "No two neighbouring boards end on one support.");

  plan.rules = {margin, ends, supports, stagger, slivers, spare, contaminated};
  stay_reasons(model, plan);
  return plan;
}

}  // namespace awlmark::cutback
