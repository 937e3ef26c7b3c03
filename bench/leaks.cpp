// bench/leaks [FIRST COUNT]: a look at the simulator's leaks, one line each; with COUNT 1 the cells too.
#include <cstdio>
#include <cstdlib>

#include "simulator/leak.hpp"

using namespace awlmark;

int main(int argc, char** argv) {
  const int first = argc > 1 ? std::atoi(argv[1]) : 0;
  const int count = argc > 2 ? std::atoi(argv[2]) : 10;
  for (int s = first; s < first + count; ++s) {
    const auto leak = simulator::make_leak(static_cast<std::uint64_t>(s));
    std::printf("leak %d: %dx%d cells, wet %.0f days, dry %.0f, %zu outlets, %zu sources", s, leak.nx, leak.ny, leak.wet_days, leak.dry_days,
                leak.water_in.size(), leak.job.sources.size());
    for (const auto& layer : leak.layers) {
      int gone = 0;
      for (const auto d : layer.degree) gone += d == 2;
      std::printf("; %s %.1f sf unsound, %.1f gone", layer.layer.c_str(), simulator::unsound_sf(leak, layer), gone * leak.cell_in * leak.cell_in / 144);
    }
    std::printf("\n");
    if (count > 1) continue;
    for (const auto& layer : leak.layers) {
      std::printf("%s (runs %s)\n", layer.layer.c_str(), layer.layer == "deck" ? (leak.job.layers.back().runs->degrees < 45 ? "x" : "y") : "-");
      for (int j = leak.ny - 1; j >= 0; --j) {
        for (int i = 0; i < leak.nx; ++i) {
          const int c = j * leak.nx + i;
          std::putchar(layer.degree[c] == 2 ? '#' : (layer.degree[c] == 1 ? '+' : (layer.moisture[c] > 0.2 ? '~' : '.')));
        }
        std::putchar('\n');
      }
    }
  }
}
