// The window onto the plan: inches on the job's plan (y up) to pixels on the screen (y down) and back.
// Pure geometry; the canvas only draws what this says.
import type { Point } from '../engine/wire';

export interface View {
  /** pixels an inch */
  scale: number;
  /** where the plan's origin lies on the screen */
  x_px: number;
  y_px: number;
  /** mirrored left to right, as one sees the floor lying under it */
  flip?: boolean;
}
export interface Size {
  width_px: number;
  height_px: number;
}
export interface Box {
  min: Point;
  max: Point;
}
export interface Pixel {
  x: number;
  y: number;
}

const LEAST_SCALE = 0.5;
const MOST_SCALE = 60;

export function boxOf(points: Point[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { min: [Math.min(...xs), Math.min(...ys)], max: [Math.max(...xs), Math.max(...ys)] };
}

export interface Margins {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** The whole box in the middle of what the margins leave: dimensions, and what lies over the plan. */
export function fitted(box: Box, size: Size, margin: number | Margins, flip = false): View {
  const m = typeof margin === 'number' ? { left: margin, right: margin, top: margin, bottom: margin } : margin;
  const wide = Math.max(1, box.max[0] - box.min[0]);
  const high = Math.max(1, box.max[1] - box.min[1]);
  const room = { x: Math.max(1, size.width_px - m.left - m.right), y: Math.max(1, size.height_px - m.top - m.bottom) };
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, Math.min(room.x / wide, room.y / high)));
  const way = flip ? -1 : 1;
  return {
    scale,
    x_px: m.left + room.x / 2 - (way * scale * (box.min[0] + box.max[0])) / 2,
    y_px: m.top + room.y / 2 + (scale * (box.min[1] + box.max[1])) / 2,
    ...(flip ? { flip } : {}),
  };
}

export function toScreen(view: View, p: Point): Pixel {
  return { x: view.x_px + (view.flip ? -1 : 1) * view.scale * p[0], y: view.y_px - view.scale * p[1] };
}

export function toPlan(view: View, at: Pixel): Point {
  return [((view.flip ? -1 : 1) * (at.x - view.x_px)) / view.scale, (view.y_px - at.y) / view.scale];
}

export function panned(view: View, dx: number, dy: number): View {
  return { ...view, x_px: view.x_px + dx, y_px: view.y_px + dy };
}

/** Larger or smaller by `factor`, with the spot under `about` staying where it is. */
export function zoomed(view: View, factor: number, about: Pixel): View {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, view.scale * factor));
  const by = scale / view.scale;
  return { ...view, scale, x_px: about.x - by * (about.x - view.x_px), y_px: about.y - by * (about.y - view.y_px) };
}
