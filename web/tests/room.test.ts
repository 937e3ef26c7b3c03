// What the cards do to the plan: walls walked and closed, fixtures against walls, rows of members.
import { describe, expect, it } from 'vitest';
import type { Point } from '../src/engine/wire';
import { boxOf } from '../src/plan/view';
import { closed, doorAt, fixtureAt, rowOf, slanted, turned, walked } from '../src/room/geometry';
import { NOT_KNOWN } from '../src/room/rests';
import { pressed } from '../src/ui/LengthPad';
import { parseLength } from '../src/words/lengths';

const walk = (...walls: ['right' | 'up' | 'left' | 'down', number][]) =>
  walls.reduce<Point[]>((corners, [way, length]) => walked(corners, way, length), [[0, 0]]);
const areaOf = (corners: Point[]) =>
  corners.reduce((sum, p, i) => {
    const q = corners[(i + 1) % corners.length] as Point;
    return sum + (p[0] * q[1] - q[0] * p[1]) / 2;
  }, 0);

describe('walking the walls', () => {
  it('closes a rectangle after two walls and an L after four', () => {
    expect(closed(walk(['right', 96], ['up', 60]))).toEqual({
      corners: [
        [0, 0],
        [96, 0],
        [96, 60],
        [0, 60],
      ],
    });
    expect(closed(walk(['right', 96], ['up', 60], ['left', 24], ['up', 30]))).toEqual({
      corners: [
        [0, 0],
        [96, 0],
        [96, 60],
        [72, 60],
        [72, 90],
        [0, 90],
      ],
    });
  });
  it('takes any starting corner and either way round, and puts the low corner at the origin', () => {
    const made = closed(walk(['left', 96], ['down', 60]));
    expect('corners' in made && boxOf(made.corners)).toEqual({ min: [0, 0], max: [96, 60] });
    expect('corners' in made && areaOf(made.corners)).toBe(96 * 60);
    const clockwise = closed(walk(['up', 60], ['right', 96]));
    expect('corners' in clockwise && areaOf(clockwise.corners)).toBe(96 * 60);
  });
  it('takes a slanted wall, joins walls in one line, and a wall back to the start', () => {
    expect(closed(slanted(walk(['right', 96]), -12, 60))).toEqual({
      corners: [
        [0, 0],
        [96, 0],
        [84, 60],
        [0, 60],
      ],
    });
    expect(closed(walk(['right', 50], ['right', 46], ['up', 60], ['left', 96], ['down', 60]))).toEqual({
      corners: [
        [0, 0],
        [96, 0],
        [96, 60],
        [0, 60],
      ],
    });
  });
  it('refuses one wall, and walls that cross', () => {
    expect(closed(walk(['right', 96]))).toEqual({ wrong: 'few' });
    expect(closed(walk(['right', 96], ['up', 60], ['left', 48], ['down', 80], ['left', 10]))).toEqual({ wrong: 'crosses' });
  });
});

describe('things against walls', () => {
  const room: Point[] = [
    [0, 0],
    [96, 0],
    [96, 60],
    [0, 60],
  ];
  it('sets a door in the wall that was touched, and only where it fits', () => {
    expect(doorAt(room, [3, 1], 30)).toEqual({ from_in: [0, 0], to_in: [30, 0] });
    expect(doorAt(room, [95, 30], 30)).toEqual({ from_in: [96, 15], to_in: [96, 45] });
    expect(doorAt(room, [95, 30], 120)).toBeUndefined();
  });
  it('sets a tub into the corner that is near, its back to the wall, inside the room', () => {
    const tub = fixtureAt(room, [30, 59], [60, 30]) as Point[];
    expect(boxOf(tub)).toEqual({ min: [0, 30], max: [60, 60] });
    for (const at of [
      [48, 59],
      [1, 30],
      [95, 20],
      [50, 1],
    ] as Point[]) {
      const box = boxOf(fixtureAt(room, at, [20, 28]) as Point[]);
      expect(Math.min(...box.min)).toBeGreaterThanOrEqual(-1e-9);
      expect(box.max[0]).toBeLessThanOrEqual(96 + 1e-9);
      expect(box.max[1]).toBeLessThanOrEqual(60 + 1e-9);
    }
  });
  it('turns a quarter and stays in the room; four turns are none', () => {
    const tub = fixtureAt(room, [30, 59], [60, 30]) as Point[];
    const once = boxOf(turned(tub, room));
    expect([once.max[0] - once.min[0], once.max[1] - once.min[1]]).toEqual([30, 60]);
    expect(once.min[1]).toBeGreaterThanOrEqual(0);
  });
});

describe('framing by the row', () => {
  const room: Point[] = [
    [0, 0],
    [112, 0],
    [112, 84],
    [0, 84],
  ];
  it('lays seven joists at 16 over 9 feet 4, whichever wall they are counted from', () => {
    const spec = {
      size: '2x8',
      spacing_in: 16,
      runs: 'y',
      from: 'low',
      first_in: 8,
      ends: { from: 'foundation', to: 'girder', middle: 'nothing' },
    } as const;
    const row = rowOf(room, spec, []);
    expect(row.map((joist) => joist.from_in[0])).toEqual([8, 24, 40, 56, 72, 88, 104]);
    expect(row.every((joist) => joist.rests.map((rest) => `${rest.end} ${rest.on}`).join() === 'from foundation,to girder')).toBe(true);
    const other = rowOf(room, { ...spec, from: 'high', ends: NOT_KNOWN }, row);
    expect(other.map((joist) => joist.from_in[0])).toEqual([104, 88, 72, 56, 40, 24, 8]);
    expect(new Set([...row, ...other].map((joist) => joist.id)).size).toBe(14);
    expect(other[0] && ('rests' in other[0] || 'rests_at_in' in other[0])).toBe(false);
  });
});

describe('big keys', () => {
  it('write lengths as people say them', () => {
    const typed = (...keys: string[]) => keys.reduce(pressed, '');
    expect(parseLength(typed('7', "'", '4', '½', '"'))).toBe(88.5);
    expect(parseLength(typed('8', '8'))).toBe(88);
    expect(parseLength(typed('¾'))).toBe(0.75);
  });
});
