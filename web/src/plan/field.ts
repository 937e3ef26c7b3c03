// The condition field as the page reads it: chances by cell, what they mean, and what changed.
import type { Point, Survey } from '../engine/wire';

export type Question = 'unsound' | 'gone' | 'wet';
export type Grid = Survey['grid'];
export interface Field {
  grid: Grid;
  p: (number | null)[];
}

const KEYS = { unsound: 'p_unsound', gone: 'p_gone', wet: 'p_wet' } as const;

export function fieldOf(survey: Survey, layer: string, question: Question): Field | undefined {
  const found = survey.layers.find((item) => item.layer === layer);
  return found && { grid: survey.grid, p: found[KEYS[question]] };
}

/** The chance at a spot; undefined outside the room and where the layer is missing. */
export function chanceAt(field: Field, p: Point): number | undefined {
  const { grid } = field;
  const i = Math.floor((p[0] - grid.origin_in[0]!) / grid.cell_in);
  const j = Math.floor((p[1] - grid.origin_in[1]!) / grid.cell_in);
  // A spot on the far edge belongs to the last cell.
  const column = i === grid.nx && p[0] <= grid.origin_in[0]! + grid.nx * grid.cell_in ? i - 1 : i;
  const row = j === grid.ny && p[1] <= grid.origin_in[1]! + grid.ny * grid.cell_in ? j - 1 : j;
  if (column < 0 || row < 0 || column >= grid.nx || row >= grid.ny) return undefined;
  return field.p[row * grid.nx + column] ?? undefined;
}

/**
 * How thick the fog lies where the chance is p: 0 (we can tell) to 1 (as good as a coin).
 * It is the uncertainty of the answer in bits, so 'likely sound, but not looked at' keeps a thin fog.
 */
export function fogOf(p: number): number {
  if (p <= 0 || p >= 1) return 0;
  return -(p * Math.log2(p) + (1 - p) * Math.log2(1 - p));
}

/** How far a look lifts the fog: half gone at this distance, about the spacing of openings. */
export const LOOK_REACH_IN = 15;

/** How well a spot was looked at: 1 where somebody read the layer, falling with the distance from it. */
export function lookedAt(looks: Point[], p: Point): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const look of looks) nearest = Math.min(nearest, Math.hypot(look[0] - p[0], look[1] - p[1]));
  return Number.isFinite(nearest) ? 2 ** -((nearest / LOOK_REACH_IN) ** 2) : 0;
}

export interface Rect {
  x_in: number;
  y_in: number;
  wide_in: number;
}
/** Cells whose chance lies in [low, high), as runs along x: fewer rectangles to draw. */
export function runs(field: Field, low: number, high: number): Rect[] {
  const { grid, p } = field;
  const out: Rect[] = [];
  for (let j = 0; j < grid.ny; j++) {
    let start = -1;
    for (let i = 0; i <= grid.nx; i++) {
      const value = i < grid.nx ? p[j * grid.nx + i] : null;
      const within = value !== null && value !== undefined && value >= low && value < high;
      if (within && start < 0) start = i;
      if (!within && start >= 0) {
        out.push({
          x_in: grid.origin_in[0]! + start * grid.cell_in,
          y_in: grid.origin_in[1]! + j * grid.cell_in,
          wide_in: (i - start) * grid.cell_in,
        });
        start = -1;
      }
    }
  }
  return out;
}
