// From the sheet's entries to a mark, or to what cannot be so: each fault names its field.
import type { Job, Mark, Point } from '../engine/wire';
import { distance, inside, nearestLine } from '../plan/places';
import { edgesOf } from '../room/geometry';
import { w } from '../words/en';
import { formatLength, parseLength } from '../words/lengths';
import { type Form, lineOf, type Reads } from './sheet';

/** As far as the engine takes a mark outside the room (under walls, at the edge of the framing). */
export const MARK_REACH_IN = 24;

export interface Made {
  mark?: Mark;
  /** by the field's name, what is wrong and what would be right */
  wrong: Record<string, string>;
}

export function markOf(job: Job, form: Form, reads: Reads | undefined, base: Partial<Mark> & { id: string }): Made {
  const wrong: Record<string, string> = {};
  const length = (name: keyof Form, low: number, high: number): number => {
    const value = parseLength(String(form[name] ?? ''));
    if (value === undefined) wrong[name] = w.wrong.length;
    else if (value < low || value > high) wrong[name] = w.wrong.between(formatLength(low), formatLength(high));
    return value ?? 0;
  };
  const mark: Mark = { ...kept(base), id: base.id, tool: form.tool };
  const line = lineOf(job, form.on);
  const [kind, id] = form.on.split(':');
  if (kind === 'support' || kind === 'wall') {
    const along_in = length('along', 0, line ? distance(line.from_in, line.to_in) : 0);
    Object.assign(mark, kind === 'support' ? { support: id, along_in, face: form.face } : { wall: id, along_in, part: form.part });
  } else if (form.by === 'plank') Object.assign(mark, { layer: form.on, ...counted(job, form, wrong, length) });
  else {
    const at: Point = [length('across', -1e5, 1e5), length('up', -1e5, 1e5)];
    const beyond = outside(job, at);
    if (!wrong.across && !wrong.up && beyond > MARK_REACH_IN) wrong.across = w.wrong.outside(formatLength(beyond));
    Object.assign(mark, { at_in: at, layer: form.on });
  }
  mark.from = form.from;
  if (form.tool === 'meter') {
    const percent = Number(form.percent.replace(',', '.'));
    if (form.percent.trim() === '' || Number.isNaN(percent)) wrong.percent = w.wrong.percent;
    else if (percent < 4 || percent > 100) wrong.percent = w.wrong.percentRange;
    mark.mc_percent = percent;
  } else if (reads) mark.reads = reads;
  else wrong.reads = w.wrong.reads;
  if (form.depth.trim() !== '' && form.tool === 'awl') mark.depth_in = length('depth', 0, 24);
  if (form.note.trim() !== '') mark.note = form.note.trim();
  return Object.keys(wrong).length > 0 ? { wrong } : { mark, wrong };
}

/** Keys that the sheet has no field for stay as they came. */
function kept(base: Partial<Mark>): Partial<Mark> {
  const { width_in, wood_temp_f, height_in, by, time } = base;
  return Object.fromEntries(Object.entries({ width_in, wood_temp_f, height_in, by, time }).filter(([, value]) => value !== undefined));
}

function counted(job: Job, form: Form, wrong: Record<string, string>, length: (name: keyof Form, low: number, high: number) => number) {
  const plank = Number(form.plank);
  const layer = job.layers.find((item) => item.id === form.on);
  const across = layer?.runs === 'y' ? 0 : 1;
  const values = (k: 0 | 1) => job.room.outline_in.map((p) => p[k]);
  const span = Math.max(...values(across)) - Math.min(...values(across));
  const run = across === 1 ? 0 : 1;
  const most = layer?.face_width_in ? Math.ceil(span / layer.face_width_in) : 2000;
  if (!Number.isInteger(plank) || plank < 1 || plank > most) wrong.plank = w.wrong.plank(most);
  return { plank, tape_in: length('tape', 0, Math.max(...values(run)) - Math.min(...values(run)) + MARK_REACH_IN) };
}

/** How far outside the room a spot lies; 0 inside it. */
export function outside(job: Job, at: Point): number {
  if (inside(job.room.outline_in, at)) return 0;
  return nearestLine(edgesOf(job.room.outline_in), at)?.away_in ?? 0;
}
