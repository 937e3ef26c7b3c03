#include "mechanics/decking.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace sheathing_topic {

struct SheathingIn {
  double support_spacing_in = 0;
  std::optional<double> thickness_in;
  std::optional<bool> diagonal;
};
BOOST_DESCRIBE_STRUCT(SheathingIn, (), (support_spacing_in, thickness_in, diagonal))
doc::FieldRules field_rules(const SheathingIn*) {
  return {{.name = "support_spacing_in", .required = true, .min = 0, .max = 240, .above_min = true},
          {.name = "thickness_in", .text = "net, of the boards that are there: then ok and why", .min = 0, .max = 6, .above_min = true},
          {.name = "diagonal", .text = "boards lie diagonally to the supports"}};
}

struct SheathingOut {
  double row_spacing_in = 0;
  double min_thickness_in = 0;
  bool diagonal_allowed = true;
  std::optional<double> min_thickness_diagonal_in;
  bool tongue_and_groove_required = false;
  std::optional<double> min_fb_psi;
  std::optional<double> min_e_psi;
  std::optional<bool> ok;
  std::optional<std::string> why;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(SheathingOut, (),
                      (row_spacing_in, min_thickness_in, diagonal_allowed, min_thickness_diagonal_in, tongue_and_groove_required, min_fb_psi, min_e_psi, ok,
                       why, reason))
doc::FieldRules field_rules(const SheathingOut*) {
  return {{.name = "row_spacing_in", .text = "of the table's row: the next wider one"},
          {.name = "min_thickness_in", .text = "boards square to the supports"},
          {.name = "min_fb_psi", .text = "where the row asks for it"}};
}

Outcome<SheathingOut> answer(const SheathingIn& in) {
  const auto row = mechanics::board_subfloor(in.support_spacing_in);
  if (!row)
    return refused<SheathingOut>({{"support_spacing_in", "is wider than 60 in., the last row of the table", "add supports, or reckon the deck with decking"}});
  SheathingOut out;
  out.row_spacing_in = row->support_spacing_in;
  out.min_thickness_in = row->thickness_in;
  out.diagonal_allowed = row->diagonal_thickness_in.has_value();
  out.min_thickness_diagonal_in = row->diagonal_thickness_in;
  out.tongue_and_groove_required = row->tongue_and_groove;
  out.min_fb_psi = row->fb_psi;
  out.min_e_psi = row->e_psi;
  out.reason = row->reason;
  out.reason.compares = "net thickness of a board subfloor against the least of the table";
  out.reason.unit = "in";
  const bool diagonal = in.diagonal.value_or(false);
  const double least = diagonal ? row->diagonal_thickness_in.value_or(0) : row->thickness_in;
  if (in.thickness_in) {
    const bool allowed = !diagonal || out.diagonal_allowed;
    out.ok = allowed && *in.thickness_in >= least - 1e-9;
    out.why = !allowed ? "diagonal boards are not allowed at this spacing" : *out.ok ? "thick enough" : "thinner than the table asks";
    out.reason.demand = least;
    out.reason.capacity = *in.thickness_in;
    out.reason.ratio = least / *in.thickness_in;
  }
  return answered(std::move(out));
}

}  // namespace sheathing_topic

Topic sheathing() {
  using namespace sheathing_topic;
  return make_topic<SheathingIn, SheathingOut>(
      {.id = "sheathing",
       .asks = "How thick must a board subfloor be?",
       .sources = {"IRC Table R503.1: minimum thickness of lumber floor sheathing; square-edged ends lie over supports (R503.1.1)"},
       .example = R"({"support_spacing_in": 16, "thickness_in": 0.75, "diagonal": true})"},
      answer);
}

}  // namespace awlmark::reckon
