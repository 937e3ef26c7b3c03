// The members and readings of a document, also those that it writes once for many: a row of joists, an
// opening with its readings.
import type { Job, Mark, Point, Support } from '../engine/wire';
import { boxOf } from './view';

type Row = NonNullable<Job['rows']>[number];

function middle(job: Job): Point {
  const box = boxOf(job.room.outline_in);
  return [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2];
}

/** Square to the member, towards the middle of the room, unless the row says otherwise. */
function stepOf(job: Job, row: Row): Point {
  if (row.step !== undefined) {
    const degrees = row.step === 'x' ? 0 : row.step === 'y' ? 90 : row.step;
    return [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  }
  const dx = row.to_in[0] - row.from_in[0];
  const dy = row.to_in[1] - row.from_in[1];
  const length = Math.hypot(dx, dy) || 1;
  const across: Point = [-dy / length, dx / length];
  const [mx, my] = middle(job);
  return (mx - row.from_in[0]) * across[0] + (my - row.from_in[1]) * across[1] < 0 ? [-across[0], -across[1]] : across;
}

export function membersOf(job: Job): Support[] {
  const { rows } = job;
  if (!rows || rows.length === 0) return job.supports;
  const own = new Map(job.supports.map((support) => [support.id, support]));
  const all = [...job.supports];
  for (const row of rows) {
    const step = stepOf(job, row);
    for (let n = 1; n <= row.count; n++) {
      const id = `${row.id}.${n}`;
      if (row.missing?.includes(n) || own.has(id)) continue;
      const { spacing_in, count: _c, step: _s, missing: _m, ...same } = row;
      const by: Point = [step[0] * spacing_in * (n - 1), step[1] * spacing_in * (n - 1)];
      all.push({
        cuts: [],
        ...same,
        id,
        from_in: [row.from_in[0] + by[0], row.from_in[1] + by[1]],
        to_in: [row.to_in[0] + by[0], row.to_in[1] + by[1]],
      } as Support);
    }
  }
  return all;
}

export function marksOf(job: Job): Mark[] {
  const { openings } = job;
  if (!openings || openings.length === 0) return job.marks;
  return [
    ...job.marks,
    ...openings.flatMap((opening) =>
      (opening.readings ?? []).map((reading) => ({
        ...(reading.support || reading.wall || reading.at_in ? {} : { at_in: opening.at_in }),
        from: opening.from,
        time: opening.time,
        ...reading,
      })),
    ),
  ];
}

/** Whether the members run along x or up y, by the longest of them. */
export function runsOf(member: Pick<Support, 'from_in' | 'to_in'>): 'x' | 'y' {
  return Math.abs(member.to_in[0] - member.from_in[0]) >= Math.abs(member.to_in[1] - member.from_in[1]) ? 'x' : 'y';
}
/** Where a member stands across its run. */
export function acrossOf(member: Pick<Support, 'from_in' | 'to_in'>): number {
  const k = runsOf(member) === 'x' ? 1 : 0;
  return (member.from_in[k]! + member.to_in[k]!) / 2;
}

/** The members numbered as one calls them out: each kind and direction by itself, from the low side. */
export function numbered(members: Support[]): Map<string, number> {
  const groups = new Map<string, Support[]>();
  for (const member of members) {
    const key = `${member.role} ${runsOf(member)}`;
    groups.set(key, [...(groups.get(key) ?? []), member]);
  }
  const numbers = new Map<string, number>();
  for (const group of groups.values())
    for (const [i, member] of [...group].sort((a, b) => acrossOf(a) - acrossOf(b)).entries()) numbers.set(member.id, i + 1);
  return numbers;
}
