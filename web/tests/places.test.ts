import { describe, expect, it } from 'vitest';
import type { Job, Mark } from '../src/engine/wire';
import { withFog } from '../src/plan/draw';
import { chanceAt, fogOf, LOOK_REACH_IN, lookedAt, runs } from '../src/plan/field';
import { along, inside, marksNear, nearestLine, placeOf } from '../src/plan/places';

const field = {
  grid: { cell_in: 3, nx: 3, ny: 2, origin_in: [0, 0] as [number, number] },
  p: [0.1, 0.2, null, 0.7, 0.9, 0.95],
};

describe('the field', () => {
  it('gives the chance of the cell under a spot', () => {
    expect(chanceAt(field, [0, 0])).toBe(0.1);
    expect(chanceAt(field, [2.99, 3.01])).toBe(0.7);
    expect(chanceAt(field, [4, 4])).toBe(0.9);
  });
  it('takes a spot on the far edge into the last cell', () => {
    expect(chanceAt(field, [9, 6])).toBe(0.95);
  });
  it('has no chance outside the room or where the layer is missing', () => {
    expect(chanceAt(field, [7, 1])).toBeUndefined();
    expect(chanceAt(field, [-0.1, 1])).toBeUndefined();
    expect(chanceAt(field, [9.1, 1])).toBeUndefined();
    expect(chanceAt(field, [1, 6.5])).toBeUndefined();
  });
  it('lays the thickest fog where the chance is even, none where it is certain', () => {
    expect(fogOf(0.5)).toBe(1);
    expect(fogOf(0)).toBe(0);
    expect(fogOf(1)).toBe(0);
    expect(fogOf(0.2)).toBeCloseTo(fogOf(0.8), 12);
    expect(fogOf(0.05)).toBeLessThan(fogOf(0.2));
  });
  it('covers exactly the cells of a band', () => {
    expect(runs(field, 0.6, 1.01)).toEqual([{ x_in: 0, y_in: 3, wide_in: 9 }]);
    expect(runs(field, 0, 0.25)).toEqual([{ x_in: 0, y_in: 0, wide_in: 6 }]);
    expect(runs(field, 0.85, 0.92)).toEqual([{ x_in: 3, y_in: 3, wide_in: 3 }]);
  });
  it('leaves fog where nobody looked, and lifts it where somebody did', () => {
    expect(lookedAt([], [0, 0])).toBe(0);
    expect(lookedAt([[5, 5]], [5, 5])).toBe(1);
    expect(lookedAt([[0, 0]], [LOOK_REACH_IN, 0])).toBeCloseTo(0.5, 12);
    const wide = { grid: { cell_in: 3, nx: 40, ny: 1, origin_in: [0, 0] as [number, number] }, p: new Array<number>(40).fill(0.02) };
    const fogged = withFog(wide, [[1.5, 1.5]]).p as number[];
    expect(fogged[0]).toBe(0.02);
    expect(fogged[39]).toBeGreaterThanOrEqual(0.25);
    // What is known to be bad is never hidden.
    expect(withFog({ ...wide, p: new Array<number>(40).fill(0.9) }, []).p).toEqual(new Array(40).fill(0.9));
  });
});

describe('places', () => {
  const j1 = { id: 'j1', from_in: [16, 0] as [number, number], to_in: [16, 72] as [number, number] };
  const j2 = { id: 'j2', from_in: [32, 72] as [number, number], to_in: [32, 0] as [number, number] };

  it('finds the nearest member and how far along it a finger is', () => {
    expect(nearestLine([j1, j2], [17, 30])).toEqual({ id: 'j1', along_in: 30, away_in: 1 });
    expect(nearestLine([j1, j2], [31, 30])).toEqual({ id: 'j2', along_in: 42, away_in: 1 });
    expect(nearestLine([j1, j2], [24, 10])?.id).toBe('j1');
    expect(nearestLine([], [0, 0])).toBeUndefined();
    expect(along(j2, 42)).toEqual([32, 30]);
  });
  it('keeps a finger beyond the end of a member at its end', () => {
    expect(nearestLine([j1], [16, 90])).toEqual({ id: 'j1', along_in: 72, away_in: 18 });
  });
  it('knows inside from outside in a room with a corner cut out', () => {
    const ell: [number, number][] = [
      [0, 0],
      [10, 0],
      [10, 5],
      [5, 5],
      [5, 10],
      [0, 10],
    ];
    expect(inside(ell, [2, 8])).toBe(true);
    expect(inside(ell, [8, 2])).toBe(true);
    expect(inside(ell, [8, 8])).toBe(false);
  });

  const marks: Mark[] = [
    { id: 'a', tool: 'awl', reads: 'soft', at_in: [10, 10], layer: 'deck' },
    { id: 'b', tool: 'awl', reads: 'soft', at_in: [12, 10], layer: 'under' },
    { id: 'c', tool: 'awl', reads: 'soft', support: 'j1', along_in: 10 },
    { id: 'd', tool: 'awl', reads: 'soft', plank: 2, tape_in: 4, layer: 'deck' },
  ];
  const job = { marks, supports: [j1], walls: [] } as unknown as Job;
  it('places marks on layers and along members, and leaves plank counts to the engine', () => {
    expect(marks.map((mark) => placeOf(job, mark))).toEqual([[10, 10], [12, 10], [16, 10], undefined]);
  });
  it('offers the marks under a finger, nearest first, of what is shown', () => {
    expect(marksNear(job, [12.5, 10], 4, () => true).map((mark) => mark.id)).toEqual(['b', 'a', 'c']);
    expect(marksNear(job, [12.5, 10], 4, (mark) => mark.layer === 'deck').map((mark) => mark.id)).toEqual(['a']);
    expect(marksNear(job, [50, 50], 4, () => true)).toEqual([]);
  });
});
