#include "mechanics/panel.hpp"

#include <algorithm>

#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace panel_topic {

using mechanics::PanelKind;

struct PanelIn {
  PanelKind kind = PanelKind::single_floor;
  std::optional<std::string> rating;
  std::optional<std::string> category;
  std::optional<double> spacing_in;
  int spans = 3;
  double deflection_over = 360;
  std::optional<bool> wet;
};
BOOST_DESCRIBE_STRUCT(PanelIn, (), (kind, rating, category, spacing_in, spans, deflection_over, wet))
doc::FieldRules field_rules(const PanelIn*) {
  return {{.name = "kind", .text = "sheathing needs underlayment or a wood floor over it; single_floor is both"},
          {.name = "rating", .text = "of the stamp: \"24/16\", \"40/20\", \"20 oc\""},
          {.name = "category", .text = "performance category: \"19/32\", \"23/32\", \"1-1/8\"; of several ratings the shortest span counts"},
          {.name = "spacing_in",
           .text = "of the supports; without rating and category the lightest panel that reaches it is named",
           .min = 0,
           .max = 96,
           .above_min = true},
          {.name = "spans", .text = "that one panel runs over", .min = 1, .max = 12},
          {.name = "deflection_over", .min = 60, .max = 2000},
          {.name = "wet", .text = "in service"}};
}

struct Mechanics {
  double capacity_psf = 0;
  double bending_psf = 0;
  double deflection_psf = 0;
  std::string governs;
  double point_deflection_in = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Mechanics, (), (capacity_psf, bending_psf, deflection_psf, governs, point_deflection_in, reason))
doc::FieldRules field_rules(const Mechanics*) { return {{.name = "point_deflection_in", .text = "under 300 lb between supports, an estimate"}}; }

struct PanelOut {
  PanelKind kind = PanelKind::single_floor;
  std::string rating;
  std::string category;
  double category_in = 0;
  double thickness_min_in = 0;
  double thickness_max_in = 0;
  double roof_span_in = 0;
  double floor_span_in = 0;
  double total_load_psf = 0;
  std::vector<std::string> other_ratings;
  std::optional<bool> ok;
  std::optional<std::string> why;
  std::optional<Mechanics> mechanics;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(PanelOut, (),
                      (kind, rating, category, category_in, thickness_min_in, thickness_max_in, roof_span_in, floor_span_in, total_load_psf, other_ratings, ok,
                       why, mechanics, reason))
doc::FieldRules field_rules(const PanelOut*) {
  return {{.name = "floor_span_in", .text = "0: not a floor panel"},
          {.name = "total_load_psf", .text = "that the rating stands for, over two or more spans, strength axis across the supports"},
          {.name = "other_ratings", .text = "the same category may carry these too: the stamp decides"},
          {.name = "ok", .text = "the rating reaches the spacing"}};
}

std::vector<std::string> words(PanelKind kind, bool ratings) {
  std::vector<std::string> list;
  for (const auto& row : mechanics::panel_rows())
    if (row.kind == kind) {
      const auto& word = ratings ? row.rating : row.category;
      if (list.empty() || list.back() != word) list.push_back(word);
    }
  return list;
}

const mechanics::PanelRow* choose(const PanelIn& in, Problems& problems) {
  const mechanics::PanelRow* found = nullptr;
  if (!in.rating && !in.category) {
    if (!in.spacing_in) {
      problems.push_back({"spacing_in", "is missing", "give a rating, a category or a spacing"});
      return nullptr;
    }
    found = mechanics::panel_for_span(in.kind, *in.spacing_in);
    if (found == nullptr) problems.push_back({"spacing_in", "is past the longest span of any rated panel, 48 in.", "add supports"});
    return found;
  }
  for (const auto& row : mechanics::panel_rows()) {
    if (row.kind != in.kind || (in.rating && row.rating != *in.rating) || (in.category && row.category != *in.category)) continue;
    if (found == nullptr || row.floor_span_in < found->floor_span_in) found = &row;
  }
  if (found != nullptr) return found;
  const auto ratings = words(in.kind, true), categories = words(in.kind, false);
  const std::size_t before = problems.size();
  if (in.rating && std::find(ratings.begin(), ratings.end(), *in.rating) == ratings.end()) doc::wrong_word(*in.rating, "rating", ratings, problems);
  if (in.category && std::find(categories.begin(), categories.end(), *in.category) == categories.end())
    doc::wrong_word(*in.category, "category", categories, problems);
  if (problems.size() == before) problems.push_back({"category", "does not go with that rating", "give one of the two"});
  return nullptr;
}

Outcome<PanelOut> answer(const PanelIn& in) {
  Problems problems;
  const auto* row = choose(in, problems);
  if (row == nullptr) return refused<PanelOut>(problems);
  const auto thickness = mechanics::panel_thickness(row->category_in);
  PanelOut out;
  out.kind = row->kind;
  out.rating = row->rating, out.category = row->category, out.category_in = row->category_in;
  out.thickness_min_in = thickness.least_in, out.thickness_max_in = thickness.most_in;
  out.roof_span_in = row->roof_span_in, out.floor_span_in = row->floor_span_in, out.total_load_psf = row->total_load_psf;
  for (const auto& other : mechanics::panel_rows())
    if (other.kind == row->kind && other.category == row->category && other.rating != row->rating) out.other_ratings.push_back(other.rating);
  out.reason = row->reason;
  out.reason.compares = "span of a panel against its rating";
  out.reason.unit = "in";
  out.reason.capacity = row->floor_span_in;
  if (in.spacing_in) {
    const bool reaches = *in.spacing_in <= row->floor_span_in + 1e-6, two = in.spans >= 2;
    out.ok = reaches && two;
    out.why = !reaches ? "the supports are farther apart than the rating"
              : two    ? "the rating reaches"
                       : "the rating holds for two and more spans only: see mechanics";
    out.reason.demand = *in.spacing_in;
    if (row->floor_span_in > 0) out.reason.ratio = *in.spacing_in / row->floor_span_in;
    const auto c = mechanics::panel_capacity(*row, *in.spacing_in, in.spans, in.deflection_over, in.wet.value_or(false));
    out.mechanics = Mechanics{c.capacity_psf, c.bending_psf, c.deflection_psf, c.governs, c.point_deflection_in, c.reason};
  }
  return answered(std::move(out));
}

}  // namespace panel_topic

Topic panel() {
  using namespace panel_topic;
  return make_topic<PanelIn, PanelOut>({.id = "panel",
                                        .asks = "How far may a plywood or OSB floor panel span, and what does it carry?",
                                        .sources = {"IRC Table R503.2.1.1(1): span ratings", "PS 1 and PS 2: categories and thickness tolerances",
                                                    "APA Panel Design Specification: stiffness and strength, from memory"},
                                        .example = R"({"kind": "single_floor", "category": "23/32", "spacing_in": 16, "spans": 3})"},
                                       answer);
}

}  // namespace awlmark::reckon
