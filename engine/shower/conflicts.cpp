// What cannot all be had together, with places that can; and what the document should not ask for.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

std::string fall_text(double v) { return format_number(v, 3) + " in. a foot"; }
std::string place_text(Point p) { return format_number(p.x_in, 0) + ", " + format_number(p.y_in, 0); }

struct Spot {
  Point at;
  double steepest = 1e300;
};

// Point drains on a 3 in. grid that keep the least and the greatest fall.
std::vector<Spot> spots(const Place& place, double most) {
  std::vector<Spot> out;
  const Box box = bounds(place.ring);
  const double step = std::max(3.0, std::max(box.width_in(), box.height_in()) / 40);
  const Point middle{(box.x0_in + box.x1_in) / 2, (box.y0_in + box.y1_in) / 2};
  for (double x = middle.x_in - step * std::floor(box.width_in() / 2 / step); x < box.x1_in; x += step)
    for (double y = middle.y_in - step * std::floor(box.height_in() / 2 / step); y < box.y1_in; y += step) {
      PanQuestion question;
      question.outline_in = place.ring;
      question.drain_from_in = question.drain_to_in = {x, y};
      question.least_fall_in_per_ft = place.least_fall;
      if (!contains(place.ring, {x, y})) continue;
      const auto pan = pan_fall(question);
      if (pan && pan.value->steepest_in_per_ft <= most + 1e-9) out.push_back({{x, y}, pan.value->steepest_in_per_ft});
    }
  return out;
}

// A line drain along a whole side, so that one plane falls to it: the gentlest.
std::string line_words(const Place& place, double most) {
  double best = 1e300;
  const Side* taken = nullptr;
  for (const auto& side : place.sides) {
    PanQuestion question;
    question.outline_in = place.ring;
    question.drain_from_in = side.from;
    question.drain_to_in = side.to;
    question.least_fall_in_per_ft = place.least_fall;
    const auto pan = pan_fall(question);
    if (!pan || pan.value->steepest_in_per_ft > most + 1e-9 || pan.value->edge_height_in >= best) continue;
    best = pan.value->edge_height_in;
    taken = &side;
  }
  if (!taken) return "";
  return "a line drain along the side from " + place_text(taken->from) + " to " + place_text(taken->to) + " (one plane, " + format_inches(best) + " of fall)";
}

std::string cures(const Place& place, double most) {
  const auto fit = spots(place, most);
  const Point wanted = place.question.drain_from_in;
  std::string words;
  if (!fit.empty()) {
    const auto near =
        std::min_element(fit.begin(), fit.end(), [&](const Spot& a, const Spot& b) { return distance_in(a.at, wanted) < distance_in(b.at, wanted) - 1e-9; });
    const auto mild = std::min_element(fit.begin(), fit.end(), [](const Spot& a, const Spot& b) { return a.steepest < b.steepest - 1e-9; });
    words = "a point drain at " + place_text(near->at);
    if (distance_in(near->at, mild->at) > 1) words += " (the nearest) or at " + place_text(mild->at) + " (the gentlest, " + fall_text(mild->steepest) + ")";
  }
  const auto line = line_words(place, most);
  if (!line.empty()) words += (words.empty() ? "" : "; or ") + line;
  return words.empty() ? "no drain place in this outline keeps both: change its shape" : "these can: " + words;
}

void check_falls(const Place& place, Shower& found) {
  const double least = rule("fall_least"), most = rule("fall_most");
  Reason low = rule_reason("fall_least"), high = rule_reason("fall_most");
  low.rule = "least fall along the flattest way to the drain";
  high.rule = "greatest fall on the steepest plane";
  found.checks.push_back(make_check("pan.fall_least", "shower floor", "fall_least", least, place.pan->flattest_in_per_ft, low));
  found.checks.push_back(make_check("pan.fall_most", "shower floor", "fall_most", place.pan->steepest_in_per_ft, most, high));
}

}  // namespace

void fall_conflicts(const Place& place, Shower& found) {
  const double least = rule("fall_least"), most = rule("fall_most"), flat = rule("fall_accessible");
  if (!place.pan) {
    for (const auto& problem : place.problems)
      found.conflicts.push_back("The shower floor cannot be laid: shower." + problem.at + " " + problem.what + "; " + problem.mend +
                                (place.ring.size() >= 3 && is_simple(place.ring) ? "; " + cures(place, most) : "") + ".");
    return;
  }
  check_falls(place, found);
  const auto& pan = *place.pan;
  if (place.least_fall < least - 1e-9)
    found.conflicts.push_back("A fall of " + fall_text(place.least_fall) + " is asked for; the codes ask for at least " + fall_text(least) + ".");
  if (pan.steepest_in_per_ft > most + 1e-9) {
    if (place.least_fall > most + 1e-9)
      found.conflicts.push_back("A fall of " + fall_text(place.least_fall) + " is asked for; the codes allow at most " + fall_text(most) +
                                ", and nobody stands safely on more: ask for " + fall_text(least) + ".");
    else
      found.conflicts.push_back("A level edge with this drain cannot keep both limits: " + fall_text(place.least_fall) + " along the longest way makes " +
                                fall_text(pan.steepest_in_per_ft) + " on the steepest plane, more than " + fall_text(most) + "; " + cures(place, most) + ".");
  }
  if (place.plan.accessible.value_or(false) && pan.steepest_in_per_ft > flat + 1e-9)
    found.conflicts.push_back("The accessible-design standard allows 1 in 48 (" + fall_text(flat) +
                              ") and the plumbing code asks for no less: planes that meet in valleys cannot keep both (" + fall_text(pan.steepest_in_per_ft) +
                              " here); only one plane to a line drain meets them in one point; " + cures(place, flat) + ".");
  if (place.plan.entry == Entry::flush && place.entry_high_in - place.entry_low_in > 1.0 / 16)
    found.conflicts.push_back(
        "The entry is not level: the shower floor falls " + format_inches(place.entry_high_in - place.entry_low_in) +
        " along it, so it cannot meet a level room floor all over. Put the line drain along the wall opposite the entry or along the entry.");
}

Problems warnings(const Job& job) {
  Problems out;
  if (!job.shower || job.shower->outline_in.size() < 3 || !is_simple(job.shower->outline_in)) return out;
  const Place place = place_of(job);
  for (const auto& problem : place.problems) out.push_back({"shower." + problem.at, problem.what, problem.mend});
  const double fall = place.least_fall;
  if (fall < rule("fall_least") - 1e-9)
    out.push_back({"shower.least_fall_in_per_ft", "is " + fall_text(fall) + ", less than the codes' " + fall_text(rule("fall_least")), "ask for 0.25"});
  double outside = 0;
  for (const auto& left : subtract(as_region(place.ring), as_region(job.room.outline_in))) outside += area_in2(left.outline);
  if (outside > 2)
    out.push_back({"shower.outline_in", "lies partly outside the room, by " + format_number(outside / 144, 1) + " sq ft", "move it inside the room's outline"});
  return out;
}

}  // namespace awlmark::shower
