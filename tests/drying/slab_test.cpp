#include "drying/slab.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::drying {
namespace {

double tolerance(const nlohmann::json& one, double expected) {
  if (one.contains("tolerance_abs")) return one.at("tolerance_abs").get<double>() + 1e-12;
  return one.at("tolerance_rel").get<double>() * std::fabs(expected) + 1e-12;
}

// Crank pp. 47-48: tests/outside/moisture.json diffusion_slab, with a finite-difference check there.
TEST(Slab, PublishedFractions) {
  const auto file = testing::outside_file("moisture.json");
  int tried = 0;
  for (const auto& one : file.at("diffusion_slab")) {
    const auto& in = one.at("inputs");
    double fourier = -1;
    if (in.contains("fourier_number_Dt_over_half_thickness_sq"))
      fourier = in.at("fourier_number_Dt_over_half_thickness_sq");
    else if (in.contains("D_m2_per_s") && in.contains("half_thickness_m") && in.contains("time_s"))
      fourier = in.at("D_m2_per_s").get<double>() * in.at("time_s").get<double>() / std::pow(in.at("half_thickness_m").get<double>(), 2);
    if (fourier < 0) continue;
    const auto slab = slab_by_fourier(fourier);
    const auto& out = one.at("expected");
    if (out.contains("fraction_change_mean")) continue;
    if (out.contains("fractional_change_mean")) {
      EXPECT_NEAR(slab.fraction_mean, out.at("fractional_change_mean"), std::max(6e-8, tolerance(one, out.at("fractional_change_mean")))) << one.at("id");
    }
    if (out.contains("fractional_change_centre")) {
      EXPECT_NEAR(slab.fraction_centre, out.at("fractional_change_centre"), std::max(6e-8, tolerance(one, out.at("fractional_change_centre")))) << one.at("id");
    }
    ++tried;
  }
  EXPECT_GE(tried, 8);
}

TEST(Slab, ResistingSurface) {
  const auto file = testing::outside_file("moisture.json");
  for (const auto& one : file.at("diffusion_slab_surface_resistance")) {
    const auto& in = one.at("inputs");
    if (!in.contains("biot_number_alpha_l_over_D") || !one.at("expected").contains("fractional_change_mean")) continue;
    EXPECT_NEAR(slab_mean_with_surface(in.at("biot_number_alpha_l_over_D"), in.at("fourier_number_Dt_over_half_thickness_sq")),
                one.at("expected").at("fractional_change_mean"), 1e-5)
        << one.at("id");
  }
}

// Half done at Fo 0.1967, nine tenths at 0.8481; a sealed face takes four times as long.
TEST(Slab, TimesAndFaces) {
  EXPECT_NEAR(slab_days(2, 2, 1, 0.5), 0.1967, 1e-4);
  EXPECT_NEAR(slab_days(2, 2, 1, 0.9), 0.8481, 1e-4);
  testing::for_each_seed(50, [](Random& random) {
    const double t = testing::between(random, 0.1, 4), d = testing::between(random, 0.001, 1), f = testing::between(random, 0.05, 0.95);
    EXPECT_NEAR(slab_days(t, 1, d, f), 4 * slab_days(t, 2, d, f), 1e-9 * slab_days(t, 1, d, f));
    EXPECT_NEAR(slab_drying(t, 1, d, slab_days(t, 1, d, f)).fraction_mean, f, 1e-9);
  });
}

// The two series agree where they meet, and drying never turns back.
TEST(Slab, SmoothAndRising) {
  EXPECT_NEAR(slab_by_fourier(0.1 - 1e-12).fraction_mean, slab_by_fourier(0.1 + 1e-12).fraction_mean, 1e-11);
  EXPECT_NEAR(slab_by_fourier(0.1 - 1e-12).fraction_centre, slab_by_fourier(0.1 + 1e-12).fraction_centre, 1e-11);
  double before = 0;
  for (int i = 0; i < 400; ++i) {
    const auto slab = slab_by_fourier(i * 0.005);
    EXPECT_GE(slab.fraction_mean, before);
    EXPECT_LE(slab.fraction_centre, slab.fraction_mean + 1e-12);
    before = slab.fraction_mean;
  }
}

}  // namespace
}  // namespace awlmark::drying
