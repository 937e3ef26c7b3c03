#include "mechanics/post.hpp"

#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace post_topic {

struct PostIn {
  double b_in = 0;
  double d_in = 0;
  double length_in = 0;
  std::optional<double> length_b_in;
  double ke = 1;
  double fc_psi = 0;
  double emin_psi = 0;
  double cd = 1;
  double cm_fc = 1;
  double cf = 1;
  double cm_emin = 1;
};
BOOST_DESCRIBE_STRUCT(PostIn, (), (b_in, d_in, length_in, length_b_in, ke, fc_psi, emin_psi, cd, cm_fc, cf, cm_emin))

doc::FieldRules field_rules(const PostIn*) {
  return {{.name = "b_in", .required = true, .min = 0, .max = 40, .above_min = true},
          {.name = "d_in", .required = true, .min = 0, .max = 40, .above_min = true},
          {.name = "length_in", .text = "unbraced, about the d axis: goes with d_in", .required = true, .min = 0, .max = 1200},
          {.name = "length_b_in",
           .text = "unbraced, about the b axis: goes with b_in; length_in when left out, 0 where sheathing or blocking holds it",
           .min = 0,
           .max = 1200},
          {.name = "ke", .text = "effective length factor", .min = 0.5, .max = 2.4},
          {.name = "fc_psi", .text = "compression along the grain, of the tables", .required = true, .min = 0, .max = 10000, .above_min = true},
          {.name = "emin_psi", .required = true, .min = 0, .max = 1e7, .above_min = true},
          {.name = "cd", .text = "load duration", .min = 0.5, .max = 2},
          {.name = "cm_fc", .text = "wet service, on Fc", .min = 0, .max = 1, .above_min = true},
          {.name = "cf", .text = "size factor on Fc", .min = 0, .max = 2, .above_min = true},
          {.name = "cm_emin", .text = "wet service, on Emin", .min = 0, .max = 1, .above_min = true}};
}

struct PostOut {
  double capacity_lb = 0;
  double cp = 0;
  double fc_star_psi = 0;
  double fce_psi = 0;
  double fc_adj_psi = 0;
  double slenderness = 0;
  bool slender_ok = true;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(PostOut, (), (capacity_lb, cp, fc_star_psi, fce_psi, fc_adj_psi, slenderness, slender_ok, reason))

doc::FieldRules field_rules(const PostOut*) {
  return {{.name = "slenderness", .text = "the greater le/d"},
          {.name = "slender_ok", .text = "le/d is at most 50 (NDS 3.7.1.4; 75 while building)"},
          {.name = "fce_psi", .text = "0 where the post cannot buckle"}};
}

Outcome<PostOut> answer(const PostIn& in) {
  const double fc_star = in.fc_psi * in.cd * in.cm_fc * in.cf;
  const auto r = mechanics::post_capacity({in.b_in, in.d_in, in.length_in, in.length_b_in.value_or(in.length_in), in.ke, fc_star, in.emin_psi * in.cm_emin});
  return answered<PostOut>({r.capacity_lb, r.cp, fc_star, r.fce_psi, r.fc_psi, r.slenderness, r.slender_ok, r.reason});
}

}  // namespace post_topic

Topic post() {
  using namespace post_topic;
  return make_topic<PostIn, PostOut>({.id = "post",
                                      .asks = "What load does a wood post carry?",
                                      .sources = {"NDS 3.7.1 and 3.6.3: column stability, equation 3.7-1"},
                                      .example = R"({"b_in": 3.5, "d_in": 5.5, "length_in": 72, "ke": 1.0, "fc_psi": 1350, "emin_psi": 580000, "cf": 1.1})"},
                                     answer);
}

}  // namespace awlmark::reckon
