// The page's side of the engine's thread.
import { proxy, type Remote, wrap } from 'comlink';
import type { Reply, Request, ValueOf } from './wire';
import type { EngineThread } from './worker';

let thread: Remote<EngineThread> | undefined;

function started(): Remote<EngineThread> {
  thread ??= wrap<EngineThread>(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }));
  return thread;
}

export type Ask = <R extends Request>(request: R, onStage?: (stage: string) => void) => Promise<Reply<ValueOf<R>>>;

// A fault of the thread itself (no memory, no WebAssembly) comes back as a problem like any other.
export const askEngine: Ask = async <R extends Request>(request: R, onStage?: (stage: string) => void) => {
  try {
    const run = started().run as unknown as Ask;
    return await run(request, onStage ? proxy(onStage) : undefined);
  } catch (error) {
    const what = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      problems: [{ at: '', what: `the engine stopped: ${what}`, mend: 'reload the page; the job is kept' }],
      warnings: [],
    };
  }
};
