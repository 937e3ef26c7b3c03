// bench_openings [--first N] [--leaks N] [--openings N] [--strategy NAME] [--no-stop]
//
// The opening study: on each invented leak every strategy makes its openings one by one; after each
// the survey decides what to cut and the truth says what that decision costs; beside it, what the same
// openings cost when every spot is taken to be as at its nearest opening. CSV on standard
// output, one row a leak, strategy and count; tools/study.sh makes table and picture from it.
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <string>

#include "openings/strategies.hpp"
#include "survey/survey.hpp"

using namespace awlmark;

namespace {

struct Arguments {
  int first = 0;
  int leaks = 40;
  int openings = 20;
  std::string strategy = "all";
  bool no_stop = false;  // openings cost nothing, so that the guided survey never stops
};

std::vector<std::vector<double>> chances(const simulator::Leak& leak, const survey::Survey& survey) {
  std::vector<std::vector<double>> p;
  for (const auto& truth : leak.layers) {
    p.emplace_back(static_cast<std::size_t>(leak.nx) * leak.ny, std::numeric_limits<double>::quiet_NaN());
    for (const auto& layer : survey.layers) {
      if (layer.layer == truth.layer) p.back() = layer.p_unsound;
    }
  }
  return p;
}

// As a notebook decides: wood is taken to be as at the nearest opening, so one cuts halfway between the
// last unsound opening and the first sound one.
std::vector<std::vector<double>> as_nearest(const simulator::Leak& leak, const std::vector<Mark>& marks) {
  std::vector<std::vector<double>> p;
  for (const auto& truth : leak.layers) {
    std::vector<double> layer(truth.degree.size(), 0);
    for (std::size_t c = 0; c < layer.size(); ++c) {
      double nearest = std::numeric_limits<double>::infinity();
      for (const Mark& mark : marks) {
        if (mark.tool != Tool::awl || mark.layer != truth.layer) continue;
        const double d = distance_in(*mark.at_in, simulator::centre_of(leak, static_cast<int>(c)));
        if (d >= nearest) continue;
        nearest = d;
        layer[c] = mark.reads == Reading::sound ? 0 : 1;
      }
    }
    p.push_back(std::move(layer));
  }
  return p;
}

double now_ms() { return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

void run(const simulator::Leak& leak, int index, const study::Named& strategy, const Arguments& arguments) {
  study::SoFar so_far;
  so_far.leak = &leak;
  so_far.job = leak.job;
  if (arguments.no_stop) so_far.job.rates->opening = 0;
  // Readings err alike for all strategies; the places of `random` have their own stream.
  Random noise(stream_seed(1954, static_cast<std::uint64_t>(index)));
  Random places(stream_seed(77, static_cast<std::uint64_t>(index)));
  const std::string name = arguments.no_stop ? strategy.name + "_on" : strategy.name;
  double loss = 0, notebook_loss = 0;
  bool stopped = false;
  for (int n = 1; n <= arguments.openings; ++n) {
    double choose_ms = 0;
    if (!stopped) {
      const double start = now_ms();
      const auto next = n == 1 ? std::optional<Point>(leak.noticed_in) : strategy.next(so_far, places);
      choose_ms = now_ms() - start;
      stopped = !next.has_value();
      if (next) {
        study::open_at(so_far, *next, noise);
        survey::Options options;
        options.draws = 0;
        options.openings = 0;
        options.last_change = false;
        const auto result = survey::survey(so_far.job, options);
        loss = simulator::decision_loss(leak, chances(leak, result.findings));
        notebook_loss = simulator::decision_loss(leak, as_nearest(leak, so_far.job.marks));
      }
    }
    const Point at = so_far.openings.back().at_in;
    std::printf("%d,%s,%d,%d,%.2f,%.2f,%.1f,%.2f,%.2f,%d\n", index, name.c_str(), n, static_cast<int>(so_far.openings.size()), loss, notebook_loss, choose_ms,
                at.x_in, at.y_in, so_far.openings.back().unsound ? 1 : 0);
    std::fflush(stdout);
  }
}

Arguments parse(int argc, char** argv) {
  Arguments arguments;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word == "--no-stop") {
      arguments.no_stop = true;
    } else if (i + 1 < argc && word == "--first") {
      arguments.first = std::atoi(argv[++i]);
    } else if (i + 1 < argc && word == "--leaks") {
      arguments.leaks = std::atoi(argv[++i]);
    } else if (i + 1 < argc && word == "--openings") {
      arguments.openings = std::atoi(argv[++i]);
    } else if (i + 1 < argc && word == "--strategy") {
      arguments.strategy = argv[++i];
    } else {
      std::fprintf(stderr, "unknown argument %s; see the head of bench/openings/openings.cpp\n", word.c_str());
      std::exit(2);
    }
  }
  return arguments;
}

}  // namespace

int main(int argc, char** argv) {
  const Arguments arguments = parse(argc, argv);
  std::printf("leak,strategy,n,opened,loss,notebook_loss,choose_ms,x_in,y_in,unsound\n");
  for (int index = arguments.first; index < arguments.first + arguments.leaks; ++index) {
    const auto leak = simulator::make_leak(static_cast<std::uint64_t>(index));
    for (const auto& strategy : study::strategies()) {
      if (arguments.strategy == "all" || arguments.strategy == strategy.name) run(leak, index, strategy, arguments);
    }
  }
}
