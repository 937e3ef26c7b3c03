#include "survey/draws.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "survey/lattice.hpp"
#include "survey/reading_draws.hpp"
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
  int own = -1;                                        // index of the node's own term
  std::vector<SeparableGrid::Spot> shared, own_spots;  // point by point, or
  LatticeSpots shared_lattice, own_lattice;            // by the lattice that the points stand on
  std::vector<std::size_t> index;                      // of each point in the lattice; empty: point by point
  std::vector<double> mean;
  std::vector<std::vector<double>> basis;  // values times the rot sd, basis by basis
};

// All that one member's draws have in common.
class MemberDraws {
 public:
  MemberDraws(const Fit& fit, const Member& member, const std::vector<DrawTarget>& targets) : fit_(fit), c_(member.covariance), felt_(fit, member) {
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
    for (const TargetPlan& p : plans_) depth_asked_[p.depth] = 1;
    read_readings();
  }

  // A draw of the prior and of the readings' noise, for `draw` to condition.
  void begin(Random& random) {
    draw_prior(random);
    const Index n = static_cast<Index>(fit_.places.size());
    drawn_.resize(n);
    for (Index i = 0; i < n; ++i) {
      const double residual = random.normal() * missing_sd_[static_cast<std::size_t>(i)];
      const double noise = random.normal() * felt_.noise_sd(i);
      drawn_[i] = drawn_at(static_cast<std::size_t>(i)) + residual + noise;
    }
  }

