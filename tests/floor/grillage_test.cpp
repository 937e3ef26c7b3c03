// The deck as a grillage: closed forms, the code's layup coefficients, properties, CalculiX.
#include "floor/grillage.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::floor {
namespace {

constexpr double kE_psi = 1.6e6;

DeckPlank plank_of(double width_in, double thickness_in, double e_psi = kE_psi) {
  DeckPlank plank;
  plank.width_in = width_in;
  plank.ei_lbin2 = e_psi * width_in * thickness_in * thickness_in * thickness_in / 12;
  plank.gj_lbin2 = e_psi / 16 * torsion_constant_in4(width_in, thickness_in);
  return plank;
}

DeckLoad uniform(double psf) {
  DeckLoad load;
  load.psf = psf;
  return load;
}

DeckLoad point(double lb, double at_in, int plank, double patch_in = 0) {
  DeckLoad load;
  load.kind = DeckLoad::Kind::point;
  load.lb = lb;
  load.at_in = at_in;
  load.plank = plank;
  load.patch_in = patch_in;
  return load;
}

Deck deck_of(int planks, std::vector<double> supports, bool tongues, double thickness_in = 1.5) {
  Deck deck;
  deck.supports_in = supports;
  deck.length_in = supports.back();
  for (int i = 0; i < planks; ++i) deck.planks.push_back(plank_of(5.25, thickness_in));
  for (int i = 0; i + 1 < planks; ++i) {
    DeckLink link;
    if (tongues) link.shear_psi = tongue_shear_psi(kE_psi / 16, thickness_in);
    deck.links.push_back(link);
  }
  return deck;
}

// The deflection coefficient of the code's decking formula, w = k Delta E I / l^4, from the deck itself.
double layup_coefficient(const Deck& deck, double span_in, double psf) {
  const auto result = solve_deck(deck);
  EXPECT_TRUE(result.stable);
  EXPECT_LT(result.residual, 1e-8);
  const double w_pli = psf / 144 * deck.planks[0].width_in;
  return w_pli * std::pow(span_in, 4) / (result.deflection_in * deck.planks[0].ei_lbin2);
}

TEST(Grillage, SimpleSpanIsTheEulerBeam) {
  // 5 w L^4 / 384 EI; P L^3 / 48 EI; P L / 4 (any textbook of statics).
  auto deck = deck_of(1, {0, 48}, false);
  deck.loads = {uniform(100)};
  EXPECT_NEAR(layup_coefficient(deck, 48, 100), 76.8, 1e-6);
  deck.loads = {point(300, 24, 0)};
  const auto result = solve_deck(deck);
  EXPECT_NEAR(result.deflection_in, 300 * std::pow(48, 3) / (48 * deck.planks[0].ei_lbin2), 1e-9);
  EXPECT_NEAR(result.planks[0].moment_max_inlb, 300 * 48 / 4.0, 1e-6);
  EXPECT_NEAR(result.planks[0].shear_max_lb, 150, 1e-8);
  EXPECT_NEAR(result.support_lb[0], 150, 1e-8);
}

TEST(Grillage, TwoSpansAreTwoPointFourTimesStiffer) {
  // IBC Table 2306.1.4: simple 76.8, two-span 185 (its rounding of 184.6): the ratio is 2.40.
  auto two = deck_of(4, {0, 60, 120}, true);
  two.elements_per_span = 40;
  two.loads = {uniform(60)};
  EXPECT_NEAR(layup_coefficient(two, 60, 60), 185, 0.5);
  auto simple = two;
  for (auto& plank : simple.planks) plank.breaks_in = {60};
  const double ratio = layup_coefficient(two, 60, 60) / layup_coefficient(simple, 60, 60);
  EXPECT_NEAR(ratio, 2.40, 0.01);
  // Moments: w L^2 / 8 over the middle support when continuous, at mid-span when simple.
  const auto result = solve_deck(two);
  const double w_pli = 60.0 / 144 * 5.25;
  EXPECT_NEAR(result.planks[1].moment_min_inlb, -w_pli * 3600 / 8, 1e-6);
  EXPECT_NEAR(result.planks[1].moment_max_inlb, 9 * w_pli * 3600 / 128, w_pli);
}

TEST(Grillage, MixedLayupLiesBetween) {
  // IBC 2306.1.4 gives 131 for simple and two-span courses in turn: the mean of the two stiffnesses.
  // Courses that tongues force into one shape are a little stiffer than the mean, since neither may
  // take its own easiest shape; planks that twist give a little of that back.
  Deck deck = deck_of(24, {0, 60, 120}, true);
  for (std::size_t p = 0; p < deck.planks.size(); p += 2) deck.planks[p].breaks_in = {60};
  deck.loads = {uniform(60)};
  const double k = layup_coefficient(deck, 60, 60);
  EXPECT_GT(k, 125);
  EXPECT_LT(k, 150);
}

TEST(Grillage, WithoutTongueThePlankCarriesAll) {
  auto deck = deck_of(9, {0, 48}, true);
  deck.loads = {point(300, 24, 4)};
  const auto shared = solve_deck(deck);
  ASSERT_TRUE(shared.stable);
  EXPECT_LT(shared.planks[4].share, 0.6);
  EXPECT_NEAR(shared.planks[3].share, shared.planks[5].share, 1e-9);
  deck.links[3].shear_psi = 0;
  deck.links[4].shear_psi = 0;
  const auto alone = solve_deck(deck);
  EXPECT_NEAR(alone.planks[4].share, 1, 1e-12);
  EXPECT_NEAR(alone.deflection_in, 300 * std::pow(48, 3) / (48 * deck.planks[0].ei_lbin2), 1e-9);
  EXPECT_GT(alone.deflection_in, 1.5 * shared.deflection_in);
  // A spline gives the tongue back; a block at mid-span shares there.
  deck.links[3].blocked_at_in = deck.links[4].blocked_at_in = {24};
  const auto blocked = solve_deck(deck);
  EXPECT_LT(blocked.deflection_in, alone.deflection_in);
  EXPECT_LT(blocked.planks[4].share, 1);
}

TEST(Grillage, AFreeBreakInTheAirIsUnstableUntilLinked) {
  auto deck = deck_of(1, {0, 48}, false);
  deck.planks[0].breaks_in = {20, 24};
  deck.loads = {uniform(40)};
  EXPECT_FALSE(solve_deck(deck).stable);
  auto linked = deck_of(3, {0, 48}, true);
  linked.planks[1].breaks_in = {24};
  linked.loads = {uniform(40)};
  const auto result = solve_deck(linked);
  EXPECT_TRUE(result.stable);
  EXPECT_LT(result.residual, 1e-8);
}

TEST(Grillage, TendsToTheOrthotropicPlate) {
  // Navier's series for a simply supported plate, Poisson's ratio 0 (Timoshenko and Woinowsky-Krieger,
  // Theory of Plates and Shells, section 85). Edges parallel to the span are held by closing planks.
  const double a = 48, b = 48, ex = 1.6e6, ey = 0.4e6, g = 0.1e6, h = 0.75, q_psf = 100;
  const int n = 24;
  Deck deck;
  deck.length_in = a;
  deck.supports_in = {0, a};
  const double strip = b / n, dx = ex * h * h * h / 12, dy = ey * h * h * h / 12, dxy = g * h * h * h / 12;
  for (int i = 0; i < n; ++i) {
    DeckPlank plank;
    plank.width_in = strip;
    plank.ei_lbin2 = dx * strip;
    plank.gj_lbin2 = 4 * dxy * strip;
    deck.planks.push_back(plank);
    if (i == 0) continue;
    DeckLink link;
    link.shear_psi = 1e7;
    link.bending_lbin_per_in = dy / strip;
    deck.links.push_back(link);
  }
  // The two side edges free: compare with a plate long in y at its middle instead, where a strip of
  // unit width spans a alone: 5 q a^4 / 384 D_x when D_y couples nothing (uniform load, cylinder).
  deck.loads = {uniform(q_psf)};
  const auto result = solve_deck(deck);
  const double cylinder = 5 * q_psf / 144 * std::pow(a, 4) / (384 * dx);
  EXPECT_NEAR(result.down_in[n / 2][result.stations_in.size() / 2], cylinder, 1e-6 * cylinder);

  // Two side edges held: very stiff planks outside stand for the supports there.
  DeckPlank edge;
  edge.width_in = 0.01;
  edge.ei_lbin2 = dx * 1e6;
  DeckLink hold;
  hold.shear_psi = 1e7;
  deck.planks.insert(deck.planks.begin(), edge);
  deck.planks.push_back(edge);
  deck.links.insert(deck.links.begin(), hold);
  deck.links.push_back(hold);
  const auto held = solve_deck(deck);
  const double pi = 3.14159265358979323846;
  double navier = 0;
  for (int m = 1; m < 60; m += 2)
    for (int k = 1; k < 60; k += 2) {
      const double sign = ((m + k) / 2 - 1) % 2 == 0 ? 1 : -1;
      const double denominator = dx * std::pow(m / a, 4) + 4 * dxy * m * m * k * k / (a * a * b * b) + dy * std::pow(k / b, 4);
      navier += sign * 16 * q_psf / 144 / (std::pow(pi, 6) * m * k * denominator);
    }
  EXPECT_NEAR((held.down_in[n / 2][held.stations_in.size() / 2] + held.down_in[n / 2 + 1][held.stations_in.size() / 2]) / 2, navier, 0.015 * navier);
}

TEST(Grillage, StatesItsEquilibrium) {
  testing::for_each_seed(60, [](Random& random) {
    Deck deck;
    const int spans = 1 + static_cast<int>(random.below(4));
    double at = 0;
    deck.supports_in = {0};
    for (int i = 0; i < spans; ++i) at += testing::between(random, 14, 70), deck.supports_in.push_back(at);
    deck.length_in = at + (random.below(2) != 0 ? testing::between(random, 1, 10) : 0.0);
    const int planks = 1 + static_cast<int>(random.below(10));
    for (int i = 0; i < planks; ++i) {
      auto plank = plank_of(testing::between(random, 2, 8), testing::between(random, 0.6, 2.5));
      for (std::size_t k = 1; k + 1 < deck.supports_in.size(); ++k)
        if (random.below(3) == 0) plank.breaks_in.push_back(deck.supports_in[k]);
      deck.planks.push_back(plank);
    }
    for (int i = 0; i + 1 < planks; ++i) {
      DeckLink link;
      if (random.below(3) != 0) link.shear_psi = testing::between(random, 1e3, 2e5);
      if (random.below(3) == 0) link.bending_lbin_per_in = testing::between(random, 10, 1e4);
      if (random.below(3) == 0) link.blocked_at_in = {testing::between(random, 2, at - 2)};
      deck.links.push_back(link);
    }
    deck.twist_held_at_supports = random.below(2) == 0;
    const double psf = testing::between(random, 10, 100);
    deck.loads = {uniform(psf)};
    const auto plank = static_cast<int>(random.below(static_cast<std::uint64_t>(planks)));
    const double x = testing::between(random, 1, deck.length_in - 1);
    deck.loads.push_back(point(300, x, plank, random.below(2) != 0 ? 4.0 : 0.0));
    const auto result = solve_deck(deck);
    ASSERT_TRUE(result.stable);
    EXPECT_LT(result.residual, 1e-6);
    // Twice the load, twice the answer.
    auto twice = deck;
    for (auto& load : twice.loads) load.psf *= 2, load.lb *= 2;
    EXPECT_NEAR(solve_deck(twice).deflection_in, 2 * result.deflection_in, 1e-6 * result.deflection_in);
    // A stiffer plank never lets its own deck sag more under a point load on that plank.
    auto one = deck;
    one.loads = {deck.loads.back()};
    const auto before = solve_deck(one);
    one.planks[static_cast<std::size_t>(plank)].ei_lbin2 *= 1.5;
    const auto after = solve_deck(one);
    const auto place = static_cast<std::size_t>(plank);
    EXPECT_LE(after.planks[place].deflection_in, before.planks[place].deflection_in * (1 + 1e-7));
  });
}

TEST(Grillage, AgreesWithCalculiX) {
  // tests/outside/make/grillage_ccx.py: planks as S8R shells, tongues as equations between the edges'
  // down movements; CalculiX 2.20. Tolerance per case and its reason stand in the file.
  const auto file = testing::outside_file("grillage_ccx.json");
  ASSERT_TRUE(file.contains("cases"));
  for (const auto& test : file.value("cases", nlohmann::json::array())) {
    SCOPED_TRACE(test["id"].get<std::string>());
    Deck deck;
    const auto& in = test["inputs"];
    deck.supports_in = in["supports_in"].get<std::vector<double>>();
    deck.length_in = deck.supports_in.back();
    deck.twist_held_at_supports = in["twist_held"].get<bool>();
    const int planks = in["planks"].get<int>();
    const double width = in["width_in"].get<double>(), t = in["thickness_in"].get<double>(), e = in["e_psi"].get<double>(), g = in["g_psi"].get<double>();
    for (int i = 0; i < planks; ++i) {
      DeckPlank plank;
      plank.width_in = width;
      plank.ei_lbin2 = e * width * t * t * t / 12;
      plank.gj_lbin2 = g * width * t * t * t / 3;  // a strip of a plate: no edge correction, as in the shell model
      for (const auto& gap : in["broken"])
        if (gap["plank"].get<int>() == i) plank.breaks_in.push_back(gap["at_in"].get<double>());
      deck.planks.push_back(plank);
      if (i == 0) continue;
      DeckLink link;
      link.shear_psi = 1e7;
      for (const auto& cut : in["no_tongue_after"])
        if (cut.get<int>() == i - 1) link.shear_psi = 0;
      if (in.contains("cross_e_psi")) link.bending_lbin_per_in = in["cross_e_psi"].get<double>() * t * t * t / 12 / width;
      deck.links.push_back(link);
    }
    for (const auto& load : in["loads"]) {
      if (load["kind"] == "uniform")
        deck.loads.push_back(uniform(load["psf"].get<double>()));
      else
        deck.loads.push_back(point(load["lb"].get<double>(), load["at_in"].get<double>(), load["plank"].get<int>()));
    }
    deck.elements_per_span = 16;
    const auto result = solve_deck(deck);
    ASSERT_TRUE(result.stable);
    const double tolerance = test["tolerance_rel"].get<double>();
    const auto expected = test["expected"]["down_in"].get<std::vector<double>>();
    double largest = 0;
    for (const double down : expected) largest = std::max(largest, std::fabs(down));
    const double at = in["read_at_in"].get<double>();
    for (std::size_t p = 0; p < expected.size(); ++p) {
      double down = NAN;
      for (std::size_t s = 0; s < result.stations_in.size(); ++s)
        if (std::fabs(result.stations_in[s] - at) < 1e-6) down = result.down_in[p][s];
      EXPECT_NEAR(down, expected[p], tolerance * largest) << "plank " << p;
    }
  }
}

}  // namespace
}  // namespace awlmark::floor
