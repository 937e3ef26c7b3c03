import { describe, expect, it } from 'vitest';
import { boxOf, fitted, panned, toPlan, toScreen, zoomed } from '../src/plan/view';

const size = { width_px: 390, height_px: 500 };
const room = boxOf([
  [0, 0],
  [108, 0],
  [108, 84],
  [0, 84],
]);

describe('the window onto the plan', () => {
  it('fits the room in the middle, y upwards', () => {
    const view = fitted(room, size, 36);
    expect(view.scale).toBeCloseTo((390 - 72) / 108, 12);
    const low = toScreen(view, [0, 0]);
    const high = toScreen(view, [108, 84]);
    expect(low.x).toBeCloseTo(36, 9);
    expect(high.x).toBeCloseTo(354, 9);
    expect((low.y + high.y) / 2).toBeCloseTo(250, 9);
    expect(low.y).toBeGreaterThan(high.y);
  });

  it('comes back from the screen to the same spot', () => {
    const view = zoomed(panned(fitted(room, size, 36), 17, -9), 2.3, { x: 100, y: 200 });
    for (const p of [
      [0, 0],
      [12.5, 80],
      [-20, 300],
    ] as [number, number][]) {
      const back = toPlan(view, toScreen(view, p));
      expect(back[0]).toBeCloseTo(p[0], 9);
      expect(back[1]).toBeCloseTo(p[1], 9);
    }
  });

  it('zooms about the spot under the finger, within limits', () => {
    const view = fitted(room, size, 36);
    const about = { x: 120, y: 300 };
    const spot = toPlan(view, about);
    for (const factor of [3, 0.4, 1e6, 1e-6]) {
      const next = zoomed(view, factor, about);
      const at = toScreen(next, spot);
      expect(at.x).toBeCloseTo(about.x, 6);
      expect(at.y).toBeCloseTo(about.y, 6);
      expect(next.scale).toBeLessThanOrEqual(60);
      expect(next.scale).toBeGreaterThanOrEqual(0.5);
    }
  });

  it('answers a room without width and a screen without size', () => {
    expect(Number.isFinite(fitted(boxOf([[5, 5]]), { width_px: 0, height_px: 0 }, 36).scale)).toBe(true);
  });
});
