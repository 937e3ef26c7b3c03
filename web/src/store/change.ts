// What an act changed, in figures: the chance at its spot and the unsound area, before and after.

import type { Job, Mark, Places, Point, Survey } from '../engine/wire';
import { chanceAt, fieldOf } from '../plan/field';
import { placeOf } from '../plan/places';

export interface Change {
  label: string;
  /** Chance of unsound wood at the mark, when the act was about one. */
  spot?: { layer: string; before: number; after: number };
  areas: { layer: string; before: Band; after: Band }[];
}
interface Band {
  p10: number;
  p90: number;
}
export type Where = { layer: string; at: Point } | { line: string; along_in: number };

export function whereOf(job: Job, mark: Mark, counted: Places): Where | undefined {
  const line = mark.support ?? mark.wall;
  if (line !== undefined && mark.along_in !== undefined) return { line, along_in: mark.along_in };
  const at = placeOf(job, mark, counted);
  return at && mark.layer !== undefined ? { layer: mark.layer, at } : undefined;
}

export function chanceOf(survey: Survey, where: Where): number | undefined {
  if ('layer' in where) {
    const field = fieldOf(survey, where.layer, 'unsound');
    return field && chanceAt(field, where.at);
  }
  const line = [...survey.supports, ...survey.walls].find((item) => item.id === where.line);
  if (!line || line.along_in.length === 0) return undefined;
  let nearest = 0;
  line.along_in.forEach((along, i) => {
    if (Math.abs(along - where.along_in) < Math.abs(line.along_in[nearest]! - where.along_in)) nearest = i;
  });
  return line.p_unsound[nearest];
}

export function changeBetween(label: string, before: Survey, after: Survey, where?: Where): Change {
  const spotBefore = where && chanceOf(before, where);
  const spotAfter = where && chanceOf(after, where);
  const change: Change = { label, areas: [] };
  if (where && spotBefore !== undefined && spotAfter !== undefined)
    change.spot = { layer: 'layer' in where ? where.layer : where.line, before: spotBefore, after: spotAfter };
  for (const [layer, range] of Object.entries(after.unsound_sf)) {
    const was = before.unsound_sf[layer];
    if (was && Math.max(Math.abs(was.p10 - range.p10), Math.abs(was.p90 - range.p90)) >= 0.05)
      change.areas.push({ layer, before: was, after: range });
  }
  return change;
}
