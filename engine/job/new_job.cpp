// The starting job that `awlmark new` writes: a small room with a note wherever a person must look.
#include "job/job.hpp"

namespace awlmark {

std::string new_job_text() {
  Job job;
  job.note =
      "Every 'note' says what to look at. Lengths are inches, or text such as 7' 4 1/2\". Leave out what you do not know: the answer then takes the safer "
      "branch and says so.";
  job.job.name = "New job";
  job.job.note =
      "year_built decides which hazard rules apply; storey is ground or upper; below is crawl_space, basement, room or unknown. "
      "floors_above, house_width_in and ground_snow_psf say what a bearing wall may carry; state names whose settings hold.";
  job.room.outline_in = {{0, 0}, {96, 0}, {96, 60}, {0, 60}};
  job.room.note = "Measure the room: corners in order, x to the right, y up, origin at one corner. Add doors with id, from_in, to_in.";

  Layer finish{.id = "finish", .material = Material::sheet_vinyl};
  finish.note = "From the top down. Give installed_year when known: unknown is treated as old.";
  Layer deck{.id = "deck", .material = Material::board, .runs = Runs{0}};
  deck.note = "Which way do the boards run, x or y? How thick and how wide are they? Look at an edge.";
  job.layers = {finish, deck};

  Wall wall{.id = "w1", .from_in = {0, 0}, .to_in = {96, 0}};
  wall.note =
      "Walls: does it bear, is it an outside wall, what stands directly below (below: wall, girder, foundation, nothing), in the attic trusses or rafters, "
      "do they land here (lands_here), how far to the next bearing on each side (next_bearing_in), floors_above that it carries.";
  job.walls = {wall};

  SupportRow row{.id = "J", .from_in = {16, 0}, .to_in = {16, 60}, .spacing_in = 16, .count = 5, .step = Runs{0}};
  row.note =
      "Members alike are written once: the first one's line, spacing_in, count, the direction of the next (step), size (2x8, or b_in and d_in measured). "
      "They are called J.1, J.2, ...; an odd one goes into supports on its own. rests: what each end sits on (end: from or to; on: post, wall, girder, "
      "foundation, hanger, header, nothing).";
  row.rests = {SupportRest{.end = LineEnd::from}, SupportRest{.end = LineEnd::to}};
  job.rows = {row};

  Source source{.id = "leak"};
  source.note = "Where did the water come from? at_in when known; active true or false; water_category 1 clean, 2 grey, 3 black.";
  job.sources = {source};

  Opening opening{.id = "o1", .at_in = {48, 30}, .act = Act::look, .from = From::below};
  opening.note =
      "One item for each place that was opened or looked at; readings lists what was read there, layer by layer: "
      "{\"id\": \"m1\", \"layer\": \"deck\", \"tool\": \"awl\", \"reads\": \"sound\"}. Single readings go into marks.";
  job.openings = {opening};

  Rebuild rebuild;
  rebuild.note = "finish: porcelain_tile, ceramic_tile, stone_tile, sheet_vinyl or other.";
  job.rebuild = rebuild;
  return write_job(job);
}

}  // namespace awlmark
