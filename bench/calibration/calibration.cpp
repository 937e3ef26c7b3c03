// bench_calibration [--first N] [--leaks N] [--openings 4,8,12] [--draws N] [--guided]
//
// Whether the survey's chances mean what they say, on invented leaks that are not drawn from its
// model: reliability by tenths, and how often the true unsound area lies within p10 to p90. Openings
// are the noticed spot and then places at random (or, with --guided, the survey's own choice).
// JSON on standard output; tools/study.sh makes table and picture from it.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "openings/strategies.hpp"
#include "simulator/reliability.hpp"
#include "survey/survey.hpp"

using namespace awlmark;

namespace {

struct Arguments {
  int first = 1000;  // other leaks than the opening study's
  int leaks = 60;
  int draws = 400;
  std::vector<int> openings{4, 8, 12};
  bool guided = false;
};

struct Tally {
  int openings = 0;
  simulator::Reliability cells;
  int areas = 0, within = 0, below_p10 = 0, above_p90 = 0;
  double true_sf = 0, p50_sf = 0;
};

void count(const simulator::Leak& leak, const survey::Survey& findings, Tally& tally) {
  for (const auto& truth : leak.layers) {
    for (const auto& layer : findings.layers) {
      if (layer.layer != truth.layer) continue;
      for (std::size_t c = 0; c < truth.degree.size(); ++c) tally.cells.add(layer.p_unsound[c], truth.degree[c] > 0);
    }
    const auto found = findings.unsound_sf.find(truth.layer);
    if (found == findings.unsound_sf.end()) continue;
    const double sf = simulator::unsound_sf(leak, truth);
    ++tally.areas;
    tally.below_p10 += sf < found->second.p10;
    tally.above_p90 += sf > found->second.p90;
    tally.within += sf >= found->second.p10 && sf <= found->second.p90;
    tally.true_sf += sf;
    tally.p50_sf += found->second.p50;
  }
}

void run(int index, const Arguments& arguments, std::vector<Tally>& tallies) {
  const auto leak = simulator::make_leak(static_cast<std::uint64_t>(index));
  study::SoFar so_far;
  so_far.leak = &leak;
  so_far.job = leak.job;
  so_far.job.rates->opening = 0;  // the guided survey is not to stop before the count is reached
  Random noise(stream_seed(1954, static_cast<std::uint64_t>(index)));
  Random places(stream_seed(78, static_cast<std::uint64_t>(index)));
  for (auto& tally : tallies) {
    while (static_cast<int>(so_far.openings.size()) < tally.openings) {
      std::optional<Point> at = leak.noticed_in;
      if (!so_far.openings.empty()) at = arguments.guided ? study::guided(so_far, places) : study::anywhere(so_far, places);
      if (!at) break;
      study::open_at(so_far, *at, noise);
    }
    survey::Options options;
    options.draws = arguments.draws;
    options.openings = 0;
    options.last_change = false;
    count(leak, survey::survey(so_far.job, options).findings, tally);
  }
}

void print(const Tally& tally, bool last) {
  std::printf("  {\"openings\":%d,\"cells\":%.0f,\"brier\":%.4f,\"called_80\":{\"said\":%.4f,\"was\":%.4f,\"cells\":%.0f},\n", tally.openings,
              tally.cells.cells, tally.cells.brier(), tally.cells.called_80.said(), tally.cells.called_80.was(), tally.cells.called_80.cells);
  std::printf("   \"areas\":%d,\"within_p10_p90\":%.4f,\"below_p10\":%d,\"above_p90\":%d,\"mean_true_sf\":%.3f,\"mean_p50_sf\":%.3f,\n   \"tenths\":[",
              tally.areas, tally.areas > 0 ? static_cast<double>(tally.within) / tally.areas : 0.0, tally.below_p10, tally.above_p90,
              tally.true_sf / tally.areas, tally.p50_sf / tally.areas);
  for (std::size_t k = 0; k < 10; ++k) {
    const auto& tenth = tally.cells.tenths[k];
    std::printf("%s{\"said\":%.4f,\"was\":%.4f,\"cells\":%.0f}", k > 0 ? "," : "", tenth.said(), tenth.was(), tenth.cells);
  }
  std::printf("]}%s\n", last ? "" : ",");
}

Arguments parse(int argc, char** argv) {
  Arguments arguments;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word == "--guided") {
      arguments.guided = true;
    } else if (i + 1 < argc && word == "--first") {
      arguments.first = std::atoi(argv[++i]);
    } else if (i + 1 < argc && word == "--leaks") {
      arguments.leaks = std::atoi(argv[++i]);
    } else if (i + 1 < argc && word == "--draws") {
      arguments.draws = std::atoi(argv[++i]);
    } else if (i + 1 < argc && word == "--openings") {
      arguments.openings.clear();
      for (const char* at = argv[++i]; *at != '\0';) {
        char* end = nullptr;
        arguments.openings.push_back(static_cast<int>(std::strtol(at, &end, 10)));
        at = *end == ',' ? end + 1 : end;
      }
    } else {
      std::fprintf(stderr, "unknown argument %s; see the head of bench/calibration/calibration.cpp\n", word.c_str());
      std::exit(2);
    }
  }
  return arguments;
}

}  // namespace

int main(int argc, char** argv) {
  const Arguments arguments = parse(argc, argv);
  std::vector<Tally> tallies;
  for (const int n : arguments.openings) {
    tallies.emplace_back();
    tallies.back().openings = n;
  }
  for (int index = arguments.first; index < arguments.first + arguments.leaks; ++index) run(index, arguments, tallies);
  std::printf("{\"leaks\":%d,\"first\":%d,\"draws\":%d,\"placed\":\"%s\",\"counts\":[\n", arguments.leaks, arguments.first, arguments.draws,
              arguments.guided ? "guided" : "random");
  for (std::size_t i = 0; i < tallies.size(); ++i) print(tallies[i], i + 1 == tallies.size());
  std::printf("]}\n");
}
