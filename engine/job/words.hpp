// The words of the job document. Each enumeration is described once; its enumerators are the words.
#pragma once

#include <boost/describe.hpp>

namespace awlmark {

enum class Storey { unknown, ground, upper };
BOOST_DESCRIBE_ENUM(Storey, unknown, ground, upper)

enum class Below { unknown, crawl_space, basement, room };
BOOST_DESCRIBE_ENUM(Below, unknown, crawl_space, basement, room)

enum class PlumbingCode { irc, upc };
BOOST_DESCRIBE_ENUM(PlumbingCode, irc, upc)

enum class Material {
  sheet_vinyl,
  sheet_linoleum,
  vinyl_tile,
  ceramic_tile,
  porcelain_tile,
  stone_tile,
  asphalt_tile,
  felt,
  adhesive,
  hardboard,
  particleboard,
  plywood_underlayment,
  plywood,
  osb,
  board,
  plank_tg,
  cement_board,
  mortar_bed,
  gypsum_board,
  wall_plate
};
BOOST_DESCRIBE_ENUM(Material, sheet_vinyl, sheet_linoleum, vinyl_tile, ceramic_tile, porcelain_tile, stone_tile, asphalt_tile, felt, adhesive, hardboard,
                    particleboard, plywood_underlayment, plywood, osb, board, plank_tg, cement_board, mortar_bed, gypsum_board, wall_plate)

enum class Species { unknown, douglas_fir_larch, hem_fir, spruce_pine_fir, southern_pine, redwood };
BOOST_DESCRIBE_ENUM(Species, unknown, douglas_fir_larch, hem_fir, spruce_pine_fir, southern_pine, redwood)

enum class Grade { unknown, select_structural, no_1, no_2, no_3, decking_select, decking_commercial };
BOOST_DESCRIBE_ENUM(Grade, unknown, select_structural, no_1, no_2, no_3, decking_select, decking_commercial)

enum class SupportRole { joist, girder, ledger, wall };
BOOST_DESCRIBE_ENUM(SupportRole, joist, girder, ledger, wall)

enum class FixtureKind { toilet, tub, shower, vanity, washing_machine, dishwasher, water_heater, cabinet, other };
BOOST_DESCRIBE_ENUM(FixtureKind, toilet, tub, shower, vanity, washing_machine, dishwasher, water_heater, cabinet, other)

enum class SourceKind { unknown, supply_leak, drain_leak, seal_leak, overflow, surface_water, condensation, roof };
BOOST_DESCRIBE_ENUM(SourceKind, unknown, supply_leak, drain_leak, seal_leak, overflow, surface_water, condensation, roof)

// Whether water still comes. In the document: true, false or "unknown".
enum class Activity { unknown, yes, no };

enum class Tool { awl, meter, eye };
BOOST_DESCRIBE_ENUM(Tool, awl, meter, eye)

// What an awl (sound, soft, gone) or an eye (the rest) reads; a meter reads mc_percent.
enum class Reading { sound, soft, gone, dry, stained, wet, growth, insects };
BOOST_DESCRIBE_ENUM(Reading, sound, soft, gone, dry, stained, wet, growth, insects)

enum class From { above, below };
BOOST_DESCRIBE_ENUM(From, above, below)

enum class Face { top, side, bottom, end };
BOOST_DESCRIBE_ENUM(Face, top, side, bottom, end)

enum class WallPart { plate, stud, wallboard };
BOOST_DESCRIBE_ENUM(WallPart, plate, stud, wallboard)

enum class StandsOn { unknown, deck, framing };
BOOST_DESCRIBE_ENUM(StandsOn, unknown, deck, framing)

enum class Finish { porcelain_tile, ceramic_tile, stone_tile, sheet_vinyl, other };
BOOST_DESCRIBE_ENUM(Finish, porcelain_tile, ceramic_tile, stone_tile, sheet_vinyl, other)

enum class Entry { flush, curb, step };
BOOST_DESCRIBE_ENUM(Entry, flush, curb, step)

enum class DrainKind { point, line };
BOOST_DESCRIBE_ENUM(DrainKind, point, line)

}  // namespace awlmark
