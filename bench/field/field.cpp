// bench_field FOLDER: the survey's kernels on 60 fixed points and a 64 x 64 grid, as bench/field/field.py
// times them beside gstat, scikit-learn and SciPy. Writes FOLDER/points.csv for the others and prints
// one JSON object of processor-time medians (ms).
#include <cstdio>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "base/special.hpp"
#include "survey/draws.hpp"
#include "survey/fit.hpp"
#include "survey/posterior.hpp"
#include "timing.hpp"

using namespace awlmark;

namespace {

constexpr int kPoints = 60;
constexpr int kSide = 64;
constexpr double kSide_in = 128;  // 2-in. cells

struct Data {
  std::vector<Point> points;
  std::vector<double> value;
};

Data make_data() {
  Random random(60);
  Data data;
  for (int i = 0; i < kPoints; ++i) {
    const double x = kSide_in * random.uniform(), y = kSide_in * random.uniform();
    data.points.push_back({x, y});
    data.value.push_back(1.2 * det_sin(x / 21) * det_cos(y / 17) + 0.3 * random.normal());
  }
  return data;
}

// One layer and only its shared term: a product of two Materns of length 20 in., variance 1.44.
survey::Model bare_model() {
  survey::Model model;
  model.nodes.push_back({});
  model.rot_far = {0, 0};
  model.wet_far = {0, 0};
  model.node_sd = 0;
  model.own_share = 0;
  return model;
}

std::vector<survey::Observation> observe(const Data& data, bool binary) {
  std::vector<survey::Observation> all;
  for (std::size_t i = 0; i < data.points.size(); ++i) {
    survey::Observation seen;
    seen.place = {0, survey::kRot, data.points[i]};
    if (binary)
      seen.fixed = data.value[i] > 0 ? survey::Likelihood::above(0, 1) : survey::Likelihood::below(0, 1);
    else
      seen.fixed = survey::Likelihood::measured(data.value[i], 0.3);
    all.push_back(seen);
  }
  return all;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fprintf(stderr, "usage: bench_field FOLDER\n");
    return 2;
  }
  const Data data = make_data();
  std::FILE* out = std::fopen((std::string(argv[1]) + "/points.csv").c_str(), "w");
  if (out == nullptr) {
    std::fprintf(stderr, "cannot write %s/points.csv\n", argv[1]);
    return 2;
  }
  std::fprintf(out, "x,y,v\n");
  for (std::size_t i = 0; i < data.points.size(); ++i) std::fprintf(out, "%.17g,%.17g,%.17g\n", data.points[i].x_in, data.points[i].y_in, data.value[i]);
  std::fclose(out);
  std::vector<Point> grid;
  for (int j = 0; j < kSide; ++j)
    for (int i = 0; i < kSide; ++i) grid.push_back({(i + 0.5) * kSide_in / kSide, (j + 0.5) * kSide_in / kSide});
  const survey::Model model = bare_model();
  survey::Setting setting;
  setting.length_in = 20;
  setting.stretch = 1;
  setting.amplitude = 1.2;
  const std::vector<survey::Setting> settings{setting};
  const auto kriged = survey::fit(model, observe(data, false), settings);
  const auto moments = bench::timed(9, [&] {
    const auto fitted = survey::fit(model, observe(data, false), settings);
    survey::moments_at(fitted, fitted.members.front(), 0, grid);
  });
  const auto binary_fit = bench::timed(9, [&] { survey::fit(model, observe(data, true), settings); });
  const auto binary_all = bench::timed(9, [&] { survey::chances_at(survey::fit(model, observe(data, true), settings), 0, grid); });
  const auto draws = bench::timed(5, [&] { survey::draw_latent(kriged, {{0, grid}}, 100, 1); });
  std::printf("{\"krige_ms\":%.3f,\"binary_fit_ms\":%.3f,\"binary_fit_predict_ms\":%.3f,\"draws100_ms\":%.3f}\n", moments.median_ms, binary_fit.median_ms,
              binary_all.median_ms, draws.median_ms);
}
