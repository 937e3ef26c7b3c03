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

export function label(ink: Ink, text: string, x: number, y: number, font = `600 13px ${FONT}`, colour = colours().line): void {
  ink.save();
  ink.font = font;
  ink.textAlign = 'center';
  ink.textBaseline = 'middle';
  ink.lineWidth = 4;
  ink.lineJoin = 'round';
  ink.strokeStyle = colours().halo;
  ink.strokeText(text, x, y);
  ink.fillStyle = colour;
  ink.fillText(text, x, y);
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
