// The checks of a job that go beyond types. Items that already have a problem of their own are not
// judged a second time, so that one slip gives one problem.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/length.hpp"
#include "job/dates.hpp"
#include "job/job.hpp"
#include "tables/materials.hpp"

namespace awlmark {
namespace {

constexpr double kLargestRoom_in = 1200;  // 100 ft: larger is a slip of units, and the grid would be too big
constexpr double kFibreSaturation_percent = 30;
constexpr double kImplausible_percent = 200;

class Judge {
 public:
  Judge(const Job& job, Problems& problems, Problems& warnings) : job_(job), problems_(problems), warnings_(warnings), from_reading_(problems.size()) {}

  void all() {
    format();
    room();
    ids("layers", job_.layers);
    ids("walls", job_.walls);
    ids("supports", job_.supports);
    ids("fixtures", job_.fixtures);
    ids("sources", job_.sources);
    ids("marks", job_.marks);
    ids("photos", job_.photos);
    ids("room.doors", job_.room.doors);
    each("layers", job_.layers, [&](const Layer& layer, const std::string& at) { this->layer(layer, at); });
    each("walls", job_.walls, [&](const Wall& wall, const std::string& at) { line(wall.from_in, wall.to_in, at, "wall"); });
    each("supports", job_.supports, [&](const Support& support, const std::string& at) { this->support(support, at); });
    each("fixtures", job_.fixtures, [&](const Fixture& fixture, const std::string& at) { polygon(fixture.outline_in, at + ".outline_in"); });
    each("sources", job_.sources, [&](const Source& source, const std::string& at) {
      if (source.stopped && !valid_date(source.stopped->substr(0, 10)))
        problem(at + ".stopped", "is '" + *source.stopped + "', which is not a date", "write it as 2026-05-04");
    });
    each("marks", job_.marks, [&](const Mark& mark, const std::string& at) { this->mark(mark, at); });
    each("photos", job_.photos, [&](const Photo& photo, const std::string& at) { this->photo(photo, at); });
    rest();
  }

 private:
  void problem(const std::string& at, const std::string& what, const std::string& mend) { problems_.push_back({at, what, mend}); }
  void warning(const std::string& at, const std::string& what, const std::string& mend) { warnings_.push_back({at, what, mend}); }

  static bool lies_in(const std::string& place, const std::string& at) {
    return place == at || (place.size() > at.size() && place.compare(0, at.size(), at) == 0 && (place[at.size()] == '.' || place[at.size()] == '['));
  }
  // Whether this place, or one inside it, has a problem already.
  bool judged(const std::string& at) const {
    return std::any_of(problems_.begin(), problems_.end(), [&](const Problem& p) { return lies_in(p.at, at); });
  }
  // Whether reading failed there, so that its members may not be what the document says.
  bool unread(const std::string& at) const {
    return std::any_of(problems_.begin(), problems_.begin() + static_cast<std::ptrdiff_t>(from_reading_), [&](const Problem& p) { return lies_in(p.at, at); });
  }

  template <class T, class F>
  void each(const std::string& name, const std::vector<T>& list, F judge) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string at = name + "[" + std::to_string(i) + "]";
      if (!unread(at)) judge(list[i], at);
    }
  }

