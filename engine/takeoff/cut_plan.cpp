#include "takeoff/cut_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "base/length.hpp"
#include "takeoff/cut_columns.hpp"

namespace awlmark::takeoff {
namespace {

using detail::Columns;
using detail::CutData;
using detail::Pattern;
using detail::Relaxed;

constexpr double kUnits = 1e6;  // to the inch
constexpr std::size_t kMostPieces = 120;
constexpr std::size_t kMostStocks = 30;
constexpr int kMostCount = 100000;

std::int64_t units(double length_in) { return static_cast<std::int64_t>(std::llround(length_in * kUnits)); }

// The step between sums of prices: a hundredth of a cent fits any price list; 0 when prices have no
// common step.
double price_step(const std::vector<double>& price) {
  std::int64_t step = 0;
  for (const double p : price) {
    const double scaled = p * 1e4;
    if (std::fabs(scaled - std::round(scaled)) > 1e-6 * std::max(1.0, scaled)) return 0;
    step = std::gcd(step, static_cast<std::int64_t>(std::llround(scaled)));
  }
  return static_cast<double>(step) / 1e4;
}

class Search {
 public:
  Search(const CutData& data, std::vector<int> demand, std::vector<int> available, long max_nodes, double max_steps)
      : data_(data),
        columns_(data),
        demand_(std::move(demand)),
        available_(std::move(available)),
        max_nodes_(max_nodes),
        max_steps_(max_steps),
        step_(price_step(data.price)) {
    small_ = 1e-7 * data.dearest;
  }

  // Nothing when the stock does not suffice.
  bool run() {
    root_ = columns_.solve(demand_, available_);
    if (!root_.feasible) return false;
    lower_ = round_up(root_.value);
    for (int second = -1; second < kDives && !done() && steps() < max_steps_ / 2; ++second) dive(second);
    if (!done()) round_and_search();
    if (!done()) explore(demand_, available_, 0);
    proven_ = !best_.empty() && (done() || !gave_up_);
    return !best_.empty();
  }

  const std::vector<Pattern>& best() const { return best_; }
  double lower() const { return lower_; }
  bool proven() const { return proven_; }
  bool gave_up() const { return gave_up_; }
  long nodes() const { return nodes_; }

 private:
  double round_up(double value) const {
    if (step_ <= 0) return value;
    return std::ceil((value - small_) / step_) * step_;
  }
  bool done() const { return !best_.empty() && best_cost_ <= lower_ + small_; }
  // Whether a plan that costs at least this much can still be cheaper than the best one.
  bool hopeless(double cost) const { return !best_.empty() && round_up(cost) >= best_cost_ - small_; }

  void offer(double cost) {
    if (!best_.empty() && cost >= best_cost_ - small_) return;
    best_ = taken_;
    best_cost_ = cost;
  }

  void take(const Pattern& pattern, std::vector<int>& demand, std::vector<int>& available) {
    for (std::size_t i = 0; i < demand.size(); ++i) demand[i] -= std::min(demand[i], pattern.count[i]);
    auto& left = available[static_cast<std::size_t>(pattern.stock)];
    if (left > 0) --left;
    taken_.push_back(pattern);
  }

  double steps() const { return columns_.steps() + filled_; }

