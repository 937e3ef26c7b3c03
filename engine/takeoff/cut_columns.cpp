#include "takeoff/cut_columns.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <numeric>

namespace awlmark::takeoff::detail {
namespace {

constexpr double kEnough = 1e-9;  // of the dearest stick
constexpr int kMostPivots = 20000;

// Depth-first knapsack in the order of value for size, cut off where even a fractional filling of
// the rest is no better.
class Knapsack {
 public:
  Knapsack(const CutData& data, const std::vector<double>& value, const std::vector<int>& most) : data_(data), value_(value), most_(most) {
    for (std::size_t i = 0; i < value.size(); ++i)
      if (value[i] > 0 && most[i] > 0) order_.push_back(i);
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      return value_[a] * static_cast<double>(data_.size[b]) > value_[b] * static_cast<double>(data_.size[a]);
    });
  }

  double steps() const { return steps_; }
  double run(std::int64_t capacity, std::vector<int>& best) {
    now_.assign(value_.size(), 0);
    best.assign(value_.size(), 0);
    best_value_ = 0;
    best_ = &best;
    go(0, capacity, 0);
    return best_value_;
  }

 private:
  void go(std::size_t at, std::int64_t room, double sum) {
    ++steps_;
    if (sum > best_value_ + 1e-12) {
      best_value_ = sum;
      *best_ = now_;
    }
    if (at == order_.size()) return;
    const std::size_t i = order_[at];
    if (sum + value_[i] * (static_cast<double>(room) / static_cast<double>(data_.size[i])) <= best_value_ + 1e-12) return;
    const int fits = static_cast<int>(std::min<std::int64_t>(most_[i], room / data_.size[i]));
    for (int n = fits; n >= 0; --n) {
      now_[i] = n;
      go(at + 1, room - n * data_.size[i], sum + n * value_[i]);
    }
    now_[i] = 0;
  }

  const CutData& data_;
  const std::vector<double>& value_;
  const std::vector<int>& most_;
  std::vector<std::size_t> order_;
  std::vector<int> now_;
  std::vector<int>* best_ = nullptr;
  double best_value_ = 0;
  double steps_ = 0;
};

// Rows: the pieces asked for, then the stocks with a limit. Columns: an artificial of each piece
// (dear), its surplus, the slack of each limit, then patterns.
class Master {
 public:
  Master(const CutData& data, const std::vector<int>& demand, const std::vector<int>& available) : data_(data), pieces_(demand.size()) {
    limit_row_.assign(available.size(), -1);
    for (std::size_t j = 0; j < available.size(); ++j)
      if (available[j] >= 0) limit_row_[j] = static_cast<int>(pieces_ + limits_++);
    const auto rows = static_cast<Eigen::Index>(pieces_ + limits_);
    rhs_ = Eigen::VectorXd::Zero(rows);
    for (std::size_t i = 0; i < pieces_; ++i) rhs_(static_cast<Eigen::Index>(i)) = demand[i];
    for (std::size_t j = 0; j < available.size(); ++j)
      if (limit_row_[j] >= 0) rhs_(limit_row_[j]) = available[j];
    // A start that is always there: every piece bought ready-made at a price that no plan reaches.
    for (std::size_t i = 0; i < pieces_; ++i) add(Eigen::VectorXd::Unit(rows, static_cast<Eigen::Index>(i)), 1000 * data.dearest, -1);
    for (std::size_t r = pieces_; r < pieces_ + limits_; ++r) add(Eigen::VectorXd::Unit(rows, static_cast<Eigen::Index>(r)), 0, -1);
    basis_.resize(pieces_ + limits_);
    std::iota(basis_.begin(), basis_.end(), 0);
    for (std::size_t i = 0; i < pieces_; ++i) add(-Eigen::VectorXd::Unit(rows, static_cast<Eigen::Index>(i)), 0, -1);
  }

  void add_pattern(const Pattern& pattern, int index) {
    Eigen::VectorXd column = Eigen::VectorXd::Zero(rhs_.size());
    for (std::size_t i = 0; i < pieces_; ++i) column(static_cast<Eigen::Index>(i)) = pattern.count[i];
    const int row = limit_row_[static_cast<std::size_t>(pattern.stock)];
    if (row >= 0) column(row) = 1;
    add(std::move(column), data_.price[static_cast<std::size_t>(pattern.stock)], index);
  }

  // Bland's rule once a pivot moves nothing, so that it cannot go round in a circle.
  void optimise() {
    bool careful = false;
    for (int pivot = 0; pivot < kMostPivots; ++pivot) {
      refactor();
      const int enters = entering(careful);
      if (enters < 0) return;
      const Eigen::VectorXd direction = lu_.solve(columns_[static_cast<std::size_t>(enters)]);
      int leaves = -1;
      double step = 0;
      for (Eigen::Index r = 0; r < direction.size(); ++r) {
        if (direction(r) <= 1e-9) continue;
        const double ratio = std::max(0.0, amount_(r)) / direction(r);
        const bool better =
            leaves < 0 || ratio < step - 1e-12 || (ratio <= step + 1e-12 && basis_[static_cast<std::size_t>(r)] < basis_[static_cast<std::size_t>(leaves)]);
        if (!better) continue;
        leaves = static_cast<int>(r);
        step = ratio;
      }
      if (leaves < 0) return;  // not reached: every cost is at least zero
      careful = step <= 1e-12;
      basis_[static_cast<std::size_t>(leaves)] = enters;
      const auto rows = static_cast<double>(basis_.size());
      steps_ += rows * rows * rows / 8 + rows * static_cast<double>(columns_.size()) / 4;
    }
    refactor();
  }

