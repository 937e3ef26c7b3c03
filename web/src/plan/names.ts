// What things are called: a person says "subfloor" and "joist 3", never an id.
import type { Job, Layer, Support, Wall } from '../engine/wire';
import { w } from '../words/en';
import { membersOf, numbered } from './members';
import { boxOf } from './view';

const STRUCTURAL = ['board', 'plank_tg', 'plywood', 'osb'];

export function layerName(job: Job, layer: Layer | string): string {
  const found = typeof layer === 'string' ? job.layers.find((item) => item.id === layer) : layer;
  if (!found) return String(layer).replaceAll('_', ' ');
  const deck = [...job.layers].reverse().find((item) => STRUCTURAL.includes(item.material));
  if (deck?.id === found.id) return w.subfloor;
  const name = w.materials[found.material];
  const alike = job.layers.filter((item) => item.material === found.material && item.id !== deck?.id);
  return alike.length > 1 ? `${name} ${alike.indexOf(found) + 1}` : name;
}

export function memberName(job: Job, member: Support | string): string {
  const members = membersOf(job);
  const found = typeof member === 'string' ? members.find((item) => item.id === member) : member;
  if (!found) return String(member);
  return `${w.roles[found.role]} ${numbered(members).get(found.id) ?? ''}`.trim();
}

/** A wall by the side of the room that it stands on. */
export function wallName(job: Job, wall: Wall | string): string {
  const found = typeof wall === 'string' ? job.walls.find((item) => item.id === wall) : wall;
  if (!found) return String(wall);
  const n = job.walls.indexOf(found) + 1;
  if (job.room.outline_in.length < 3) return `${w.wall} ${n}`;
  const box = boxOf(job.room.outline_in);
  const at = (k: 0 | 1, value: number) => Math.abs(found.from_in[k] - value) < 4 && Math.abs(found.to_in[k] - value) < 4;
  if (at(1, box.max[1])) return w.sides.top;
  if (at(1, box.min[1])) return w.sides.bottom;
  if (at(0, box.min[0])) return w.sides.left;
  if (at(0, box.max[0])) return w.sides.right;
  return `${w.wall} ${n}`;
}

/** What a shore holds: a member or a wall. */
export function heldName(job: Job, id: string): string {
  return job.walls.some((wall) => wall.id === id) ? wallName(job, id) : memberName(job, id);
}
