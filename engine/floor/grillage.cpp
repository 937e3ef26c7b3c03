#include "floor/grillage.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "floor/banded.hpp"

namespace awlmark::floor {
namespace {

constexpr double kSame_in = 1e-6;

bool holds(const std::vector<double>& places, double at) {
  for (const double place : places)
    if (std::fabs(place - at) <= kSame_in) return true;
  return false;
}

// Stations shared by all planks: supports, breaks, ends, loads, blocks, and an even division between.
std::vector<double> stations_of(const Deck& deck) {
  std::vector<double> key = {0, deck.length_in};
  const auto take = [&](double at) {
    if (at > 0 && at < deck.length_in) key.push_back(at);
  };
  for (const double at : deck.supports_in) take(at);
  for (const auto& plank : deck.planks) {
    for (const double at : plank.breaks_in) take(at);
    if (plank.to_in > plank.from_in) take(plank.from_in), take(plank.to_in);
  }
  for (const auto& link : deck.links)
    for (const double at : link.blocked_at_in) take(at);
  for (const auto& load : deck.loads) {
    if (load.kind == DeckLoad::Kind::point) {
      take(load.at_in), take(load.at_in - load.patch_in / 2), take(load.at_in + load.patch_in / 2);
    } else if (load.to_in > load.from_in) {
      take(load.from_in), take(load.to_in);
    }
  }
  std::sort(key.begin(), key.end());
  std::vector<double> kept;
  for (const double at : key)
    if (kept.empty() || at - kept.back() > 1e-3) kept.push_back(at);

  std::vector<double> edges = deck.supports_in;
  std::sort(edges.begin(), edges.end());
  double longest = edges.empty() ? deck.length_in : std::max(edges.front(), deck.length_in - edges.back());
  for (std::size_t i = 1; i < edges.size(); ++i) longest = std::max(longest, edges[i] - edges[i - 1]);
  const double step = longest / std::max(2, deck.elements_per_span);

  std::vector<double> out;
  for (std::size_t i = 0; i + 1 < kept.size(); ++i) {
    const double gap = kept[i + 1] - kept[i];
    const int parts = std::max(1, static_cast<int>(std::ceil(gap / step - 1e-9)));
    for (int k = 0; k < parts; ++k) out.push_back(kept[i] + gap * k / parts);
  }
  out.push_back(kept.back());
  return out;
}

// Numbers of the movements at one station of one plank, seen from the element on either side.
struct Node {
  bool there = false;
  std::array<int, 3> left{-1, -1, -1};   // as the end of the element before
  std::array<int, 3> right{-1, -1, -1};  // as the start of the element after; the same unless broken here
};

struct Numbering {
  std::vector<std::vector<Node>> nodes;  // [station][plank]
  int count = 0;
  std::size_t band = 0;
};

bool on_plank(const DeckPlank& plank, double at) { return plank.to_in <= plank.from_in || (at >= plank.from_in - kSame_in && at <= plank.to_in + kSame_in); }

Numbering number(const Deck& deck, const std::vector<double>& stations) {
  Numbering numbering;
  numbering.nodes.resize(stations.size());
  std::size_t most = 0;
  for (std::size_t s = 0; s < stations.size(); ++s) {
    const int before = numbering.count;
    const bool held = holds(deck.supports_in, stations[s]);
    for (const auto& plank : deck.planks) {
      Node node;
      node.there = on_plank(plank, stations[s]);
      if (node.there) {
        const bool broken = holds(plank.breaks_in, stations[s]);
        for (int k = 0; k < 3; ++k) {
          const bool fixed = held && (k == 0 || (k == 2 && deck.twist_held_at_supports));
          node.left[static_cast<std::size_t>(k)] = fixed ? -1 : numbering.count++;
        }
        node.right = node.left;
        if (broken) {
          // A broken plank has its own slope on either side; off a support its own height and twist too.
          for (int k = 0; k < 3; ++k) {
            const auto i = static_cast<std::size_t>(k);
            if (node.left[i] >= 0) node.right[i] = numbering.count++;
          }
        }
      }
      numbering.nodes[s].push_back(node);
    }
    most = std::max(most, static_cast<std::size_t>(numbering.count - before));
  }
  // Movements of a station touch those of the next station and of the same one.
  numbering.band = 2 * most;
  return numbering;
}

std::array<std::array<double, 6>, 6> element(const DeckPlank& plank, double h) {
  const double ei = plank.ei_lbin2;
  const double gj = plank.gj_lbin2 / h;
  const double a = 12 * ei / (h * h * h), b = 6 * ei / (h * h), c = 4 * ei / h, d = 2 * ei / h;
  // Order: down, slope, twist at the start; the same at the end.
  return {{{a, b, 0, -a, b, 0}, {b, c, 0, -b, d, 0}, {0, 0, gj, 0, 0, -gj}, {-a, -b, 0, a, -b, 0}, {b, d, 0, -b, c, 0}, {0, 0, -gj, 0, 0, gj}}};
}

std::array<int, 6> element_dofs(const Node& start, const Node& end) {
  return {start.right[0], start.right[1], start.right[2], end.left[0], end.left[1], end.left[2]};
}

// Distributed load on an element, lb per inch: constant part only (patches are cut at stations).
double line_load_pli(const Deck& deck, std::size_t plank, double x0, double x1) {
  double w = 0;
  for (const auto& load : deck.loads) {
    const double mid = (x0 + x1) / 2;
    if (load.kind == DeckLoad::Kind::uniform) {
      const bool all = load.to_in <= load.from_in;
      if (all || (mid > load.from_in && mid < load.to_in)) w += load.psf / 144.0 * deck.planks[plank].width_in;
    } else if (load.plank == static_cast<int>(plank) && load.patch_in > kSame_in) {
      const double low = std::max(0.0, load.at_in - load.patch_in / 2), high = std::min(deck.length_in, load.at_in + load.patch_in / 2);
      if (mid > low && mid < high && high > low) w += load.lb / (high - low);
    }
  }
  return w;
}

std::array<double, 6> element_load(double w, double h) { return {w * h / 2, w * h * h / 12, 0, w * h / 2, -w * h * h / 12, 0}; }

struct Assembly {
  BandedSymmetric stiffness;
  std::vector<double> load;
};

void add_links(const Deck& deck, const std::vector<double>& stations, const Numbering& numbering, Assembly& out) {
  for (std::size_t p = 0; p + 1 < deck.planks.size() && p < deck.links.size(); ++p) {
    const auto& link = deck.links[p];
    const double half_a = deck.planks[p].width_in / 2, half_b = deck.planks[p + 1].width_in / 2;
    for (std::size_t s = 0; s < stations.size(); ++s) {
      const Node& a = numbering.nodes[s][p];
      const Node& b = numbering.nodes[s][p + 1];
      if (!a.there || !b.there) continue;
      const double before = s > 0 ? (stations[s] - stations[s - 1]) / 2 : 0;
      const double after = s + 1 < stations.size() ? (stations[s + 1] - stations[s]) / 2 : 0;
      const auto tie = [&](const std::array<int, 3>& da, const std::array<int, 3>& db, double shear, double bend) {
        // Slip of the edges: (down_b - twist_b half_b) - (down_a + twist_a half_a).
        const std::array<int, 4> at = {da[0], da[2], db[0], db[2]};
        const std::array<double, 4> slip = {-1, -half_a, 1, -half_b};
        const std::array<double, 4> turn = {0, -1, 0, 1};
        for (std::size_t i = 0; i < 4; ++i)
          for (std::size_t j = 0; j <= i; ++j)
            if (at[i] >= 0 && at[j] >= 0)
              out.stiffness.add(static_cast<std::size_t>(at[i]), static_cast<std::size_t>(at[j]), shear * slip[i] * slip[j] + bend * turn[i] * turn[j]);
      };
      double block = 0;
      // A block is as stiff as a foot of tongue of the stiffest kind here; its exact stiffness does not matter.
      if (holds(link.blocked_at_in, stations[s])) block = 1e6;
      if (link.shear_psi > 0 || link.bending_lbin_per_in > 0 || block > 0) {
        tie(a.left, b.left, link.shear_psi * before + block / 2, link.bending_lbin_per_in * before);
        tie(a.right, b.right, link.shear_psi * after + block / 2, link.bending_lbin_per_in * after);
      }
    }
  }
}

Assembly assemble(const Deck& deck, const std::vector<double>& stations, const Numbering& numbering) {
  Assembly out{BandedSymmetric(static_cast<std::size_t>(numbering.count), numbering.band), std::vector<double>(static_cast<std::size_t>(numbering.count), 0.0)};
  for (std::size_t s = 0; s + 1 < stations.size(); ++s) {
    const double h = stations[s + 1] - stations[s];
    for (std::size_t p = 0; p < deck.planks.size(); ++p) {
      const Node& a = numbering.nodes[s][p];
      const Node& b = numbering.nodes[s + 1][p];
      if (!a.there || !b.there) continue;
      const auto dofs = element_dofs(a, b);
      const auto k = element(deck.planks[p], h);
      const auto f = element_load(line_load_pli(deck, p, stations[s], stations[s + 1]), h);
      for (std::size_t i = 0; i < 6; ++i) {
        if (dofs[i] < 0) continue;
        out.load[static_cast<std::size_t>(dofs[i])] += f[i];
        for (std::size_t j = 0; j <= i; ++j)
          if (dofs[j] >= 0) out.stiffness.add(static_cast<std::size_t>(dofs[i]), static_cast<std::size_t>(dofs[j]), k[i][j]);
      }
    }
  }
  for (const auto& load : deck.loads) {
    if (load.kind != DeckLoad::Kind::point || load.patch_in > kSame_in) continue;
    for (std::size_t s = 0; s < stations.size(); ++s) {
      if (std::fabs(stations[s] - load.at_in) > 1e-3 || load.plank < 0 || load.plank >= static_cast<int>(deck.planks.size())) continue;
      const int dof = numbering.nodes[s][static_cast<std::size_t>(load.plank)].left[0];
      if (dof >= 0) out.load[static_cast<std::size_t>(dof)] += load.lb;
      break;
    }
  }
  // With twist free, a plank without links could roll about itself: a hair of a spring at its supports
  // holds it, a millionth of its own stiffness.
  if (!deck.twist_held_at_supports)
    for (std::size_t s = 0; s < stations.size(); ++s)
      for (std::size_t p = 0; p < deck.planks.size() && holds(deck.supports_in, stations[s]); ++p)
        for (const int dof : {numbering.nodes[s][p].left[2], numbering.nodes[s][p].right[2]})
          if (dof >= 0) out.stiffness.add(static_cast<std::size_t>(dof), static_cast<std::size_t>(dof), 1e-6 * deck.planks[p].ei_lbin2 / deck.length_in);
  add_links(deck, stations, numbering, out);
  return out;
}

double value_at(const std::vector<double>& x, int dof) { return dof < 0 ? 0.0 : x[static_cast<std::size_t>(dof)]; }

// End forces of one element, and from them moments, shears and what it puts on its supports.
struct ElementForces {
  double shear_start = 0, moment_start = 0, shear_end = 0, moment_end = 0;  // moment sagging positive
  double down_on_start = 0, down_on_end = 0;                                // force on the node, downward
};

ElementForces forces_of(const DeckPlank& plank, double h, double w, const std::array<double, 6>& u) {
  const auto k = element(plank, h);
  const auto f = element_load(w, h);
  std::array<double, 6> q{};
  for (std::size_t i = 0; i < 6; ++i) {
    for (std::size_t j = 0; j < 6; ++j) q[i] += k[i][j] * u[j];
    q[i] -= f[i];
  }
  // q is what the rest of the structure puts on the element; the node feels the opposite.
  return {-q[0], q[1], q[3], -q[4], -q[0], -q[3]};
}

void recover(const Deck& deck, const std::vector<double>& stations, const Numbering& numbering, const std::vector<double>& x, DeckResult& out) {
  const std::size_t planks = deck.planks.size();
  std::vector<std::vector<double>> reaction(stations.size(), std::vector<double>(planks, 0.0));
  std::vector<std::vector<double>> moment(planks, std::vector<double>(stations.size(), 0.0));
  for (std::size_t s = 0; s + 1 < stations.size(); ++s) {
    const double h = stations[s + 1] - stations[s];
    for (std::size_t p = 0; p < planks; ++p) {
      const Node& a = numbering.nodes[s][p];
      const Node& b = numbering.nodes[s + 1][p];
      if (!a.there || !b.there) continue;
      const auto dofs = element_dofs(a, b);
      std::array<double, 6> u{};
      for (std::size_t i = 0; i < 6; ++i) u[i] = value_at(x, dofs[i]);
      const double w = line_load_pli(deck, p, stations[s], stations[s + 1]);
      const auto e = forces_of(deck.planks[p], h, w, u);
      auto& result = out.planks[p];
      for (const double m : {e.moment_start, e.moment_end}) {
        result.moment_max_inlb = std::max(result.moment_max_inlb, m);
        result.moment_min_inlb = std::min(result.moment_min_inlb, m);
      }
      // Between stations the moment is a parabola; its top lies where the shear is zero.
      const double v = (e.moment_end - e.moment_start) / h + w * h / 2;
      if (w > 0 && v > 0 && v < w * h) result.moment_max_inlb = std::max(result.moment_max_inlb, e.moment_start + v * v / (2 * w));
      result.shear_max_lb = std::max({result.shear_max_lb, std::fabs(e.shear_start), std::fabs(e.shear_end)});
      reaction[s][p] += e.down_on_start;
      reaction[s + 1][p] += e.down_on_end;
      moment[p][s] = e.moment_start;
      moment[p][s + 1] = e.moment_end;
    }
  }
  // Tongues push on the planks at supports too when twist is free there; sum what each support takes.
  for (std::size_t p = 0; p + 1 < planks && p < deck.links.size(); ++p) {
    const auto& link = deck.links[p];
    for (std::size_t s = 0; s < stations.size(); ++s) {
      const Node& a = numbering.nodes[s][p];
      const Node& b = numbering.nodes[s][p + 1];
      if (!a.there || !b.there) continue;
      const double before = s > 0 ? (stations[s] - stations[s - 1]) / 2 : 0;
      const double after = s + 1 < stations.size() ? (stations[s + 1] - stations[s]) / 2 : 0;
      const double block = holds(link.blocked_at_in, stations[s]) ? 1e6 : 0;
      const auto push = [&](const std::array<int, 3>& da, const std::array<int, 3>& db, double shear) {
        const double slip =
            value_at(x, db[0]) - value_at(x, db[2]) * deck.planks[p + 1].width_in / 2 - value_at(x, da[0]) - value_at(x, da[2]) * deck.planks[p].width_in / 2;
        reaction[s][p] += shear * slip;
        reaction[s][p + 1] -= shear * slip;
      };
      push(a.left, b.left, link.shear_psi * before + block / 2);
      push(a.right, b.right, link.shear_psi * after + block / 2);
    }
  }
  for (const auto& load : deck.loads) {
    if (load.kind != DeckLoad::Kind::point || load.patch_in > kSame_in) continue;
    for (std::size_t s = 0; s < stations.size(); ++s)
      if (std::fabs(stations[s] - load.at_in) <= 1e-3 && load.plank >= 0 && load.plank < static_cast<int>(planks)) {
        reaction[s][static_cast<std::size_t>(load.plank)] += load.lb;
        break;
      }
  }

  double total = 0, total_moment = 0, reacted = 0, reacted_moment = 0, worst_free = 0;
  for (std::size_t s = 0; s < stations.size(); ++s) {
    const bool held = holds(deck.supports_in, stations[s]);
    for (std::size_t p = 0; p < planks; ++p) {
      if (held) {
        reacted += reaction[s][p];
        reacted_moment += reaction[s][p] * stations[s];
        for (std::size_t k = 0; k < deck.supports_in.size(); ++k)
          if (std::fabs(deck.supports_in[k] - stations[s]) <= kSame_in) out.support_lb[k] += reaction[s][p];
      } else {
        worst_free = std::max(worst_free, std::fabs(reaction[s][p]));
      }
    }
  }
  for (std::size_t p = 0; p < planks; ++p)
    for (std::size_t s = 0; s + 1 < stations.size(); ++s) {
      if (!numbering.nodes[s][p].there || !numbering.nodes[s + 1][p].there) continue;
      const double h = stations[s + 1] - stations[s];
      const double force = line_load_pli(deck, p, stations[s], stations[s + 1]) * h;
      total += force;
      total_moment += force * (stations[s] + stations[s + 1]) / 2;
    }
  for (const auto& load : deck.loads)
    if (load.kind == DeckLoad::Kind::point && load.patch_in <= kSame_in) total += load.lb, total_moment += load.lb * load.at_in;
  const double scale = std::max(1e-9, std::fabs(total));
  out.residual = std::max({std::fabs(total - reacted) / scale, std::fabs(total_moment - reacted_moment) / (scale * deck.length_in), worst_free / scale});

  for (std::size_t p = 0; p < planks; ++p) {
    for (std::size_t s = 0; s < stations.size(); ++s) {
      const Node& node = numbering.nodes[s][p];
      const double left = node.there ? value_at(x, node.left[0]) : 0;
      const double right = node.there ? value_at(x, node.right[0]) : 0;
      const double down = std::fabs(left) >= std::fabs(right) ? left : right;
      out.down_in[p][s] = down;
      if (down > out.planks[p].deflection_in) out.planks[p].deflection_in = down, out.planks[p].deflection_at_in = stations[s];
    }
    if (out.planks[p].deflection_in > out.deflection_in) out.deflection_in = out.planks[p].deflection_in, out.deflection_plank = static_cast<int>(p);
  }
  for (const auto& load : deck.loads) {
    if (load.kind != DeckLoad::Kind::point) continue;
    for (std::size_t s = 0; s < stations.size(); ++s) {
      if (std::fabs(stations[s] - load.at_in) > 1e-3) continue;
      double sum = 0;
      for (std::size_t p = 0; p < planks; ++p) sum += moment[p][s];
      if (std::fabs(sum) > 1e-9)
        for (std::size_t p = 0; p < planks; ++p) out.planks[p].share = moment[p][s] / sum;
      break;
    }
    break;
  }
}

}  // namespace

DeckResult solve_deck(const Deck& deck) {
  DeckResult out;
  if (deck.planks.empty() || !(deck.length_in > 0)) return out;
  for (const auto& plank : deck.planks)
    if (!(plank.ei_lbin2 > 0) || !(plank.width_in > 0)) return out;
  const auto stations = stations_of(deck);
  const auto numbering = number(deck, stations);
  // Twist without stiffness or links would leave the system singular; a hair of torsion holds it.
  Deck held = deck;
  for (auto& plank : held.planks) plank.gj_lbin2 = std::max(plank.gj_lbin2, 1e-6 * plank.ei_lbin2);
  auto system = assemble(held, stations, numbering);
  if (!system.stiffness.factor()) return out;
  std::vector<double> x = system.load;
  system.stiffness.back(x);
  out.stable = true;
  out.planks.resize(deck.planks.size());
  out.support_lb.assign(deck.supports_in.size(), 0.0);
  out.stations_in = stations;
  out.down_in.assign(deck.planks.size(), std::vector<double>(stations.size(), 0.0));
  recover(held, stations, numbering, x, out);
  return out;
}

double torsion_constant_in4(double side_in, double thickness_in) {
  const double a = std::max(side_in, thickness_in), t = std::min(side_in, thickness_in);
  if (!(t > 0)) return 0;
  const double r = t / a;
  return a * t * t * t * (1.0 / 3.0 - 0.21 * r * (1 - r * r * r * r / 12));
}

double tongue_shear_psi(double shear_modulus_psi, double thickness_in) { return shear_modulus_psi * (thickness_in / 3) / 0.25; }

}  // namespace awlmark::floor
