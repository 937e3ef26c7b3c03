// What each stage draws on the same plan: openings, saw lines, members and shores, falls, meters.
import type { Findings, Point, Survey } from '../engine/wire';
import { w } from '../words/en';
import { money } from '../words/figures';
import { formatLength } from '../words/lengths';
import type { Picture } from './draw';
import { ink as colours } from './ink';
import { cased, FONT, type Ink, label, path, trace } from './pen';
import { along, centre } from './places';
import { boxOf, toScreen } from './view';

type Proposal = Survey['next_openings'][number] & { probes_in?: Point[]; act?: string; from?: string };

/** Side of the square that an opening is cut to; wider where its probes lie farther apart. */
export const OPENING_IN = 12;

export function squareOf(opening: Proposal): Point[] {
  const box = boxOf([opening.at_in, ...(opening.probes_in ?? [])]);
  const [x, y] = [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2];
  const wide = Math.max(OPENING_IN, box.max[0] - box.min[0] + 3) / 2;
  const high = Math.max(OPENING_IN, box.max[1] - box.min[1] + 3) / 2;
  return [
    [x - wide, y - high],
    [x + wide, y - high],
    [x + wide, y + high],
    [x - wide, y + high],
  ];
}

function drawOpenings(ink: Ink, { survey, view }: Picture): void {
  survey?.next_openings.forEach((opening, i) => {
    const square = squareOf(opening);
    path(ink, view, square);
    cased(ink, i === 0 ? 3.5 : 2, colours().opening, [9, 6]);
    for (const probe of (opening as Proposal).probes_in ?? []) {
      const { x, y } = toScreen(view, probe);
      ink.beginPath();
      ink.arc(x, y, 3, 0, 7);
      ink.fillStyle = colours().opening;
      ink.fill();
    }
    const box = boxOf(square);
    const at = toScreen(view, [(box.min[0] + box.max[0]) / 2, box.max[1]]);
    const act = (opening as Proposal).act;
    const words = act && act !== 'open' ? w.actNames[act] : undefined;
    label(
      ink,
      i === 0 ? `${words ?? w.next} ${money(opening.worth)}` : money(opening.worth),
      at.x,
      at.y - 10,
      `700 13px ${FONT}`,
      colours().opening,
    );
  });
}

function drawCut(ink: Ink, { findings, view, shown }: Picture): void {
  const cut = findings?.cut_back;
  if (!cut) return;
  const layer = shown.kind === 'layer' ? shown.id : undefined;
  for (const [id, outlines] of Object.entries(cut.outlines_in)) {
    if (layer !== undefined && id !== layer && !id.startsWith('wall:')) continue;
    ink.beginPath();
    for (const outline of outlines) trace(ink, view, outline);
    ink.save();
    ink.globalAlpha = 0.16;
    ink.fillStyle = colours().saw;
    ink.fill('evenodd');
    ink.restore();
  }
  for (const edge of cut.edges) {
    if (layer !== undefined && edge.layer !== layer) continue;
    path(ink, view, [edge.from_in, edge.to_in], false);
    // A saw line is solid, a wall or a seam that is there already is dotted.
    if (edge.kind === 'at_wall' || edge.kind === 'seam') cased(ink, 2, colours().saw, [2, 5]);
    else cased(ink, 3.5, colours().saw, edge.kind === 'rip' ? [] : [14, 4]);
    const at = toScreen(view, centre([edge.from_in, edge.to_in]));
    if (edge.length_in * view.scale > 46 && edge.kind !== 'at_wall')
      label(ink, formatLength(edge.length_in), at.x, at.y - 9, `600 12px ${FONT}`, colours().saw);
  }
  for (const block of cut.blocking) {
    path(ink, view, [block.from_in, block.to_in], false);
    cased(ink, 6, colours().line, [4, 3]);
  }
}

type Framed = NonNullable<Findings['floor']>['framing'][number];