  // Down the relaxation: its whole sticks, else the stick that it uses most; at depth `second` the one
  // that it uses second most, so that every dive ends elsewhere.
  void dive(int second) {
    auto demand = demand_;
    auto available = available_;
    taken_.clear();
    double cost = 0;
    for (int depth = 0; std::any_of(demand.begin(), demand.end(), [](int n) { return n > 0; }); ++depth) {
      const Relaxed relaxed = depth == 0 ? root_ : columns_.solve(demand, available);
      if (!relaxed.feasible || hopeless(cost + relaxed.value) || relaxed.used.empty()) break;
      std::vector<std::size_t> order(relaxed.used.size());
      std::iota(order.begin(), order.end(), std::size_t{0});
      std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return relaxed.amount[a] > relaxed.amount[b] + 1e-9; });
      bool any = false;
      for (const std::size_t p : order)
        for (int n = static_cast<int>(std::floor(relaxed.amount[p] + 1e-9)); n > 0 && within(relaxed.used[p], demand); --n) {
          take(relaxed.used[p], demand, available);
          cost += data_.price[static_cast<std::size_t>(relaxed.used[p].stock)];
          any = true;
        }
      if (any) continue;
      const auto& pattern = relaxed.used[order[depth == second && order.size() > 1 ? 1 : 0]];
      take(pattern, demand, available);
      cost += data_.price[static_cast<std::size_t>(pattern.stock)];
    }
    if (std::none_of(demand.begin(), demand.end(), [](int n) { return n > 0; })) offer(cost);
    taken_.clear();
  }

  static bool within(const Pattern& pattern, const std::vector<int>& demand) {
    for (std::size_t i = 0; i < demand.size(); ++i)
      if (pattern.count[i] > demand[i]) return false;
    return true;
  }

  // Takes the whole sticks of the relaxation and searches the rest; then gives back one stick of
  // each pattern, and two, so that the rest has more room to be cut well.
  void round_and_search() {
    for (int back = 0; back < 3 && !done(); ++back) {
      auto demand = demand_;
      auto available = available_;
      taken_.clear();
      double cost = 0;
      for (std::size_t p = 0; p < root_.used.size(); ++p) {
        const int whole = static_cast<int>(std::floor(root_.amount[p] + 1e-9)) - back;
        for (int n = 0; n < whole; ++n) {
          take(root_.used[p], demand, available);
          cost += data_.price[static_cast<std::size_t>(root_.used[p].stock)];
        }
      }
      const long saved = max_nodes_;
      max_nodes_ = std::min(saved, nodes_ + saved / 10);
      explore(demand, available, cost);
      max_nodes_ = saved;
      gave_up_ = false;
    }
    taken_.clear();
    reached_.clear();
  }

  void explore(const std::vector<int>& demand, const std::vector<int>& available, double cost) {
    const auto first = std::find_if(demand.begin(), demand.end(), [](int n) { return n > 0; });
    if (first == demand.end()) return offer(cost);
    if (nodes_ >= max_nodes_ || steps() >= max_steps_) {
      gave_up_ = true;
      return;
    }
    if (!worth_a_look(demand, available, cost)) return;
    ++nodes_;
    const Relaxed relaxed = columns_.solve(demand, available);
    if (!relaxed.feasible || hopeless(cost + relaxed.value)) return;
    for (const auto& pattern : patterns_with(static_cast<std::size_t>(first - demand.begin()), demand, available, relaxed, cost)) {
      if (hopeless(cost + relaxed.value + reduced(pattern, relaxed))) continue;
      auto rest = demand;
      auto left = available;
      const auto depth = taken_.size();
      take(pattern, rest, left);
      explore(rest, left, cost + data_.price[static_cast<std::size_t>(pattern.stock)]);
      taken_.resize(depth);
      if (done()) return;
    }
  }

  // Not when the same rest was reached as cheaply before.
  bool worth_a_look(const std::vector<int>& demand, const std::vector<int>& available, double cost) {
    auto key = demand;
    key.insert(key.end(), available.begin(), available.end());
    const auto [at, fresh] = reached_.try_emplace(std::move(key), cost);
    if (fresh) return true;
    if (at->second <= cost + small_) return false;
    at->second = cost;
    return true;
  }

  double reduced(const Pattern& pattern, const Relaxed& relaxed) const {
    const auto j = static_cast<std::size_t>(pattern.stock);
    double cost = data_.price[j] - relaxed.stock_price[j];
    for (std::size_t i = 0; i < pattern.count.size(); ++i) cost -= pattern.count[i] * relaxed.piece_price[i];
    return cost;
  }

