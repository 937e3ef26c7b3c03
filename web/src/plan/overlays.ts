// What each stage draws on the same plan: openings, saw lines, members and shores, falls, meters.
import type { Findings, Point, Survey } from '../engine/wire';
import { w } from '../words/en';
import { money } from '../words/figures';
import { formatLength } from '../words/lengths';
import type { Picture } from './draw';
import { ink as colours } from './ink';
import { drawDrying, drawShower } from './overlaysWet';
import { cased, FONT, type Ink, label, path, trace } from './pen';
import { along, centre, placeOf } from './places';
import { boxOf, toScreen } from './view';

type Proposal = Survey['next_openings'][number] & { probes_in?: Point[]; act?: string; from?: string };

/** Side of the square that an opening is cut to; wider where its probes lie farther apart. */
export const OPENING_IN = 12;

/** The opening as it is cut: about its probes, at a wall pushed into the room. */
export function squareOf(opening: Proposal, room: Point[] = []): Point[] {
  const box = boxOf([opening.at_in, ...(opening.probes_in ?? [])]);
  const walls = boxOf(room);
  const span = (k: 0 | 1): [number, number] => {
    const half = Math.max(OPENING_IN, box.max[k] - box.min[k] + 3) / 2;
    const middle = (box.min[k] + box.max[k]) / 2;
    const within = room.length > 0 && walls.max[k] - walls.min[k] >= 2 * half;
    const at = within ? Math.min(walls.max[k] - half, Math.max(walls.min[k] + half, middle)) : middle;
    return [at - half, at + half];
  };
  const [left, right] = span(0);
  const [low, high] = span(1);
  return [
    [left, low],
    [right, low],
    [right, high],
    [left, high],
  ];
}

function drawOpenings(ink: Ink, { survey, view, job }: Picture): void {
  survey?.next_openings.forEach((opening, i) => {
    const square = squareOf(opening, job.room.outline_in);
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

/** A small camera beside the spot of each photo, or of the mark that it belongs to. */
function drawPhotos(ink: Ink, { job, view, counted }: Picture): void {
  const marks = new Map(job.marks.map((mark) => [mark.id, mark]));
  const seen = new Set<string>();
  for (const photo of job.photos) {
    const mark = photo.mark ? marks.get(photo.mark) : undefined;
    const at = mark ? placeOf(job, mark, counted) : (photo.at_in as Point | undefined);
    if (!at || seen.has(at.join())) continue;
    seen.add(at.join());
    const { x, y } = toScreen(view, at);
    ink.save();
    ink.translate(x - (mark ? 17 : 0), y - (mark ? 15 : 0));
    ink.beginPath();
    ink.roundRect(-8, -5, 16, 11, 2);
    ink.rect(-3, -8, 6, 3);
    ink.fillStyle = '#fff';
    ink.fill();
    ink.lineWidth = 1.8;
    ink.strokeStyle = '#000';
    ink.stroke();
    ink.beginPath();
    ink.arc(0, 0.5, 3, 0, 7);
    ink.stroke();
    ink.restore();
  }
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
  if (picture.stage === 'survey') drawPhotos(ink, picture);
}
