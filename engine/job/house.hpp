// The job document's house: facts, claim, visits, settings of the state, the room and what stands in it.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "job/words.hpp"

namespace awlmark {

struct JobFacts {
  std::string name;
  std::optional<int> year_built;
  Storey storey = Storey::unknown;
  Below below = Below::unknown;
  std::optional<double> indoor_temp_f;
  std::optional<double> indoor_rh_percent;
  PlumbingCode plumbing_code = PlumbingCode::irc;
  std::optional<bool> occupied;
  std::optional<bool> only_toilet;       // the household's only toilet stands in this room
  std::optional<int> floors_above;       // storeys of the house above this floor's own
  std::optional<double> house_width_in;  // across the ridge, outside to outside
  std::optional<double> ground_snow_psf;
  std::optional<double> headroom_in;  // below the framing
  Hatch hatch = Hatch::unknown;       // the way in below
  Ground soil = Ground::unknown;
  std::optional<std::string> state;  // whose settings hold
  std::optional<std::string> owner;
  std::optional<std::string> address;
  std::optional<std::string> contractor;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(JobFacts, (),
                      (name, year_built, storey, below, indoor_temp_f, indoor_rh_percent, plumbing_code, occupied, only_toilet, floors_above, house_width_in,
                       ground_snow_psf, headroom_in, hatch, soil, state, owner, address, contractor, note))

struct Claim {
  std::optional<std::string> date_of_loss;
  std::optional<std::string> number;
  std::optional<bool> sudden;  // as the owner reports it: at once, or over a long time
  std::optional<std::string> insurer;
  std::optional<std::string> adjuster_visit;  // date
  std::optional<bool> denied;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Claim, (), (date_of_loss, number, sudden, insurer, adjuster_visit, denied, note))

struct Visit {
  std::string id;
  std::string who;
  std::string time;  // a time, or a date alone
  std::optional<From> from;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Visit, (), (id, who, time, from, note))

// What differs from state to state and county to county. Whatever is left out is printed as "ask", and
// the stricter branch is taken.
struct StateSettings {
  ExistingBuildingRule existing_building_rule = ExistingBuildingRule::unknown;
  std::optional<double> asbestos_removal_licensed_over_sf;  // from this area on a licensed firm removes it
  std::optional<double> growth_licensed_over_sf;
  std::optional<double> asbestos_notice_days;
  std::optional<bool> permit_required;
  std::optional<double> deposit_max_percent;
  std::optional<std::string> licence_number;
  std::optional<std::string> lien_notice;
  std::optional<double> cancellation_days;
  std::optional<bool> written_changes;  // changes must be signed before their work
  std::optional<std::string> source;
  std::optional<std::string> date;  // of that source
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(StateSettings, (),
                      (existing_building_rule, asbestos_removal_licensed_over_sf, growth_licensed_over_sf, asbestos_notice_days, permit_required,
                       deposit_max_percent, licence_number, lien_notice, cancellation_days, written_changes, source, date, note))

struct Door {
  std::string id;
  Point from_in;
  Point to_in;
  std::optional<double> meets_height_in;  // of the finish on the other side, above this room's deck
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Door, (), (id, from_in, to_in, meets_height_in, note))

struct Room {
  Polygon outline_in;
  std::vector<Door> doors;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Room, (), (outline_in, doors, note))

struct Fixture {
  std::string id;
  FixtureKind kind = FixtureKind::other;
  Polygon outline_in;
  std::optional<double> lift_hours;
  bool stands = true;               // it still stands there and hides the floor
  std::optional<bool> reset;        // it goes back when the floor is done
  std::optional<double> weight_lb;  // filled and in use
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Fixture, (), (id, kind, outline_in, lift_hours, stands, reset, weight_lb, note))

struct Source {
  std::string id;
  std::optional<Point> at_in;  // left out when nobody knows where the water came from
  SourceKind kind = SourceKind::unknown;
  std::optional<int> water_category;
  Activity active = Activity::unknown;
  std::optional<std::string> stopped;  // date
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Source, (), (id, at_in, kind, water_category, active, stopped, note))

}  // namespace awlmark
