// The window onto the plan: inches on the job's plan (y up) to pixels on the screen (y down) and back.
// Pure geometry; the canvas only draws what this says.
import type { Point } from '../engine/wire';

export interface View {
  /** pixels an inch */
  scale: number;
  /** where the plan's origin lies on the screen */
  x_px: number;
  y_px: number;
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

/** The whole box in the middle of the screen, with room at its edges for the dimensions. */
export function fitted(box: Box, size: Size, margin_px: number): View {
  const wide = Math.max(1, box.max[0] - box.min[0]);
  const high = Math.max(1, box.max[1] - box.min[1]);
  const room = { x: Math.max(1, size.width_px - 2 * margin_px), y: Math.max(1, size.height_px - 2 * margin_px) };
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, Math.min(room.x / wide, room.y / high)));
  return {
    scale,
    x_px: size.width_px / 2 - (scale * (box.min[0] + box.max[0])) / 2,
    y_px: size.height_px / 2 + (scale * (box.min[1] + box.max[1])) / 2,
  };
}

export function toScreen(view: View, p: Point): Pixel {
  return { x: view.x_px + view.scale * p[0], y: view.y_px - view.scale * p[1] };
}

export function toPlan(view: View, at: Pixel): Point {
  return [(at.x - view.x_px) / view.scale, (view.y_px - at.y) / view.scale];
}

export function panned(view: View, dx: number, dy: number): View {
  return { ...view, x_px: view.x_px + dx, y_px: view.y_px + dy };
}

/** Larger or smaller by `factor`, with the spot under `about` staying where it is. */
export function zoomed(view: View, factor: number, about: Pixel): View {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, view.scale * factor));
  const by = scale / view.scale;
  return { scale, x_px: about.x - by * (about.x - view.x_px), y_px: about.y - by * (about.y - view.y_px) };
}
