// bench_proposal: what a contractor waits for. A 10 x 12 ft room, three layers, 60 marks (20 openings
// read with the awl through all layers): one layer at once, the field alone, the field with three proposals,
// the field with 1000 draws. Then how all that grows from 21 to 600 marks. Processor time, median of seven
// [least most], one thread.
#include <cstdio>
#include <string>

#include "base/random.hpp"
#include "survey/glance.hpp"
#include "survey/survey.hpp"
#include "timing.hpp"

using namespace awlmark;

namespace {

Layer layer(const std::string& id, Material material, double thickness_in) {
  Layer made;
  made.id = id;
  made.material = material;
  made.thickness_in = thickness_in;
  return made;
}

Job room_10_by_12(int openings) {
  Job job;
  job.room.outline_in = rectangle(0, 0, 120, 144);
  job.layers = {layer("hard", Material::hardboard, 0.25), layer("under", Material::plywood_underlayment, 0.5), layer("deck", Material::board, 0.75)};
  job.layers.back().runs = Runs{0};
  job.layers.back().face_width_in = 5.5;
  Source source;
  source.id = "hose";
  source.at_in = Point{96, 130};
  source.kind = SourceKind::supply_leak;
  source.active = Activity::yes;
  job.sources.push_back(source);
  Random random(1954);
  for (int opening = 0; opening < openings; ++opening) {
    const double u = random.uniform(), v = random.uniform();
    const Point at{6 + 108 * u, 6 + 132 * v};
    for (const auto& l : job.layers) {
      Mark mark;
      mark.id = "o" + std::to_string(opening) + l.id;
      mark.at_in = at;
      mark.layer = l.id;
      const double reach = distance_in(at, *source.at_in) + 12 * random.normal();
      mark.reads = reach < 22 ? Reading::gone : (reach < 44 ? Reading::soft : Reading::sound);
      job.marks.push_back(mark);
    }
  }
  return job;
}

bench::Timed time_survey(const Job& job, int draws, int openings, int repeats = 7) {
  survey::Options options;
  options.draws = draws;
  options.openings = openings;
  options.last_change = false;
  return bench::timed(repeats, [&] { survey::survey(job, options); });
}

}  // namespace

int main() {
  const Job job = room_10_by_12(20);
  survey::Options options;
  options.draws = 0;
  const auto once = survey::survey(job, options).findings;
  std::printf("room 120 x 144 in, %zu layers, %zu marks, %d x %d cells, %d settings averaged, %zu proposed\n", job.layers.size(), job.marks.size(),
              once.grid.nx, once.grid.ny, once.inference.settings_averaged, once.next_openings.size());
  const auto layer = bench::timed(7, [&] { survey::glance(job, "deck"); });
  std::printf("the deck alone            %7.0f ms [%.0f %.0f]\n", layer.median_ms, layer.least_ms, layer.most_ms);
  const auto field = time_survey(job, 0, 0);
  const auto proposal = time_survey(job, 0, 3);
  const auto draws = time_survey(job, 1000, 0);
  std::printf("field                     %7.0f ms [%.0f %.0f]\n", field.median_ms, field.least_ms, field.most_ms);
  std::printf("field and three proposals %7.0f ms [%.0f %.0f]   proposals alone %.0f ms\n", proposal.median_ms, proposal.least_ms, proposal.most_ms,
              proposal.median_ms - field.median_ms);
  std::printf("field and 1000 draws      %7.0f ms [%.0f %.0f]   draws alone %.0f ms\n", draws.median_ms, draws.least_ms, draws.most_ms,
              draws.median_ms - field.median_ms);
  std::printf("marks  settings  field ms  with three proposals ms\n");
  for (const int openings : {7, 20, 35, 50, 51, 70, 100, 200}) {
    const Job grown = room_10_by_12(openings);
    const int kept = survey::survey(grown, options).findings.inference.settings_averaged, repeats = openings > 70 ? 1 : 3;
    std::printf("%5zu  %8d  %8.0f  %8.0f\n", grown.marks.size(), kept, time_survey(grown, 0, 0, repeats).median_ms,
                time_survey(grown, 0, 3, repeats).median_ms);
  }
}
