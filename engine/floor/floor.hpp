// Floor: what it carries as found, what holds while it is open, and the ways to rebuild it.
//
// In: the job, the cut-back and the survey. Out: loads, checks of every member and deck by the NDS
// (ASD) with every factor in its reason; shoring while open; rebuild options, each checked alike and
// ranked. Rotten wood counts for nothing. Unknown species and grade take the worst row of the tables
// property by property, and the reason says so. Not promised: a design. Where an option needs an
// engineer it says so, and local code decides.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "cutback/cutback.hpp"
#include "goods/goods.hpp"
#include "job/job.hpp"
#include "survey/survey.hpp"

namespace awlmark::floor {

struct LoadLine {
  std::string item;  // "porcelain tile, 3/8 in."
  double psf = 0;    // 0 for a load that is not spread
  double lb = 0;     // a fixture or point load
  std::string kind;  // "dead", "live"
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(LoadLine, (), (item, psf, lb, kind, reason))

// A stretch of lost wood, for the framing drawing.
struct LostStretch {
  double from_in = 0;  // along the line, from `from_in`
  double to_in = 0;
  double depth_in = 0;
  double width_in = 0;  // over this much of the breadth
  std::string face;     // "top", "side", "bottom"
};
BOOST_DESCRIBE_STRUCT(LostStretch, (), (from_in, to_in, depth_in, width_in, face))

// One line of framing on the plan: a member as found, or what an option adds or changes.
struct FramingLine {
  std::string id;
  std::string kind;  // "joist", "girder", "ledger", "wall", "sister", "new_member", "added_joist", "bay_joist", "header", "trimmer", "ledger", "blocking"
  Point from_in;
  Point to_in;
  std::string size;  // "2x8" or the measured section
  double b_in = 0;
  double d_in = 0;
  std::optional<double> ripped_to_in;
  double top_drop_in = 0;           // top of it below the top of the old framing
  std::vector<double> rests_at_in;  // along it
  std::vector<LostStretch> lost;
  std::string note;
};
BOOST_DESCRIBE_STRUCT(FramingLine, (), (id, kind, from_in, to_in, size, b_in, d_in, ripped_to_in, top_drop_in, rests_at_in, lost, note))

// The deck's layers from the top down over an area, for plan and section.
struct DeckPart {
  std::string words;  // "planks 1 1/2", splined"
  double thickness_in = 0;
  double runs_degrees = 0;  // boards, or the strength axis of panels
  double top_drop_in = 0;   // top of it below the top of the old deck
  std::vector<Polygon> outlines_in;
};
BOOST_DESCRIBE_STRUCT(DeckPart, (), (words, thickness_in, runs_degrees, top_drop_in, outlines_in))

// What lies on the framing, against what reaches the ground through posts, walls, foundations and rests,
// with all loads on at once: dead, live, fixtures and walls over the framing drawn and half a bay beyond it.
// A mechanism carries 0; more than 1 percent apart, a way is refused.
struct Balance {
  double applied_lb = 0;
  double carried_lb = 0;
};
BOOST_DESCRIBE_STRUCT(Balance, (), (applied_lb, carried_lb))
inline constexpr double kBalance = 0.01;
bool balanced(const Balance& balance);

// How a way comes out. ask: it passes at the least that a wall of unknown load may carry and fails at the
// most. engineer: it fails at both, or changes what only an engineer may settle.
enum class Verdict { passes, ask, engineer, fails };
BOOST_DESCRIBE_ENUM(Verdict, passes, ask, engineer, fails)

// May people use the floor as it was found.
struct Today {
  bool stand = true;  // walk on it
  bool bathe = true;  // use tub and shower
  bool work = true;   // a crew with its tools, before anything is opened
  std::vector<std::string> words;
};
BOOST_DESCRIBE_STRUCT(Today, (), (stand, bathe, work, words))

struct AsFound {
  Today today;
  Balance balance;
  std::vector<LoadLine> loads;
  double dead_psf = 0;
  double live_psf = 0;
  std::vector<Check> checks;
  bool ok = true;
  std::vector<std::string> assumed;  // what was not known and what was taken instead
  std::vector<std::string> words;
  std::vector<std::string> asks;  // to be measured or asked before the way is settled
};
BOOST_DESCRIBE_STRUCT(AsFound, (), (today, balance, loads, dead_psf, live_psf, checks, ok, assumed, words, asks))

struct Hours {
  double low = 0;
  double likely = 0;
  double high = 0;
};
BOOST_DESCRIBE_STRUCT(Hours, (), (low, likely, high))

// Which step of the work an option's hours belong to.
enum class Part { take_up, shoring, framing, deck };
BOOST_DESCRIBE_ENUM(Part, take_up, shoring, framing, deck)

// Hours of one row of data/floor_hours.csv, and what they grow with.
struct Labour {
  std::string row;
  Part part = Part::framing;
  double quantity = 0;
  std::string unit;
  Hours hours;
  goods::Growth grows;
};
BOOST_DESCRIBE_STRUCT(Labour, (), (row, part, quantity, unit, hours, grows))

// What a way takes out of one layer: all of it, or inside these outlines (empty: only what the cut-back asks for).
struct TakeOut {
  std::string layer;
  bool whole = false;
  std::vector<Polygon> outlines_in;
};
BOOST_DESCRIBE_STRUCT(TakeOut, (), (layer, whole, outlines_in))

struct Shore {
  std::string id;
  Point at_in;
  std::string under;  // id of the support or wall that it holds
  double load_lb = 0;
  double pad_sf = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Shore, (), (id, at_in, under, load_lb, pad_sf, reason))

struct Option {
  std::string id;  // "patch", "like_for_like", "headers", "panels_on_added_joists", "thick_panels_on_girders", "sisters", "replaced_members", "dropped_bay"
  std::string title;
  int rank = 0;  // 1 is recommended
  Verdict verdict = Verdict::fails;
  bool ok = false;  // verdict is not fails
  bool needs_engineer = false;
  std::vector<std::string> engineer_for;  // what an engineer is asked to settle; empty when none is needed
  std::vector<std::string> asks;          // to be measured or asked; none of it fails the way
  std::vector<std::string> fails_for;     // why the way does not pass, where no figure says it
  Balance balance;
  std::vector<Check> checks;
  double height_change_in = 0;  // of the walking surface below the finish, against today
  double weight_psf = 0;
  double cost = 0;
  Hours hours;
  std::vector<Labour> labour;  // the hours by step; their sum is `hours`
  std::vector<goods::Good> goods;
  std::vector<std::string> steps;
  std::vector<std::string> rules_out;
  std::vector<std::string> cautions;
  std::string trade_off;             // one sentence
  std::vector<FramingLine> framing;  // what it adds or changes
  std::vector<DeckPart> deck;        // what it lays
  std::vector<TakeOut> takes_out;    // beyond what the cut-back asks for
  std::vector<Shore> shores;         // of walls over members that it works on, beside those while the floor is open
};
BOOST_DESCRIBE_STRUCT(Option, (),
                      (id, title, rank, verdict, ok, needs_engineer, engineer_for, asks, fails_for, balance, checks, height_change_in, weight_psf, cost, hours,
                       labour, goods, steps, rules_out, cautions, trade_off, framing, deck, takes_out, shores))

struct WhileOpen {
  Balance balance;                       // with the rot cut out and the shores in place
  std::vector<std::string> unsupported;  // what loses its support when the cut-back is made
  std::vector<Shore> shores;
  double open_at_once_in = 0;  // how much may be open at once, along the supports; 0: none without bracing
  std::vector<std::string> words;
};
BOOST_DESCRIBE_STRUCT(WhileOpen, (), (balance, unsupported, shores, open_at_once_in, words))

struct Floor {
  AsFound as_found;
  std::vector<FramingLine> framing;  // the members as found, with what they have lost
  WhileOpen while_open;
  std::vector<Option> options;
  std::vector<std::string> holds;  // what must be read or known before the work that hangs on it
  std::string chosen;              // id of the option taken: the job's own, or the best
  std::vector<std::string> cautions;
};
BOOST_DESCRIBE_STRUCT(Floor, (), (as_found, framing, while_open, options, holds, chosen, cautions))

Floor floor(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back);

}  // namespace awlmark::floor
