#include "papers/sample.hpp"

#include <cmath>
#include <limits>

namespace awlmark::testing {
namespace {

Mark awl(std::string id, Point at, std::string layer, Reading reads, double depth = 0) {
  Mark mark;
  mark.id = std::move(id);
  mark.at_in = at;
  mark.layer = std::move(layer);
  mark.tool = reads == Reading::sound || reads == Reading::soft || reads == Reading::gone ? Tool::awl : Tool::eye;
  mark.reads = reads;
  if (depth > 0) mark.depth_in = depth;
  mark.time = "2026-05-04T09:10:00Z";
  mark.by = "R. Fenn";
  return mark;
}

Mark meter(std::string id, Point at, std::string layer, double percent) {
  Mark mark;
  mark.id = std::move(id);
  mark.at_in = at;
  mark.layer = std::move(layer);
  mark.tool = Tool::meter;
  mark.mc_percent = percent;
  mark.wood_temp_f = 62;
  mark.time = "2026-05-05T08:00:00Z";
  return mark;
}

// A smooth made-up field: high near `centre`, falling off over `reach_in`.
survey::LayerField field_around(const Job& job, const survey::GridFindings& grid, const std::string& layer, Point centre, double reach_in, double peak) {
  survey::LayerField field;
  field.layer = layer;
  for (int j = 0; j < grid.ny; ++j) {
    for (int i = 0; i < grid.nx; ++i) {
      const Point p{grid.origin_in.x_in + (i + 0.5) * grid.cell_in, grid.origin_in.y_in + (j + 0.5) * grid.cell_in};
      const double away = distance_in(p, centre) / reach_in;
      const double value = contains(job.room.outline_in, p) ? peak / (1 + std::pow(away, 4)) : std::numeric_limits<double>::quiet_NaN();
      field.p_unsound.push_back(value);
      field.p_gone.push_back(value * 0.6);
      field.p_wet.push_back(value * 0.8);
    }
  }
  return field;
}

Polygon ring_around(Point centre, double rx, double ry) {
  Polygon ring;
  for (int k = 0; k < 24; ++k) ring.push_back({centre.x_in + rx * std::cos(k * 0.2618), centre.y_in + ry * std::sin(k * 0.2618)});
  return ring;
}

Reason reason(std::string compares, std::string rule, std::string source, std::string edition, SourceStatus status, std::string unit = "",
              std::vector<std::string> steps = {}) {
  Reason out;
  out.compares = std::move(compares);
  out.rule = std::move(rule);
  out.source = std::move(source);
  out.edition = std::move(edition);
  out.status = status;
  out.unit = std::move(unit);
  out.steps = std::move(steps);
  return out;
}

Support member(std::string id, SupportRole role, Point a, Point b, std::string size, std::vector<double> rests) {
  Support support;
  support.id = std::move(id);
  support.role = role;
  support.from_in = a;
  support.to_in = b;
  SectionSize section;
  section.nominal = size;
  const bool girder = size == "4x10";
  section.b_in = girder ? 3.5 : 1.5;
  section.d_in = girder ? 9.25 : 7.25;
  support.size = section;
  support.species = Species::douglas_fir_larch;
  support.grade = girder ? Grade::no_1 : Grade::no_2;
  support.rests_at_in = std::move(rests);
  return support;
}

void add_piece(cutback::CutBack& cut, std::string id, int plank, Polygon outline, bool out, double p, bool known) {
  cutback::Piece piece;
  piece.id = std::move(id);
  piece.layer = "deck";
  piece.kind = "plank";
  piece.outline_in = std::move(outline);
  piece.plank = plank;
  piece.p_unsound = p;
  piece.out = out;
  piece.known_decay = known;
  piece.why = known ? "rot was read in it" : out ? "more likely unsound than its price to replace" : "sound enough to stay";
  cut.pieces.push_back(piece);
}

void add_price_and_work(Findings& findings) {
  price::Price price;
  price.p10 = 9100, price.p50 = 11850, price.p80 = 14200, price.p90 = 15900, price.mean = 12100;
  price.from_floor_share = 0.42;
  price.base = 11850, price.allowance = 2350, price.contingency = 1700;
  price.lines = {{"Take out", 1400, 1900, 2700}, {"Framing and deck", 2900, 3900, 5600}, {"Protection and disposal", 600, 800, 1200}};
  price.words = {"Four jobs in five like this one end below $14,200."};
  findings.price = price;
  work::Work work;
  work::Task open;
  open.id = "open";
  open.title = "Open the floor";
  open.who = "crew";
  open.hours = {6, 12, 20};
  open.hold = "hidden damage shown to the owner";
  open.reason = reason("hours to take up plank decking", "0.5 - 0.9 - 1.8 h for 10 sq ft", "", "", SourceStatus::common_practice);
  work::Task dry;
  dry.id = "dry";
  dry.title = "Dry the framing";
  dry.after = {"open"};
  dry.who = "crew";
  dry.hours = {1, 2, 4};
  dry.wait_hours = {24, 48, 120};
  work.tasks = {open, dry};
  work.total_hours = {52, 71, 98};
  work.finish = {"2026-05-26", "2026-05-29", "2026-06-01", 11, 14, 15};
  work.critical = {"open", "dry"};
  findings.work = work;
}

void add_hazards(Findings& findings) {
  hazards::Hazards hazards;
  hazards.gates.push_back(
      {"asbestos-sheet",
       hazards::Before::opening,
       "asbestos",
       "Have the sheet flooring, its backing and its glue sampled. No cutting, scraping or sanding before a laboratory names every layer negative.",
       {"sheet flooring laid 1972", "backing not known"},
       "certified asbestos inspector",
       reason("laid before 1981", "presumed to contain asbestos until a laboratory shows otherwise", "29 CFR 1926.1101", "2019", SourceStatus::read)});
  hazards.gates.push_back({"shut-off",
                           hazards::Before::cutting,
                           "electricity",
                           "Water shut off and lines drained; the circuits of the room off, locked and tested dead.",
                           {"the floor is over live services"},
                           "",
                           reason("work beside live services", "shut off, lock, test", "", "", SourceStatus::common_practice)});
  hazards.gates.push_back({"moisture",
                           hazards::Before::covering,
                           "water",
                           "Framing moisture below the agreed limit at the agreed points, twice, a day apart.",
                           {"wet readings"},
                           "",
                           reason("moisture of framing when covered", "18 % advised", "local amendment", "", SourceStatus::memory)});
  hazards.protection.push_back({"dust", "Close the room off, run a fan to outdoors, wear a half mask with P100 filters.",
                                reason("dust from old layers", "contain and filter", "", "", SourceStatus::common_practice)});
  findings.hazards = hazards;
}

void add_floor(Findings& findings, const std::string& girder) {
  floor::Floor floor;
  const auto bending = reason("bending stress in " + girder + " against its adjusted design value", "NDS 3.3.1: fb = M/S <= Fb'", "NDS", "2018",
                              SourceStatus::read, "psi", {"Fb 1000 psi, no. 1", "C_D 1.00, C_M 1.00, C_F 1.20, C_r 1.00", "S of the section left 31.2 in3"});
  const auto stiff = reason("deflection of the deck under live load", "span / 360 for ceramic tile", "IRC R301.7", "2021", SourceStatus::read, "in");
  floor.as_found.loads = {{"people and furniture", 40, 0, "live", reason("live load", "40 psf for dwellings", "IRC Table R301.5", "2021", SourceStatus::read)},
                          {"deck", 4.5, 0, "dead", {}}};
  floor.as_found.dead_psf = 8.5;
  floor.as_found.live_psf = 40;
  floor.as_found.checks = {
      make_check(girder + ".bending", girder, "bending", 1590, 1200, bending), make_check(girder + ".shear", girder, "shear", 92, 180, bending),
      make_check("deck.deflection", "deck", "deflection_live", 0.19, 0.133, stiff), make_check(girder + ".bearing", girder, "bearing", 0, 0, bending)};
  floor.as_found.ok = false;
  floor.as_found.assumed = {"The grade of the deck is not known; the weakest row of the table was taken, property by property."};
  floor.as_found.words = {"As found, " + girder + " carries three quarters of what is asked of it where it has rotted."};
  floor.while_open.unsupported = {"planks 7 to 12 over the bay"};
  floor.while_open.shores = {
      {"s1", {48, 40}, girder, 1240, 1.0, reason("post load while open", "tributary area times load", "", "", SourceStatus::derived, "lb")}};
  floor.while_open.open_at_once_in = 48;
  floor.while_open.words = {"Shore before the first cut; open no more than one bay at a time."};
  floor::Option like;
  like.id = "like_for_like";
  like.title = "Plank for plank";
  like.rank = 2;
  like.ok = false;
  like.checks = {make_check("like.deflection", "new planks", "deflection_live", 0.16, 0.133, stiff)};
  like.cost = 3100;
  like.hours = {18, 26, 40};
  like.weight_psf = 4.5;
  like.trade_off = "Looks as before, too limber for tile.";
  floor::Option panels;
  panels.id = "panels_on_added_joists";
  panels.title = "Plywood on added joists";
  panels.rank = 1;
  panels.ok = true;
  panels.verdict = floor::Verdict::passes;
  panels.checks = {make_check("panels.deflection", "new panels", "deflection_live", 0.08, 0.133, stiff)};
  panels.cost = 3600;
  panels.hours = {20, 30, 44};
  panels.height_change_in = -0.375;
  panels.weight_psf = 6.2;
  panels.goods = {goods::lumber(goods::Kind::added_joist, "2x8 joist", {2, 8, 1}, 96, 6),
                  goods::panels(goods::Kind::deck_panel, "23/32 plywood", 23.0 / 32, "24 oc", 64)};
  panels.steps = {"Shore both girders.", "Hang 2x8 joists at 16 in.", "Glue and screw 23/32 plywood."};
  panels.rules_out = {"keeping the plank ceiling below"};
  panels.trade_off = "Stiff enough for tile and level with the hall, for about $500 more.";
  floor.options = {like, panels};
  floor.chosen = "panels_on_added_joists";
  for (int k = 0; k < 4; ++k) {
    floor::FramingLine line;
    line.id = "g" + std::to_string(k + 1), line.kind = "girder", line.size = "4x10", line.b_in = 3.5, line.d_in = 9.25;
    line.from_in = {k * 44.0, -4}, line.to_in = {k * 44.0, 100}, line.rests_at_in = {4, 52, 100};
    if (k == 1) line.lost = {{60, 82, 0.75, 2.0, "top"}};
    floor.framing.push_back(line);
  }
  for (int k = 0; k < 2; ++k) {
    floor::FramingLine line;
    line.id = "n" + std::to_string(k + 1), line.kind = "added_joist", line.size = "2x8", line.b_in = 1.5, line.d_in = 7.25;
    line.from_in = {14.5 + k * 15.0, 36.75}, line.to_in = {14.5 + k * 15.0, 89.25};
    floor.options[1].framing.push_back(line);
  }
  floor.options[1].deck = {{"23/32 plywood, glued and screwed", 0.71875, 90, 0.78125, {{{0, 36.75}, {88, 36.75}, {88, 89.25}, {0, 89.25}}}}};
  floor.cautions = {"New loads on old posts: look at the footings before adding tile."};
  findings.floor = floor;
}

}  // namespace

Sample clubhouse_washroom() {
  Sample s;
  Job& job = s.job;
  job.job.name = "Fir Hollow clubhouse, washroom (invented)";
  job.job.year_built = 1972;
  job.job.storey = Storey::ground;
  job.job.below = Below::crawl_space;
  job.job.owner = "Fir Hollow Hut Association";
  job.job.contractor = "Ridge & Sons";
  job.job.occupied = true;
  job.room.outline_in = {{0, 0}, {132, 0}, {132, 60}, {96, 60}, {96, 96}, {0, 96}};
  job.room.doors.push_back({"d1", {132, 16}, {132, 50}, 0.75, std::nullopt});
  Layer sheet;
  sheet.id = "sheet", sheet.material = Material::sheet_vinyl, sheet.thickness_in = 0.09, sheet.installed_year = 1972;
  Layer deck;
  deck.id = "deck", deck.material = Material::plank_tg, deck.thickness_in = 1.5, deck.face_width_in = 5.25, deck.runs = Runs{0},
  deck.species = Species::douglas_fir_larch;
  job.layers = {sheet, deck};
  job.walls.push_back({.id = "w1", .from_in = {0, 0}, .to_in = {132, 0}, .bearing = true, .stands_on = StandsOn::deck});
  job.walls.push_back({.id = "w2", .from_in = {0, 0}, .to_in = {0, 96}, .bearing = true, .stands_on = StandsOn::deck});
  job.walls.push_back({.id = "w3", .from_in = {0, 96}, .to_in = {96, 96}, .bearing = false, .stands_on = StandsOn::deck});
  job.walls.push_back({.id = "w4", .from_in = {132, 0}, .to_in = {132, 60}, .bearing = false, .stands_on = StandsOn::unknown});
  for (int k = 0; k < 4; ++k)
    job.supports.push_back(member("g" + std::to_string(k + 1), SupportRole::girder, {k * 44.0, -4}, {k * 44.0, 100}, "4x10", {4, 52, 100}));
  job.fixtures.push_back({"wc", FixtureKind::toilet, {{104, 2}, {124, 2}, {124, 30}, {104, 30}}, 0.7, true, std::nullopt, 90.0, std::nullopt});
  job.fixtures.push_back({"basin", FixtureKind::vanity, {{56, 76}, {94, 76}, {94, 95}, {56, 95}}, 1.2, true, std::nullopt, std::nullopt, std::nullopt});
  Source pan;
  pan.id = "pan", pan.at_in = Point{20, 70}, pan.kind = SourceKind::drain_leak, pan.water_category = 2, pan.active = Activity::no, pan.stopped = "2026-04-28";
  job.sources.push_back(pan);
  job.marks = {awl("m1", {22, 66}, "deck", Reading::gone, 1.5), awl("m2", {40, 66}, "deck", Reading::soft, 0.5), awl("m3", {66, 60}, "deck", Reading::sound),
               meter("m4", {22.5, 66.5}, "deck", 31),           awl("m5", {22, 66}, "sheet", Reading::stained),  awl("m6", {30, 30}, "deck", Reading::sound),
               awl("m7", {12, 50}, "deck", Reading::wet),       awl("m8", {10, 88}, "deck", Reading::growth),    meter("m9", {80, 40}, "deck", 12.5)};
  Mark girder = awl("m10", {0, 0}, "", Reading::soft, 0.75);
  girder.at_in.reset();
  girder.layer.reset();
  girder.support = "g2", girder.along_in = 70, girder.face = Face::top, girder.width_in = 2.0, girder.from = From::below;
  job.marks.push_back(girder);
  Mark plate = awl("m11", {0, 0}, "", Reading::sound);
  plate.at_in.reset();
  plate.layer.reset();
  plate.wall = "w2", plate.along_in = 40, plate.part = WallPart::plate;
  job.marks.push_back(plate);
  job.photos.push_back({"p1", "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08", Point{22, 66}, "m1", std::nullopt,
                        "deck at the old pan, tape in the picture", "2026-05-04T09:12:00Z"});
  job.rebuild = Rebuild{.finish = Finish::porcelain_tile, .option = "auto", .live_psf = 40.0};
  job.shower = ShowerPlan{.outline_in = {{0, 36}, {36, 36}, {36, 96}, {0, 96}},
                          .entry = Entry::flush,
                          .drain = Drain{DrainKind::point, Point{18, 66}, std::nullopt, std::nullopt},
                          .least_fall_in_per_ft = 0.25};

  Findings& f = s.findings;
  f.engine = "0.1.0";
  f.seed = 1954;
  f.survey.grid = {3, 44, 32, {0, 0}};
  f.survey.layers = {field_around(job, f.survey.grid, "sheet", {20, 68}, 40, 0.7), field_around(job, f.survey.grid, "deck", {20, 68}, 28, 0.99)};
  f.survey.unsound_sf["deck"] = {8.2, 11.0, 15.9};
  f.survey.unsound_sf["sheet"] = {4.1, 7.5, 12.3};
  f.survey.sound_lines = {{"deck", 0.95, {ring_around({24, 66}, 40, 27)}, 21.6, "Within this line, 19 chances in 20."},
                          {"deck", 0.8, {ring_around({22, 67}, 31, 22)}, 14.2, ""}};
  f.survey.next_openings = {
      {{49.5, 82.5}, 412, 45, 367, "The edge toward the basin is the least known and the dearest to get wrong.", "basin", std::nullopt, std::nullopt},
      {{4.5, 37.5}, 160, 60, 100, "Rot may run under the wall.", std::nullopt, std::nullopt, "w2"}};
  f.survey.expected_loss = 640;
  survey::LineField line;
  line.id = "g2", line.part = "top";
  for (int k = 0; k <= 26; ++k) {
    line.along_in.push_back(k * 4.0);
    const double p = 0.95 / (1 + std::pow(std::fabs(k * 4.0 - 70) / 14, 4));
    line.p_unsound.push_back(p), line.p_gone.push_back(p / 2), line.p_wet.push_back(p);
  }
  f.survey.supports = {line};
  f.survey.inference.notes = {"Mark m7 is wet, and the leak stopped: it says little against rot."};
  add_hazards(f);

  cutback::CutBack cut;
  for (int plank = 6; plank <= 17; ++plank) {
    const double y0 = (plank - 1) * 5.25, y1 = plank * 5.25;
    add_piece(cut, "deck." + std::to_string(plank) + ".1", plank, rectangle(0, y0, 44, y1), plank >= 8, plank >= 8 ? 0.8 : 0.06, plank >= 12 && plank <= 14);
    add_piece(cut, "deck." + std::to_string(plank) + ".2", plank, rectangle(44, y0, 88, y1), plank >= 11 && plank <= 14, plank >= 11 ? 0.4 : 0.03, false);
  }
  cut.area_sf = {{"deck", 22.6}, {"sheet", 30.1}};
  cut.outlines_in["deck"] = {{{0, 36.75}, {44, 36.75}, {44, 52.5}, {88, 52.5}, {88, 73.5}, {44, 73.5}, {44, 89.25}, {0, 89.25}}};
  cut.edges = {{"deck", cutback::EdgeKind::rip, {0, 36.75}, {44, 36.75}, 44, "", "outside the 95 % sound line"},
               {"deck", cutback::EdgeKind::cross_on_support, {88, 52.5}, {88, 73.5}, 21, "g3", "first support past the last soft reading"},
               {"deck", cutback::EdgeKind::at_wall, {0, 36.75}, {0, 89.25}, 52.5, "", "the plank ends under the wall"}};
  cut.blocking = {{"b1", {0, 36.75}, {44, 36.75}, 44, "carries the ripped edge"}, {"b2", {44, 52.5}, {88, 52.5}, 44, "carries the ripped edge"}};
  cut.rules = {{"margin", true, 2, 85, "Six inches past the last unsound reading: two more planks, $85.",
                reason("distance past the last unsound reading", "6 in.", "", "", SourceStatus::common_practice, "in")}};
  cut.members = {{"g2", 60, 82, 0.75, 2.0, Face::top, 1, true, "read soft at 70 in."},
                 {"g1", 60, 76, 0.5, std::nullopt, Face::top, 0.55, false, "likely from the deck above"}};
  cut.expected_loss_left = 95, cut.cost = 1480, cut.least_cost = 1395;
  cut.words = {"Take out 22.6 sq ft of deck, ending on girder g3 and on new blocking."};
  f.cut_back = cut;
  add_floor(f, "g2");
  takeoff::TakeOff take;
  take.lines = {{"deck", "tongue-and-groove plank out", 22.6, "sf", "pieces of the cut-back", "take_out", 0, {goods::Extent::layer_sf, "deck"}},
                {"ply", "23/32 plywood", 2, "sheet", "64 sf, 8 % waste", "put_back", 58.0, {}}};
  take.cut_lists = {{"2x8 joist", 0.125, {{144, 2, {44, 44, 44}, 11.75}}, 61.0, 61.0, true}};
  take.debris_lb = 260, take.debris_yd3 = 0.4;
  f.takeoff = take;
  add_price_and_work(f);
  f.warnings = {{"marks[6]", "wet after the leak stopped", "read again in a week"}};
  f.cautions = {"Sheet flooring of 1972 is presumed to hold asbestos until shown otherwise."};
  return s;
}

Sample laundry() {
  Sample s;
  Job& job = s.job;
  job.job.name = "Alder Court, laundry (invented)";
  job.job.year_built = 1954;
  job.room.outline_in = {{0, 0}, {108, 0}, {108, 72}, {0, 72}};
  job.room.doors.push_back({"d1", {60, 0}, {92, 0}, 0.75, std::nullopt});
  Layer deck;
  deck.id = "deck", deck.material = Material::board, deck.thickness_in = 0.75, deck.face_width_in = 5.5, deck.runs = Runs{0};
  Layer under;
  under.id = "under", under.material = Material::plywood_underlayment, under.thickness_in = 0.25;
  job.layers = {under, deck};
  for (int k = 0; k < 7; ++k)
    job.supports.push_back(member("j" + std::to_string(k + 1), SupportRole::joist, {k * 16.0 + 6, 0}, {k * 16.0 + 6, 72}, "2x8", {0, 72}));
  job.marks = {awl("m1", {66, 62}, "deck", Reading::gone, 0.75), awl("m2", {30, 30}, "under", Reading::dry)};
  s.findings.survey.grid = {3, 36, 24, {0, 0}};
  s.findings.survey.layers = {field_around(job, s.findings.survey.grid, "deck", {80, 64}, 22, 0.97)};
  s.findings.survey.unsound_sf["deck"] = {4.0, 6.2, 9.8};
  s.findings.survey.stop = true;
  s.findings.survey.stop_why = "What another opening could save is less than the $45 it costs.";
  return s;
}

}  // namespace awlmark::testing
