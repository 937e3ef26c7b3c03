// What the cards do to the plan, as pure geometry: walk the walls, close square, set a door or a fixture
// against a wall, lay out a row of members. Inches, y up.
import type { Fixture, Job, Point, Support, Wall } from '../engine/wire';
import { along, distance, inside, nearestLine } from '../plan/places';
import { boxOf } from '../plan/view';
import { type Ends, restsOf } from './rests';

export type Way = 'right' | 'up' | 'left' | 'down';
const STEP: Record<Way, Point> = { right: [1, 0], up: [0, 1], left: [-1, 0], down: [0, -1] };
const NEAR = 1e-6;

export function walked(walk: Point[], way: Way, length_in: number): Point[] {
  const from = walk.at(-1) ?? [0, 0];
  const [dx, dy] = STEP[way];
  return [...(walk.length ? walk : [[0, 0] as Point]), [from[0] + dx * length_in, from[1] + dy * length_in]];
}

/** A wall that runs slanted: so far across and so far up at once. */
export function slanted(walk: Point[], across_in: number, up_in: number): Point[] {
  const from = walk.at(-1) ?? [0, 0];
  return [...(walk.length ? walk : [[0, 0] as Point]), [from[0] + across_in, from[1] + up_in]];
}

function lastWay(walk: Point[]): 'x' | 'y' | undefined {
  const [a, b] = walk.slice(-2);
  if (!a || !b) return undefined;
  return Math.abs(a[0] - b[0]) < NEAR ? 'y' : Math.abs(a[1] - b[1]) < NEAR ? 'x' : undefined;
}

/** Corners in a row on one line are one wall. */
export function tidy(corners: Point[]): Point[] {
  const apart = corners.filter((p, i) => distance(p, corners[(i + 1) % corners.length] as Point) > NEAR);
  return apart.filter((p, i) => {
    const a = apart[(i + apart.length - 1) % apart.length] as Point;
    const b = apart[(i + 1) % apart.length] as Point;
    return Math.abs((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) > NEAR;
  });
}

function crosses(corners: Point[]): boolean {
  const side = (a: Point, b: Point, c: Point) => Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  const n = corners.length;
  for (let i = 0; i < n; i++)
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const [a, b, c, d] = [corners[i], corners[i + 1], corners[j], corners[(j + 1) % n]] as [Point, Point, Point, Point];
      if (side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0) return true;
    }
  return false;
}

export type Closed = { corners: Point[] } | { wrong: 'few' | 'crosses' };

/**
 * Back to the first corner, square: the wall that is missing, or the two. What is measured stays; the rest follows.
 * The room then lies with its low left corner at the origin, as the document has it.
 */
export function closed(walk: Point[]): Closed {
  const first = walk[0];
  const last = walk.at(-1);
  if (!first || !last || walk.length < 3) return { wrong: 'few' };
  const corners = [...walk];
  const square = Math.abs(first[0] - last[0]) < NEAR || Math.abs(first[1] - last[1]) < NEAR;
  if (!square) corners.push(lastWay(walk) === 'x' ? [last[0], first[1]] : [first[0], last[1]]);
  let found = tidy(corners);
  // The corner fell inside what was walked: the other way round is the room.
  if (!square && (crosses(found) || found.length < 4))
    found = tidy([...walk, lastWay(walk) === 'x' ? [first[0], last[1]] : [last[0], first[1]]]);
  if (found.length < 3) return { wrong: 'few' };
  if (crosses(found)) return { wrong: 'crosses' };
  const { min } = boxOf(found);
  const moved = found.map(([x, y]): Point => [x - min[0], y - min[1]]);
  const area = moved.reduce((sum, p, i) => {
    const q = moved[(i + 1) % moved.length] as Point;
    return sum + p[0] * q[1] - q[0] * p[1];
  }, 0);
  return { corners: area < 0 ? moved.reverse() : moved };
}

interface Edge {
  id: string;
  from_in: Point;
  to_in: Point;
}
export function edgesOf(outline: Point[]): Edge[] {
  return outline.map((p, i) => ({ id: String(i), from_in: p, to_in: outline[(i + 1) % outline.length] as Point }));
}