  // All fillings of the stick that takes the longest piece left, such that no other piece left still
  // fits: moving pieces into it never makes a plan dearer, so no better plan is lost.
  std::vector<Pattern> patterns_with(std::size_t first, const std::vector<int>& demand, const std::vector<int>& available, const Relaxed& relaxed,
                                     double cost) {
    std::vector<Pattern> found;
    for (std::size_t j = 0; j < data_.capacity.size(); ++j) {
      if (available[j] == 0 || data_.size[first] > data_.capacity[j]) continue;
      Pattern start;
      start.stock = static_cast<int>(j);
      start.count.assign(demand.size(), 0);
      start.count[first] = 1;
      const double allowed = best_.empty() ? 1e300 : best_cost_ - cost - relaxed.value;
      fill(start, first, data_.capacity[j] - data_.size[first], demand, relaxed, data_.price[j] - relaxed.stock_price[j] - relaxed.piece_price[first], allowed,
           found);
    }
    std::vector<double> order(found.size());
    std::vector<std::size_t> index(found.size());
    for (std::size_t p = 0; p < found.size(); ++p) order[p] = reduced(found[p], relaxed);
    std::iota(index.begin(), index.end(), std::size_t{0});
    // Equal ones in the order in which they were found, on every target: differences of rounding do not count.
    std::stable_sort(index.begin(), index.end(),
                     [&](std::size_t a, std::size_t b) { return std::llround(order[a] / small_) < std::llround(order[b] / small_); });
    std::vector<Pattern> sorted;
    for (const auto p : index) sorted.push_back(std::move(found[p]));
    return sorted;
  }

  void fill(Pattern& pattern, std::size_t at, std::int64_t room, const std::vector<int>& demand, const Relaxed& relaxed, double cost, double allowed,
            std::vector<Pattern>& found) {
    ++filled_;
    if (found.size() >= kMostPatterns || steps() >= max_steps_) {
      gave_up_ = true;
      return;
    }
    if (at == demand.size()) {
      for (std::size_t i = 0; i < demand.size(); ++i)
        if (demand[i] > pattern.count[i] && data_.size[i] <= room) return;
      found.push_back(pattern);
      return;
    }
    if (cost - worth_of_rest(at, room, demand, pattern, relaxed) >= allowed) return;
    const int already = pattern.count[at];
    const int fits = static_cast<int>(std::min<std::int64_t>(demand[at] - already, room / data_.size[at]));
    for (int n = fits; n >= 0; --n) {
      pattern.count[at] = already + n;
      fill(pattern, at + 1, room - n * data_.size[at], demand, relaxed, cost - n * relaxed.piece_price[at], allowed, found);
    }
    pattern.count[at] = already;
  }

  // At most what the pieces from `at` on can add: the best value for size times the room.
  double worth_of_rest(std::size_t at, std::int64_t room, const std::vector<int>& demand, const Pattern& pattern, const Relaxed& relaxed) const {
    double rate = 0;
    for (std::size_t i = at; i < demand.size(); ++i)
      if (demand[i] > pattern.count[i] && data_.size[i] <= room) rate = std::max(rate, relaxed.piece_price[i] / static_cast<double>(data_.size[i]));
    return rate * static_cast<double>(room);
  }

  static constexpr std::size_t kMostPatterns = 50000;
  static constexpr int kDives = 12;
  const CutData& data_;
  Columns columns_;
  std::vector<int> demand_;
  std::vector<int> available_;
  long max_nodes_;
  double max_steps_;
  double filled_ = 0;
  double step_;
  double small_ = 0;
  Relaxed root_;
  double lower_ = 0;
  std::vector<Pattern> taken_;
  std::vector<Pattern> best_;
  double best_cost_ = 0;
  bool proven_ = false;
  bool gave_up_ = false;
  long nodes_ = 0;
  std::map<std::vector<int>, double> reached_;
};

