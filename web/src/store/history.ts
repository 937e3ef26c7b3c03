// Undo as patches: small, named, and kept with the job.
import { applyPatches, enablePatches, type Patch, produceWithPatches } from 'immer';
import type { Job } from '../engine/wire';

enablePatches();

export interface Step {
  label: string;
  forward: Patch[];
  back: Patch[];
}
export interface History {
  job: Job;
  past: Step[];
  future: Step[];
}

const MOST_STEPS = 200;

export function fresh(job: Job): History {
  return { job, past: [], future: [] };
}

/** The history after one more act; the same object when the act changed nothing. */
export function did(history: History, label: string, change: (draft: Job) => void): History {
  const [job, forward, back] = produceWithPatches(history.job, (draft) => {
    change(draft as Job);
  });
  if (forward.length === 0) return history;
  return { job, past: [...history.past, { label, forward, back }].slice(-MOST_STEPS), future: [] };
}

export function undone(history: History): History {
  const step = history.past.at(-1);
  if (!step) return history;
  return { job: applyPatches(history.job, step.back), past: history.past.slice(0, -1), future: [step, ...history.future] };
}

export function redone(history: History): History {
  const step = history.future[0];
  if (!step) return history;
  return { job: applyPatches(history.job, step.forward), past: [...history.past, step], future: history.future.slice(1) };
}
