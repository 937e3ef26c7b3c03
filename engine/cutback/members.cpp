// Decay along supports: what an awl found, reaching as far as the draws say, and what is likely
// though nobody has read it.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "cutback/report.hpp"
#include "tables/usual.hpp"

namespace awlmark::cutback {
namespace {

constexpr double kOneSpot_in = 24;  // readings closer than this, with no sound one between, are one place

struct Stations {
  std::vector<double> along_in;
  std::vector<double> p_unsound;
  const std::vector<std::uint8_t>* degree = nullptr;
  int draws = 0;
};

Stations stations_of(const survey::Result& survey, const std::string& id) {
  Stations stations;
  for (const auto& field : survey.findings.supports)
    if (field.id == id) {
      stations.along_in = field.along_in;
      stations.p_unsound = field.p_unsound;
    }
  for (const auto& line : survey.draws.supports) {
    if (line.id != id || survey.draws.count <= 0 || line.degree.size() < line.along_in.size() * survey.draws.count) continue;
    stations.along_in = line.along_in;
    stations.degree = &line.degree;
    stations.draws = survey.draws.count;
    stations.p_unsound.assign(line.along_in.size(), 0);
    for (int d = 0; d < stations.draws; ++d)
      for (std::size_t k = 0; k < line.along_in.size(); ++k) stations.p_unsound[k] += line.degree[d * line.along_in.size() + k] != survey::kSound;
    for (double& p : stations.p_unsound) p /= stations.draws;
  }
  return stations;
}

double depth_of(const Support& support) { return support.size && support.size->d_in > 0 ? support.size->d_in : tables::usual().member_depth_in; }

bool decayed(const Mark& mark) { return mark.tool == Tool::awl && (mark.reads == Reading::soft || mark.reads == Reading::gone); }

// How far decay is taken to reach from `at` in one direction: on while the draws say more likely
// unsound than not, and never past a sound reading.
double reach(const Stations& stations, const std::vector<double>& sound_in, double at_in, bool up, double limit_in) {
  const double likely = figure("member_likely"), least = figure("member_reach");
  double far = up ? std::min(limit_in, at_in + least) : std::max(limit_in, at_in - least);
  const auto count = static_cast<int>(stations.along_in.size());
  for (int k = up ? 0 : count - 1; up ? k < count : k >= 0; k += up ? 1 : -1) {
    const double s = stations.along_in[k];
    if (up ? s <= at_in : s >= at_in) continue;
    if (!(stations.p_unsound[k] >= likely)) break;
    far = up ? std::max(far, std::min(s, limit_in)) : std::min(far, std::max(s, limit_in));
  }
  for (const double s : sound_in) {
    if (up && s > at_in && s < far) far = s;
    if (!up && s < at_in && s > far) far = s;
  }
  return far;
}

MemberDecay known_decay(const Support& support, const std::vector<const Mark*>& marks, const Stations& stations, const std::vector<double>& sound_in) {
  MemberDecay decay;
  decay.support = support.id;
  decay.face = marks[0]->face.value_or(Face::top);
  const double length = distance_in(support.from_in, support.to_in);
  decay.from_in = reach(stations, sound_in, *marks.front()->along_in, false, 0);
  decay.to_in = reach(stations, sound_in, *marks.back()->along_in, true, length);
  bool measured = true, widths = true;
  double width = 0;
  std::string ids;
  for (const Mark* mark : marks) {
    const bool gone = mark->reads == Reading::gone;
    measured = measured && mark->depth_in.has_value();
    decay.depth_in = std::max(decay.depth_in, mark->depth_in.value_or(depth_of(support) * (gone ? 1 : figure("soft_depth_share"))));
    widths = widths && mark->width_in.has_value();
    width = std::max(width, mark->width_in.value_or(0));
    ids += (ids.empty() ? "" : ", ") + mark->id;
  }
  if (widths) decay.width_in = width;
  decay.why = std::string(marks.size() == 1 ? "Mark " : "Marks ") + ids + ": the awl went in.";
  if (!measured) decay.why += " The depth was not measured: taken on the safe side.";
  if (!widths) decay.why += " The width was not measured: taken across the member.";
  return decay;
}

void known_of(const Job& job, const Support& support, const Stations& stations, std::vector<MemberDecay>& members) {
  std::vector<double> sound;
  std::vector<const Mark*> marks;
  for (const auto& mark : job.marks) {
    if (mark.support != support.id || !mark.along_in || mark.tool != Tool::awl) continue;
    if (decayed(mark))
      marks.push_back(&mark);
    else if (mark.reads == Reading::sound)
      sound.push_back(*mark.along_in);
  }
  std::stable_sort(marks.begin(), marks.end(), [](const Mark* a, const Mark* b) {
    const Face fa = a->face.value_or(Face::top), fb = b->face.value_or(Face::top);
    return fa != fb ? fa < fb : *a->along_in < *b->along_in;
  });
  for (std::size_t k = 0; k < marks.size();) {
    std::vector<const Mark*> group{marks[k]};
    for (++k; k < marks.size(); ++k) {
      const double last = *group.back()->along_in, next = *marks[k]->along_in;
      const bool between = std::any_of(sound.begin(), sound.end(), [&](double s) { return s > last && s < next; });
      if (marks[k]->face.value_or(Face::top) != group[0]->face.value_or(Face::top) || next - last > kOneSpot_in || between) break;
      group.push_back(marks[k]);
    }
    members.push_back(known_decay(support, group, stations, sound));
  }
}

void likely_of(const Support& support, const Stations& stations, std::vector<MemberDecay>& members) {
  const double likely = figure("member_likely"), least = figure("member_reach"), length = distance_in(support.from_in, support.to_in);
  const std::size_t count = stations.along_in.size(), known = members.size();
  for (std::size_t k = 0; k < count;) {
    std::size_t end = k;
    while (end < count && stations.p_unsound[end] >= likely) ++end;
    if (end == k) {
      ++k;
      continue;
    }
    MemberDecay decay;
    decay.support = support.id;
    decay.known = false;
    decay.from_in = std::max(0.0, stations.along_in[k] - least);
    decay.to_in = std::min(length, stations.along_in[end - 1] + least);
    decay.depth_in = depth_of(support) * figure("soft_depth_share");
    int unsound = 0;
    decay.p_unsound = 0;
    for (std::size_t s = k; s < end; ++s) decay.p_unsound = std::max(decay.p_unsound, stations.p_unsound[s]);
    if (stations.degree) {
      for (int d = 0; d < stations.draws; ++d) {
        bool any = false;
        for (std::size_t s = k; s < end; ++s) any = any || (*stations.degree)[d * count + s] != survey::kSound;
        unsound += any;
      }
      decay.p_unsound = static_cast<double>(unsound) / stations.draws;
    }
    decay.why = "Nobody has read it; unsound somewhere here in " + format_number(decay.p_unsound * 100, 0) +
                " in 100 draws. Depth taken on the safe side: probe before the price is fixed.";
    const bool read = std::any_of(members.begin(), members.begin() + static_cast<std::ptrdiff_t>(known), [&](const MemberDecay& other) {
      return other.support == support.id && other.from_in <= decay.to_in && decay.from_in <= other.to_in;
    });
    if (!read) members.push_back(decay);
    k = end;
  }
}

}  // namespace

std::vector<MemberDecay> members_of(const Job& job, const survey::Result& survey) {
  std::vector<MemberDecay> members;
  for (const auto& support : job.supports) {
    const Stations stations = stations_of(survey, support.id);
    known_of(job, support, stations, members);
    likely_of(support, stations, members);
  }
  return members;
}

}  // namespace awlmark::cutback
