// The mark sheet's own state: which spot or mark it is about. A small machine of its own, so that the
// plan, the lists and the keyboard open it alike. What was entered and not saved stays, also when the
// tab dies: it waits until it is saved or thrown away.
import { create } from 'zustand';
import type { Job, Mark, Point } from '../engine/wire';
import { membersOf } from '../plan/members';
import { along, marksNear, nearestLine } from '../plan/places';
import type { Shown } from '../store/store';
import { formatLength, roundToFinger } from '../words/lengths';

export type Tool = Mark['tool'];
export type Reads = NonNullable<Mark['reads']>;

export interface Form {
  /** layer id, "support:ID" or "wall:ID" */
  on: string;
  across: string;
  up: string;
  along: string;
  /** how a spot on a layer is told: from two walls, or by plank and tape */
  by: 'walls' | 'plank';
  plank: string;
  tape: string;
  from: 'above' | 'below';
  face: NonNullable<Mark['face']>;
  part: NonNullable<Mark['part']>;
  tool: Tool;
  /** in editing only: a new mark is saved by its reading */
  reads?: Reads;
  percent: string;
  depth: string;
  note: string;
}

export interface Draft {
  key: string;
  form: Form;
  /** the mark that is being changed */
  mark?: string;
}

interface Sheet {
  isOpen: boolean;
  form?: Form;
  mark?: string;
  /** old marks within a finger of the tap */
  here: string[];
  tool: Tool;
  openSpot: (job: Job, shown: Shown, at: Point, below: boolean, finger_in?: number) => void;
  openByNumbers: (job: Job, shown: Shown, below: boolean) => void;
  openMark: (mark: Mark) => void;
  openDraft: (draft: Draft) => void;
  put: (part: Partial<Form>) => void;
  close: () => void;
}

type Lines = Parameters<typeof nearestLine>[0];

/** What a tap means: a spot on the layer shown, or a place along the nearest member or wall. */
export function formAt(job: Job, shown: Shown, at: Point, below: boolean, tool: Tool): Form {
  const across = formatLength(roundToFinger(at[0]));
  const up = formatLength(roundToFinger(at[1]));
  const blank: Form = {
    on: '',
    across,
    up,
    along: formatLength(0),
    by: 'walls',
    plank: '',
    tape: '',
    from: below ? 'below' : 'above',
    face: below ? 'bottom' : 'top',
    part: 'plate',
    tool,
    percent: '',
    depth: '',
    note: '',
  };
  if (shown.kind === 'layer') return { ...blank, on: shown.id };
  const lines = shown.kind === 'supports' ? membersOf(job) : job.walls;
  const near = nearestLine(lines as Lines, at);
  const letter = shown.kind === 'supports' ? 'support' : 'wall';
  return {
    ...blank,
    on: near ? `${letter}:${near.id}` : (job.layers.at(-1)?.id ?? ''),
    along: formatLength(roundToFinger(near?.along_in ?? 0)),
  };
}

export function formOf(mark: Mark): Form {
  const say = (value: number | undefined) => (value === undefined ? '' : formatLength(value));
  return {
    on: mark.support ? `support:${mark.support}` : mark.wall ? `wall:${mark.wall}` : (mark.layer ?? ''),
    across: say(mark.at_in?.[0] ?? 0),
    up: say(mark.at_in?.[1] ?? 0),
    along: say(mark.along_in ?? 0),
    by: mark.plank !== undefined && !mark.at_in ? 'plank' : 'walls',
    plank: mark.plank === undefined ? '' : String(mark.plank),
    tape: say(mark.tape_in),
    from: mark.from === 'below' ? 'below' : 'above',
    face: mark.face ?? 'top',
    part: mark.part ?? 'plate',
    tool: mark.tool,
    reads: mark.reads,
    percent: mark.mc_percent === undefined ? '' : String(mark.mc_percent),
    depth: say(mark.depth_in),
    note: mark.note ?? '',
  };
}

/** The line that a form speaks of, when it speaks of one. */
export function lineOf(job: Job, on: string): { from_in: Point; to_in: Point } | undefined {
  const [kind, id] = on.split(':');
  return kind === 'support' ? membersOf(job).find((s) => s.id === id) : kind === 'wall' ? job.walls.find((x) => x.id === id) : undefined;
}

const DRAFT = 'awlmark.draft';

/** The entry that was begun and not saved, if it belongs to this job. */
export function keptDraft(key: string): Draft | undefined {
  try {
    const draft = JSON.parse(localStorage.getItem(DRAFT) ?? 'null') as Draft | null;
    return draft && draft.key === key ? draft : undefined;
  } catch {
    return undefined;
  }
}
export function keepDraft(draft: Draft | undefined): void {
  try {
    if (draft) localStorage.setItem(DRAFT, JSON.stringify(draft));
    else localStorage.removeItem(DRAFT);
  } catch {
    // Without storage the entry lives as long as the page: nothing else can be done here.
  }
}

export const useSheet = create<Sheet>()((set, get) => ({
  isOpen: false,
  here: [],
  tool: 'awl',
  openSpot: (job, shown, at, below, finger_in = 0) => {
    const here = marksNear(job, at, Math.max(6, finger_in), () => true).map((mark) => mark.id);
    set({ isOpen: true, mark: undefined, form: formAt(job, shown, at, below, get().tool), here });
  },
  openByNumbers: (job, shown, below) => {
    const corner = job.room.outline_in[0] ?? [0, 0];
    set({ isOpen: true, mark: undefined, form: formAt(job, shown, corner, below, get().tool), here: [] });
  },
  openMark: (mark) => set({ isOpen: true, mark: mark.id, form: formOf(mark), here: [] }),
  openDraft: (draft) => set({ isOpen: true, mark: draft.mark, form: draft.form, here: [] }),
  put: (part) => {
    const { form } = get();
    if (form) set({ form: { ...form, ...part }, ...(part.tool ? { tool: part.tool } : {}) });
  },
  close: () => set({ isOpen: false, mark: undefined, form: undefined, here: [] }),
}));

export function spotOf(job: Job, form: Form, parse: (text: string) => number | undefined): Point | undefined {
  const line = lineOf(job, form.on);
  if (line) {
    const at = parse(form.along);
    return at === undefined ? undefined : along(line, at);
  }
  if (form.by === 'plank') return undefined;
  const x = parse(form.across);
  const y = parse(form.up);
  return x === undefined || y === undefined ? undefined : [x, y];
}
