// Processor time of one deck by the grillage, on the cases of tests/outside/grillage_ccx.json, so that
// tools/speed.py can set it against CalculiX on the same decks. Prints a JSON object: case, seconds.
//   bench_grillage tests/outside/grillage_ccx.json
#include "floor/grillage.hpp"

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace {

using nlohmann::json;
using namespace awlmark::floor;

Deck deck_of(const json& in) {
  Deck deck;
  deck.supports_in = in["supports_in"].get<std::vector<double>>();
  deck.length_in = deck.supports_in.back();
  deck.twist_held_at_supports = in["twist_held"].get<bool>();
  const double width = in["width_in"], t = in["thickness_in"], e = in["e_psi"], g = in["g_psi"];
  for (int i = 0; i < in["planks"].get<int>(); ++i) {
    DeckPlank plank;
    plank.width_in = width;
    plank.ei_lbin2 = e * width * t * t * t / 12;
    plank.gj_lbin2 = g * width * t * t * t / 3;
    for (const auto& gap : in["broken"])
      if (gap["plank"] == i) plank.breaks_in.push_back(gap["at_in"]);
    deck.planks.push_back(plank);
    if (i == 0) continue;
    DeckLink link;
    link.shear_psi = 1e7;
    for (const auto& cut : in["no_tongue_after"])
      if (cut == i - 1) link.shear_psi = 0;
    if (in.contains("cross_e_psi")) link.bending_lbin_per_in = in["cross_e_psi"].get<double>() * t * t * t / 12 / width;
    deck.links.push_back(link);
  }
  for (const auto& load : in["loads"]) {
    DeckLoad one;
    if (load["kind"] == "uniform") {
      one.psf = load["psf"];
    } else {
      one.kind = DeckLoad::Kind::point;
      one.lb = load["lb"];
      one.at_in = load["at_in"];
      one.plank = load["plank"];
    }
    deck.loads.push_back(one);
  }
  deck.elements_per_span = 16;
  return deck;
}

double seconds(const Deck& deck) {
  std::vector<double> taken;
  for (int k = 0; k < 9; ++k) {
    const std::clock_t start = std::clock();
    const auto result = solve_deck(deck);
    taken.push_back(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    if (!result.stable) return -1;
  }
  std::sort(taken.begin(), taken.end());
  return taken[taken.size() / 2];
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return std::fprintf(stderr, "usage: bench_grillage CASES.json\n"), 2;
  std::ifstream in(words[1]);
  const auto file = json::parse(std::string(std::istreambuf_iterator<char>(in), {}), nullptr, false);
  if (!file.contains("cases")) return std::fprintf(stderr, "%s: no cases\n", words[1]), 2;
  json out = json::object();
  for (const auto& one : file["cases"]) out[one["id"].get<std::string>()] = seconds(deck_of(one["inputs"]));
  std::printf("%s\n", out.dump().c_str());
  return 0;
}
