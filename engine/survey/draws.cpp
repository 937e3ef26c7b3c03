#include "survey/draws.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "survey/separable_grid.hpp"

namespace awlmark::survey {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// One separable term: the shared one at several depths, or one node's own.
struct Term {
  SeparableGrid grid;
  double variance = 0;
  std::vector<Index> readings;       // on this term
  std::vector<std::size_t> spot_of;  // reading by reading; readings at one point share a spot
  std::vector<SeparableGrid::Spot> spots;
  MatrixXd ku, kv;  // correlations of the axes' nodes with the spots
};

Term make_term(const std::vector<Point>& cells, std::vector<Point> scaled, double variance, const std::vector<Index>& readings,
               const std::vector<Point>& reading_scaled) {
  Term term;
  term.variance = variance;
  scaled.insert(scaled.end(), reading_scaled.begin(), reading_scaled.end());
  term.grid = SeparableGrid(cells, scaled);
  term.readings = readings;
  std::vector<Point> distinct;
  for (const Point& p : reading_scaled) {
    const auto found = std::find(distinct.begin(), distinct.end(), p);
    term.spot_of.push_back(static_cast<std::size_t>(found - distinct.begin()));
    if (found == distinct.end()) distinct.push_back(p);
  }
  const Index count = static_cast<Index>(distinct.size());
  term.ku.resize(term.grid.u().size(), count);
  term.kv.resize(term.grid.v().size(), count);
  for (Index i = 0; i < count; ++i) {
    const Point p = distinct[static_cast<std::size_t>(i)];
    term.spots.push_back(term.grid.spot(p));
    term.ku.col(i) = term.grid.u().with_nodes(p.x_in);
    term.kv.col(i) = term.grid.v().with_nodes(p.y_in);
  }
  return term;
}

// field += sum over the term's spots of factor ku kv'.
void pull(const Term& term, const VectorXd& factor, MatrixXd& field) {
  const Index rows = field.rows(), cols = field.cols();
  for (Index i = 0; i < factor.size(); ++i) {
    if (factor[i] == 0) continue;
    const double* u = &term.ku(0, i);
    for (Index c = 0; c < cols; ++c) {
      const double f = factor[i] * term.kv(c, i);
      double* to = &field(0, c);
      for (Index r = 0; r < rows; ++r) to[r] += f * u[r];
    }
  }
}

struct TargetPlan {
  int node = 0;
  std::size_t depth = 0;
  int own = -1;  // index of the node's own term
  std::vector<SeparableGrid::Spot> shared, own_spots;
  std::vector<double> mean;
  std::vector<double> basis;  // values times the rot sd, point by point
};

// All that one member's draws have in common.
class MemberDraws {
 public:
  MemberDraws(const Fit& fit, const Member& member, const std::vector<DrawTarget>& targets) : fit_(fit), member_(member), c_(member.covariance) {
    for (const Place& p : fit.places) {
      use_node(p.node);
      wet_ = wet_ || p.attribute == kWet;
    }
    for (const DrawTarget& t : targets) use_node(t.node);
    std::sort(depths_.begin(), depths_.end());
    depths_.erase(std::unique(depths_.begin(), depths_.end()), depths_.end());
    factor_depths();
    make_terms(targets);
    for (const DrawTarget& t : targets) plan(t);
    read_readings();
  }

  // One draw of the latent rot at every target. `sign` -1 mirrors the draw of the same random numbers at
  // the posterior mean: as likely, and the two together have no error in the mean.
  template <class Sink>
  void draw(Random& random, double sign, Sink sink) {
    sign_ = sign;
    draw_prior(random);
    const VectorXd pulled = correction(random);
    pull_all(pulled);
    for (std::size_t t = 0; t < plans_.size(); ++t) {
      const TargetPlan& p = plans_[t];
      const double level = level_[at(p.own)][kRot];
      for (std::size_t i = 0; i < p.mean.size(); ++i) {
        double f = p.mean[i] + level + shared_.grid.read(shared_field_[p.depth][kRot], p.shared[i]) +
                   own_[at(p.own)].grid.read(own_field_[at(p.own)][kRot], p.own_spots[i]);
        for (std::size_t b = 0; b < bases_; ++b) f += p.basis[i * bases_ + b] * strength_[b][kRot];
        sink(t, i, f);
      }
    }
  }

