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
