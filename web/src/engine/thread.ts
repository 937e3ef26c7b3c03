// What a thread of the engine offers, whichever module it holds.
import { loadEngine } from './load.mjs';
import type { Engine, ModuleFactory } from './module';
import type { Reply, Request, ValueOf } from './wire';

export function threadOf(factory: ModuleFactory) {
  let onStage: (stage: string) => void = () => {};
  const engine: Promise<Engine> = loadEngine(factory, { onStage: (stage) => onStage(stage) });
  return {
    async run<R extends Request>(request: R, stage?: (name: string) => void): Promise<Reply<ValueOf<R>>> {
      onStage = stage ?? (() => {});
      return (await engine).run(request);
    },
  };
}
export type EngineThread = ReturnType<typeof threadOf>;