 private:
  void use_node(int node) {
    depths_.push_back(c_.model().nodes[at(node)].depth);
    if (std::find(nodes_.begin(), nodes_.end(), node) == nodes_.end()) nodes_.push_back(node);
  }

  std::size_t depth_index(int node) const {
    return static_cast<std::size_t>(std::lower_bound(depths_.begin(), depths_.end(), c_.model().nodes[at(node)].depth) - depths_.begin());
  }
  int own_index(int node) const { return static_cast<int>(std::find(nodes_.begin(), nodes_.end(), node) - nodes_.begin()); }

  // Cholesky factor of the depths' correlation; exponential in depth, so two terms a row.
  void factor_depths() {
    bases_ = at(c_.basis_count());
    link_.assign(depths_.size(), 0);
    for (std::size_t d = 1; d < depths_.size(); ++d) link_[d] = c_.depth_factor(depths_[d], depths_[d - 1]);
  }

  void make_terms(const std::vector<DrawTarget>& targets) {
    std::vector<Point> scaled, cells;
    for (const DrawTarget& t : targets)
      for (const Point& p : t.points) {
        scaled.push_back(c_.shared_scaled(p));
        if (c_.model().nodes[at(t.node)].kind == Node::Kind::layer) cells.push_back(scaled.back());
      }
    std::vector<Index> all(fit_.places.size());
    std::iota(all.begin(), all.end(), Index{0});
    std::vector<Point> of_readings;
    for (const Place& p : fit_.places) of_readings.push_back(c_.shared_scaled(p.at_in));
    shared_ = make_term(cells.empty() ? scaled : cells, scaled, c_.shared_variance(), all, of_readings);
    for (const int node : nodes_) {
      std::vector<Point> own;
      for (const DrawTarget& t : targets)
        if (t.node == node)
          for (const Point& p : t.points) own.push_back(c_.own_scaled(node, p));
      std::vector<Index> readings;
      std::vector<Point> own_readings;
      for (const Index i : all)
        if (fit_.places[static_cast<std::size_t>(i)].node == node) {
          readings.push_back(i);
          own_readings.push_back(c_.own_scaled(node, fit_.places[static_cast<std::size_t>(i)].at_in));
        }
      own_.push_back(make_term(own, own, c_.own_variance(), readings, own_readings));
    }
  }

  void plan(const DrawTarget& target) {
    TargetPlan p;
    p.node = target.node;
    p.depth = depth_index(target.node);
    p.own = own_index(target.node);
    std::vector<double> values(bases_);
    for (const Point& point : target.points) {
      p.shared.push_back(shared_.grid.spot(c_.shared_scaled(point)));
      p.own_spots.push_back(own_[at(p.own)].grid.spot(c_.own_scaled(target.node, point)));
      c_.basis(target.node, point, values.data());
      double mean = c_.offset(target.node, kRot);
      for (std::size_t b = 0; b < bases_; ++b) {
        mean += values[b] * c_.basis_mean(static_cast<int>(b), kRot);
        p.basis.push_back(values[b] * c_.basis_sd(static_cast<int>(b), kRot));
      }
      p.mean.push_back(mean);
    }
    plans_.push_back(std::move(p));
  }

  void read_readings() {
    std::vector<double> values(bases_);
    own_position_.resize(fit_.places.size());
    for (std::size_t i = 0; i < fit_.places.size(); ++i) {
      const Place& p = fit_.places[i];
      c_.basis(p.node, p.at_in, values.data());
      for (std::size_t b = 0; b < bases_; ++b) reading_basis_.push_back(values[b] * c_.basis_sd(static_cast<int>(b), p.attribute));
      reading_depth_.push_back(depth_index(p.node));
      reading_own_.push_back(own_index(p.node));
      const Term& own = own_[at(reading_own_.back())];
      const auto place = std::find(own.readings.begin(), own.readings.end(), static_cast<Index>(i)) - own.readings.begin();
      own_position_[i] = static_cast<std::size_t>(place);
      missing_sd_.push_back(std::sqrt(shared_.variance * shared_.grid.missing(shared_.spots[shared_.spot_of[i]]) +
                                      own.variance * own.grid.missing(own.spots[own.spot_of[own_position_[i]]])));
    }
  }

