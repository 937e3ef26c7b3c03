// A small laundry with a cut-back made by hand, for the rooms that come after it: board deck on
// joists, three planks out over two bays.
#pragma once

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "job/job.hpp"

namespace awlmark::testing {

inline Job small_laundry() {
  Job job;
  job.job.name = "test";
  job.job.year_built = 1990;
  job.job.occupied = true;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 96, 60);
  job.room.doors.push_back({"d1", {10, 0}, {42, 0}, {}, {}});
  Layer sheet, deck;
  sheet.id = "sheet";
  sheet.material = Material::sheet_vinyl;
  sheet.installed_year = 1995;
  sheet.thickness_in = 0.09;
  deck.id = "deck";
  deck.material = Material::board;
  deck.thickness_in = 0.75;
  deck.face_width_in = 5.5;
  deck.runs = Runs{0};
  job.layers = {sheet, deck};
  Source hose;
  hose.id = "hose";
  hose.kind = SourceKind::supply_leak;
  hose.water_category = 1;
  hose.active = Activity::no;
  job.sources = {hose};
  Mark wet;
  wet.id = "m1";
  wet.layer = "deck";
  wet.at_in = Point{40, 30};
  wet.tool = Tool::meter;
  wet.mc_percent = 26;
  job.marks = {wet};
  WorkPlan plan;
  plan.start = "2026-05-11";
  plan.crew = 2;
  job.work = plan;
  return job;
}

inline cutback::Piece plank_piece(int plank, int bay, double from_in, double to_in) {
  cutback::Piece piece;
  piece.id = "deck." + std::to_string(plank) + "." + std::to_string(bay);
  piece.layer = "deck";
  piece.kind = "plank";
  piece.plank = plank;
  piece.row = plank - 1;
  piece.from_in = from_in;
  piece.to_in = to_in;
  piece.outline_in = rectangle(from_in, (plank - 1) * 5.5, to_in, plank * 5.5);
  piece.out = true;
  return piece;
}

// `planks` planks from 16 to 48 in. out, in two bays each, and the sheet over them.
inline cutback::CutBack small_cut(int planks = 3) {
  cutback::CutBack cut;
  for (int p = 1; p <= planks; ++p) {
    cut.pieces.push_back(plank_piece(p, 1, 16, 32));
    cut.pieces.push_back(plank_piece(p, 2, 32, 48));
  }
  const double area = planks * 5.5 * 32 / 144;
  cut.area_sf = {{"sheet", area}, {"deck", area}};
  const auto outline = rectangle(16, 0, 48, planks * 5.5);
  cut.outlines_in = {{"sheet", {outline}}, {"deck", {outline}}};
  cut.edges.push_back({"deck", cutback::EdgeKind::cross_on_support, {16, 0}, {16, planks * 5.5}, planks * 5.5, "j1", ""});
  cut.edges.push_back({"deck", cutback::EdgeKind::rip, {16, planks * 5.5}, {48, planks * 5.5}, 32, "", ""});
  cut.blocking.push_back({"b1", {16, 16.5}, {30.5, 16.5}, 14.5, ""});
  cut.quantities.layer_sf = {area, area};
  cut.quantities.saw_ft = (planks * 5.5 + 32) / 12;
  cut.quantities.blocking_ft = 14.5 / 12;
  return cut;
}

}  // namespace awlmark::testing