  // The latent rot at every target. `sign` -1 mirrors the draw begun at the posterior mean: as likely, and the
  // two together have next to no error in the mean.
  template <class Sink>
  void draw(Random& random, double sign, Sink sink) {
    pull_all(felt_.solved(felt_.draw(random, sign) - sign * drawn_), sign);
    for (std::size_t t = 0; t < plans_.size(); ++t) {
      const TargetPlan& p = plans_[t];
      const std::size_t n = p.mean.size();
      const double level = pulled_level_[at(p.own)];
      latent_.resize(n);
      for (std::size_t i = 0; i < n; ++i) latent_[i] = p.mean[i] + level;
      for (std::size_t b = 0; b < bases_; ++b) {
        const double strength = pulled_strength_[b];
        const double* basis = p.basis[b].data();
        for (std::size_t i = 0; i < n; ++i) latent_[i] += strength * basis[i];
      }
      add_fields(p);
      sink(t, latent_);
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
    const Index count = static_cast<Index>(depths_.size());
    between_depths_.resize(count, count);
    for (std::size_t d = 0; d < depths_.size(); ++d) {
      if (d > 0) link_[d] = c_.depth_factor(depths_[d], depths_[d - 1]);
      for (std::size_t e = 0; e < depths_.size(); ++e) between_depths_(static_cast<Index>(d), static_cast<Index>(e)) = c_.depth_factor(depths_[d], depths_[e]);
    }
    depth_asked_.assign(depths_.size(), 0);
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
    const PlanLattice lattice = c_.model().nodes[at(target.node)].kind == Node::Kind::layer ? lattice_of(target.points) : PlanLattice{};
    const Covariance::Frame &shared = c_.shared_frame(), &own = c_.own_frame(target.node);
    if (lattice.pays && square(shared) && square(own)) {
      p.shared_lattice = lattice_spots(shared_.grid, shared, lattice);
      p.own_lattice = lattice_spots(own_[at(p.own)].grid, own, lattice);
      for (std::size_t i = 0; i < target.points.size(); ++i) p.index.push_back(lattice.row[i] * lattice.x.size() + lattice.column[i]);
    }
    std::vector<double> values(bases_);
    p.basis.resize(bases_);
    for (const Point& point : target.points) {
      if (p.index.empty()) {
        p.shared.push_back(shared_.grid.spot(c_.shared_scaled(point)));
        p.own_spots.push_back(own_[at(p.own)].grid.spot(c_.own_scaled(target.node, point)));
      }
      c_.basis(target.node, point, values.data());
      double mean = c_.offset(target.node, kRot);
      for (std::size_t b = 0; b < bases_; ++b) {
        mean += values[b] * c_.basis_mean(static_cast<int>(b), kRot);
        p.basis[b].push_back(values[b] * c_.basis_sd(static_cast<int>(b), kRot));
      }
      p.mean.push_back(mean);
    }
    plans_.push_back(std::move(p));
  }

  static bool square(const Covariance::Frame& f) { return (f.cu == 0 || f.su == 0) && (f.cv == 0 || f.sv == 0); }

  static LatticeSpots lattice_spots(const SeparableGrid& grid, const Covariance::Frame& frame, const PlanLattice& lattice) {
    LatticeSpots spots;
    spots.turned = frame.cu == 0;
    for (const double x : lattice.x) spots.x.push_back(spots.turned ? grid.v().at(frame.cv * x) : grid.u().at(frame.cu * x));
    for (const double y : lattice.y) spots.y.push_back(spots.turned ? grid.u().at(frame.su * y) : grid.v().at(frame.sv * y));
    return spots;
  }

  // Shared and own field, added to `latent_`.
  void add_fields(const TargetPlan& p) {
    const SeparableGrid& own = own_[at(p.own)].grid;
    const MatrixXd &shared_field = pulled_shared_[p.depth], &own_field = pulled_own_[at(p.own)];
    if (p.index.empty()) {
      for (std::size_t i = 0; i < latent_.size(); ++i) latent_[i] += shared_.grid.read(shared_field, p.shared[i]) + own.read(own_field, p.own_spots[i]);
      return;
    }
    lattice_.assign(p.shared_lattice.x.size() * p.shared_lattice.y.size(), 0.0);
    shared_.grid.add(shared_field, p.shared_lattice, scratch_, lattice_);
    own.add(own_field, p.own_lattice, scratch_, lattice_);
    for (std::size_t i = 0; i < latent_.size(); ++i) latent_[i] += lattice_[p.index[i]];
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
        MatrixXd z = shared_.grid.draw(random) * sd;
        // Depths form a chain: each follows the one above and has the rest to itself.
        if (d > 0) z = link_[d] * raw_[a] + std::sqrt(1 - link_[d] * link_[d]) * z;
        raw_[a] = z;
        shared_field_[d][a] = a == 0 ? z : MatrixXd(rho * raw_[0] + rest * z);
      }
    own_field_.assign(nodes_.size(), {});
    level_.assign(nodes_.size(), {});
    for (std::size_t n = 0; n < nodes_.size(); ++n)
      for (int a = 0; a < attributes; ++a) {
        MatrixXd z = own_[n].grid.draw(random) * std::sqrt(own_[n].variance);
        const double level = random.normal() * c_.node_sd();
        own_field_[n][a] = a == 0 ? z : MatrixXd(rho * own_field_[n][0] + rest * z);
        level_[n][a] = a == 0 ? level : rho * level_[n][0] + rest * level;
      }
    strength_.assign(bases_, {});
    for (std::size_t b = 0; b < bases_; ++b)
      for (int a = 0; a < attributes; ++a) {
        const double z = random.normal();
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

  // The prior draw, mirrored or not, with the kriged correction added to its rot.
  void pull_all(const VectorXd& v, double sign) {
    const Index n = v.size();
    VectorXd to_rot(n);
    for (Index i = 0; i < n; ++i) to_rot[i] = v[i] * c_.attribute_factor(kRot, fit_.places[static_cast<std::size_t>(i)].attribute);
    pulled_shared_.resize(depths_.size());
    for (std::size_t d = 0; d < depths_.size(); ++d) {
      if (!depth_asked_[d]) continue;
      VectorXd factor = VectorXd::Zero(static_cast<Index>(shared_.spots.size()));
      for (Index i = 0; i < n; ++i)
        factor[static_cast<Index>(shared_.spot_of[static_cast<std::size_t>(i)])] +=
            to_rot[i] * shared_.variance * between_depths_(static_cast<Index>(d), static_cast<Index>(reading_depth_[static_cast<std::size_t>(i)]));
      pulled_shared_[d] = sign * shared_field_[d][kRot];
      pull(shared_, factor, pulled_shared_[d]);
    }
    pulled_own_.resize(own_.size());
    pulled_level_.resize(own_.size());
    for (std::size_t k = 0; k < own_.size(); ++k) {
      VectorXd factor = VectorXd::Zero(static_cast<Index>(own_[k].spots.size()));
      double sum = 0;
      for (std::size_t i = 0; i < own_[k].readings.size(); ++i) {
        factor[static_cast<Index>(own_[k].spot_of[i])] += to_rot[own_[k].readings[i]] * own_[k].variance;
        sum += to_rot[own_[k].readings[i]];
      }
      pulled_own_[k] = sign * own_field_[k][kRot];
      pull(own_[k], factor, pulled_own_[k]);
      pulled_level_[k] = sign * level_[k][kRot] + sum * c_.node_sd() * c_.node_sd();
    }
    pulled_strength_.resize(bases_);
    for (std::size_t b = 0; b < bases_; ++b) {
      pulled_strength_[b] = sign * strength_[b][kRot];
      for (Index i = 0; i < n; ++i) pulled_strength_[b] += to_rot[i] * reading_basis_[static_cast<std::size_t>(i) * bases_ + b];
    }
  }

  const Fit& fit_;
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
  ReadingDraws felt_;
  std::vector<char> depth_asked_;  // whether a target lies at this depth
  MatrixXd between_depths_;
  // Of the draw at hand: the prior, then what it became.
  VectorXd drawn_;
  std::array<MatrixXd, 2> raw_;
  std::vector<std::array<MatrixXd, 2>> shared_field_, own_field_;
  std::vector<std::array<double, 2>> level_, strength_;
  std::vector<MatrixXd> pulled_shared_, pulled_own_;
  std::vector<double> pulled_level_, pulled_strength_;
  std::vector<double> latent_, lattice_, scratch_;
};

// Calls sink(draw, target, latents, gap) for every draw, members in proportion to their weights.
template <class Sink>
void for_each_draw(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed, Sink sink) {
  std::vector<int> order(at(std::max(count, 0)));
  std::iota(order.begin(), order.end(), 0);
  Random shuffle(stream_seed(seed, 1));
  for (std::size_t i = order.size(); i > 1; --i) std::swap(order[i - 1], order[shuffle.below(i)]);
  double cumulative = 0;
  int next = 0;
  for (std::size_t m = 0; m < fit.members.size() && next < count; ++m) {
    const Member& member = fit.members[m];
    MemberDraws draws(fit, member, targets);
    for (std::size_t g = 0; g < member.gaps.size(); ++g) {
      cumulative += member.gaps[g].weight;
      const bool last = m + 1 == fit.members.size() && g + 1 == member.gaps.size();
      const int until = last ? count : std::min(count, static_cast<int>(std::floor(cumulative * count + 0.5)));
      // In pairs that mirror each other, so that what is summed over draws hardly moves with the seed.
      for (; next < until; next += 2) {
        Random random(stream_seed(seed, 16 + static_cast<std::uint64_t>(order[at(next)])));
        draws.begin(random);
        for (int mirrored = 0; mirrored < 2 && next + mirrored < until; ++mirrored) {
          Random same = random;
          const int draw = order[at(next + mirrored)];
          draws.draw(same, mirrored ? -1 : 1, [&](std::size_t target, const std::vector<double>& latent) { sink(draw, target, latent, member.gaps[g].gap); });
        }
      }
      next = std::min(next, until);
    }
  }
}

}  // namespace

DegreeDraws draw_degrees(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed) {
  DegreeDraws out;
  out.count = std::max(count, 0);
  for (const DrawTarget& t : targets) out.degree.emplace_back(at(out.count) * t.points.size(), std::uint8_t{0});
  for_each_draw(fit, targets, out.count, seed, [&](int draw, std::size_t t, const std::vector<double>& latent, double gap) {
    std::uint8_t* to = out.degree[t].data() + at(draw) * latent.size();
    for (std::size_t i = 0; i < latent.size(); ++i) to[i] = static_cast<std::uint8_t>((latent[i] > 0 ? 1 : 0) + (latent[i] > std::max(gap, 0.0) ? 1 : 0));
  });
  return out;
}

std::vector<std::vector<double>> draw_latent(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed) {
  std::vector<std::vector<double>> out;
  for (const DrawTarget& t : targets) out.emplace_back(at(std::max(count, 0)) * t.points.size(), 0.0);
  for_each_draw(fit, targets, count, seed, [&](int draw, std::size_t t, const std::vector<double>& latent, double) {
    std::copy(latent.begin(), latent.end(), out[t].begin() + static_cast<std::ptrdiff_t>(at(draw) * latent.size()));
  });
  return out;
}

}  // namespace awlmark::survey