  // Fields with their variance, both attributes where a wet reading needs the second.
  void draw_prior(Random& random) {
    const double rho = c_.model().coupling, rest = std::sqrt(1 - rho * rho);
    const int attributes = wet_ ? 2 : 1;
    shared_field_.assign(depths_.size(), {});
    const double sd = std::sqrt(shared_.variance);
    for (std::size_t d = 0; d < depths_.size(); ++d)
      for (int a = 0; a < attributes; ++a) {
        MatrixXd z = shared_.grid.draw(random) * (sign_ * sd);
        // Depths form a chain: each follows the one above and has the rest to itself.
        if (d > 0) z = link_[d] * raw_[a] + std::sqrt(1 - link_[d] * link_[d]) * z;
        raw_[a] = z;
        shared_field_[d][a] = a == 0 ? z : MatrixXd(rho * raw_[0] + rest * z);
      }
    own_field_.assign(nodes_.size(), {});
    level_.assign(nodes_.size(), {});
    for (std::size_t n = 0; n < nodes_.size(); ++n)
      for (int a = 0; a < attributes; ++a) {
        MatrixXd z = own_[n].grid.draw(random) * (sign_ * std::sqrt(own_[n].variance));
        const double level = sign_ * random.normal() * c_.node_sd();
        own_field_[n][a] = a == 0 ? z : MatrixXd(rho * own_field_[n][0] + rest * z);
        level_[n][a] = a == 0 ? level : rho * level_[n][0] + rest * level;
      }
    strength_.assign(bases_, {});
    for (std::size_t b = 0; b < bases_; ++b)
      for (int a = 0; a < attributes; ++a) {
        const double z = sign_ * random.normal();
        strength_[b][a] = a == 0 ? z : rho * strength_[b][0] + rest * z;
      }
  }

  double drawn_at(std::size_t i) const {
    const int a = fit_.places[i].attribute;
    const std::size_t own = at(reading_own_[i]);
    double f = shared_.grid.read(shared_field_[reading_depth_[i]][a], shared_.spots[shared_.spot_of[i]]) +
               own_[own].grid.read(own_field_[own][a], own_[own].spots[own_[own].spot_of[own_position_[i]]]) + level_[own][a];
    for (std::size_t b = 0; b < bases_; ++b) f += reading_basis_[i * bases_ + b] * strength_[b][a];
    return f;
  }

  VectorXd correction(Random& random) const {
    const Index n = static_cast<Index>(fit_.places.size());
    VectorXd gap = VectorXd::Zero(n);
    if (n == 0) return gap;
    for (Index i = 0; i < n; ++i) {
      const double residual = sign_ * random.normal() * missing_sd_[static_cast<std::size_t>(i)];
      const double noise = sign_ * random.normal();
      const double precision = member_.ep.sites.precision[i];
      if (precision < 1e-12) continue;
      gap[i] = member_.ep.sites.shift[i] / precision - noise / std::sqrt(precision) - drawn_at(static_cast<std::size_t>(i)) - residual;
    }
    const VectorXd once = member_.ep.half * gap;
    return member_.ep.half.transpose() * once;
  }

  // Adds the kriged correction to the rot fields.
  void pull_all(const VectorXd& v) {
    const Index n = v.size();
    VectorXd to_rot(n);
    for (Index i = 0; i < n; ++i) to_rot[i] = v[i] * c_.attribute_factor(kRot, fit_.places[static_cast<std::size_t>(i)].attribute);
    for (std::size_t d = 0; d < depths_.size(); ++d) {
      VectorXd factor = VectorXd::Zero(static_cast<Index>(shared_.spots.size()));
      for (Index i = 0; i < n; ++i)
        factor[static_cast<Index>(shared_.spot_of[static_cast<std::size_t>(i)])] +=
            to_rot[i] * shared_.variance * c_.depth_factor(depths_[d], depths_[reading_depth_[static_cast<std::size_t>(i)]]);
      pull(shared_, factor, shared_field_[d][kRot]);
    }
    for (std::size_t k = 0; k < own_.size(); ++k) {
      VectorXd factor = VectorXd::Zero(static_cast<Index>(own_[k].spots.size()));
      double sum = 0;
      for (std::size_t i = 0; i < own_[k].readings.size(); ++i) {
        factor[static_cast<Index>(own_[k].spot_of[i])] += to_rot[own_[k].readings[i]] * own_[k].variance;
        sum += to_rot[own_[k].readings[i]];
      }
      pull(own_[k], factor, own_field_[k][kRot]);
      level_[k][kRot] += sum * c_.node_sd() * c_.node_sd();
    }
    for (std::size_t b = 0; b < bases_; ++b)
      for (Index i = 0; i < n; ++i) strength_[b][kRot] += to_rot[i] * reading_basis_[static_cast<std::size_t>(i) * bases_ + b];
  }