  double steps() const { return steps_; }
  double dual(std::size_t row) const { return dual_(static_cast<Eigen::Index>(row)); }
  double stock_dual(std::size_t stock) const { return limit_row_[stock] >= 0 ? dual_(limit_row_[stock]) : 0; }
  double value() const {
    double sum = 0;
    for (std::size_t r = 0; r < basis_.size(); ++r) sum += cost_[static_cast<std::size_t>(basis_[r])] * amount_(static_cast<Eigen::Index>(r));
    return sum;
  }
  bool has_artificial() const {
    for (std::size_t r = 0; r < basis_.size(); ++r)
      if (basis_[r] < static_cast<int>(pieces_) && amount_(static_cast<Eigen::Index>(r)) > 1e-7) return true;
    return false;
  }
  void positive(std::vector<int>& index, std::vector<double>& amount) const {
    for (std::size_t r = 0; r < basis_.size(); ++r) {
      const int of = pattern_[static_cast<std::size_t>(basis_[r])];
      if (of < 0 || amount_(static_cast<Eigen::Index>(r)) <= 1e-9) continue;
      index.push_back(of);
      amount.push_back(amount_(static_cast<Eigen::Index>(r)));
    }
  }

 private:
  void add(Eigen::VectorXd column, double cost, int pattern) {
    columns_.push_back(std::move(column));
    cost_.push_back(cost);
    pattern_.push_back(pattern);
  }

  void refactor() {
    const auto rows = rhs_.size();
    Eigen::MatrixXd basis(rows, rows);
    Eigen::VectorXd cost(rows);
    for (Eigen::Index r = 0; r < rows; ++r) {
      basis.col(r) = columns_[static_cast<std::size_t>(basis_[static_cast<std::size_t>(r)])];
      cost(r) = cost_[static_cast<std::size_t>(basis_[static_cast<std::size_t>(r)])];
    }
    lu_.compute(basis);
    amount_ = lu_.solve(rhs_);
    dual_ = lu_.transpose().solve(cost);
  }

  int entering(bool careful) const {
    int best = -1;
    double least = -kEnough * data_.dearest;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const double reduced = cost_[c] - dual_.dot(columns_[c]);
      if (reduced >= least) continue;
      best = static_cast<int>(c);
      if (careful) return best;
      least = reduced;
    }
    return best;
  }

  const CutData& data_;
  std::size_t pieces_;
  std::size_t limits_ = 0;
  std::vector<int> limit_row_;
  Eigen::VectorXd rhs_;
  std::vector<Eigen::VectorXd> columns_;
  std::vector<double> cost_;
  std::vector<int> pattern_;
  std::vector<int> basis_;
  Eigen::PartialPivLU<Eigen::MatrixXd> lu_;
  Eigen::VectorXd amount_;
  Eigen::VectorXd dual_;
  double steps_ = 0;
};

bool within(const Pattern& pattern, const std::vector<int>& demand) {
  for (std::size_t i = 0; i < demand.size(); ++i)
    if (pattern.count[i] > demand[i]) return false;
  return true;
}

}  // namespace

double best_filling(const CutData& data, std::int64_t capacity, const std::vector<double>& value, const std::vector<int>& most, std::vector<int>& count,
                    double* steps) {
  Knapsack knapsack(data, value, most);
  const double worth = knapsack.run(capacity, count);
  if (steps) *steps += knapsack.steps();
  return worth;
}

Relaxed Columns::solve(const std::vector<int>& demand, const std::vector<int>& available) {
  Master master(data_, demand, available);
  for (std::size_t p = 0; p < pool_.size(); ++p)
    if (within(pool_[p], demand)) master.add_pattern(pool_[p], static_cast<int>(p));
  Relaxed found;
  found.piece_price.resize(demand.size());
  found.stock_price.resize(available.size());
  for (bool grew = true; grew;) {
    grew = false;
    master.optimise();
    for (std::size_t i = 0; i < demand.size(); ++i) found.piece_price[i] = std::max(0.0, master.dual(i));
    for (std::size_t j = 0; j < available.size(); ++j) {
      found.stock_price[j] = master.stock_dual(j);
      Pattern next;
      next.stock = static_cast<int>(j);
      const double worth = best_filling(data_, data_.capacity[j], found.piece_price, demand, next.count, &steps_);
      if (worth <= data_.price[j] - found.stock_price[j] + 10 * kEnough * data_.dearest) continue;
      pool_.push_back(next);
      master.add_pattern(pool_.back(), static_cast<int>(pool_.size()) - 1);
      grew = true;
    }
  }
  steps_ += master.steps();
  found.feasible = !master.has_artificial();
  found.value = master.value();
  std::vector<int> index;
  master.positive(index, found.amount);
  for (const int p : index) found.used.push_back(pool_[static_cast<std::size_t>(p)]);
  return found;
}

}  // namespace awlmark::takeoff::detail
