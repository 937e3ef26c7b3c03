// Goods as values: what a rebuild option needs, what a take-off buys. Nothing is ever read back out
// of the words: kind, section, length, grade, treatment, growth and price row say it.
//
// Sections are nominal inches ("2x8" is 2 by 8). Prices come from data/rates.csv by row; the row's
// unit (bf, sf/in, sf, each, lf) says how a price for the good's own unit follows from it.
#pragma once

#include <boost/describe.hpp>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace awlmark::goods {

enum class Kind {
  joist,
  girder,
  sister,
  added_joist,
  header,
  trimmer,
  ledger,
  cleat,
  blocking,
  post,
  shore,
  connector,   // hangers, angles, straps
  plank,       // boards and tongue-and-groove planks of the deck
  deck_panel,  // panels that carry the floor
  overlay,     // panels over a deck that stays
  fasteners,
  other
};
BOOST_DESCRIBE_ENUM(Kind, joist, girder, sister, added_joist, header, trimmer, ledger, cleat, blocking, post, shore, connector, plank, deck_panel, overlay,
                    fasteners, other)

enum class Unit { each, lf, sf };
BOOST_DESCRIBE_ENUM(Unit, each, lf, sf)

enum class Treatment { none, treated };
BOOST_DESCRIBE_ENUM(Treatment, none, treated)

// What a quantity grows with when opening up shows more than was planned.
enum class Extent { fixed, layer_sf, saw_ft, blocking_ft, plate_ft, wallboard_sf, members, posts };
BOOST_DESCRIBE_ENUM(Extent, fixed, layer_sf, saw_ft, blocking_ft, plate_ft, wallboard_sf, members, posts)

struct Growth {
  Extent with = Extent::fixed;
  std::string layer;  // of layer_sf: the layer's id
};
BOOST_DESCRIBE_STRUCT(Growth, (), (with, layer))
inline bool operator==(const Growth& a, const Growth& b) { return a.with == b.with && a.layer == b.layer; }

struct Section {
  double b_in = 0;  // nominal, of one ply; 0 where there is no section
  double d_in = 0;
  int plies = 1;
};
BOOST_DESCRIBE_STRUCT(Section, (), (b_in, d_in, plies))
inline bool operator==(const Section& a, const Section& b) { return a.b_in == b.b_in && a.d_in == b.d_in && a.plies == b.plies; }

struct Good {
  Kind kind = Kind::other;
  std::string item;  // in words, for reading only
  Section section;
  double thickness_in = 0;  // of panels
  double length_in = 0;     // of one piece of lumber; 0 where it is not bought by the piece
  std::string grade;        // "No. 2", "48 oc"
  Treatment treatment = Treatment::none;
  Growth grows;
  std::string price;  // row of data/rates.csv
  double quantity = 0;
  Unit unit = Unit::each;
};
BOOST_DESCRIBE_STRUCT(Good, (), (kind, item, section, thickness_in, length_in, grade, treatment, grows, price, quantity, unit))

// What a yard calls a dressed or full-sawn measure: 0.75 -> 1, 1.5 -> 2, 9.25 -> 10; above 4 the next even one.
double nominal_in(double dressed_in);

// Pieces of lumber, counted; the quantity is their feet, all plies together.
Good lumber(Kind kind, std::string item, Section section, double length_in, double pieces);
// Planks of a deck by the same measure.
Good planks(std::string item, Section section, double length_in, double pieces);
Good panels(Kind kind, std::string item, double thickness_in, std::string grade, double area_sf);
Good fasteners(double area_sf);
Good connectors(double count);
Good shores(double count);

bool makes_deck(Kind kind);  // plank, deck_panel
bool is_lumber(Kind kind);   // sold by the foot of a section, cut from sticks
bool sold_in_sheets(Kind kind);

// Price of one unit of the good, with the job's scale of material prices.
double unit_price(const Job& job, const Good& good);
inline double cost(const Job& job, const Good& good) { return good.quantity * unit_price(job, good); }

// Framing that stays in the house; shores and what holds it are not.
bool framing(Kind kind);
// The same lumber, pressure treated, and what it costs more.
void treat(Good& good);

// Adds it, or adds its quantity to the same good that is there already.
void add(std::vector<Good>& list, Good good);

}  // namespace awlmark::goods
