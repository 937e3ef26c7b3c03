// What the job does not say and the plan takes instead: made once, said once, carried by the findings.
#pragma once

#include <boost/describe.hpp>
#include <string>

namespace awlmark::plan {

struct Assumption {
  std::string id;     // what kind of guess: "boards_run", "rests", "wall_load", ...
  std::string about;  // the job's id of the layer, support or wall; empty for the whole floor
  std::string words;  // what is not known, what is taken, and how to know better
};
BOOST_DESCRIBE_STRUCT(Assumption, (), (id, about, words))

}  // namespace awlmark::plan
