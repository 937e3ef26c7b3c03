#include "floor/sills.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/combinations.hpp"
#include "floor/paths.hpp"
#include "floor/while_open.hpp"

namespace awlmark::floor {
namespace {

constexpr double kReach_in = 12;  // of one reading along the wall, as along a member
constexpr double kBeyond_in = 6;  // cut into sound wood past the rot
constexpr double kNear_in = 8;    // a joist's end this near to the wall's line rests on its sill
constexpr double kShores_in = 48;
constexpr double kSpareStud_in = 96;

bool unsound(const Mark& mark) { return mark.reads && (*mark.reads == Reading::soft || *mark.reads == Reading::gone); }

Point on_wall(const Wall& wall, double along_in) {
  const double length = std::max(1e-9, distance_in(wall.from_in, wall.to_in));
  return {wall.from_in.x_in + (wall.to_in.x_in - wall.from_in.x_in) * along_in / length,
          wall.from_in.y_in + (wall.to_in.y_in - wall.from_in.y_in) * along_in / length};
}

std::string words_of(WallPart part) { return part == WallPart::mudsill ? "mudsill" : part == WallPart::rim ? "rim" : "studs"; }

// What comes down on a stretch of the wall's sill: the ends of joists there and the wall over it.
double load_on(const Job& job, const Model& model, const Wall& wall, double from_in, double to_in) {
  double sum = 0;
  const auto paths = load_paths(model, model.open_walls.empty() ? Case::known : Case::high);
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const auto& member = model.members[i];
    for (std::size_t r = 0; r < paths.forces[i].rests.size() && r < member.rests.size(); ++r) {
      const Point p = member.at(member.rests[r].along_in);
      const double along = along_segment_in(p, wall.from_in, wall.to_in);
      if (member.rests[r].carrier.known() || distance_to_segment_in(p, wall.from_in, wall.to_in) > kNear_in || along < from_in - 1 || along > to_in + 1)
        continue;
      sum += std::max(0.0, largest(paths.forces[i].rests[r].reaction_lb));
    }
  }
  for (const auto& bearing : bearing_walls(job, plan::framing_of(job)))
    if (bearing.wall == &wall) sum += bearing.high.sum() * (to_in - from_in) / 12;
  return sum;
}

// Overlapping stretches of one part of one wall become one.
void join(std::vector<EdgeRot>& rot) {
  std::stable_sort(rot.begin(), rot.end(), [](const EdgeRot& a, const EdgeRot& b) {
    return a.wall != b.wall ? a.wall < b.wall : a.part != b.part ? a.part < b.part : a.from_in < b.from_in;
  });
  std::vector<EdgeRot> out;
  for (const auto& one : rot) {
    if (!out.empty() && out.back().wall == one.wall && out.back().part == one.part && one.from_in <= out.back().to_in)
      out.back().to_in = std::max(out.back().to_in, one.to_in);
    else
      out.push_back(one);
  }
  rot = out;
}

int studs_in(const EdgeRot& rot) { return std::max(1, static_cast<int>(std::floor((rot.to_in - rot.from_in) / 16 + 0.5))); }

}  // namespace

std::vector<EdgeRot> edge_rot(const Job& job, const Model& model) {
  std::vector<EdgeRot> out;
  for (const auto& wall : job.walls)
    for (const auto& mark : job.marks) {
      const auto part = mark.part.value_or(WallPart::plate);
      if (!mark.wall || *mark.wall != wall.id || !mark.along_in || !unsound(mark) || mark.tool != Tool::awl) continue;
      if (part != WallPart::mudsill && part != WallPart::rim && part != WallPart::stud) continue;
      EdgeRot one{&wall, part, *mark.along_in - kReach_in, *mark.along_in + kReach_in, 0};
      for (const auto& other : job.marks) {
        if (!other.wall || *other.wall != wall.id || other.part.value_or(WallPart::plate) != part || !other.along_in || !other.reads ||
            *other.reads != Reading::sound)
          continue;
        if (*other.along_in < *mark.along_in) one.from_in = std::max(one.from_in, *other.along_in);
        if (*other.along_in > *mark.along_in) one.to_in = std::min(one.to_in, *other.along_in);
      }
      out.push_back(one);
    }
  join(out);
  for (auto& one : out) one.load_lb = load_on(job, model, *one.wall, one.from_in, one.to_in);
  return out;
}

std::vector<std::string> unread_sills(const Job& job, const Model& model) {
  std::vector<std::string> out;
  for (const auto& wall : job.walls) {
    if (!wall.outside.value_or(wall.below == UnderWall::foundation)) continue;
    const bool read = std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& mark) {
      return mark.wall && *mark.wall == wall.id && (mark.part == WallPart::mudsill || mark.part == WallPart::rim);
    });
    const bool rotten = std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& mark) {
      if (!unsound(mark)) return false;
      if (mark.wall) return *mark.wall == wall.id;
      const auto at = mark.layer && *mark.layer == model.deck.layer ? place_of(job, mark) : std::nullopt;
      return at && distance_to_segment_in(*at, wall.from_in, wall.to_in) <= kNear_in;
    });
    if (rotten && !read)
      out.push_back(
          "Read the mudsill and the rim under outside wall " + wall.id +
          " from below, and open its foot outside: what stands on them is rotten and nobody has read them. Until they read sound the joists' ends there "
          "count as held by shores only.");
  }
  return out;
}