void check(const CutQuestion& question, Problems& problems) {
  const auto bad = [&](const std::string& at, const std::string& what, const std::string& mend) { problems.push_back({at, what, mend}); };
  if (question.stock.empty()) bad("stock", "is empty", "give at least one length that can be bought");
  if (question.stock.size() > kMostStocks) bad("stock", "has more than " + std::to_string(kMostStocks) + " lengths", "leave some out");
  if (question.pieces.empty()) bad("pieces", "is empty", "give at least one piece");
  if (question.pieces.size() > kMostPieces) bad("pieces", "has more than " + std::to_string(kMostPieces) + " lines", "join equal lengths or split the list");
  if (!(question.kerf_in >= 0 && question.kerf_in <= 2)) bad("kerf_in", "must lie between 0 and 2", "a saw blade takes about 0.125");
  double longest = 0;
  for (std::size_t j = 0; j < question.stock.size(); ++j) {
    const auto& one = question.stock[j];
    const std::string at = "stock[" + std::to_string(j) + "]";
    if (!(one.length_in > 0 && one.length_in <= 1e5)) bad(at + ".length_in", "must be above 0 and at most 100000", "give the length of the stick in inches");
    if (!(one.price >= 0 && one.price <= 1e7)) bad(at + ".price", "must be at least 0", "give 1 where only the number of sticks counts");
    if (one.price == 0 && !one.available) bad(at + ".available", "is missing beside a price of 0", "say how many of these offcuts are on hand");
    for (std::size_t d = 0; d < one.defects.size(); ++d) {
      const auto& defect = one.defects[d];
      const std::string where = at + ".defects[" + std::to_string(d) + "]";
      if (one.price > 0) bad(where, "stands in a stick that is still to be bought", "give defects of what is on hand, at price 0");
      if (!(defect.from_in >= 0 && defect.from_in < defect.to_in && defect.to_in <= one.length_in))
        bad(where, "must lie within the stick, from_in before to_in", "measure it from one end");
    }
    if (one.available && (*one.available < 0 || *one.available > kMostCount))
      bad(at + ".available", "must lie between 0 and 100000", "leave it out where there is no limit");
    longest = std::max(longest, one.length_in);
  }
  for (std::size_t i = 0; i < question.pieces.size(); ++i) {
    const auto& one = question.pieces[i];
    const std::string at = "pieces[" + std::to_string(i) + "]";
    if (!(one.length_in > 0))
      bad(at + ".length_in", "must be above 0", "give the length of the piece in inches");
    else if (units(one.length_in) > units(longest) && longest > 0)
      bad(at + ".length_in", "is " + format_number(one.length_in, 4) + " in., longer than every stick", "give a longer stick, or join the piece from two");
    if (one.count < 0 || one.count > kMostCount) bad(at + ".count", "must lie between 0 and 100000", "give how many are needed");
  }
}

CutPlan write_plan(const CutQuestion& question, const std::vector<double>& piece_in, const std::vector<Pattern>& best) {
  CutPlan plan;
  std::map<std::pair<int, std::vector<int>>, int> times;
  for (const auto& pattern : best) {
    std::vector<int> key;
    for (const int n : pattern.count) key.push_back(-n);  // the longest pieces first in the order of the map
    ++times[{pattern.stock, key}];
  }
  for (const auto& [what, count] : times) {
    const auto& stock = question.stock[static_cast<std::size_t>(what.first)];
    Stick stick;
    stick.stock_in = stock.length_in;
    stick.times = count;
    double used = 0;
    for (std::size_t i = 0; i < what.second.size(); ++i)
      for (int n = 0; n < -what.second[i]; ++n) {
        stick.cuts.push_back(piece_in[i]);
        used += piece_in[i] + (stick.cuts.size() > 1 ? question.kerf_in : 0);
      }
    stick.offcut_in = std::max(0.0, stock.length_in - used - question.kerf_in);
    plan.cost += count * stock.price;
    plan.sticks.push_back(std::move(stick));
  }
  return plan;
}

