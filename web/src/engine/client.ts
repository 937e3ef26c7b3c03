// The page's side of the engine's threads: one for the survey, which must stay quick, one for the whole
// job, which may be ended at any moment.
import { proxy, type Remote, wrap } from 'comlink';
import { w } from '../words/en';
import type { EngineThread } from './thread';
import type { Reply, Request, ValueOf } from './wire';

interface Running {
  worker: Worker;
  thread: Remote<EngineThread>;
  /** those who still wait: what they asked and since when; called, they are answered that the thread was ended */
  waiting: Set<Waiting>;
}
interface Waiting {
  asked: Request['do'];
  since: number;
  leave: (reply: Reply<never>) => void;
}
const running: { survey?: Running; whole?: Running } = {};

function started(which: 'survey' | 'whole'): Running {
  const known = running[which];
  if (known) return known;
  const worker =
    which === 'survey'
      ? new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
      : new Worker(new URL('./whole.worker.ts', import.meta.url), { type: 'module' });
  const made = { worker, thread: wrap<EngineThread>(worker), waiting: new Set<Waiting>() };
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
    const one: Waiting = { asked: request.do, since: performance.now(), leave: () => {} };
    const ended = new Promise<Reply<never>>((resolve) => {
      one.leave = resolve;
      waiting.add(one);
    });
    const run = thread.run as unknown as Ask;
    const reply = await Promise.race([run(request, onStage ? proxy(onStage) : undefined), ended]);
    waiting.delete(one);
    performance.measure(`engine ${request.do}${'options' in request && request.options ? ' quick' : ''}`, {
      start: one.since,
      end: performance.now(),
    });
    return reply as Reply<ValueOf<R>>;
  } catch (error) {
    const what = error instanceof Error ? error.message : String(error);
    return refusal(`${w.faults.engineStopped}: ${what}`, w.faults.engineMend);
  }
};

function end(which: 'survey' | 'whole'): void {
  const thread = running[which];
  if (!thread) return;
  thread.worker.terminate();
  running[which] = undefined;
  for (const { leave } of thread.waiting) leave(refusal(ENDED, ''));
}

/** Ends whatever the whole job's thread is at: its job is no longer the one that is open. */
export function endWhole(): void {
  if (running.whole && running.whole.waiting.size > 0) end('whole');
}

/** A survey that has run this long is worth a new thread, which costs some 50 to 100 ms; a shorter one ends by itself sooner. */
const LONG_MS = 250;

/** Ends the survey of an older job; a file that is being read or merged is never cut short. */
export function endSurvey(): void {
  const waiting = [...(running.survey?.waiting ?? [])];
  if (waiting.length === 0 || waiting.some((one) => one.asked !== 'survey')) return;
  if (Math.max(...waiting.map((one) => performance.now() - one.since)) > LONG_MS) end('survey');
}