function drawFloor(ink: Ink, { findings, view }: Picture): void {
  const floor = findings?.floor;
  if (!floor) return;
  const option = floor.options.find((item) => item.id === floor.chosen);
  const failing = new Set(floor.as_found.checks.filter((check) => !check.ok).map((check) => check.member));
  const bar = (line: Framed, width: number, colour: string, dash: number[] = []) => {
    path(ink, view, [line.from_in, line.to_in], false);
    cased(ink, width, colour, dash);
  };
  for (const line of floor.framing) {
    bar(line, failing.has(line.id) ? 6 : 3, failing.has(line.id) ? colours().saw : colours().line);
    for (const lost of line.lost) {
      path(ink, view, [along(line, lost.from_in), along(line, lost.to_in)], false);
      cased(ink, 9, colours().saw, [3, 3]);
    }
  }
  for (const line of option?.framing ?? []) bar(line, 5, colours().sound, line.kind === 'blocking' ? [4, 3] : []);
  for (const shore of floor.while_open.shores) {
    const { x, y } = toScreen(view, shore.at_in);
    ink.beginPath();
    ink.rect(x - 7, y - 7, 14, 14);
    ink.moveTo(x - 7, y - 7);
    ink.lineTo(x + 7, y + 7);
    ink.moveTo(x + 7, y - 7);
    ink.lineTo(x - 7, y + 7);
    cased(ink, 2.5, colours().opening);
    label(ink, `${w.shore} ${Math.round(shore.load_lb)} lb`, x, y + 18, `600 12px ${FONT}`, colours().opening);
  }
}

function drawShower(ink: Ink, { job, view }: Picture): void {
  const { shower } = job;
  if (!shower) return;
  path(ink, view, shower.outline_in);
  cased(ink, 3, colours().sound);
  const drain =
    shower.drain?.at_in ?? (shower.drain?.from_in && shower.drain.to_in ? centre([shower.drain.from_in, shower.drain.to_in]) : undefined);
  if (!drain) return;
  const reach = Math.max(...shower.outline_in.map((p) => Math.hypot(p[0] - drain[0], p[1] - drain[1])));
  ink.save();
  path(ink, view, shower.outline_in);
  ink.clip();
  const at = toScreen(view, drain);
  // A level edge falls alike to the drain: lines of equal height, every inch of the way a quarter inch lower.
  for (let ring = 1; ring <= 5; ring++) {
    path(
      ink,
      view,
      shower.outline_in.map((p) =>
        along({ from_in: drain, to_in: p }, (Math.hypot(p[0] - drain[0], p[1] - drain[1]) * ring) / 6),
      ) as Point[],
    );
    ink.lineWidth = 1;
    ink.strokeStyle = colours().sound;
    ink.stroke();
  }
  ink.restore();
  ink.beginPath();
  ink.arc(at.x, at.y, Math.max(5, Math.min(2 * view.scale, 12)), 0, 7);
  cased(ink, 3, colours().line);
  label(ink, w.drainAt, at.x, at.y + 20, `600 12px ${FONT}`);
  label(ink, formatLength(reach), at.x, at.y - 20, `500 12px ${FONT}`);
}

function drawDrying(ink: Ink, { job, view }: Picture): void {
  for (const reading of job.drying?.readings ?? []) {
    if (!reading.at_in) continue;
    const { x, y } = toScreen(view, reading.at_in);
    label(ink, `${reading.mc_percent ?? '?'}%`, x, y, `700 14px ${FONT}`, colours().opening);
  }
}

const DRAWN: Partial<Record<Picture['stage'], (ink: Ink, picture: Picture) => void>> = {
  survey: drawOpenings,
  cut_back: drawCut,
  takeoff: drawCut,
  floor: drawFloor,
  shower: drawShower,
  drying: drawDrying,
};
export function drawStage(ink: Ink, picture: Picture): void {
  DRAWN[picture.stage]?.(ink, picture);
}
