// The few strokes that every drawing on the plan is made of.
import type { Point } from '../engine/wire';
import { ink as colours } from './ink';
import { toScreen, type View } from './view';

export type Ink = CanvasRenderingContext2D;
export const FONT = 'system-ui, sans-serif';

export function trace(ink: Ink, view: View, points: Point[], closed = true): void {
  points.forEach((p, i) => {
    const { x, y } = toScreen(view, p);
    if (i === 0) ink.moveTo(x, y);
    else ink.lineTo(x, y);
  });
  if (closed) ink.closePath();
}

export function path(ink: Ink, view: View, points: Point[], closed = true): void {
  ink.beginPath();
  trace(ink, view, points, closed);
}

interface Taken {
  x: number;
  y: number;
  wide: number;
  high: number;
}
let taken: Taken[] = [];
/** A new picture: no name stands on it yet. */
export function clearNames(): void {
  taken = [];
}
/** Whatever is drawn here, names keep off it. */
export function keepClear(x: number, y: number, wide: number, high: number): void {
  taken.push({ x: x - wide / 2, y: y - high / 2, wide, high });
}
const meets = (a: Taken, b: Taken) => a.x < b.x + b.wide && b.x < a.x + a.wide && a.y < b.y + b.high && b.y < a.y + a.high;

/** A name beside its spot: where another stands already it moves up or down, by its own height at a time; a `fixed` one never. */
export function label(
  ink: Ink,
  text: string,
  x: number,
  y: number,
  font = `600 13px ${FONT}`,
  colour = colours().line,
  fixed = false,
): void {
  ink.save();
  ink.font = font;
  const high = Number(/(\d+)px/.exec(font)?.[1] ?? 13) + 3;
  const wide = ink.measureText(text).width + 4;
  const { a, b, e, f } = ink.getTransform();
  const ratio = Math.hypot(a, b) || 1;
  // A turned label (the height of the room) stands alone at its edge.
  const turned = Math.abs(b) > Math.abs(a);
  const at = (dy: number): Taken => ({ x: e / ratio + x - wide / 2, y: f / ratio + y + dy - high / 2, wide, high });
  const shift =
    turned || fixed ? 0 : ([0, high, -high, 2 * high, -2 * high].find((dy) => !taken.some((other) => meets(at(dy), other))) ?? 0);
  if (!turned) taken.push(at(shift));
  ink.textAlign = 'center';
  ink.textBaseline = 'middle';
  ink.lineWidth = 4;
  ink.lineJoin = 'round';
  ink.strokeStyle = colours().halo;
  ink.strokeText(text, x, y + shift);
  ink.fillStyle = colour;
  ink.fillText(text, x, y + shift);
  ink.restore();
}

/** Corners cut twice (Chaikin): a line between cells reads as a line, not as a stair. */
export function smooth(ring: Point[], times = 2): Point[] {
  let points = ring;
  for (let n = 0; n < times; n++)
    points = points.flatMap((p, i) => {
      const q = points[(i + 1) % points.length] as Point;
      return [
        [0.75 * p[0] + 0.25 * q[0], 0.75 * p[1] + 0.25 * q[1]],
        [0.25 * p[0] + 0.75 * q[0], 0.25 * p[1] + 0.75 * q[1]],
      ] as Point[];
    });
  return points;
}

/** A line with a pale edge, so that it reads on every ground. */
export function cased(ink: Ink, width: number, colour: string, dash: number[] = []): void {
  ink.save();
  ink.lineJoin = 'round';
  ink.lineWidth = width + 3.5;
  ink.strokeStyle = colours().halo;
  ink.stroke();
  ink.lineWidth = width;
  ink.strokeStyle = colour;
  ink.setLineDash(dash);
  ink.stroke();
  ink.restore();
}
