// Every change that a person makes to a job is one named act. The screens call acts by name; undo,
// redo, the list of steps and the tests follow from this table alone.
// To add one: a line in the table with its label and what it does to the draft (docs/page.md).
import type { Job, Mark, Point } from '../engine/wire';
import { spoken } from '../words/figures';
import { formatLength } from '../words/lengths';

export interface Act<Args> {
  /** What the undo button says: "Undo: awl mark, soft". */
  label: (args: Args, job: Job) => string;
  change: (draft: Job, args: Args) => void;
}

const act = <Args>(definition: Act<Args>): Act<Args> => definition;

export function markWords(mark: Mark): string {
  if (mark.tool === 'meter') return `meter ${mark.mc_percent ?? '?'}%`;
  return `${mark.tool} ${spoken(mark.reads ?? '?')}`;
}

function replace(draft: Job, mark: Mark): void {
  const at = draft.marks.findIndex((item) => item.id === mark.id);
  if (at >= 0) draft.marks[at] = mark;
}

export interface NewRoom {
  name: string;
  yearBuilt?: number;
  wide_in: number;
  deep_in: number;
}

export const acts = {
  addMark: act<{ mark: Mark }>({
    label: ({ mark }) => `${markWords(mark)}${mark.at_in ? ` at ${mark.at_in.map((v) => formatLength(v)).join(', ')}` : ''}`,
    change: (draft, { mark }) => {
      draft.marks.push(mark);
    },
  }),
  changeMark: act<{ mark: Mark }>({
    label: ({ mark }) => `change ${markWords(mark)}`,
    change: (draft, { mark }) => replace(draft, mark),
  }),
  removeMark: act<{ id: string }>({
    label: ({ id }, job) => {
      const mark = job.marks.find((item) => item.id === id);
      return `take away ${mark ? markWords(mark) : id}`;
    },
    change: (draft, { id }) => {
      draft.marks = draft.marks.filter((mark) => mark.id !== id);
      // A photo stays when its mark goes, but may not point at nothing.
      for (const photo of draft.photos ?? []) if (photo.mark === id) delete photo.mark;
    },
  }),
  setFixtureStands: act<{ id: string; stands: boolean }>({
    label: ({ id, stands }) => `${id} ${stands ? 'stands' : 'lifted'}`,
    change: (draft, { id, stands }) => {
      const fixture = draft.fixtures.find((item) => item.id === id);
      if (fixture) fixture.stands = stands;
    },
  }),
  setSourceActive: act<{ id: string; active: boolean | 'unknown' }>({
    label: ({ id, active }) => `${id} ${active === 'unknown' ? 'not known' : active ? 'still leaks' : 'stopped'}`,
    change: (draft, { id, active }) => {
      const source = draft.sources.find((item) => item.id === id);
      if (source) source.active = active as typeof source.active;
    },
  }),
  setFacts: act<{ name: string; yearBuilt?: number }>({
    label: () => 'job facts',
    change: (draft, { name, yearBuilt }) => {
      draft.job.name = name;
      if (yearBuilt === undefined) delete draft.job.year_built;
      else draft.job.year_built = yearBuilt;
    },
  }),
  setRoomSize: act<{ wide_in: number; deep_in: number }>({
    label: ({ wide_in, deep_in }) => `room ${formatLength(wide_in)} by ${formatLength(deep_in)}`,
    change: (draft, { wide_in, deep_in }) => {
      const corners: Point[] = [
        [0, 0],
        [wide_in, 0],
        [wide_in, deep_in],
        [0, deep_in],
      ];
      draft.room.outline_in = corners;
    },
  }),
} as const;

export type ActName = keyof typeof acts;
export type ArgsOf<N extends ActName> = (typeof acts)[N] extends Act<infer Args> ? Args : never;