  template <class T>
  void ids(const std::string& name, const std::vector<T>& list) {
    std::map<std::string, std::size_t> seen;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string at = name + "[" + std::to_string(i) + "].id";
      if (judged(at)) continue;
      if (list[i].id.empty())
        problem(at, "is empty", "give it a short text, unique in its list");
      else if (const auto [first, fresh] = seen.emplace(list[i].id, i); !fresh)
        problem(at, "is '" + list[i].id + "' again, as at " + name + "[" + std::to_string(first->second) + "]", "give each item an id of its own");
    }
  }

  void format() {
    if (!judged("format") && job_.format != "awlmark-job") problem("format", "is '" + job_.format + "'", "a job document says \"awlmark-job\"");
  }

  void polygon(const Polygon& ring, const std::string& at) {
    if (judged(at)) return;
    if (!is_simple(ring))
      problem(at, "crosses or touches itself, or repeats a corner", "give the corners once each, in order around it");
    else if (area_in2(ring) < 36)
      problem(at, "encloses only " + format_number(area_in2(ring), 1) + " square inches", "lengths are inches: check the unit");
  }

  void room() {
    polygon(job_.room.outline_in, "room.outline_in");
    outline_ok_ = !judged("room.outline_in") && job_.room.outline_in.size() >= 3;
    if (!outline_ok_) return;
    const Box box = bounds(job_.room.outline_in);
    if (std::max(box.width_in(), box.height_in()) > kLargestRoom_in) {
      problem("room.outline_in", "is " + format_length(std::max(box.width_in(), box.height_in())) + " long; the limit is 100 ft",
              "lengths are inches: check the unit, or split the job by rooms");
      outline_ok_ = false;
    }
    each("room.doors", job_.room.doors, [&](const Door& door, const std::string& at) {
      line(door.from_in, door.to_in, at, "door");
      for (const auto& [jamb, key] : {std::pair{door.from_in, ".from_in"}, std::pair{door.to_in, ".to_in"}})
        if (outline_ok_ && edge_distance(jamb) > 12)
          problem(at + key, "is " + format_length(edge_distance(jamb)) + " from the room's outline", "a door's jambs stand on the outline");
    });
  }

  double edge_distance(Point p) const {
    const auto& ring = job_.room.outline_in;
    double least = distance_to_segment_in(p, ring.back(), ring.front());
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) least = std::min(least, distance_to_segment_in(p, ring[i], ring[i + 1]));
    return least;
  }

  void line(Point from, Point to, const std::string& at, const char* what) {
    if (distance_in(from, to) < 1) problem(at + ".to_in", std::string("makes the ") + what + " shorter than an inch", "give its two ends");
  }

  void layer(const Layer& layer, const std::string& at) {
    if (layer.outline_in) polygon(*layer.outline_in, at + ".outline_in");
    for (std::size_t i = 0; i < layer.absent_in.size(); ++i) {
      const std::string hole = at + ".absent_in[" + std::to_string(i) + "]";
      if (layer.absent_in[i].size() < 3)
        problem(hole, "has fewer than three corners", "give its corners in order");
      else
        polygon(layer.absent_in[i], hole);
    }
    const auto& facts = tables::material_facts(doc::word_of(layer.material));
    const bool decking = layer.grade == Grade::decking_select || layer.grade == Grade::decking_commercial;
    if (decking && facts.kind != "deck") problem(at + ".grade", "is a decking grade on " + facts.spoken, "leave it out, or correct the material");
  }

  void support(const Support& support, const std::string& at) {
    line(support.from_in, support.to_in, at, "support");
    const double length = distance_in(support.from_in, support.to_in);
    for (std::size_t i = 0; i < support.rests_at_in.size(); ++i) {
      const double rest = support.rests_at_in[i];
      const std::string where = at + ".rests_at_in[" + std::to_string(i) + "]";
      // A member often goes on past the room: a rest may lie beyond the stretch drawn.
      if (rest < -kLargestRoom_in || rest > length + kLargestRoom_in)
        problem(where, "is " + format_length(rest) + " along a support of " + format_length(length), "measure it along the support from from_in");
      if (i > 0 && rest <= support.rests_at_in[i - 1]) problem(where, "does not lie beyond the rest before it", "list the rests in rising order, each once");
    }
    for (std::size_t i = 0; i < support.cuts.size(); ++i) {
      const auto& cut = support.cuts[i];
      const std::string where = at + ".cuts[" + std::to_string(i) + "]";
      if (cut.along_in > length + 1)
        problem(where + ".along_in", "lies past the support's end at " + format_length(length), "measure it along the support from from_in");
      if (!cut.notch_depth_in && !cut.hole_diameter_in) problem(where, "says neither notch_depth_in nor hole_diameter_in", "give one of them");
      if (support.size && cut.notch_depth_in && *cut.notch_depth_in >= support.size->d_in)
        problem(where + ".notch_depth_in", "is as deep as the member", "correct it, or mark the wood as gone");
      if (support.size && cut.hole_diameter_in && *cut.hole_diameter_in >= support.size->d_in)
        problem(where + ".hole_diameter_in", "is as wide as the member is deep", "correct it");
    }
  }

  bool reference(const std::string& at, const std::string& id, const std::vector<std::string>& known, const char* what) {
    if (std::find(known.begin(), known.end(), id) != known.end()) return true;
    const auto near = nearest_words(id, known);
    problem(at, "is '" + id + "'; there is no such " + what,
            near.empty() ? (known.empty() ? std::string("the job has none") : "use one of " + doc::a_list(known)) : "did you mean " + doc::a_list(near) + "?");
    return false;
  }

  template <class T>
  static std::vector<std::string> ids_of(const std::vector<T>& list) {
    std::vector<std::string> all;
    for (const auto& item : list) all.push_back(item.id);
    return all;
  }

  void mark(const Mark& mark, const std::string& at) {
    const int targets = int(mark.layer.has_value()) + int(mark.support.has_value()) + int(mark.wall.has_value());
    if (targets != 1) {
      problem(at, targets == 0 ? "says neither layer, support nor wall" : "names more than one of layer, support and wall",
              "a mark is one finding at one spot: name exactly one");
      return;
    }
    bool known = true;
    if (mark.layer) known = reference(at + ".layer", *mark.layer, ids_of(job_.layers), "layer");
    if (mark.support) known = reference(at + ".support", *mark.support, ids_of(job_.supports), "support");
    if (mark.wall) known = reference(at + ".wall", *mark.wall, ids_of(job_.walls), "wall");
    if (known) place(mark, at);
    reading(mark, at);
    if (mark.time && !valid_time(*mark.time)) problem(at + ".time", "is '" + *mark.time + "', which is not a time", "write it as 2026-05-04T09:10:00Z");
  }

  void place(const Mark& mark, const std::string& at) {
    if (mark.plank.has_value() != mark.tape_in.has_value()) {
      problem(at + (mark.plank ? ".tape_in" : ".plank"), "is missing", "plank and tape_in go together");
      return;
    }
    if (mark.layer && !mark.at_in && !mark.plank) {
      problem(at + ".at_in", "is missing", "give [x, y] in inches, or plank and tape_in");
      return;
    }
    if (!mark.layer && !mark.along_in) {
      problem(at + ".along_in", "is missing", "give the distance along it from its from_in");
      return;
    }
    if (mark.along_in && (mark.support || mark.wall)) {
      const auto* support = mark.support ? find_support(job_, *mark.support) : nullptr;
      const auto* wall = mark.wall ? find_wall(job_, *mark.wall) : nullptr;
      const double length = support != nullptr ? distance_in(support->from_in, support->to_in) : distance_in(wall->from_in, wall->to_in);
      if (*mark.along_in > length + kMarkReach_in)
        problem(at + ".along_in", "is " + format_length(*mark.along_in) + " along a length of " + format_length(length),
                "measure it from from_in; it may pass the end by 24 in.");
      return;
    }
    const auto spot = place_of(job_, mark);
    if (!spot || !outline_ok_) return;
    const double outside = distance_to_in(job_.room.outline_in, *spot);
    if (outside > kMarkReach_in) {
      problem(at + (mark.at_in ? ".at_in" : ".tape_in"), "lies " + format_length(outside) + " outside the room; a mark may lie up to 24 in. from it",
              "correct the point, or the room's outline");
      return;
    }
    on_layer(mark, *spot, at);
  }

  void on_layer(const Mark& mark, Point spot, const std::string& at) {
    const auto* layer = find_layer(job_, *mark.layer);
    const bool inside = contains(job_.room.outline_in, spot);
    if (layer != nullptr && inside && !covers(job_, *layer, spot))
      warning(at + ".at_in", "lies where the layer '" + layer->id + "' is absent",
              "the mark still counts for the wood around it; correct absent_in if the layer was there");
    for (const auto& fixture : job_.fixtures)
      if (fixture.stands && mark.from.value_or(From::above) == From::above && contains(fixture.outline_in, spot))
        warning(at + ".at_in", "lies under '" + fixture.id + "', which still stands there",
                "the mark is used as read; say \"from\": \"below\", or \"stands\": false once it is lifted");
  }

  void reading(const Mark& mark, const std::string& at) {
    if (mark.tool == Tool::meter) {
      if (mark.reads) problem(at + ".reads", "does not go with a meter", "give mc_percent alone");
      if (!mark.mc_percent)
        problem(at + ".mc_percent", "is missing", "a meter mark gives the moisture content in percent");
      else if (*mark.mc_percent > kImplausible_percent)
        problem(at + ".mc_percent",
                "is " + format_number(*mark.mc_percent, 1) + "; wood in a floor holds less than " + format_number(kImplausible_percent, 0) + " percent",
                "correct the reading");
      else if (*mark.mc_percent > kFibreSaturation_percent)
        warning(at + ".mc_percent", "is past a meter's range", "it is taken as 'above fibre saturation', not as a number");
      return;
    }
    if (mark.mc_percent) problem(at + ".mc_percent", "goes only with a meter", "set \"tool\": \"meter\", or leave it out");
    if (!mark.reads) {
      problem(at + ".reads", "is missing", mark.tool == Tool::awl ? "an awl reads sound, soft or gone" : "an eye reads dry, stained, wet, growth or insects");
      return;
    }
    const bool awl_word = *mark.reads == Reading::sound || *mark.reads == Reading::soft || *mark.reads == Reading::gone;
    if (awl_word != (mark.tool == Tool::awl))
      problem(
          at + ".reads", "is '" + doc::word_of(*mark.reads) + "', which " + (mark.tool == Tool::awl ? "an awl" : "an eye") + " does not read",
          mark.tool == Tool::awl ? "use sound, soft or gone, or set \"tool\": \"eye\"" : "use dry, stained, wet, growth or insects, or set \"tool\": \"awl\"");
  }

  void photo(const Photo& photo, const std::string& at) {
    if (photo.mark) reference(at + ".mark", *photo.mark, ids_of(job_.marks), "mark");
    if (photo.sha256) {
      const auto& hash = *photo.sha256;
      const bool hex = std::all_of(hash.begin(), hash.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
      if (hash.size() != 64 || !hex) problem(at + ".sha256", "is not a SHA-256", "write 64 hexadecimal digits in lower case");
    }
    if (photo.time && !valid_time(*photo.time)) problem(at + ".time", "is '" + *photo.time + "', which is not a time", "write it as 2026-05-04T09:10:00Z");
  }

  void rest() {
    if (job_.shower && !judged("shower")) {
      polygon(job_.shower->outline_in, "shower.outline_in");
      if (const auto& drain = job_.shower->drain) {
        if (drain->kind == DrainKind::point && !drain->at_in) problem("shower.drain.at_in", "is missing", "a point drain gives its place");
        if (drain->kind == DrainKind::line && (!drain->from_in || !drain->to_in))
          problem("shower.drain.from_in", "is missing", "a line drain gives from_in and to_in");
      }
    }
    if (job_.drying) {
      ids("drying.readings", job_.drying->readings);
      each("drying.readings", job_.drying->readings, [&](const DryingReading& reading, const std::string& at) {
        if (!valid_time(reading.time)) problem(at + ".time", "is '" + reading.time + "', which is not a time", "write it as 2026-05-06T08:00:00Z");
        if (reading.layer) reference(at + ".layer", *reading.layer, ids_of(job_.layers), "layer");
        if (reading.support) reference(at + ".support", *reading.support, ids_of(job_.supports), "support");
      });
    }
    if (job_.work && job_.work->start && !judged("work") && !valid_date(*job_.work->start))
      problem("work.start", "is '" + *job_.work->start + "', which is not a date", "write it as 2026-05-11");
  }

  const Job& job_;
  Problems& problems_;
  Problems& warnings_;
  const std::size_t from_reading_;  // how many problems reading left
  bool outline_ok_ = false;
};

}  // namespace

void validate(const Job& job, Problems& problems, Problems& warnings) { Judge(job, problems, warnings).all(); }

}  // namespace awlmark
