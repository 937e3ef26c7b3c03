// The mark sheet's own state: which spot or mark it is about. A small machine of its own, so that the
// plan, the lists and the keyboard open it alike.
import { create } from 'zustand';
import type { Job, Mark, Point } from '../engine/wire';
import { along, nearestLine } from '../plan/places';
import type { Shown } from '../store/store';
import { roundToFinger } from '../words/lengths';

export interface Draft {
  /** layer id, "support:ID" or "wall:ID" */
  on: string;
  across: number;
  up: number;
  along: number;
}

interface Sheet {
  isOpen: boolean;
  draft: Draft;
  spot?: Point;
  mark?: Mark;
  openSpot: (job: Job, shown: Shown, at: Point) => void;
  openByNumbers: (job: Job, shown: Shown) => void;
  openMark: (mark: Mark) => void;
  close: () => void;
}

type Lines = Parameters<typeof nearestLine>[0];

/** What a tap means: a spot on the layer shown, or a place along the nearest member or wall. */
export function draftAt(job: Job, shown: Shown, at: Point): Draft {
  const across = roundToFinger(at[0]);
  const up = roundToFinger(at[1]);
  if (shown.kind === 'layer') return { on: shown.id, across, up, along: 0 };
  const near = nearestLine(job[shown.kind] as unknown as Lines, at);
  const letter = shown.kind === 'supports' ? 'support' : 'wall';
  return { on: near ? `${letter}:${near.id}` : (job.layers.at(-1)?.id ?? ''), across, up, along: roundToFinger(near?.along_in ?? 0) };
}

export function spotOf(job: Job, draft: Draft): Point {
  const [kind, id] = draft.on.split(':');
  const line =
    kind === 'support' ? job.supports.find((s) => s.id === id) : kind === 'wall' ? job.walls.find((w) => w.id === id) : undefined;
  if (!line) return [draft.across, draft.up];
  return along({ from_in: line.from_in as Point, to_in: line.to_in as Point }, draft.along);
}

export const useSheet = create<Sheet>()((set) => ({
  isOpen: false,
  draft: { on: '', across: 0, up: 0, along: 0 },
  openSpot: (job, shown, at) => {
    const draft = draftAt(job, shown, at);
    set({ isOpen: true, mark: undefined, draft, spot: spotOf(job, draft) });
  },
  openByNumbers: (job, shown) => {
    const corner = job.room.outline_in[0] as Point;
    const draft = draftAt(job, shown, corner);
    set({ isOpen: true, mark: undefined, draft, spot: undefined });
  },
  openMark: (mark) => {
    const on = mark.support ? `support:${mark.support}` : mark.wall ? `wall:${mark.wall}` : (mark.layer ?? '');
    const draft = { on, across: mark.at_in?.[0] ?? 0, up: mark.at_in?.[1] ?? 0, along: mark.along_in ?? 0 };
    set({ isOpen: true, mark, draft, spot: undefined });
  },
  close: () => set({ isOpen: false, mark: undefined, spot: undefined }),
}));
