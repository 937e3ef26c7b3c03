// Brings the engine module into src/generated/ and writes the page's types from its own schemas:
// one description of the job and the findings, in C++, serves the page too.
//   npm run gen [-- --wasm DIR]     DIR holds engine.mjs and engine.wasm; build/wasm/engine is usual
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { compile } from 'json-schema-to-typescript';

const web = dirname(dirname(fileURLToPath(import.meta.url)));
const at = process.argv.indexOf('--wasm');
const from = resolve(web, at > 0 ? process.argv[at + 1] : (process.env.AWLMARK_WASM ?? '../build/wasm/engine'));
const into = join(web, 'src/generated');
const FILES = ['engine.mjs', 'engine.wasm', 'whole.mjs', 'whole.wasm', 'reckon.mjs', 'reckon.wasm'];

for (const name of FILES)
  if (!existsSync(join(from, name))) {
    console.error(`gen: ${join(from, name)} is not there. Build it first: cmake --preset wasm && ninja -C build/wasm awlmark_engine`);
    process.exit(2);
  }
mkdirSync(into, { recursive: true });
for (const name of FILES) copyFileSync(join(from, name), join(into, name));
for (const name of ['engine', 'whole', 'reckon'])
  writeFileSync(join(into, `${name}.d.mts`), "export { default } from '../engine/module';\n");

const { loadEngine } = await import(pathToFileURL(join(web, 'src/engine/load.mjs')).href);
const factory = (await import(pathToFileURL(join(into, 'reckon.mjs')).href)).default;
const engine = await loadEngine(factory, { wasmBinary: readFileSync(join(into, 'reckon.wasm')) });
const reply = engine.run({ do: 'schema' });
if (!reply.ok) throw new Error(JSON.stringify(reply.problems));

const style = { semi: true, singleQuote: true, printWidth: 140 };
const options = { bannerComment: '', ignoreMinAndMaxItems: true, style, unreachableDefinitions: false };
for (const [name, title] of [
  ['job', 'Job'],
  ['findings', 'Findings'],
]) {
  const schema = { ...reply.value[name], title };
  // Lists keep their plain type (a tuple of at least one would not take an ordinary array); a point is a pair.
  if (schema.$defs?.Point) schema.$defs.Point.tsType = '[number, number]';
  const text = await compile(schema, title, options);
  writeFileSync(
    join(into, `${name}.ts`),
    `// Written by scripts/gen.mjs from the engine's schema. Change the C++ structs, not this file.\n${text}`,
  );
}
console.log(`gen: engine and types from ${from}`);
