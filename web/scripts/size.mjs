// Holds the built page to its budgets: what a phone downloads before the first field, gzipped.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

// Together at most 700 kB. What is loaded only when somebody asks for it (the whole job's module) is
// measured too, but does not count: nobody waits for it to see a field.
const BUDGETS_KB = { js: 190, css: 8, wasm: 480 };
const LATER = /^whole/;
const dist = join(dirname(dirname(fileURLToPath(import.meta.url))), 'dist');
const sums = { js: 0, css: 0, wasm: 0 };
for (const entry of readdirSync(dist, { recursive: true, withFileTypes: true })) {
  const kind = extname(entry.name).slice(1).replace('mjs', 'js');
  if (!entry.isFile() || !(kind in sums) || LATER.test(entry.name)) continue;
  sums[kind] += gzipSync(readFileSync(join(entry.parentPath, entry.name)), { level: 9 }).length / 1000;
}
let over = 0;
for (const [kind, budget] of Object.entries(BUDGETS_KB)) {
  const fits = sums[kind] > 0 && sums[kind] <= budget;
  if (!fits) over++;
  console.log(`${fits ? 'ok  ' : 'OVER'} ${kind.padEnd(5)} ${sums[kind].toFixed(1).padStart(7)} kB gzip of ${budget}`);
}
process.exit(over > 0 ? 1 : 0);