  const Fit& fit_;
  const Member& member_;
  const Covariance& c_;
  bool wet_ = false;
  std::size_t bases_ = 0;
  std::vector<double> depths_, link_;
  std::vector<int> nodes_;
  Term shared_;
  std::vector<Term> own_;
  std::vector<TargetPlan> plans_;
  std::vector<double> reading_basis_, missing_sd_;
  std::vector<std::size_t> reading_depth_, own_position_;
  std::vector<int> reading_own_;
  // Of the draw at hand.
  double sign_ = 1;
  std::array<MatrixXd, 2> raw_;
  std::vector<std::array<MatrixXd, 2>> shared_field_, own_field_;
  std::vector<std::array<double, 2>> level_, strength_;
};

// Calls sink(draw, target, point, latent, gap) for every draw, members in proportion to their weights.
template <class Sink>
void for_each_draw(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed, Sink sink) {
  std::vector<int> order(at(std::max(count, 0)));
  std::iota(order.begin(), order.end(), 0);
  Random shuffle(stream_seed(seed, 1));
  for (std::size_t i = order.size(); i > 1; --i) std::swap(order[i - 1], order[shuffle.below(i)]);
  double cumulative = 0;
  int next = 0;
  for (std::size_t m = 0; m < fit.members.size(); ++m) {
    const Member& member = fit.members[m];
    MemberDraws draws(fit, member, targets);
    for (std::size_t g = 0; g < member.gaps.size(); ++g) {
      cumulative += member.gaps[g].weight;
      const bool last = m + 1 == fit.members.size() && g + 1 == member.gaps.size();
      const int until = last ? count : std::min(count, static_cast<int>(std::floor(cumulative * count + 0.5)));
      // In pairs that mirror each other, so that what is summed over draws hardly moves with the seed.
      const int first = next;
      for (; next < until; ++next) {
        const int draw = order[at(next)], mirrored = (next - first) % 2;
        Random random(stream_seed(seed, 16 + static_cast<std::uint64_t>(order[at(next - mirrored)])));
        draws.draw(random, mirrored ? -1 : 1,
                   [&](std::size_t target, std::size_t point, double latent) { sink(draw, target, point, latent, member.gaps[g].gap); });
      }
    }
  }
}

}  // namespace

DegreeDraws draw_degrees(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed) {
  DegreeDraws out;
  out.count = std::max(count, 0);
  for (const DrawTarget& t : targets) out.degree.emplace_back(at(out.count) * t.points.size(), std::uint8_t{0});
  for_each_draw(fit, targets, out.count, seed, [&](int draw, std::size_t t, std::size_t i, double latent, double gap) {
    out.degree[t][at(draw) * targets[t].points.size() + i] = latent <= 0 ? std::uint8_t{0} : (latent <= gap ? std::uint8_t{1} : std::uint8_t{2});
  });
  return out;
}

std::vector<std::vector<double>> draw_latent(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed) {
  std::vector<std::vector<double>> out;
  for (const DrawTarget& t : targets) out.emplace_back(at(std::max(count, 0)) * t.points.size(), 0.0);
  for_each_draw(fit, targets, count, seed,
                [&](int draw, std::size_t t, std::size_t i, double latent, double) { out[t][at(draw) * targets[t].points.size() + i] = latent; });
  return out;
}

}  // namespace awlmark::survey
