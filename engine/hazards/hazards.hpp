// Hazards: what must be true before anyone touches, opens, cuts or covers.
//
// Rules are rows of data/hazards.json: a condition on what is known, gates, protection and who is
// licensed. Unknown takes the stricter branch, and the gate says so.
#pragma once

#include <boost/describe.hpp>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "job/job.hpp"

namespace awlmark::hazards {

enum class Before { touching, opening, cutting, covering };
BOOST_DESCRIBE_ENUM(Before, touching, opening, cutting, covering)

struct Gate {
  std::string id;
  Before before = Before::touching;
  std::string hazard;  // "asbestos", "lead", "growth", "water", "electricity", "structure", ...
  std::string text;    // what must be true, in one or two plain sentences
  std::vector<std::string> because;  // the facts of the job that raised it, unknown ones named
  std::string who;     // who may do it: "certified asbestos inspector"; empty when anyone
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Gate, (), (id, before, hazard, text, because, who, reason))

struct Protection {
  std::string id;
  std::string text;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Protection, (), (id, text, reason))

struct Hazards {
  std::vector<Gate> gates;
  std::vector<Protection> protection;
  std::vector<std::string> contaminated_layers;  // porous layers wetted by category 2 or 3 water: they go whatever their strength
};
BOOST_DESCRIBE_STRUCT(Hazards, (), (gates, protection, contaminated_layers))

Hazards hazards(const Job& job);

}  // namespace awlmark::hazards
