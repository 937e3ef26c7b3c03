// Where things lie on the plan, and what lies under a finger. Pure geometry, in inches.
import type { Job, Mark, Places, Point, Support, Wall } from '../engine/wire';
import { marksOf, membersOf } from './members';

interface Line {
  id: string;
  from_in: Point;
  to_in: Point;
}
export interface OnLine {
  id: string;
  along_in: number;
  away_in: number;
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

export function along(line: { from_in: Point; to_in: Point }, along_in: number): Point {
  const length = distance(line.from_in, line.to_in);
  const t = length > 0 ? along_in / length : 0;
  return [line.from_in[0] + t * (line.to_in[0] - line.from_in[0]), line.from_in[1] + t * (line.to_in[1] - line.from_in[1])];
}

/** The nearest of the lines to a spot, and where along it; a tie goes to the first. */
export function nearestLine(lines: Line[], p: Point): OnLine | undefined {
  let best: OnLine | undefined;
  for (const line of lines) {
    const length = distance(line.from_in, line.to_in);
    if (length === 0) continue;
    const ux = (line.to_in[0] - line.from_in[0]) / length;
    const uy = (line.to_in[1] - line.from_in[1]) / length;
    const along_in = Math.min(length, Math.max(0, (p[0] - line.from_in[0]) * ux + (p[1] - line.from_in[1]) * uy));
    const away_in = distance(p, along(line, along_in));
    if (!best || away_in < best.away_in - 1e-9) best = { id: line.id, along_in, away_in };
  }
  return best;
}

/** Where a mark lies. One that is counted out by plank and tape lies where the engine says (`counted`). */
export function placeOf(job: Job, mark: Mark, counted: Places = {}): Point | undefined {
  if (mark.at_in) return mark.at_in as Point;
  if (mark.along_in === undefined) return counted[mark.id];
  const line: Support | Wall | undefined = mark.support
    ? membersOf(job).find((s) => s.id === mark.support)
    : job.walls.find((w) => w.id === mark.wall);
  return line ? along(line as unknown as Line, mark.along_in) : undefined;
}

/** Marks within reach of a finger, nearest first. */
export function marksNear(job: Job, p: Point, reach_in: number, shown: (mark: Mark) => boolean, counted: Places = {}): Mark[] {
  return marksOf(job)
    .filter(shown)
    .map((mark) => ({ mark, at: placeOf(job, mark, counted) }))
    .filter((item): item is { mark: Mark; at: Point } => item.at !== undefined && distance(item.at, p) <= reach_in)
    .sort((a, b) => distance(a.at, p) - distance(b.at, p))
    .map((item) => item.mark);
}

export function inside(polygon: Point[], p: Point): boolean {
  let within = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[i] as Point;
    const b = polygon[j] as Point;
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) within = !within;
  }
  return within;
}

export function centre(polygon: Point[]): Point {
  let x = 0;
  let y = 0;
  for (const p of polygon) {
    x += p[0];
    y += p[1];
  }
  return [x / Math.max(1, polygon.length), y / Math.max(1, polygon.length)];
}
