// Where the survey answers: the cells of each layer inside the room, and the stations of each line.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "survey/survey.hpp"

namespace awlmark::survey {

struct LayerCells {
  std::string layer;
  int node = 0;
  bool can_decay = true;
  std::vector<int> cells;       // of the grid, rising; centre inside the room and the layer
  std::vector<Point> centres;   // of those cells
  std::vector<double> area_sf;  // the part of each cell inside room and layer
};

struct LineStations {
  std::string id;
  int node = 0;
  bool wall = false;
  std::vector<double> along_in;
  std::vector<Point> points;
  double spacing_in = 0;
};

struct SurveyPlan {
  GridFindings grid;
  std::vector<LayerCells> layers;
  std::vector<LineStations> supports;
  std::vector<LineStations> walls;
  std::vector<std::string> notes;  // what was coarsened
};

// Cell size is `cell_in` within 1 to 12 in., coarser when the room would have more than kMostCells.
SurveyPlan plan_survey(const Job& job, double cell_in);

inline constexpr int kMostCells = 14000;

}  // namespace awlmark::survey
