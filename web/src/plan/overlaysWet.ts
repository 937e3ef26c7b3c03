// What the wet stages draw on the plan: the pan's heights and falls, the way of the drain, the meter's log.
import type { Findings, Point } from '../engine/wire';
import { w } from '../words/en';
import { formatLength } from '../words/lengths';
import type { Picture } from './draw';
import { ink as colours } from './ink';
import { cased, FONT, type Ink, label, path } from './pen';
import { centre } from './places';
import { boxOf, toScreen, type View } from './view';

type Shower = NonNullable<Findings['shower']>;
type Pan = NonNullable<Shower['pan']>;

/** Lines of equal height as the engine laid the pan, valleys to the drain, and the heights of the edge. */
function drawPan(ink: Ink, view: View, pan: Pan): void {
  ink.save();
  ink.strokeStyle = colours().sound;
  for (const contour of pan.contours)
    for (const line of contour.lines_in as Point[][]) {
      path(ink, view, line, false);
      cased(ink, 1.6, colours().sound);
    }
  for (const valley of pan.valleys_in as Point[][]) {
    path(ink, view, valley, false);
    ink.lineWidth = 1.4;
    ink.setLineDash([3, 4]);
    ink.stroke();
  }
  ink.restore();
  // Every other line is named where it lies farthest from the drain, so that the names do not crowd it.
  pan.contours.forEach((contour, i) => {
    if (i % 2 !== pan.contours.length % 2) return;
    const points = (contour.lines_in as Point[][]).flat();
    const far = points.reduce<Point | undefined>((best, p) => (!best || p[1] - p[0] > best[1] - best[0] ? p : best), undefined);
    if (!far) return;
    const at = toScreen(view, far);
    label(ink, formatLength(contour.height_in), at.x + 4, at.y + 6, `600 11px ${FONT}`, colours().sound);
  });
  const box = boxOf(pan.planes.flatMap((plane) => plane.outline_in as Point[]));
  const edge = toScreen(view, [(box.min[0] + box.max[0]) / 2, box.min[1]]);
  label(ink, w.edgeUp(formatLength(pan.edge_height_in)), edge.x, edge.y - 11, `700 12px ${FONT}`, colours().sound);
}

/** From the weir to the vent, with the members that it crosses. */
function drawDrainRun(ink: Ink, view: View, run: NonNullable<Shower['drain_run']>): void {
  if (run.path_in.length < 2) return;
  path(ink, view, run.path_in as Point[], false);
  cased(ink, 4, run.ok ? '#0a4f8f' : colours().saw, run.ok ? [] : [8, 5]);
  for (const cross of run.crosses) {
    const { x, y } = toScreen(view, cross.at_in as Point);
    label(ink, cross.ok ? '✓' : '✕', x, y, `700 15px ${FONT}`, cross.ok ? colours().sound : colours().saw);
  }
}

export function drawShower(ink: Ink, { job, view, findings }: Picture): void {
  const { shower } = job;
  if (!shower) return;
  const outline = shower.outline_in as Point[];
  path(ink, view, outline);
  ink.save();
  ink.fillStyle = colours().paper;
  ink.globalAlpha = 0.82;
  ink.fill();
  ink.restore();
  cased(ink, 3, colours().sound);
  const found = findings?.shower;
  if (found?.pan) drawPan(ink, view, found.pan);
  if (found?.drain_run) drawDrainRun(ink, view, found.drain_run);
  for (const side of (found?.entry_in ?? []) as Point[][]) {
    path(ink, view, side, false);
    cased(ink, 6, colours().opening, [12, 6]);
  }
  const { drain } = shower;
  const ends = drain?.from_in && drain.to_in ? ([drain.from_in, drain.to_in] as Point[]) : undefined;
  if (ends) {
    path(ink, view, ends, false);
    cased(ink, 6, colours().line);
  }
  const at_in = (drain?.at_in as Point | undefined) ?? (ends && centre(ends));
  if (!at_in) return;
  const at = toScreen(view, at_in);
  if (!ends) {
    ink.beginPath();
    ink.arc(at.x, at.y, Math.max(5, Math.min(2 * view.scale, 12)), 0, 7);
    cased(ink, 3, colours().line);
  }
  label(ink, w.drainAt, at.x, at.y + 20, `600 12px ${FONT}`);
}

/** The newest reading of each spot. */
export function drawDrying(ink: Ink, { job, view }: Picture): void {
  const newest = new Map<string, { at: Point; percent: number | undefined }>();
  for (const reading of job.drying?.readings ?? [])
    if (reading.at_in) newest.set(reading.at_in.join(), { at: reading.at_in as Point, percent: reading.mc_percent });
  for (const { at, percent } of newest.values()) {
    const { x, y } = toScreen(view, at);
    label(ink, `${percent ?? '?'}%`, x, y, `700 14px ${FONT}`, colours().opening);
  }
}
