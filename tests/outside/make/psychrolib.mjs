// Moist air against the npm package psychrolib (MIT; a development dependency of web/package.json):
//   node tests/outside/make/psychrolib.mjs AWLMARK     compares `AWLMARK reckon air` with the package, 96 states
//   node tests/outside/make/psychrolib.mjs --write     writes tests/outside/psychrolib.json, for the native tests
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";

const root = new URL("../../../", import.meta.url);
const fromWeb = createRequire(new URL("web/package.json", root));
const library = fromWeb("psychrolib");
const { version } = fromWeb("psychrolib/package.json");
library.SetUnitSystem(library.IP);

function state(temp_f, rh_percent, pressure_psi) {
  const [humidity_ratio, wet_bulb_f, dew_point_f, vapour_pressure_psi, enthalpy_btu_per_lb, volume_ft3_per_lb] =
    library.CalcPsychrometricsFromRelHum(temp_f, rh_percent / 100, pressure_psi);
  return { temp_f, rh_percent, pressure_psi, humidity_ratio, wet_bulb_f, dew_point_f, vapour_pressure_psi, enthalpy_btu_per_lb, volume_ft3_per_lb };
}

const within = {
  humidity_ratio: (want) => 1e-4 * want,
  vapour_pressure_psi: (want) => 1e-5 * want,
  dew_point_f: () => 0.02,
  wet_bulb_f: () => 0.05,
  enthalpy_btu_per_lb: () => 0.02,
  volume_ft3_per_lb: (want) => 1e-4 * want,
};

const [awlmark] = process.argv.slice(2);
if (awlmark === "--write") {
  const air = [[20, 60], [35, 85], [45, 30], [50, 95], [60, 45], [68, 42], [70, 60], [75, 80], [80, 55], [85, 75], [95, 20], [110, 35]].map(([t, h]) => state(t, h, 14.696));
  const made_by = "node tests/outside/make/psychrolib.mjs --write";
  writeFileSync(new URL("tests/outside/psychrolib.json", root), `${JSON.stringify({ source: `npm package psychrolib ${version}, MIT`, made_by, air }, null, 1)}\n`);
  process.exit(0);
}
if (!awlmark) {
  console.error("usage: psychrolib.mjs AWLMARK | --write");
  process.exit(2);
}
let compared = 0;
const wrong = [];
for (const pressure of [14.696, 12.2])
  for (const temp of [10, 28, 40, 55, 68, 77, 90, 115])
    for (const rh of [4, 25, 45, 62, 85, 100]) {
      const want = state(temp, rh, pressure);
      const input = JSON.stringify({ temp_f: temp, rh_percent: rh, pressure_psi: pressure });
      const got = JSON.parse(execFileSync(awlmark, ["reckon", "air"], { input, encoding: "utf8" }));
      for (const [key, tolerance] of Object.entries(within)) {
        ++compared;
        if (!(Math.abs(got[key] - want[key]) <= tolerance(want[key]))) wrong.push(`${input} ${key}: ${got[key]}, psychrolib ${want[key]}`);
      }
    }
for (const line of wrong.slice(0, 20)) console.error(line);
console.log(`psychrolib ${version}: ${compared} figures compared, ${wrong.length} apart`);
process.exit(wrong.length ? 1 : 0);
