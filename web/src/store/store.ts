// The page's one store: the job with its steps, what the engine answered, and what is looked at.
import { create } from 'zustand';
import { type Ask, askEngine, ENDED, endSurvey, endWhole } from '../engine/client';
import { latestOnly } from '../engine/latest';
import type { Asked, Findings, Job, Mark, Paper, Places, Problem } from '../engine/wire';
import type { Question } from '../plan/field';
import { w } from '../words/en';
import { type ActName, type ArgsOf, acts } from './acts';
import { bare, surveyable } from './asked';
import { type Change, changeBetween, whereOf } from './change';
import { did, fresh, type History, redone, undone } from './history';
import { type KeptJob, newId, Shelf } from './keep';
import { type Moved, movedBetween } from './moved';

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
  /** revision of the kept job that this window stands on; 0 is not kept yet */
  rev: number;
  history?: History;
  filed?: KeptJob['filed'];
  /** places of the marks that are counted out by plank, as the engine counts */
  counted: Places;
  shown: Shown;
  question: Question;
  /** looked at from the crawl space: the plan is mirrored */
  below: boolean;
  /** The newest survey, and the job it belongs to: they differ while the engine is at work. */
  survey?: Answer;
  /** a quick field of the newest job, shown until the full one is there; nothing is told from it */
  preview?: Answer;
  whole?: Whole;
  /** what the last act moved in the whole job's figures */
  moved?: Moved;
  /** the job whose assessment failed: not asked again until the job changes */
  failed?: Job;
  /** the job whose assessment the person stopped: not asked again until they ask */
  stopped?: Job;
  surveying: boolean;
  assessing: boolean;
  stage: string;
  problems: Problem[];
  warnings: Problem[];
  change?: Change;
  /** one thing that the person should know now: what another window did, what this browser lost */
  note?: string;
  open: (text: string, key?: string, asked?: Asked) => Promise<boolean>;
  begin: (job: Job) => Promise<void>;
  openKept: (key: string) => Promise<boolean>;
  openLast: () => Promise<boolean>;
  perform: <N extends ActName>(name: N, args: ArgsOf<N>) => void;
  undo: () => void;
  redo: () => void;
  show: (shown: Shown) => void;
  ask: (question: Question) => void;
  lookFrom: (below: boolean) => void;
  askWhole: () => Promise<void>;
  stopWhole: () => void;
  askAgain: () => void;
  tell: (note: string | undefined) => void;
  markFiled: () => Promise<void>;
  dismiss: (what: 'problems' | 'change' | 'note' | 'moved') => void;
}

