#include "cutback/mincut.hpp"

// g++ 12 takes the empty optional inside Boost's edge iterator for a read of nothing.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/boykov_kolmogorov_max_flow.hpp>
#include <stdexcept>

namespace awlmark::cutback {
namespace {

using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
struct Arc {
  std::int64_t capacity = 0;
  std::int64_t residual = 0;
  Traits::edge_descriptor reverse;
};
struct Spot {
  boost::default_color_type color = boost::default_color_type::white_color;
  Traits::edge_descriptor predecessor;
  std::int64_t distance = 0;
};
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, Spot, Arc>;

class Network {
 public:
  explicit Network(std::size_t pieces) : graph_(pieces + 2), source_(pieces), sink_(pieces + 1) {}

  void arcs(std::size_t from, std::size_t to, std::int64_t forward, std::int64_t backward) {
    if (forward == 0 && backward == 0) return;
    const auto there = boost::add_edge(from, to, graph_).first;
    const auto back = boost::add_edge(to, from, graph_).first;
    graph_[there] = {forward, 0, back};
    graph_[back] = {backward, 0, there};
  }

  std::int64_t flow() {
    return boost::boykov_kolmogorov_max_flow(graph_, boost::get(&Arc::capacity, graph_), boost::get(&Arc::residual, graph_), boost::get(&Arc::reverse, graph_),
                                             boost::get(&Spot::predecessor, graph_), boost::get(&Spot::color, graph_), boost::get(&Spot::distance, graph_),
                                             boost::get(boost::vertex_index, graph_), source_, sink_);
  }

  // What the source still reaches: the smallest of all minimum cuts, whichever way the flow ran.
  std::vector<char> source_side() const {
    std::vector<char> reached(boost::num_vertices(graph_), 0);
    std::vector<std::size_t> open{source_};
    reached[source_] = 1;
    while (!open.empty()) {
      const std::size_t at = open.back();
      open.pop_back();
      const auto range = boost::out_edges(at, graph_);
      for (auto it = range.first; it != range.second; ++it) {
        const std::size_t next = boost::target(*it, graph_);
        if (graph_[*it].residual <= 0 || reached[next]) continue;
        reached[next] = 1;
        open.push_back(next);
      }
    }
    reached.resize(reached.size() - 2);
    return reached;
  }

  std::size_t source() const { return source_; }
  std::size_t sink() const { return sink_; }

 private:
  Graph graph_;
  std::size_t source_;
  std::size_t sink_;
};

// Pieces that must go, and all that they bring with them.
std::vector<char> bound_to_go(const CutProblem& problem) {
  std::vector<std::vector<int>> above(problem.out_cents.size());
  for (const auto& arc : problem.implies) above[arc.lower].push_back(arc.upper);
  std::vector<char> bound(problem.out_cents.size(), 0);
  std::vector<int> open;
  for (int i = 0; i < problem.size(); ++i)
    if (problem.must_go[i]) {
      bound[i] = 1;
      open.push_back(i);
    }
  while (!open.empty()) {
    const int at = open.back();
    open.pop_back();
    for (const int next : above[at])
      if (!bound[next]) {
        bound[next] = 1;
        open.push_back(next);
      }
  }
  return bound;
}

}  // namespace

std::int64_t price_of(const CutProblem& problem, const std::vector<char>& out) {
  std::int64_t price = 0;
  for (int i = 0; i < problem.size(); ++i) price += out[i] ? problem.out_cents[i] : problem.stay_cents[i];
  for (const auto& pair : problem.pairs)
    if (out[pair.a] != out[pair.b]) price += pair.cents;
  return price;
}

bool allowed(const CutProblem& problem, const std::vector<char>& out) {
  const auto bound = bound_to_go(problem);
  for (int i = 0; i < problem.size(); ++i) {
    if (bound[i] && !out[i]) return false;
    if (problem.must_stay[i] && !bound[i] && out[i]) return false;
  }
  return std::all_of(problem.implies.begin(), problem.implies.end(), [&](const CutProblem::Implies& arc) { return !out[arc.lower] || out[arc.upper]; });
}

CutSolution least_cut(const CutProblem& problem) {
  // More than every finite capacity together: no minimum cut crosses such an arc while another exists.
  std::int64_t endless = 1;
  for (int i = 0; i < problem.size(); ++i) endless += problem.out_cents[i] + problem.stay_cents[i];
  for (const auto& pair : problem.pairs) endless += 2 * pair.cents;

  const auto bound = bound_to_go(problem);
  Network network(problem.out_cents.size());
  for (int i = 0; i < problem.size(); ++i) {
    // A piece bound to go pays nothing for leaving: its stay price is replaced, not added to.
    network.arcs(network.source(), i, bound[i] ? endless : problem.stay_cents[i], 0);
    network.arcs(i, network.sink(), problem.must_stay[i] && !bound[i] ? endless : problem.out_cents[i], 0);
  }
  for (const auto& pair : problem.pairs) network.arcs(pair.a, pair.b, pair.cents, pair.cents);
  for (const auto& arc : problem.implies) network.arcs(arc.lower, arc.upper, endless, 0);

  CutSolution solution;
  solution.flow_cents = problem.size() == 0 ? 0 : network.flow();
  solution.out = network.source_side();
  solution.price_cents = price_of(problem, solution.out);
  if (solution.flow_cents != solution.price_cents || !allowed(problem, solution.out))
    throw std::logic_error("cutback: the minimum cut does not match its flow");
  return solution;
}

}  // namespace awlmark::cutback
