// The starting job that `awlmark new` writes: a small room with a note wherever a person must look.
#include "job/job.hpp"

namespace awlmark {

std::string new_job_text() {
  Job job;
  job.note =
      "Every 'note' says what to look at. Lengths are inches, or text such as 7' 4 1/2\". Leave out what you do not know: the answer then takes the safer "
      "branch and says so.";
  job.job.name = "New job";
  job.job.note = "year_built decides which hazard rules apply; storey is ground or upper; below is crawl_space, basement, room or unknown.";
  job.room.outline_in = {{0, 0}, {96, 0}, {96, 60}, {0, 60}};
  job.room.note = "Measure the room: corners in order, x to the right, y up, origin at one corner. Add doors with id, from_in, to_in.";

  Layer finish{.id = "finish", .material = Material::sheet_vinyl};
  finish.note = "From the top down. Give installed_year when known: unknown is treated as old.";
  Layer deck{.id = "deck", .material = Material::board, .runs = Runs{0}};
  deck.note = "Which way do the boards run, x or y? How thick and how wide are they? Look at an edge.";
  job.layers = {finish, deck};

  Support joist{.id = "j1", .from_in = {16, 0}, .to_in = {16, 60}};
  joist.note = "One entry a joist or girder: its line on the plan, its size (2x8, or b_in and d_in measured) and rests_at_in, where it rests, along it.";
  job.supports = {joist};

  Source source{.id = "leak"};
  source.note = "Where did the water come from? at_in when known; active true or false; water_category 1 clean, 2 grey, 3 black.";
  job.sources = {source};

  Rebuild rebuild;
  rebuild.note = "finish: porcelain_tile, ceramic_tile, stone_tile, sheet_vinyl or other.";
  job.rebuild = rebuild;
  return write_job(job);
}

}  // namespace awlmark
