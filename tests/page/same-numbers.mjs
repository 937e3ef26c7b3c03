// The same job gives the same findings on every door: native program against WebAssembly in Node.
//   node tests/page/same-numbers.mjs [--native build/release/awlmark] [--wasm build/wasm/engine] [JOB...]
// Figures agree to 1e-9, relative; everything else, exactly. Keys too.
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const args = process.argv.slice(2);
function option(name, usual) {
  const at = args.indexOf(name);
  return resolve(root, at < 0 ? usual : args.splice(at, 2)[1]);
}
const native = option('--native', 'build/release/awlmark');
const wasm = option('--wasm', 'build/wasm/engine');
const examples = join(root, 'examples');
const jobs = args.length > 0 ? args.map((job) => resolve(job)) : readdirSync(examples).filter((name) => name.endsWith('.json')).map((name) => join(examples, name));

const RELATIVE = 1e-9;
// Figures this near to nothing are differences of larger ones: they agree to the rounding of those.
const NOTHING = 1e-12;

export function differences(a, b, at = '') {
  if (typeof a === 'number' && typeof b === 'number') {
    const apart = Math.abs(a - b);
    return apart <= Math.max(NOTHING, RELATIVE * Math.max(Math.abs(a), Math.abs(b))) ? [] : [`${at}: ${a} native, ${b} WebAssembly`];
  }
  if (a === null || b === null || typeof a !== 'object' || typeof b !== 'object') return a === b ? [] : [`${at}: ${JSON.stringify(a)} native, ${JSON.stringify(b)} WebAssembly`];
  if (Array.isArray(a) !== Array.isArray(b)) return [`${at}: a list on one side only`];
  const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return keys.flatMap((key) => {
    const place = Array.isArray(a) ? `${at}[${key}]` : at ? `${at}.${key}` : key;
    if (!(key in a) || !(key in b)) return [`${place}: only ${key in a ? 'native' : 'WebAssembly'}`];
    return differences(a[key], b[key], place);
  });
}

const { loadEngine } = await import(pathToFileURL(join(root, 'web/src/engine/load.mjs')).href);
const factory = (await import(pathToFileURL(join(wasm, 'whole.mjs')).href)).default;
const engine = await loadEngine(factory, { wasmBinary: readFileSync(join(wasm, 'whole.wasm')) });

// A comparison that cannot fail proves nothing: it has to see these first.
const seen = [
  [{ a: [1, 2] }, { a: [1, 2 * (1 + 1e-10)] }, 0],
  [{ a: [1, 2] }, { a: [1, 2 * (1 + 1e-8)] }, 1],
  [{ a: 1 }, { a: 1, b: null }, 1],
  [{ a: 'x', n: null }, { a: 'y', n: 0 }, 2],
  [[1, 2], [1, 2, 3], 1],
];
for (const [a, b, expected] of seen)
  if (differences(a, b).length !== expected) throw new Error(`the comparison is broken: ${JSON.stringify([a, b])}`);

let passed = 0;
let failed = 0;
function count(figures) {
  return typeof figures === 'number' ? 1 : figures && typeof figures === 'object' ? Object.values(figures).reduce((sum, item) => sum + count(item), 0) : 0;
}
for (const job of jobs) {
  const start = process.hrtime.bigint();
  const said = JSON.parse(execFileSync(native, ['assess', job, '--json'], { maxBuffer: 1 << 28, encoding: 'utf8' }));
  const middle = process.hrtime.bigint();
  const reply = engine.run({ do: 'assess', text: readFileSync(job, 'utf8') });
  const end = process.hrtime.bigint();
  const found = reply.ok ? differences(said, reply.value) : reply.problems.map((problem) => `WebAssembly refuses ${problem.at}: ${problem.what}`);
  const ms = (from, to) => Number((to - from) / 1000000n);
  const figures = count(said);
  if (found.length === 0 && figures > 100) passed++;
  else failed++;
  console.log(`${found.length === 0 ? 'ok  ' : 'FAIL'}  ${relative(root, job)}: ${figures} figures, native ${ms(start, middle)} ms, WebAssembly ${ms(middle, end)} ms`);
  for (const line of found.slice(0, 20)) console.error(`      ${line}`);
  if (found.length > 20) console.error(`      and ${found.length - 20} more`);
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
