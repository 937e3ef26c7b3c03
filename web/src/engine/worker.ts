// The engine's thread: keeps the screen free while it reckons.
import { expose } from 'comlink';
import factory from '../generated/engine.mjs';
import { loadEngine } from './load.mjs';
import type { Engine } from './module';
import type { Reply, Request, ValueOf } from './wire';

let onStage: (stage: string) => void = () => {};
const engine: Promise<Engine> = loadEngine(factory, { onStage: (stage) => onStage(stage) });

const api = {
  async run<R extends Request>(request: R, stage?: (name: string) => void): Promise<Reply<ValueOf<R>>> {
    onStage = stage ?? (() => {});
    return (await engine).run(request);
  },
};
export type EngineThread = typeof api;
expose(api);
