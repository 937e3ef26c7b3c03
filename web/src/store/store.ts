// The page's one store: the job with its steps, what the engine answered, and what is looked at.
import { create } from 'zustand';
import { type Ask, askEngine } from '../engine/client';
import { latestOnly } from '../engine/latest';
import type { Findings, Job, Mark, Paper, Places, Problem } from '../engine/wire';
import type { Question } from '../plan/field';
import { type ActName, type ArgsOf, acts } from './acts';
import { type Change, changeBetween, whereOf } from './change';
import { did, fresh, type History, redone, undone } from './history';
import { newId, Shelf } from './keep';

/** What the plan shows: a layer by its id, the members under it, or the plates of the walls. */
export type Shown = { kind: 'layer'; id: string } | { kind: 'supports' } | { kind: 'walls' };

interface Answer {
  job: Job;
  findings: Findings;
}
export interface Whole extends Answer {
  papers: Paper[];
}

export interface State {
  key: string;
  history?: History;
  /** places of the marks that are counted out by plank, as the engine counts */
  counted: Places;
  shown: Shown;
  question: Question;
  /** The newest survey, and the job it belongs to: they differ while the engine is at work. */
  survey?: Answer;
  whole?: Whole;
  /** the job whose assessment failed: not asked again until the job changes */
  failed?: Job;
  surveying: boolean;
  assessing: boolean;
  stage: string;
  problems: Problem[];
  warnings: Problem[];
  change?: Change;
  open: (text: string, key?: string) => Promise<boolean>;
  openKept: (key: string) => Promise<boolean>;
  openLast: () => Promise<boolean>;
  perform: <N extends ActName>(name: N, args: ArgsOf<N>) => void;
  undo: () => void;
  redo: () => void;
  show: (shown: Shown) => void;
  ask: (question: Question) => void;
  askWhole: () => Promise<void>;
  dismiss: (what: 'problems' | 'change') => void;
}

export interface World {
  ask: Ask;
  shelf: Shelf;
  now: () => Date;
}

export function jobOf(state: State): Job | undefined {
  return state.history?.job;
}

/** The layer to show first: what holds people up, which is where the answer matters. */
function firstShown(job: Job): Shown {
  const deck = [...job.layers].reverse().find((layer) => ['board', 'plank_tg', 'plywood', 'osb'].includes(layer.material));
  const layer = deck ?? job.layers.at(-1);
  return layer ? { kind: 'layer', id: layer.id } : { kind: 'supports' };
}

export function makeStore(world: World) {
  return create<State>()((set, get) => {
    interface Wanted {
      job: Job;
      label?: string;
      mark?: Mark;
    }
    const survey = latestOnly<Wanted>(async ({ job, label, mark }) => {
      if (job.marks.some((item) => item.plank !== undefined && !item.at_in)) {
        const read = await world.ask({ do: 'read', job });
        if (read.ok) set({ counted: read.value.places });
      }
      const reply = await world.ask({ do: 'survey', job });
      const { survey: before, history } = get();
      const surveying = history?.job !== job;
      if (!reply.ok) return set({ problems: reply.problems, warnings: reply.warnings, surveying });
      const after = reply.value;
      const change =
        before && label ? changeBetween(label, before.findings.survey, after.survey, mark && whereOf(job, mark, get().counted)) : undefined;
      set({ survey: { job, findings: after }, warnings: [...reply.warnings, ...after.warnings], problems: [], change, surveying });
    });

    function turnTo(history: History, label?: string, mark?: Mark): void {
      set({ history, surveying: true, change: undefined });
      void keep();
      survey({ job: history.job, label, mark });
    }

    async function keep(): Promise<void> {
      const { key, history } = get();
      if (!history) return;
      try {
        await world.shelf.keep(key, history, world.now());
      } catch (error) {
        const what = error instanceof Error ? error.message : String(error);
        set({
          problems: [{ at: '', what: `this browser did not keep the job: ${what}`, mend: 'save the job as a file (menu, Save file)' }],
        });
      }
    }

    function start(key: string, history: History): void {
      set({ key, shown: firstShown(history.job), question: 'unsound', survey: undefined, whole: undefined, problems: [], warnings: [] });
      turnTo(history);
    }

    return {
      key: '',
      counted: {},
      shown: { kind: 'supports' },
      question: 'unsound',
      surveying: false,
      assessing: false,
      stage: '',
      problems: [],
      warnings: [],

      async open(text, key) {
        const reply = await world.ask({ do: 'read', text });
        if (!reply.ok) {
          set({ problems: reply.problems });
          return false;
        }
        const known = (await world.shelf.all()).map((item) => item.key);
        start(key ?? newId(known, 'j'), fresh(reply.value.job));
        return true;
      },
      async openKept(key) {
        const kept = await world.shelf.jobs.get(key);
        if (kept) start(kept.key, kept.history);
        return kept !== undefined;
      },
      async openLast() {
        const kept = await world.shelf.last();
        if (kept) start(kept.key, kept.history);
        return kept !== undefined;
      },
      perform(name, args) {
        const { history } = get();
        if (!history) return;
        // The table pairs each name with its own arguments; TypeScript cannot follow that through an index.
        const act = acts[name] as { label: (args: unknown, job: Job) => string; change: (draft: Job, args: unknown) => void };
        const label = act.label(args, history.job);
        const next = did(history, label, (draft) => act.change(draft, args));
        if (next !== history) turnTo(next, label, (args as { mark?: Mark }).mark);
      },
      undo() {
        const { history } = get();
        if (history?.past.length) turnTo(undone(history), `Undone: ${history.past.at(-1)?.label}`);
      },
      redo() {
        const { history } = get();
        if (history?.future.length) turnTo(redone(history), `Done again: ${history.future[0]?.label}`);
      },
      show: (shown) => set({ shown }),
      ask: (question) => set({ question }),
      async askWhole() {
        const job = get().history?.job;
        if (!job || get().whole?.job === job || get().failed === job || get().assessing) return;
        set({ assessing: true, stage: '' });
        const reply = await world.ask({ do: 'papers', job }, (stage) => set({ stage }));
        if (reply.ok) set({ whole: { job, findings: reply.value.findings, papers: reply.value.papers }, assessing: false, stage: '' });
        else set({ problems: reply.problems, failed: job, assessing: false, stage: '' });
      },
      dismiss: (what) => set(what === 'problems' ? { problems: [] } : { change: undefined }),
    };
  });
}

export const useStore = makeStore({ ask: askEngine, shelf: new Shelf(), now: () => new Date() });
