// What closes a floor at its edge: mudsill, rim and studs under and in the walls, as far as an awl read them.
//
// They are not on the plan as members, so they are taken from the walls' readings: a soft or gone reading
// counts 12 in. either way along the wall, up to the next sound one. Each is cut out and made new in every
// way, with the wall and the joists' ends on shores. The bottom plate comes out with the cut-back.
#pragma once

#include <string>
#include <vector>

#include "floor/option_plan.hpp"

namespace awlmark::floor {

struct EdgeRot {
  const Wall* wall = nullptr;
  WallPart part = WallPart::mudsill;  // mudsill, rim or stud
  double from_in = 0;                 // along the wall
  double to_in = 0;
  double load_lb = 0;  // of the joists' ends there and of the wall over it, at the most
};
std::vector<EdgeRot> edge_rot(const Job& job, const Model& model);
// Outside walls whose mudsill and rim nobody read, although plate or deck beside them is rotten.
std::vector<std::string> unread_sills(const Job& job, const Model& model);

void check_edges(const std::vector<EdgeRot>& rot, std::vector<Check>& out);
void shore_edges(const Model& model, const std::vector<EdgeRot>& rot, WhileOpen& out);
void mend_edges(OptionPlan& plan, const Site& site);

}  // namespace awlmark::floor
