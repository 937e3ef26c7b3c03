#include "papers/drawing/framing_lines.hpp"

#include <algorithm>
#include <cmath>

#include "papers/keys.hpp"

namespace awlmark::papers {
namespace {

// Members run on under the next rooms; the drawing shows them this far past the room.
constexpr double kBeyondRoom_in = 42;

floor::FramingLine line_of(const Support& support) {
  floor::FramingLine line;
  line.id = support.id;
  line.kind = doc::word_of(support.role);
  line.from_in = support.from_in;
  line.to_in = support.to_in;
  line.rests_at_in = support.rests_at_in;
  if (support.size) {
    line.size = section_text(*support.size);
    line.b_in = support.size->b_in;
    line.d_in = support.size->d_in;
  }
  return line;
}

bool usable_line(const floor::FramingLine& line) { return finite(line.from_in) && finite(line.to_in) && distance_in(line.from_in, line.to_in) > 0; }

std::string prefix_of(const std::string& kind) {
  if (kind == "girder") return "G";
  if (kind == "ledger") return "L";
  if (kind == "wall") return "W";
  if (kind == "sister" || kind == "trimmer") return "S";
  if (kind == "blocking") return "B";
  return "J";
}

void take_decay(const Findings& findings, Framing& framing) {
  const auto add = [&](std::size_t member, double from, double to, double depth, double width, const std::string& face, bool known) {
    framing.decay.push_back({"D" + std::to_string(framing.decay.size() + 1), member, from, to, depth, width, face, known});
  };
  if (findings.cut_back) {
    for (const auto& decay : findings.cut_back->members)
      for (std::size_t i = 0; i < framing.members.size(); ++i)
        if (!framing.members[i].added && framing.members[i].line.id == decay.support) {
          add(i, decay.from_in, decay.to_in, decay.depth_in, decay.width_in.value_or(0), doc::word_of(decay.face), decay.known);
          break;
        }
  }
  if (!framing.decay.empty()) return;
  for (std::size_t i = 0; i < framing.members.size(); ++i)
    for (const auto& lost : framing.members[i].line.lost) add(i, lost.from_in, lost.to_in, lost.depth_in, lost.width_in, lost.face, true);
}

}  // namespace

bool finite(Point p) { return std::isfinite(p.x_in) && std::isfinite(p.y_in); }

Point point_along(Point a, Point b, double along_in) {
  const double length = distance_in(a, b);
  const double t = length > 0 ? along_in / length : 0;
  return {a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)};
}

bool part_inside(Point a, Point b, const Box& box, double& from_in, double& to_in) {
  const double length = distance_in(a, b);
  double t0 = 0, t1 = 1;
  const auto limit = [&](double start, double step, double low, double high) {
    if (step == 0) return start >= low && start <= high;
    double near = (low - start) / step, far = (high - start) / step;
    if (near > far) std::swap(near, far);
    t0 = std::max(t0, near), t1 = std::min(t1, far);
    return t0 <= t1;
  };
  if (!limit(a.x_in, b.x_in - a.x_in, box.x0_in, box.x1_in) || !limit(a.y_in, b.y_in - a.y_in, box.y0_in, box.y1_in)) return false;
  from_in = t0 * length, to_in = t1 * length;
  return t1 > t0;
}

std::vector<Polygon> deck_cut(const Job& job, const Findings& findings) {
  const Layer* deck = structural_deck(job);
  if (deck == nullptr || !findings.cut_back) return {};
  const auto found = findings.cut_back->outlines_in.find(deck->id);
  return found == findings.cut_back->outlines_in.end() ? std::vector<Polygon>{} : found->second;
}

std::vector<floor::Shore> shores_of(const Findings& findings) {
  if (!findings.floor) return {};
  auto all = findings.floor->while_open.shores;
  if (const auto* option = chosen_option(findings)) all.insert(all.end(), option->shores.begin(), option->shores.end());
  return all;
}

Framing framing_of(const Job& job, const Findings& findings) {
  Framing framing;
  std::vector<floor::FramingLine> found;
  if (findings.floor) found = findings.floor->framing;
  if (found.empty())
    for (const auto& support : job.supports) found.push_back(line_of(support));
  double along_x = 0, along_y = 0;
  for (std::size_t i = 0; i < found.size(); ++i) {
    if (!usable_line(found[i])) continue;
    along_x += std::fabs(found[i].to_in.x_in - found[i].from_in.x_in);
    along_y += std::fabs(found[i].to_in.y_in - found[i].from_in.y_in);
    framing.members.push_back({found[i], drawing_name(found[i].id, prefix_of(found[i].kind), i), false});
  }
  framing.run_along_y = along_y >= along_x;
  if (const auto* option = chosen_option(findings)) {
    std::size_t count = 0;
    // Blocking of the cut-back is drawn and named from the cut-back itself; once is enough.
    const auto drawn = [&](const floor::FramingLine& line) {
      return line.kind == "blocking" && findings.cut_back &&
             std::any_of(findings.cut_back->blocking.begin(), findings.cut_back->blocking.end(),
                         [&](const auto& block) { return line.id == block.id || line.id.rfind(block.id + ".", 0) == 0; });
    };
    for (const auto& line : option->framing)
      if (usable_line(line) && !drawn(line)) framing.members.push_back({line, "N" + std::to_string(++count), true});
  }
  take_decay(findings, framing);
  Box room{0, 0, 12, 12};
  if (!job.room.outline_in.empty()) room = bounds(job.room.outline_in);
  framing.reach = {room.x0_in - kBeyondRoom_in, room.y0_in - kBeyondRoom_in, room.x1_in + kBeyondRoom_in, room.y1_in + kBeyondRoom_in};
  return framing;
}

}  // namespace awlmark::papers
