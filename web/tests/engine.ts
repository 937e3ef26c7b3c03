// The real engine in Node, for the tests.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadEngine } from '../src/engine/load.mjs';
import factory from '../src/generated/engine.mjs';
import reckonFactory from '../src/generated/reckon.mjs';
import wholeFactory from '../src/generated/whole.mjs';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));
export const startEngine = () => loadEngine(factory, { wasmBinary: readFileSync(at('../src/generated/engine.wasm')) });
export const startWhole = () => loadEngine(wholeFactory, { wasmBinary: readFileSync(at('../src/generated/whole.wasm')) });
export const startReckon = () => loadEngine(reckonFactory, { wasmBinary: readFileSync(at('../src/generated/reckon.wasm')) });
export const example = (name: string) => readFileSync(at(`../../examples/${name}.json`), 'utf8');
export const examples = ['laundry-1954', 'clubhouse-washroom-1972'];
/** A small room, so that its surveys cost little; what the engine answers has tests of its own. */
export const SMALL = JSON.stringify({
  format: 'awlmark-job',
  version: 1,
  job: { name: 'Small', year_built: 1990 },
  room: {
    outline_in: [
      [0, 0],
      [48, 0],
      [48, 36],
      [0, 36],
    ],
  },
  layers: [{ id: 'deck', material: 'board', thickness_in: 0.75, runs: 'x', face_width_in: 5.5 }],
  supports: [12, 28, 44].map((x, i) => ({ id: `j${i + 1}`, from_in: [x, -4], to_in: [x, 40], size: '2x8', rests_at_in: [0, 44] })),
  sources: [{ id: 'leak', at_in: [40, 30], kind: 'supply_leak' }],
  marks: [{ id: 'm1', tool: 'awl', reads: 'sound', at_in: [10, 10], layer: 'deck' }],
});