// The plan again, without anything that found it.
bool holds(const CutQuestion& question, const CutData& data, const std::vector<int>& demand, const std::vector<Pattern>& best) {
  std::vector<int> made(demand.size(), 0), used(question.stock.size(), 0);
  for (const auto& pattern : best) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < demand.size(); ++i) {
      made[i] += pattern.count[i];
      sum += pattern.count[i] * data.size[i];
    }
    if (sum > data.capacity[static_cast<std::size_t>(pattern.stock)]) return false;
    ++used[static_cast<std::size_t>(pattern.stock)];
  }
  for (std::size_t j = 0; j < used.size(); ++j)
    if (question.stock[j].available && used[j] > *question.stock[j].available) return false;
  return made == demand;
}

// Rounding may have cut more of a piece than was asked for: the surplus is not cut.
void drop_surplus(const std::vector<int>& demand, std::vector<Pattern>& best) {
  auto left = demand;
  for (auto& pattern : best)
    for (std::size_t i = 0; i < demand.size(); ++i) {
      pattern.count[i] = std::min(pattern.count[i], left[i]);
      left[i] -= pattern.count[i];
    }
}

// A stick on hand with defects is as many sticks as it has sound stretches, each offcut of the defect apart.
std::vector<Stock> sound_stretches(const std::vector<Stock>& stocks) {
  std::vector<Stock> out;
  for (const auto& stock : stocks) {
    auto defects = stock.defects;
    std::stable_sort(defects.begin(), defects.end(), [](const Defect& a, const Defect& b) { return a.from_in < b.from_in; });
    double from_in = 0;
    const auto stretch = [&](double to_in) {
      if (to_in - from_in > 1e-6) out.push_back({to_in - from_in, stock.price, stock.available, {}});
    };
    for (const auto& defect : defects) {
      stretch(defect.from_in);
      from_in = std::max(from_in, defect.to_in);
    }
    stretch(stock.length_in);
  }
  return out;
}

}  // namespace

Outcome<CutPlan> cut_plan(const CutQuestion& asked) {
  Outcome<CutPlan> outcome;
  check(asked, outcome.problems);
  if (!outcome.problems.empty()) return outcome;
  CutQuestion question = asked;
  question.stock = sound_stretches(asked.stock);
  std::map<std::int64_t, int, std::greater<>> wanted;
  for (const auto& piece : question.pieces)
    if (piece.count > 0) wanted[units(piece.length_in)] += piece.count;
  CutData data;
  std::vector<int> demand, available;
  std::vector<double> piece_in;
  const std::int64_t kerf = units(question.kerf_in);
  for (const auto& [length, count] : wanted) {
    data.size.push_back(length + kerf);
    demand.push_back(count);
    piece_in.push_back(static_cast<double>(length) / kUnits);
  }
  for (const auto& stock : question.stock) {
    data.capacity.push_back(units(stock.length_in) + kerf);
    data.price.push_back(stock.price);
    data.dearest = std::max(data.dearest, stock.price);
    available.push_back(stock.available.value_or(-1));
  }
  if (data.dearest <= 0) data.dearest = 1;  // everything is on hand
  Search search(data, demand, available, question.max_nodes, question.max_steps);
  if (demand.empty()) {
    outcome.value = CutPlan{};
    outcome.value->proven = true;
    return outcome;
  }
  if (!search.run()) {
    if (search.gave_up())
      outcome.problems.push_back({"pieces", "no plan was found within the limits of the search", "split the list"});
    else
      outcome.problems.push_back({"stock", "what is available does not hold all pieces", "make more available or leave pieces out"});
    return outcome;
  }
  auto best = search.best();
  drop_surplus(demand, best);
  if (!holds(question, data, demand, best)) {
    outcome.problems.push_back({"", "the plan found fails its own check", "report this list of pieces as a fault"});
    return outcome;
  }
  CutPlan plan = write_plan(question, piece_in, best);
  plan.lower_bound = std::min(search.lower(), plan.cost);
  plan.proven = search.proven();
  plan.gap = plan.proven || plan.cost <= 0 ? 0 : std::max(0.0, (plan.cost - plan.lower_bound) / plan.cost);
  plan.nodes = search.nodes();
  outcome.value = std::move(plan);
  return outcome;
}

}  // namespace awlmark::takeoff
