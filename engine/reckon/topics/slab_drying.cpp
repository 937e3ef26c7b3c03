#include "drying/slab.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace slab_drying_topic {

struct SlabDryingIn {
  double thickness_in = 0;
  int faces_open = 2;
  double diffusivity_in2_per_day = 0;
  double days = 0;
};
BOOST_DESCRIBE_STRUCT(SlabDryingIn, (), (thickness_in, faces_open, diffusivity_in2_per_day, days))

doc::FieldRules field_rules(const SlabDryingIn*) {
  return {{.name = "thickness_in", .required = true, .min = 0, .max = 100, .above_min = true},
          {.name = "faces_open", .text = "1 when the other face is sealed: four times the time", .required = true, .min = 1, .max = 2},
          {.name = "diffusivity_in2_per_day", .text = "0.01 cm2/s is 134 in2/day", .required = true, .min = 0, .max = 1e6},
          {.name = "days", .required = true, .min = 0, .max = 1e6}};
}

struct SlabDryingOut {
  double fraction_dried = 0;
  double fraction_dried_centre = 0;
  double fourier = 0;
  std::optional<double> days_to_half;
  std::optional<double> days_to_ninety_percent;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(SlabDryingOut, (), (fraction_dried, fraction_dried_centre, fourier, days_to_half, days_to_ninety_percent, reason))

doc::FieldRules field_rules(const SlabDryingOut*) {
  return {{.name = "fraction_dried", .text = "of the moisture that is to leave, the share that has left, over the whole slab"},
          {.name = "fraction_dried_centre", .text = "the same at the middle, or at the sealed face"}};
}

Outcome<SlabDryingOut> answer(const SlabDryingIn& in) {
  const auto slab = drying::slab_drying(in.thickness_in, in.faces_open, in.diffusivity_in2_per_day, in.days);
  SlabDryingOut out;
  out.fraction_dried = slab.fraction_mean;
  out.fraction_dried_centre = slab.fraction_centre;
  out.fourier = slab.fourier;
  if (in.diffusivity_in2_per_day > 0) {
    out.days_to_half = drying::slab_days(in.thickness_in, in.faces_open, in.diffusivity_in2_per_day, 0.5);
    out.days_to_ninety_percent = drying::slab_days(in.thickness_in, in.faces_open, in.diffusivity_in2_per_day, 0.9);
  }
  out.reason.compares = "moisture left in a slab against what is to leave";
  out.reason.rule = "Fo = D t / l^2, l half the thickness with both faces open, all of it with one; uniform start, below fibre saturation";
  out.reason.source = "Crank, The Mathematics of Diffusion";
  out.reason.edition = "2nd ed., 1975, pp. 47-48";
  out.reason.status = SourceStatus::read;
  return answered(std::move(out));
}

}  // namespace slab_drying_topic

Topic slab_drying() {
  using namespace slab_drying_topic;
  return make_topic<SlabDryingIn, SlabDryingOut>({.id = "slab-drying",
                                                  .asks = "How far has a slab dried after so many days?",
                                                  .sources = {"Crank, The Mathematics of Diffusion, 2nd ed., pp. 47-48"},
                                                  .example = R"({"thickness_in": 0.75, "faces_open": 2, "diffusivity_in2_per_day": 0.03, "days": 4})"},
                                                 answer);
}

}  // namespace awlmark::reckon
