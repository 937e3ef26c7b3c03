#include "openings/strategies.hpp"

#include <algorithm>
#include <cmath>

#include "survey/survey.hpp"

namespace awlmark::study {
namespace {

constexpr double kGrid_in = 12;
constexpr double kSamePlace_in = 2;

Box room_of(const SoFar& so_far) { return bounds(so_far.leak->job.room.outline_in); }

const Opening* opened_at(const SoFar& so_far, Point p) {
  for (const auto& opening : so_far.openings) {
    if (distance_in(opening.at_in, p) < kSamePlace_in) return &opening;
  }
  return nullptr;
}

std::vector<Point> grid_points(const SoFar& so_far) {
  const Box room = room_of(so_far);
  std::vector<Point> points;
  for (double y = room.y0_in + kGrid_in / 2; y < room.y1_in; y += kGrid_in) {
    for (double x = room.x0_in + kGrid_in / 2; x < room.x1_in; x += kGrid_in) points.push_back({x, y});
  }
  return points;
}

// Walking from the noticed spot in one direction: the places opened, and the next one if the walk
// has not yet met sound wood or the wall.
struct Walk {
  std::optional<Point> next;
  Point last_unsound;
  std::optional<Point> first_sound;
};

Walk walk(const SoFar& so_far, Point from, double dx, double dy) {
  const Box room = room_of(so_far);
  Walk result;
  result.last_unsound = from;
  for (int step = 1;; ++step) {
    const Point p{from.x_in + step * kGrid_in * dx, from.y_in + step * kGrid_in * dy};
    if (p.x_in < room.x0_in || p.x_in > room.x1_in || p.y_in < room.y0_in || p.y_in > room.y1_in) return result;
    const Opening* opening = opened_at(so_far, p);
    if (opening == nullptr) {
      result.next = p;
      return result;
    }
    if (!opening->unsound) {
      result.first_sound = p;
      return result;
    }
    result.last_unsound = p;
  }
}

}  // namespace

std::optional<Point> guided(const SoFar& so_far, Random&) {
  survey::Options options;
  options.draws = 0;
  options.openings = 1;
  options.last_change = false;
  const auto result = survey::survey(so_far.job, options);
  if (result.findings.next_openings.empty()) return std::nullopt;
  return result.findings.next_openings.front().at_in;
}

std::optional<Point> grid(const SoFar& so_far, Random&) {
  const Point from = so_far.openings.front().at_in;
  auto points = grid_points(so_far);
  std::stable_sort(points.begin(), points.end(), [&](Point a, Point b) { return distance_in(a, from) < distance_in(b, from) - 1e-9; });
  // The grid point in whose square the noticed spot lies would only repeat it.
  for (const Point p : points) {
    if (!opened_at(so_far, p) && distance_in(p, from) > kGrid_in / 2) return p;
  }
  return std::nullopt;
}

std::optional<Point> spread(const SoFar& so_far, Random&) {
  std::optional<Point> best;
  double farthest = kSamePlace_in;
  for (const Point p : grid_points(so_far)) {
    double nearest = 1e9;
    for (const auto& opening : so_far.openings) nearest = std::min(nearest, distance_in(p, opening.at_in));
    if (nearest > farthest + 1e-9) {
      farthest = nearest;
      best = p;
    }
  }
  return best;
}

std::optional<Point> chase(const SoFar& so_far, Random& random) {
  const Point from = so_far.openings.front().at_in;
  const double d = std::sqrt(0.5);
  const double directions[8][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {d, d}, {-d, d}, {d, -d}, {-d, -d}};
  for (int half = 0; half < 2; ++half) {
    std::vector<Walk> walks;
    for (int k = 0; k < 4; ++k) {
      walks.push_back(walk(so_far, from, directions[4 * half + k][0], directions[4 * half + k][1]));
      if (walks.back().next) return walks.back().next;
    }
    for (const Walk& w : walks) {
      if (!w.first_sound) continue;
      const Point middle{(w.last_unsound.x_in + w.first_sound->x_in) / 2, (w.last_unsound.y_in + w.first_sound->y_in) / 2};
      if (!opened_at(so_far, middle)) return middle;
    }
  }
  return anywhere(so_far, random);
}

std::optional<Point> anywhere(const SoFar& so_far, Random& random) {
  const Box room = room_of(so_far);
  const double u = random.uniform();
  const double v = random.uniform();
  return Point{room.x0_in + u * room.width_in(), room.y0_in + v * room.height_in()};
}

void open_at(SoFar& so_far, Point at_in, Random& noise) {
  const int n = static_cast<int>(so_far.openings.size()) + 1;
  const auto marks = simulator::open_here(*so_far.leak, at_in, {}, noise, "o" + std::to_string(n), 5 * n);
  Opening opening{at_in, false};
  for (const auto& mark : marks) {
    if (mark.tool == Tool::awl && mark.reads != Reading::sound) opening.unsound = true;
    so_far.job.marks.push_back(mark);
  }
  so_far.openings.push_back(opening);
}

const std::vector<Named>& strategies() {
  static const std::vector<Named> all = {{"guided", guided}, {"grid", grid}, {"spread", spread}, {"chase", chase}, {"random", anywhere}};
  return all;
}

}  // namespace awlmark::study