void check_edges(const std::vector<EdgeRot>& rot, std::vector<Check>& out) {
  for (const auto& one : rot) {
    Reason reason;
    reason.compares = "what comes down on the " + words_of(one.part) + " of wall " + one.wall->id + " from " + format_length(std::max(0.0, one.from_in)) +
                      " to " + format_length(one.to_in) + " along it against what is left of it";
    reason.unit = "lb";
    reason.rule = "rotten wood carries nothing";
    reason.source = "statics";
    reason.status = SourceStatus::derived;
    const std::string id = one.wall->id + "." + doc::word_of(one.part);
    auto check = make_check(id + ".edge", id, "edge_rot", std::max(1.0, one.load_lb), 0, reason);
    check.standing = doc::word_of(Standing::damaged);
    out.push_back(std::move(check));
  }
}

void shore_edges(const Model& model, const std::vector<EdgeRot>& rot, WhileOpen& out) {
  for (const auto& one : rot) {
    if (one.part != WallPart::mudsill) continue;
    const std::string what = "the joists' ends and wall " + one.wall->id + " over its mudsill";
    out.unsupported.push_back(what + " from " + format_length(std::max(0.0, one.from_in)) + " to " + format_length(one.to_in) + " once the rot is cut out");
    if (!(one.load_lb > 0)) continue;
    const double length = one.to_in - one.from_in;
    const int count = std::max(2, static_cast<int>(std::ceil(length / kShores_in)) + 1);
    for (int k = 0; k < count; ++k)
      out.shores.push_back(shore_of(model, out.shores.size() + 1, one.wall->id, on_wall(*one.wall, one.from_in + length * k / (count - 1)),
                                    one.load_lb / (count - 1),
                                    "what " + what + " brings, on one of " + std::to_string(count) + " shores under a beam 2 ft in from it"));
    out.words.push_back("Set a beam across the joists 2 ft in from wall " + one.wall->id +
                        " on these shores, tight, before its mudsill is cut; studs that run past " + "the floor are held by a strongback bolted to them.");
  }
}

void mend_edges(OptionPlan& plan, const Site& site) {
  double depth = 0;
  for (const auto& member : site.found.members)
    if (member.role == SupportRole::joist) depth = std::max(depth, sold_depth_in(member.section.d_in));
  if (!(depth > 0)) depth = 7.25;
  bool mended = false;
  for (const auto& one : edge_rot(site.job, site.found)) {
    const auto& wall = *one.wall;
    const double length = distance_in(wall.from_in, wall.to_in), from = std::max(0.0, one.from_in - kBeyond_in), to = std::min(length, one.to_in + kBeyond_in);
    Member piece;
    piece.id = wall.id + "." + doc::word_of(one.part);
    piece.from = on_wall(wall, from);
    piece.to = on_wall(wall, to);
    const std::string range = " of wall " + wall.id + " from " + format_length(from) + " to " + format_length(to) + " along it";
    const auto buy = [&](const mechanics::Section& section, const std::string& item, double length_in, double pieces, bool treat) {
      auto good = goods::lumber(goods::Kind::joist, item, yard_section(section), length_in, pieces);
      good.grade = "No. 2";
      if (treat) goods::treat(good);
      add_good(plan, site, good, with_members());
    };
    if (one.part == WallPart::mudsill) {
      plan.option.framing.push_back(line_of(piece, "new_member", mechanics::rectangle(1.5, 5.5), "treated mudsill under wall " + wall.id));
      buy({1.5, 5.5, 1}, "2x6 mudsill, No. 2", to - from, 1, true);
      add_hours(plan, "mudsill", (to - from) / 12, with_members());
      plan.option.steps.push_back(
          "Hold joists and wall on the shores, cut the mudsill" + range +
          " out into sound wood, set a treated 2x6 on sill gasket, 1/2 in. anchors within 12 in. of each end and at most 6 ft apart (IRC "
          "R403.1.6), joists toe-nailed to it with three 8d; hot-dipped or stainless fasteners.");
    } else if (one.part == WallPart::rim) {
      plan.option.framing.push_back(line_of(piece, "new_member", mechanics::rectangle(1.5, depth), "rim under wall " + wall.id));
      const auto name = yard_name(mechanics::rectangle(1.5, depth));
      buy({1.5, depth, 1}, name + " rim, No. 2", to - from, 1, false);
      add_hours(plan, "rim", (to - from) / 12, with_members());
      plan.option.steps.push_back(
          "Cut the rim" + range + " out into sound wood, set a new " + name +
          ", three 16d into each joist's end, 8d toe-nails 6 in. apart to the mudsill (IRC Table R602.3(1)); flash it outside before the "
          "siding closes.");
    } else {
      const int count = studs_in(one);
      for (int k = 0; k < count; ++k) {
        Member stud = piece;
        const Point p = on_wall(wall, (k + 0.5) * (one.to_in - one.from_in) / count + one.from_in);
        stud.from = stud.to = p;
        stud.id += std::to_string(k + 1);
        plan.option.framing.push_back(line_of(stud, "post", mechanics::rectangle(1.5, 3.5), "stud beside the rotten one in wall " + wall.id));
      }
      buy({1.5, 3.5, 1}, "2x4 stud, No. 2", kSpareStud_in, count, false);
      add_hours(plan, "stud", count, with_members());
      plan.option.steps.push_back("Cut the rot out of the studs" + range + ", set a new 2x4 beside each from sound plate to plate, 16d 12 in. apart.");
    }
    mended = true;
  }
  if (mended)
    plan.option.cautions.push_back(
        "Mudsill, rim and the feet of an outside wall are opened from outside as well: siding, paper and flashing go back lapped, and the "
        "soil ends 6 in. below the wood (IRC R317.1).");
}

}  // namespace awlmark::floor
