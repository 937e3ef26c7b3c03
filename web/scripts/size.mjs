// Holds the built page to its budgets: what a phone downloads before the first field, by gzip -9.
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

// Together at most 700 kB. What is loaded only when somebody asks for it (later stages, the whole job's
// module) is said too, but does not count: nobody waits for it to see a field.
const BUDGETS_KB = { js: 190, css: 8, wasm: 510 };
const MOST_KB = 700;
const dist = join(dirname(dirname(fileURLToPath(import.meta.url))), 'dist');
const assets = join(dist, 'assets');
const kB = (file) => gzipSync(readFileSync(file), { level: 9 }).length / 1000;

/** Scripts that the page's own, or the survey's thread, import before they run. */
function first() {
  const wanted = [...readFileSync(join(dist, 'index.html'), 'utf8').matchAll(/(?:src|href)="\.\/assets\/([^"]+\.js)"/g)].map(
    (found) => found[1],
  );
  wanted.push(...readdirSync(assets).filter((name) => /^(worker|engine)-.*\.js$/.test(name)));
  for (let i = 0; i < wanted.length; i++) {
    const text = readFileSync(join(assets, wanted[i]), 'utf8');
    for (const [, name] of text.matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g)) if (!wanted.includes(name)) wanted.push(name);
  }
  return new Set(wanted);
}

const now = first();
const sums = { js: kB(join(dist, 'sw.js')), css: 0, wasm: 0 };
let later = 0;
for (const name of readdirSync(assets)) {
  const kind = extname(name).slice(1);
  if (!(kind in sums)) continue;
  const counts = kind === 'js' ? now.has(name) : kind === 'wasm' ? basename(name).startsWith('engine') : true;
  if (counts) sums[kind] += kB(join(assets, name));
  else later += kB(join(assets, name));
}
let over = 0;
const say = (what, size, budget) => {
  const fits = size > 0 && size <= budget;
  if (!fits) over++;
  console.log(`${fits ? 'ok  ' : 'OVER'} ${what.padEnd(10)} ${size.toFixed(1).padStart(7)} kB gzip of ${budget}`);
};
for (const [kind, budget] of Object.entries(BUDGETS_KB)) say(kind, sums[kind], budget);
say('first load', sums.js + sums.css + sums.wasm, MOST_KB);
console.log(`     later      ${later.toFixed(1).padStart(7)} kB`);
process.exit(over > 0 ? 1 : 0);
