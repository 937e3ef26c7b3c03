// What awl, meter and eye read at an opening of a leak whose truth is known. Awl: the feel follows
// how far past softening the wood is, with an error of its own, and now and then it strikes a knot
// or an old nail hole and reads one step off. Meter: pins, good below fibre saturation, wild above.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "simulator/leak.hpp"

namespace awlmark::simulator {
namespace {

constexpr double kFeelSd = 0.22;        // in log exposure: wood within a fifth of softening is a toss-up
constexpr double kOneStepOff = 0.02;    // knots, nail holes, the wrong ply
constexpr double kGoneSeverity = 0.75;  // log of about 2.1 times the softening exposure

Reading feel(double severity, Random& random) {
  int degree = 0;
  const double felt = severity + kFeelSd * random.normal();
  if (felt > 0) degree = 1;
  if (felt > kGoneSeverity) degree = 2;
  if (random.uniform() < kOneStepOff) degree = degree == 1 ? (random.uniform() < 0.5 ? 0 : 2) : 1;
  return degree == 0 ? Reading::sound : (degree == 1 ? Reading::soft : Reading::gone);
}

double meter_percent(double moisture, Random& random) {
  const double sd = moisture < 0.28 ? 1.3 : 4.0;
  const double reads = 100 * moisture + sd * random.normal();
  return std::floor(std::clamp(reads, 6.0, 60.0) * 2 + 0.5) / 2;
}

Reading look(double severity, double moisture, Random& random) {
  const double wet = moisture + 0.03 * random.normal();
  const double old = severity + 0.6 * random.normal();
  if (wet > 0.26) return Reading::wet;
  if (old > 1.2) return Reading::growth;
  return old > -0.7 ? Reading::stained : Reading::dry;
}

std::string clock(int minute) {
  char text[32];
  std::snprintf(text, sizeof text, "2026-05-04T%02d:%02d:00Z", 8 + minute / 60, minute % 60);
  return text;
}

}  // namespace

std::vector<Mark> open_here(const Leak& leak, Point at_in, const Tools& tools, Random& random, const std::string& name, int minute) {
  std::vector<Mark> marks;
  const int cell = cell_at(leak, at_in);
  for (std::size_t l = 0; l < leak.layers.size(); ++l) {
    const LayerTruth& truth = leak.layers[l];
    Mark mark;
    mark.at_in = at_in;
    mark.layer = truth.layer;
    mark.time = clock(minute);
    const std::string id = name + "_" + truth.layer;
    if (tools.awl) {
      mark.id = id;
      mark.tool = Tool::awl;
      mark.reads = feel(truth.severity[cell], random);
      marks.push_back(mark);
    }
    if (tools.eye) {
      mark.id = id + "_eye";
      mark.tool = Tool::eye;
      mark.reads = look(truth.severity[cell], truth.moisture[cell], random);
      marks.push_back(mark);
    }
    if (tools.meter && l + 1 == leak.layers.size()) {
      mark.id = id + "_mc";
      mark.tool = Tool::meter;
      mark.reads.reset();
      mark.mc_percent = meter_percent(truth.moisture[cell], random);
      mark.wood_temp_f = 70;
      marks.push_back(mark);
    }
  }
  return marks;
}

}  // namespace awlmark::simulator
