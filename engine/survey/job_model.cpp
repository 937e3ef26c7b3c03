// The job's floor as a model: nodes, grain, sources, and how wet and rot hang together.
#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "survey/evidence.hpp"
#include "tables/materials.hpp"

namespace awlmark::survey {
namespace {

// Materials that do not decay are soft only when something else has loosened them.
constexpr double kSeldomRots = -1.8;
// Members and plates lie under or beside the wet layers and see less of the water.
constexpr double kMemberOffset = -0.5;
constexpr double kPlateOffset = -0.3;

Node layer_node_of(const Job& job, std::size_t index) {
  const Layer& layer = job.layers[index];
  const LayerRuns runs = layer_runs(job, layer);
  Node node;
  node.kind = Node::Kind::layer;
  node.index = static_cast<int>(index);
  node.depth = static_cast<double>(index);
  node.grained = is_boards(layer) && runs.known;
  if (runs.said || is_boards(layer)) node.degrees = runs.degrees;
  node.rot_offset = can_decay(layer.material) ? 0 : kSeldomRots;
  return node;
}

constexpr double kOntoWall_in = 36;  // from a source this far off, water seldom runs along a wall: common practice, no source
constexpr double kOffWall_in = 24;   // e-folding distance of that
constexpr std::size_t kMostChannels = 8;

// A source whose place is far outside the room is taken as one whose place nobody knows.
bool place_known(const Job& job, const Source& source) { return source.at_in && !far_outside(job, *source.at_in); }

// The walls, or where none is named the room's edges, along which water of the known sources may run.
void follow_walls(const Job& job, Model& model) {
  std::vector<Channel> lines;
  for (const Wall& wall : job.walls) lines.push_back({wall.from_in, wall.to_in, 0});
  const Polygon& ring = job.room.outline_in;
  if (lines.empty())
    for (std::size_t i = 0; i < ring.size(); ++i) lines.push_back({ring[i], ring[(i + 1) % ring.size()], 0});
  for (Channel& line : lines) {
    for (const Point source : model.sources) {
      const double off = distance_to_segment_in(source, line.from_in, line.to_in);
      if (off <= kOntoWall_in) line.share = std::max(line.share, det_exp(-off / kOffWall_in));
    }
    if (line.share > 0) model.channels.push_back(line);
  }
  std::stable_sort(model.channels.begin(), model.channels.end(), [](const Channel& a, const Channel& b) { return a.share > b.share + 1e-9; });
  if (model.channels.size() > kMostChannels) model.channels.resize(kMostChannels);
}

// The cause decides how the wet field and the rot field hang together. With several sources the one
// that still runs counts, then the unknown one: each widens what wet can mean.
void follow_sources(const Job& job, Model& model) {
  bool any_runs = false, any_unknown = job.sources.empty();
  bool unknown_place = job.sources.empty();
  for (const Source& s : job.sources) {
    any_runs = any_runs || s.active == Activity::yes;
    any_unknown = any_unknown || (s.active == Activity::unknown && !s.stopped);
    if (place_known(job, s))
      model.sources.push_back(*s.at_in);
    else
      unknown_place = true;
  }
  if (any_runs) {
    model.coupling = 0.75;
    model.wet_at_source = {1.5, 1.3};
  } else if (any_unknown) {
    model.coupling = 0.5;
    model.wet_at_source = {0.5, 1.6};
  } else {
    // Dry today, rotten for years: today's moisture says little about the past.
    model.coupling = 0.2;
    model.wet_at_source = {-0.8, 1.3};
  }
  // Water from nobody knows where may be anywhere.
  if (model.sources.empty())
    model.rot_far = {-2.8, 0.7};
  else if (unknown_place)
    model.rot_far = {-3.2, 0.5};
}

}  // namespace

bool far_outside(const Job& job, Point source) { return job.room.outline_in.size() >= 3 && distance_to_in(job.room.outline_in, source) > kFarOutside_in; }

bool can_decay(Material material) {
  switch (material) {
    case Material::hardboard:
    case Material::particleboard:
    case Material::plywood_underlayment:
    case Material::plywood:
    case Material::osb:
    case Material::board:
    case Material::plank_tg:
    case Material::wall_plate:
    case Material::gypsum_board:
      return true;
    default:
      return false;
  }
}

int layer_node(std::size_t layer) { return static_cast<int>(layer); }
int support_node(const Job& job, std::size_t support) { return static_cast<int>(job.layers.size() + support); }
int wall_node(const Job& job, std::size_t wall) { return static_cast<int>(job.layers.size() + job.supports.size() + wall); }

Model model_of(const Job& job, std::vector<std::string>* notes) {
  Model model;
  for (std::size_t i = 0; i < job.layers.size(); ++i) {
    const Layer& layer = job.layers[i];
    model.nodes.push_back(layer_node_of(job, i));
    if (notes != nullptr && is_boards(layer) && !layer.runs)
      notes->push_back(layer_runs(job, layer).known ? "Which way the boards of " + layer.id + " run is not given: taken across the joists."
                                                    : "Which way the boards of " + layer.id + " run is not given: taken alike both ways.");
  }
  // The deck's grain carries what all layers share; without boards there is no grain to follow.
  std::size_t deck = job.layers.empty() ? 0 : job.layers.size() - 1;
  if (const Layer* found = structural_deck(job)) deck = static_cast<std::size_t>(found - job.layers.data());
  if (!job.layers.empty()) {
    model.shared_degrees = model.nodes[deck].degrees;
    model.shared_grained = model.nodes[deck].grained;
  }
  for (std::size_t i = 0; i < job.supports.size(); ++i) {
    Node node;
    node.kind = Node::Kind::member;
    node.index = static_cast<int>(i);
    node.depth = static_cast<double>(deck) + 1;
    node.degrees = line_degrees(job.supports[i].from_in, job.supports[i].to_in);
    node.grained = true;
    node.rot_offset = kMemberOffset;
    model.nodes.push_back(node);
  }
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    Node node;
    node.kind = Node::Kind::plate;
    node.index = static_cast<int>(i);
    // A plate stands on the deck, or with the deck's edge on the framing.
    node.depth = job.walls[i].stands_on == StandsOn::framing ? static_cast<double>(deck) + 1 : static_cast<double>(deck) - 1;
    node.degrees = line_degrees(job.walls[i].from_in, job.walls[i].to_in);
    node.grained = true;
    node.rot_offset = kPlateOffset;
    model.nodes.push_back(node);
  }
  follow_sources(job, model);
  follow_walls(job, model);
  return model;
}

}  // namespace awlmark::survey
