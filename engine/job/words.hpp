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

enum class From { above, below, side };
BOOST_DESCRIBE_ENUM(From, above, below, side)

enum class Face { top, side, bottom, end };
BOOST_DESCRIBE_ENUM(Face, top, side, bottom, end)

// Parts above the plate and below it come after it in the list: plate and stud speak of the plate, the rest do not.
// The mudsill lies on the foundation and the rim closes the joists' ends; both stand under an outside wall.
enum class WallPart { plate, stud, wallboard, rim, mudsill };
BOOST_DESCRIBE_ENUM(WallPart, plate, stud, wallboard, rim, mudsill)

enum class StandsOn { unknown, deck, framing };
BOOST_DESCRIBE_ENUM(StandsOn, unknown, deck, framing)

// What stands directly below a wall; `nothing` says that somebody looked.
enum class UnderWall { unknown, wall, girder, foundation, nothing };
BOOST_DESCRIBE_ENUM(UnderWall, unknown, wall, girder, foundation, nothing)

enum class Attic { unknown, trusses, rafters, none };
BOOST_DESCRIBE_ENUM(Attic, unknown, trusses, rafters, none)

enum class WallFace { unknown, gypsum_board, plaster, tile, panel, none };
BOOST_DESCRIBE_ENUM(WallFace, unknown, gypsum_board, plaster, tile, panel, none)

// What a member rests on; `nothing` is an end that somebody saw hanging free.
enum class RestOn { unknown, post, wall, girder, foundation, hanger, header, joist, ledger, nothing };
BOOST_DESCRIBE_ENUM(RestOn, unknown, post, wall, girder, foundation, hanger, header, joist, ledger, nothing)

enum class OverRest { unknown, splice, continuous };
BOOST_DESCRIBE_ENUM(OverRest, unknown, splice, continuous)

// An end of a line on the plan: at its from_in or at its to_in.
enum class LineEnd { from, to };
BOOST_DESCRIBE_ENUM(LineEnd, from, to)

enum class Bond { unknown, glued, nailed, mortar, loose };
BOOST_DESCRIBE_ENUM(Bond, unknown, glued, nailed, mortar, loose)

// What a wood panel may be used as, by its stamp.
enum class PanelUse { unknown, underlayment, single_floor, sheathing };
BOOST_DESCRIBE_ENUM(PanelUse, unknown, underlayment, single_floor, sheathing)

enum class ObstacleKind { pipe, drain, vent, wire, duct, gas, other };
BOOST_DESCRIBE_ENUM(ObstacleKind, pipe, drain, vent, wire, duct, gas, other)

enum class Hatch { unknown, inside, outside, none };
BOOST_DESCRIBE_ENUM(Hatch, unknown, inside, outside, none)

enum class Ground { unknown, bedrock, sedimentary_rock, gravel, sand, clay };
BOOST_DESCRIBE_ENUM(Ground, unknown, bedrock, sedimentary_rock, gravel, sand, clay)

// What a repair must reach where the old floor was weaker than today's code: its former strength, or the code.
enum class ExistingBuildingRule { unknown, former_strength, today };
BOOST_DESCRIBE_ENUM(ExistingBuildingRule, unknown, former_strength, today)

enum class Act { open, probe_again, look, sweep, sample, strip };
BOOST_DESCRIBE_ENUM(Act, open, probe_again, look, sweep, sample, strip)

enum class LaboratoryWord { clear, positive };
BOOST_DESCRIBE_ENUM(LaboratoryWord, clear, positive)

enum class LaboratoryPart { layer, backing, adhesive, wallboard, joint_compound, texture };
BOOST_DESCRIBE_ENUM(LaboratoryPart, layer, backing, adhesive, wallboard, joint_compound, texture)

// Where sales tax stands: in the prices of goods, added to them, added to the whole invoice, or nowhere.
enum class TaxOn { in_prices, goods, invoice, none };
BOOST_DESCRIBE_ENUM(TaxOn, in_prices, goods, invoice, none)

// A floor out of level is brought level, or the new one follows it.
enum class LevelPlan { unknown, level, follow };
BOOST_DESCRIBE_ENUM(LevelPlan, unknown, level, follow)

enum class OpenFaces { unknown, above, below, both, none };
BOOST_DESCRIBE_ENUM(OpenFaces, unknown, above, below, both, none)

enum class Answer { accepted, declined };
BOOST_DESCRIBE_ENUM(Answer, accepted, declined)

enum class Finish { porcelain_tile, ceramic_tile, stone_tile, sheet_vinyl, other };
BOOST_DESCRIBE_ENUM(Finish, porcelain_tile, ceramic_tile, stone_tile, sheet_vinyl, other)

enum class Entry { flush, curb, step };
BOOST_DESCRIBE_ENUM(Entry, flush, curb, step)

enum class DrainKind { point, line };
BOOST_DESCRIBE_ENUM(DrainKind, point, line)

}  // namespace awlmark
