// The outline as it is walked, wall by wall, and the cross on the spot that a sheet is open for.
import type { Point } from '../engine/wire';
import { formatLength } from '../words/lengths';
import { ink as colours } from './ink';
import { cased, type Ink, label, path } from './pen';
import { centre } from './places';
import { toScreen, type View } from './view';

export function drawSpot(ink: Ink, view: View, spot: Point): void {
  const { x, y } = toScreen(view, spot);
  for (const [width, colour] of [
    [6, '#fff'],
    [3, '#000'],
  ] as const) {
    ink.lineWidth = width;
    ink.strokeStyle = colour;
    ink.beginPath();
    ink.moveTo(x - 24, y);
    ink.lineTo(x + 24, y);
    ink.moveTo(x, y - 24);
    ink.lineTo(x, y + 24);
    ink.stroke();
  }
}

/** The walls typed so far: where one stands, and which way the first wall went. */
export function drawWalk(ink: Ink, view: View, walk: Point[]): void {
  path(ink, view, walk, false);
  cased(ink, 5, colours().line);
  walk.forEach((p, i) => {
    const { x, y } = toScreen(view, p);
    ink.beginPath();
    ink.arc(x, y, i === walk.length - 1 ? 9 : 5, 0, 7);
    ink.fillStyle = i === walk.length - 1 ? colours().opening : colours().line;
    ink.fill();
    const q = walk[i + 1];
    if (!q) return;
    const at = toScreen(view, centre([p, q]));
    label(ink, formatLength(Math.hypot(q[0] - p[0], q[1] - p[1])), at.x, at.y);
  });
}