/** Word to the other windows of this page: this job has a new revision. */
export interface Channel {
  post: (message: { key: string; rev: number }) => void;
  listen: (hear: (message: { key: string; rev: number }) => void) => void;
}
export interface World {
  ask: Ask;
  shelf: Shelf;
  now: () => Date;
  channel?: Channel;
  /** ends the whole job's thread */
  endWhole?: () => void;
  /** ends the survey's thread where it has been at an older job for long */
  endSurvey?: () => void;
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

/** Past this many marks a coarse field is shown before the fine one. */
const COARSE_FROM = 24;
const COARSE = { cell_in: 6, draws: 200 };

export function makeStore(world: World) {
  const store = create<State>()((set, get) => {
    interface Wanted {
      job: Job;
      label?: string;
      mark?: Mark;
    }
    const survey = latestOnly<Wanted>(async ({ job, label, mark }) => {
      const asked = bare(job);
      if (job.marks.some((item) => item.plank !== undefined && !item.at_in)) {
        const read = await world.ask({ do: 'read', job: asked });
        if (read.ok) set({ counted: read.value.places });
      }
      const overtaken = () => get().history?.job !== job;
      if (job.marks.length >= COARSE_FROM) {
        const first = await world.ask({ do: 'survey', job: asked, options: COARSE });
        if (overtaken()) return;
        if (first.ok) set({ preview: { job, findings: first.value } });
      }
      const reply = await world.ask({ do: 'survey', job: asked });
      const { survey: before } = get();
      const surveying = overtaken();
      if (!reply.ok && reply.problems[0]?.what === ENDED) return;
      if (!reply.ok) return set({ problems: reply.problems, warnings: reply.warnings, surveying });
      const after = reply.value;
      const change =
        before && label && before.findings.survey.grid.cell_in === after.survey.grid.cell_in
          ? changeBetween(label, before.findings.survey, after.survey, mark && whereOf(job, mark, get().counted))
          : undefined;
      set({
        survey: { job, findings: after },
        preview: undefined,
        warnings: [...reply.warnings, ...after.warnings],
        problems: [],
        change,
        surveying,
      });
    });

    /** `kept`: it stands in the database as it is; only looking at a job writes nothing. */
    function turnTo(history: History, label?: string, mark?: Mark, kept = false): void {
      const { job } = history;
      const ready = surveyable(job);
      world.endWhole?.();
      if (get().surveying) world.endSurvey?.();
      set({ history, surveying: ready, change: undefined, ...(ready ? {} : { survey: undefined, preview: undefined }) });
      const { shown } = get();
      if (shown.kind === 'layer' ? !job.layers.some((layer) => layer.id === shown.id) : job[shown.kind].length === 0)
        set({ shown: firstShown(job) });
      if (!kept) keep();
      if (ready) survey({ job, label, mark });
    }

    // One write at a time, the newest history last.
    const writing = latestOnly<{ key: string }>(async ({ key }) => {
      const { history, rev } = get();
      if (!history || get().key !== key) return;
      try {
        const written = await world.shelf.keep(key, history, world.now(), rev);
        if (!written.ok) return await meet(written.theirs);
        if (get().key === key) {
          set({ rev: written.rev });
          common = history.job;
        }
        world.channel?.post({ key, rev: written.rev });
      } catch (error) {
        const what = error instanceof Error ? error.message : String(error);
        set({ problems: [{ at: '', what: `${w.faults.notKept}: ${what}`, mend: w.faults.notKeptMend }] });
      }
    });
    function keep(): void {
      const { key, history } = get();
      if (history) writing({ key });
    }

    // The last state that this window and the database had in common.
    let common: Job | undefined;

    /** Another window wrote this job since: the engine puts both together, item by item. */
    async function meet(theirs: KeptJob): Promise<void> {
      const { history, key } = get();
      if (!history) return;
      const merged = await world.ask({ do: 'merge', base: common, ours: history.job, theirs: theirs.history.job });
      const read = merged.ok ? await world.ask({ do: 'read', job: bare(merged.value.merged) }) : merged;
      if (!merged.ok || !read.ok) return part(theirs);
      const { history: now } = get();
      if (get().key !== key || !now) return;
      const both = did(theirs.history, w.acts.merged, (draft) => acts.takeMerged.change(draft, { job: merged.value.merged }));
      // An act done while the engine was at it makes one more round.
      if (now !== history) return meet(theirs);
      common = theirs.history.job;
      const said = merged.value.conflicts.map((conflict) => conflict.why);
      set({ rev: theirs.rev ?? 1, note: [w.notes.merged, ...said].join(' ') });
      turnTo(both, w.acts.merged);
    }

    /** What cannot be put together is kept side by side: theirs as it is, mine under a new name. */
    async function part(theirs: KeptJob): Promise<void> {
      const { history } = get();
      if (!history) return;
      const known = (await world.shelf.all()).map((item) => item.key);
      const key = newId(known, 'j');
      const mine = did(history, w.acts.parted, (draft) => {
        draft.job.name = `${draft.job.name || w.unnamed} ${w.secondWindow}`;
      });
      set({ key, rev: 0, history: mine, note: `${w.notes.parted} ${theirs.name || w.unnamed}` });
      keep();
    }

    function start(kept: Pick<KeptJob, 'key' | 'history' | 'filed'> & { rev?: number }): void {
      const { job } = kept.history;
      common = job;
      set({
        key: kept.key,
        rev: kept.rev ?? 0,
        filed: kept.filed,
        shown: firstShown(job),
        question: 'unsound',
        survey: undefined,
        preview: undefined,
        whole: undefined,
        moved: undefined,
        failed: undefined,
        stopped: undefined,
        counted: {},
        problems: [],
        warnings: [],
        note: undefined,
      });
      turnTo(kept.history, undefined, undefined, kept.rev !== undefined);
      if (kept.rev !== undefined) void world.shelf.settings.put({ name: 'last job', value: kept.key });
    }

    world.channel?.listen(async ({ key, rev }) => {
      if (get().key !== key || rev <= get().rev) return;
      const kept = await world.shelf.jobs.get(key);
      if (!kept || get().key !== key || kept.rev <= get().rev) return;
      world.endWhole?.();
      common = kept.history.job;
      set({ rev: kept.rev, filed: kept.filed, history: kept.history, surveying: surveyable(kept.history.job), note: w.notes.otherWindow });
      if (surveyable(kept.history.job)) survey({ job: kept.history.job });
    });

    const freshKey = async () =>
      newId(
        (await world.shelf.all()).map((item) => item.key),
        'j',
      );

    return {
      key: '',
      rev: 0,
      counted: {},
      shown: { kind: 'supports' },
      question: 'unsound',
      below: false,
      surveying: false,
      assessing: false,
      stage: '',
      problems: [],
      warnings: [],

      async open(text, key, asked) {
        const reply = await world.ask({ do: 'read', text });
        if (!reply.ok) {
          set({ problems: reply.problems });
          return false;
        }
        start({ key: key ?? (await freshKey()), history: fresh(asked ? { ...reply.value.job, asked } : reply.value.job) });
        return true;
      },
      async begin(job) {
        start({ key: await freshKey(), history: fresh(job) });
      },
      async openKept(key) {
        const kept = await world.shelf.jobs.get(key);
        if (kept) start({ ...kept, rev: kept.rev ?? 1 });
        return kept !== undefined;
      },
      async openLast() {
        const kept = await world.shelf.last();
        if (kept) start({ ...kept, rev: kept.rev ?? 1 });
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
        if (history?.past.length) turnTo(undone(history), `${w.undone}: ${history.past.at(-1)?.label}`);
      },
      redo() {
        const { history } = get();
        if (history?.future.length) turnTo(redone(history), `${w.doneAgain}: ${history.future[0]?.label}`);
      },
      show: (shown) => set({ shown }),
      ask: (question) => set({ question }),
      lookFrom: (below) => set({ below }),
      async askWhole() {
        const { history, key, assessing, failed, stopped, whole } = get();
        const job = history?.job;
        if (!job || !surveyable(job) || whole?.job === job || failed === job || stopped === job || assessing) return;
        set({ assessing: true, stage: '' });
        const reply = await world.ask({ do: 'papers', job: bare(job) }, (stage) => set({ stage }));
        if (reply.ok) {
          const { findings, papers } = reply.value;
          const label = history.past.at(-1)?.label;
          const moved = whole && label && get().key === key ? movedBetween(label, whole, { findings }) : undefined;
          set({ whole: { job, findings, papers }, moved, assessing: false, stage: '' });
        } else if (reply.problems[0]?.what === ENDED) set({ assessing: false, stage: '' });
        else set({ problems: reply.problems, failed: job, assessing: false, stage: '' });
      },
      stopWhole() {
        set({ stopped: get().history?.job });
        world.endWhole?.();
      },
      askAgain() {
        set({ stopped: undefined, failed: undefined });
        void get().askWhole();
      },
      tell: (note) => set({ note }),
      async markFiled() {
        const { key } = get();
        await world.shelf.filed(key, world.now());
        const kept = await world.shelf.jobs.get(key);
        if (get().key === key) set({ filed: kept?.filed });
      },
      dismiss: (what) => set(what === 'problems' ? { problems: [] } : { [what]: undefined }),
    };
  });
  return store;
}

function broadcast(): Channel | undefined {
  if (typeof BroadcastChannel === 'undefined') return undefined;
  const channel = new BroadcastChannel('awlmark');
  return {
    post: (message) => channel.postMessage(message),
    listen: (hear) => channel.addEventListener('message', (event) => hear(event.data)),
  };
}

export const useStore = makeStore({ ask: askEngine, shelf: new Shelf(), now: () => new Date(), channel: broadcast(), endWhole, endSurvey });
