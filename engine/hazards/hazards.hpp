// Hazards: what must be true before anyone touches, opens, cuts or covers.
//
// Rules are rows of data/hazards.json: a condition on what is known, gates, protection and who is
// licensed. Unknown takes the stricter branch, and the gate says so.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "job/job.hpp"

namespace awlmark::hazards {

// The task that a gate guards, in the order in which a job meets them: working in the room at all, going
// into the space under the floor, an opening of the survey, lifting fixtures, taking out, fans, closing
// up, and the finish.
enum class Before { touching, entering, opening, lifting, cutting, drying, covering, finishing };
BOOST_DESCRIBE_ENUM(Before, touching, entering, opening, lifting, cutting, drying, covering, finishing)

struct Gate {
  std::string id;
  Before before = Before::touching;
  std::string hazard;                // "asbestos", "lead", "growth", "water", "electricity", "structure", ...
  std::string text;                  // what must be true, in one or two plain sentences
  std::vector<std::string> because;  // the facts of the job that raised it, unknown ones named
  std::string who;                   // who may do it: "certified asbestos inspector"; empty when anyone
  Reason reason;
  bool deadly = false;                 // what it guards against can kill, or contaminate a house
  std::string brief;                   // the same in a few words, for the card of its hazard
  std::vector<std::string> lifted_by;  // facts nobody stated that would lift it
};
BOOST_DESCRIBE_STRUCT(Gate, (), (id, before, hazard, text, because, who, reason, deadly, brief, lifted_by))

// A gate that somebody has seen to, as the job records it.
struct MetGate {
  std::string gate;
  std::string by;
  std::string time;
  std::string evidence;
};
BOOST_DESCRIBE_STRUCT(MetGate, (), (gate, by, time, evidence))

// One card for each hazard that has a gate due: what must be true now, in few words.
struct Card {
  std::string hazard;
  std::string text;
  std::vector<std::string> gates;
  bool deadly = false;
};
BOOST_DESCRIBE_STRUCT(Card, (), (hazard, text, gates, deadly))

// What is due before the steps at hand, worst first. What can kill or contaminate always shows; the rest
// shows while it is short (kMostWords), then folds under a count.
struct Due {
  std::vector<Card> cards;
  int folded = 0;  // gates due that no card shows
};
BOOST_DESCRIBE_STRUCT(Due, (), (cards, folded))
inline constexpr int kMostWords = 150;

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
  std::vector<MetGate> met;
  Due due;                                   // before what the survey asks for next, or, when it stops, before work starts
  std::vector<std::string> presumed_layers;  // taken as holding asbestos: not pierced before a laboratory has cleared them
};
BOOST_DESCRIBE_STRUCT(Hazards, (), (gates, protection, contaminated_layers, met, due, presumed_layers))

// What is planned and known, as reckon asks for it; of a job it stands in hazards.facts. Whatever is left
// out is not known, and the stricter branch is taken.
struct WorkFacts {
  std::optional<double> painted_sf;       // old paint that will be disturbed in this room
  std::optional<bool> demolishes_paint;   // painted parts are pulled or broken, whatever their area
  std::optional<bool> paint_tested_free;  // a test found no lead
  std::optional<bool> paid;               // done for pay
  std::optional<bool> occupied;
  std::optional<bool> cuts_tile;  // tile, mortar or cement board is cut or broken
  std::optional<bool> gas;        // a gas line or appliance is near
  std::optional<double> hours_wet;
  std::optional<double> growth_sf;  // as measured
  std::optional<bool> sewage;       // the water carried sewage
};
BOOST_DESCRIBE_STRUCT(WorkFacts, (), (painted_sf, demolishes_paint, paint_tested_free, paid, occupied, cuts_tile, gas, hours_wet, growth_sf, sewage))

// With what the job itself states of its work (hazards.facts); gates that the job says are met (hazards.met)
// are gone from `gates` and kept as a record in `met`. A gate that only a laboratory lifts stays, tick or no tick.
Hazards hazards(const Job& job);
Hazards hazards(const Job& job, const WorkFacts& work);
WorkFacts stated_facts(const Job& job);

Due due_before(const Hazards& hazards, const std::vector<Before>& steps);

// Every rule has its parts, its source and a known status: one line each that does not.
std::vector<std::string> faults_of_rules();

}  // namespace awlmark::hazards
