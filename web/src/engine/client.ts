// The page's side of the engine's threads: one for the survey, which must stay quick, one for the whole
// job, which may be ended at any moment.
import { proxy, type Remote, wrap } from 'comlink';
import { w } from '../words/en';
import type { EngineThread } from './thread';
import type { Reply, Request, ValueOf } from './wire';

interface Running {
  worker: Worker;
  thread: Remote<EngineThread>;
  /** answers those who still wait when the thread is ended */
  waiting: Set<(reply: Reply<never>) => void>;
}
const running: { survey?: Running; whole?: Running } = {};

function started(which: 'survey' | 'whole'): Running {
  const known = running[which];
  if (known) return known;
  const worker =
    which === 'survey'
      ? new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
      : new Worker(new URL('./whole.worker.ts', import.meta.url), { type: 'module' });
  const made = { worker, thread: wrap<EngineThread>(worker), waiting: new Set<(reply: Reply<never>) => void>() };
  running[which] = made;
  return made;
}

export const ENDED = 'ended';
const refusal = (what: string, mend: string): Reply<never> => ({ ok: false, problems: [{ at: '', what, mend }], warnings: [] });

export type Ask = <R extends Request>(request: R, onStage?: (stage: string) => void) => Promise<Reply<ValueOf<R>>>;

// A fault of the thread itself (no memory, no WebAssembly) comes back as a problem like any other.
export const askEngine: Ask = async <R extends Request>(request: R, onStage?: (stage: string) => void) => {
  const which = request.do === 'assess' || request.do === 'papers' ? 'whole' : 'survey';
  try {
    const { thread, waiting } = started(which);
    let leave: (reply: Reply<never>) => void = () => {};
    const ended = new Promise<Reply<never>>((resolve) => {
      leave = resolve;
      waiting.add(resolve);
    });
    const run = thread.run as unknown as Ask;
    const reply = await Promise.race([run(request, onStage ? proxy(onStage) : undefined), ended]);
    waiting.delete(leave);
    return reply as Reply<ValueOf<R>>;
  } catch (error) {
    const what = error instanceof Error ? error.message : String(error);
    return refusal(`${w.faults.engineStopped}: ${what}`, w.faults.engineMend);
  }
};

/** Ends whatever the whole job's thread is at: its job is no longer the one that is open. */
export function endWhole(): void {
  const { whole } = running;
  if (!whole || whole.waiting.size === 0) return;
  whole.worker.terminate();
  running.whole = undefined;
  for (const leave of whole.waiting) leave(refusal(ENDED, ''));
}