export interface Cut {
  from_in: Point;
  to_in: Point;
}
/** A door of this width in the wall nearest to the tap, slid along so that it fits; nothing when no wall is that long. */
export function doorAt(outline: Point[], at: Point, width_in: number): Cut | undefined {
  const edges = edgesOf(outline).filter((edge) => distance(edge.from_in, edge.to_in) >= width_in - NEAR);
  const near = nearestLine(edges, at);
  const edge = near && edges.find((item) => item.id === near.id);
  if (!near || !edge) return undefined;
  const length = distance(edge.from_in, edge.to_in);
  const start = Math.round(Math.min(length - width_in, Math.max(0, near.along_in - width_in / 2)) * 2) / 2;
  return { from_in: along(edge, start), to_in: along(edge, start + width_in) };
}

/** A fixture with its back to the wall nearest to the tap, pushed into the room and into a corner that is near. */
export function fixtureAt(outline: Point[], at: Point, [wide, deep]: Point): Point[] | undefined {
  const edges = edgesOf(outline);
  const near = nearestLine(edges, at);
  const edge = near && edges.find((item) => item.id === near.id);
  if (!near || !edge) return undefined;
  const length = distance(edge.from_in, edge.to_in);
  const u: Point = [(edge.to_in[0] - edge.from_in[0]) / length, (edge.to_in[1] - edge.from_in[1]) / length];
  // The outline runs counter-clockwise: the room lies to the left of each wall.
  const n: Point = [-u[1], u[0]];
  // A tub stands along the wall where it fits, else with its end to it.
  const [w, d] = wide > length + NEAR && deep <= length ? [deep, wide] : [wide, deep];
  const most = Math.max(0, length - w);
  let start = Math.min(most, Math.max(0, near.along_in - w / 2));
  const CORNER_IN = 9;
  if (start < CORNER_IN) start = 0;
  else if (most - start < CORNER_IN) start = most;
  start = Math.round(start * 2) / 2;
  const p = (s: number, t: number): Point => [edge.from_in[0] + u[0] * s + n[0] * t, edge.from_in[1] + u[1] * s + n[1] * t];
  return [p(start, 0), p(start + w, 0), p(start + w, d), p(start, d)];
}

/** Turned a quarter about its middle, kept in the room's box. */
export function turned(outline: Point[], room: Point[]): Point[] {
  const box = boxOf(outline);
  const c: Point = [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2];
  const spun = outline.map(([x, y]): Point => [c[0] - (y - c[1]), c[1] + (x - c[0])]);
  const own = boxOf(spun);
  const within = boxOf(room);
  const shift = (k: 0 | 1) => Math.max(within.min[k] - own.min[k], Math.min(0, within.max[k] - own.max[k]));
  return spun.map(([x, y]): Point => [x + shift(0), y + shift(1)]);
}

export interface RowSpec {
  size: string;
  spacing_in: number;
  runs: 'x' | 'y';
  /** the wall from which the first one is measured: the low one or the high one across the run */
  from: 'low' | 'high';
  first_in: number;
  ends: Ends;
}

/** A row of joists over the whole room, and a few inches under its walls, where they rest. */
export function rowOf(outline: Point[], spec: RowSpec, taken: { id: string }[]): Support[] {
  const box = boxOf(outline);
  const [run, across] = spec.runs === 'x' ? ([0, 1] as const) : ([1, 0] as const);
  const EXTRA_IN = 4;
  const ids = new Set(taken.map((item) => item.id));
  let n = 0;
  const nextId = () => {
    do n++;
    while (ids.has(`j${n}`));
    return `j${n}`;
  };
  const rows: Support[] = [];
  const length = box.max[run] - box.min[run] + 2 * EXTRA_IN;
  for (let at = spec.first_in; at <= box.max[across] - box.min[across] + NEAR; at += spec.spacing_in) {
    const place = spec.from === 'low' ? box.min[across] + at : box.max[across] - at;
    const point = (s: number): Point => (run === 0 ? [s, place] : [place, s]);
    rows.push({
      id: nextId(),
      role: 'joist',
      from_in: point(box.min[run] - EXTRA_IN),
      to_in: point(box.max[run] + EXTRA_IN),
      size: spec.size,
      ...restsOf(spec.ends, length),
    } as Support);
  }
  return rows;
}

/** A wall along each side of the outline, as yet without a word about what it carries. */
export function wallsOf(outline: Point[]): Wall[] {
  return edgesOf(outline).map((edge, i) => ({ id: `w${i + 1}`, from_in: edge.from_in, to_in: edge.to_in, stands_on: 'unknown' }) as Wall);
}

export function inRoom(job: Job, p: Point): boolean {
  return inside(job.room.outline_in, p);
}

export function newFixture(id: string, kind: Fixture['kind'], outline_in: Point[]): Fixture {
  return { id, kind, outline_in, stands: true } as Fixture;
}
