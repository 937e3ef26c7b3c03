// Draws the plan. Knows nothing of React or of fingers: a picture in, ink out.
import type { Findings, Job, Mark, Places, Point, Survey } from '../engine/wire';
import type { Shown } from '../store/store';
import { w } from '../words/en';
import { spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { type Field, fieldOf, lookedAt, type Question, runs } from './field';
import { bands, ink as colours, cssOf, foggedOf, patternTile } from './ink';
import { acrossOf, marksOf, membersOf, numbered, runsOf } from './members';
import { wallName } from './names';
import { drawStage } from './overlays';
import { cased, clearNames, FONT, type Ink, keepClear, label, path, smooth, trace } from './pen';
import { along, centre, placeOf } from './places';
import { drawMark, SYMBOL_PX } from './symbols';
import { boxOf, type Pixel, type Size, toScreen, type View } from './view';
import { drawSpot, drawWalk } from './walk';

export type Stage = 'room' | 'survey' | 'hazards' | 'cut_back' | 'floor' | 'shower' | 'drying' | 'takeoff' | 'work' | 'price' | 'papers';

export interface Picture {
  job: Job;
  survey?: Survey;
  /** the job that the survey belongs to: a mark made since has lifted no fog yet */
  surveyed?: Job;
  /** the whole job's findings, for the stages after the survey */
  findings?: Findings;
  stage: Stage;
  /** places of the marks that are counted out by plank */
  counted: Places;
  shown: Shown;
  question: Question;
  view: View;
  size: Size;
  /** device pixels a screen pixel */
  ratio: number;
  selected?: string;
  /** the spot that a sheet is open for */
  spot?: Point;
  /** corners typed so far, while the outline is being described */
  walk?: Point[];
  /** the first pictures of a new job draw the walls' numbers */
  wallNumbers?: boolean;
}

/** Where somebody read this layer. */
export function looksOf(picture: Pick<Picture, 'job' | 'surveyed' | 'shown' | 'counted'>): Point[] {
  const { shown, counted } = picture;
  const job = picture.surveyed ?? picture.job;
  return marksOf(job)
    .filter((mark) => belongs(mark, shown))
    .map((mark) => placeOf(job, mark, counted))
    .filter((at): at is Point => at !== undefined);
}

/** The field one pixel a cell; cells without a chance take their neighbour's, so that edges stay clean when it is stretched. */
function cells(field: Field, question: Question, looks: Point[]): HTMLCanvasElement {
  const { nx, ny, cell_in, origin_in } = field.grid;
  const canvas = document.createElement('canvas');
  canvas.width = nx;
  canvas.height = ny;
  const ink = canvas.getContext('2d') as Ink;
  const image = ink.createImageData(nx, ny);
  for (let j = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      const near = [0, 1, -1, nx, -nx].map((step) => field.p[j * nx + i + step]).find((p) => p !== null && p !== undefined);
      if (near === undefined || near === null) continue;
      const looked = lookedAt(looks, [origin_in[0] + (i + 0.5) * cell_in, origin_in[1] + (j + 0.5) * cell_in]);
      image.data.set([...foggedOf(question, near, looked), 255], 4 * ((ny - 1 - j) * nx + i));
    }
  ink.putImageData(image, 0, 0);
  return canvas;
}

/** The field as its patterns are drawn: where nobody looked, what is called sound is fog. */
export function withFog(field: Field, looks: Point[]): Field {
  const { nx, cell_in, origin_in } = field.grid;
  const p = field.p.map((value, k) => {
    if (value === null || value === undefined || value >= 0.25) return value;
    const at: Point = [origin_in[0] + ((k % nx) + 0.5) * cell_in, origin_in[1] + (Math.floor(k / nx) + 0.5) * cell_in];
    return lookedAt(looks, at) < 0.3 ? 0.3 : value;
  });
  return { grid: field.grid, p };
}

function drawField(ink: Ink, picture: Picture, field: Field): void {
  const { view, question } = picture;
  const { grid } = field;
  const looks = looksOf(picture);
  const high = grid.ny * grid.cell_in * view.scale;
  const wide = grid.nx * grid.cell_in * view.scale;
  const top = toScreen(view, [grid.origin_in[0], grid.origin_in[1] + grid.ny * grid.cell_in]);
  ink.save();
  path(ink, view, picture.job.room.outline_in);
  ink.clip();
  ink.imageSmoothingEnabled = true;
  ink.imageSmoothingQuality = 'high';
  ink.save();
  ink.translate(top.x, top.y);
  if (view.flip) ink.scale(-1, 1);
  ink.drawImage(cells(field, question, looks), 0, 0, wide, high);
  ink.restore();
  const fogged = withFog(field, looks);
  for (const band of bands) {
    const pattern = ink.createPattern(patternTile(band.pattern, picture.ratio), 'repeat');
    if (!pattern) continue;
    pattern.setTransform(new DOMMatrix([1 / picture.ratio, 0, 0, 1 / picture.ratio, view.x_px % 10, view.y_px % 10]));
    ink.fillStyle = pattern;
    ink.beginPath();
    for (const rect of runs(fogged, band.low, band.high)) {
      const at = toScreen(view, [rect.x_in + (view.flip ? rect.wide_in : 0), rect.y_in + grid.cell_in]);
      ink.rect(at.x, at.y, rect.wide_in * view.scale, grid.cell_in * view.scale);
    }
    ink.fill();
  }
  ink.restore();
}

function drawBoards(ink: Ink, picture: Picture): void {
  const { job, shown, view } = picture;
  const layer = shown.kind === 'layer' ? job.layers.find((item) => item.id === shown.id) : undefined;
  const width = layer?.face_width_in;
  if (!width || (layer.runs !== 'x' && layer.runs !== 'y')) return;
  const box = boxOf(job.room.outline_in);
  const across = layer.runs === 'x' ? 1 : 0;
  const span = box.max[across] - box.min[across];
  const line = (at: number): Point[] =>
    across === 1
      ? [
          [box.min[0], at],
          [box.max[0], at],
        ]
      : [
          [at, box.min[1]],
          [at, box.max[1]],
        ];
  ink.save();
  path(ink, view, job.room.outline_in);
  ink.clip();
  ink.strokeStyle = colours().boards;
  ink.lineWidth = 1;
  if (width * view.scale >= 9)
    for (let at = box.min[across] + width; at < box.max[across]; at += width) {
      path(ink, view, line(at), false);
      ink.stroke();
    }
  ink.restore();
  // Every plank where they are broad enough to read, else every fifth: counted from the low wall.
  const every = width * view.scale >= 15 ? 1 : 5;
  const count = Math.ceil(span / width - 1e-6);
  for (let n = 1; n <= count; n++) {
    if (n !== 1 && n % every !== 0) continue;
    const middle = Math.min(box.max[across], box.min[across] + (n - 0.5) * width);
    const at = toScreen(view, across === 1 ? [view.flip ? box.min[0] : box.max[0], middle] : [middle, box.max[1]]);
    const [x, y] = across === 1 ? [at.x + 13, at.y] : [at.x, at.y - 12];
    label(ink, String(n), x, y, `500 11px ${FONT}`, undefined, true);
  }
}

function drawSupports(ink: Ink, picture: Picture): void {
  const { job, view, shown } = picture;
  const members = membersOf(job);
  const strong = shown.kind === 'supports';
  ink.save();
  ink.lineWidth = 1.5;
  ink.strokeStyle = colours().line;
  for (const member of members) {
    if (!strong) {
      ink.globalAlpha = 0.5;
      ink.setLineDash(member.role === 'girder' ? [16, 5] : [10, 5]);
      ink.lineWidth = member.role === 'girder' ? 3 : 1.5;
      path(ink, view, [member.from_in, member.to_in], false);
      ink.stroke();
      ink.globalAlpha = 1;
    }
  }
  ink.restore();
}

/** The members' numbers, as one calls them out: over whatever else is drawn. */
function drawNumbers(ink: Ink, { job, view }: Picture): void {
  const members = membersOf(job);
  const numbers = numbered(members);
  const box = boxOf(job.room.outline_in);
  for (const member of members) {
    const run = runsOf(member);
    const across = acrossOf(member);
    const at = toScreen(view, run === 'y' ? [across, box.min[1]] : [view.flip ? box.max[0] : box.min[0], across]);
    const text = `${member.role === 'girder' ? 'G' : 'J'}${numbers.get(member.id) ?? ''}`;
    if (run === 'y') label(ink, text, at.x, at.y + 13, `600 12px ${FONT}`, undefined, true);
    else label(ink, text, at.x - 15, at.y, `600 12px ${FONT}`, undefined, true);
  }
}

/** Members or plates as broad bars, coloured by their own chance along them. */
function drawLines(ink: Ink, picture: Picture, kind: 'supports' | 'walls'): void {
  const { job, survey, view, question } = picture;
  const key = ({ unsound: 'p_unsound', gone: 'p_gone', wet: 'p_wet' } as const)[question];
  const looked = new Set(marksOf(job).map((mark) => (kind === 'supports' ? mark.support : mark.wall)));
  for (const item of kind === 'supports' ? membersOf(job) : job.walls) {
    const span = { from_in: item.from_in, to_in: item.to_in };
    ink.lineCap = 'butt';
    ink.lineWidth = 13;
    ink.strokeStyle = colours().line;
    path(ink, view, [span.from_in, span.to_in], false);
    ink.stroke();
    const field = survey?.[kind].find((found) => found.id === item.id);
    const stations = field?.along_in ?? [];
    ink.lineWidth = 9;
    stations.forEach((at, i) => {
      const before = i === 0 ? at : (at + stations[i - 1]!) / 2;
      const after = i === stations.length - 1 ? at : (at + stations[i + 1]!) / 2;
      const p = field?.[key][i] ?? 0;
      ink.strokeStyle = looked.has(item.id) ? cssOf(question, p) : `rgb(${foggedOf(question, p, 0).join(' ')})`;
      // A hair longer than its share, or the seams would show.
      path(ink, view, [along(span, before), along(span, after + 0.7 / view.scale)], false);
      ink.stroke();
    });
  }
}

const FIXTURE_FONT = `600 12px ${FONT}`;

function drawFixtures(ink: Ink, { job, view, shown }: Picture): void {
  for (const fixture of job.fixtures) {
    const outline = fixture.outline_in;
    ink.save();
    path(ink, view, outline);
    ink.strokeStyle = colours().line;
    ink.lineWidth = 2;
    if (!fixture.stands) ink.setLineDash([4, 4]);
    ink.stroke();
    ink.restore();
    if (shown.kind === 'supports') continue; // the members would cross out its name
    // At its low edge, where fewer marks lie; by its first word where the whole does not fit.
    const box = boxOf(outline);
    const at = toScreen(view, [(box.min[0] + box.max[0]) / 2, box.min[1]]);
    const wide = (box.max[0] - box.min[0]) * view.scale;
    ink.font = FIXTURE_FONT;
    const name = w.fixtures[fixture.kind] ?? spoken(fixture.kind);
    const long = `${name}${fixture.stands ? '' : `, ${w.lifted}`}`;
    const said = ink.measureText(long).width < wide + 8 ? long : name;
    // A name broader than its fixture stays inside the room.
    const walls = boxOf(job.room.outline_in);
    const [one, other] = [toScreen(view, walls.min).x, toScreen(view, walls.max).x];
    const half = ink.measureText(said).width / 2 + 6;
    const x = Math.max(Math.min(one, other) + half, Math.min(Math.max(one, other) - half, at.x));
    label(ink, said, x, at.y - 10, FIXTURE_FONT);
  }
}

function drawSoundLines(ink: Ink, picture: Picture): void {
  const { survey, shown, view, question, job } = picture;
  if (!survey || shown.kind !== 'layer' || question === 'wet') return;
  for (const item of survey.sound_lines) {
    if (item.layer !== shown.id || item.rings_in.length === 0) continue;
    const firm = item.confidence >= 0.9;
    const rings = item.rings_in.map((ring) => smooth(ring));
    ink.save();
    path(ink, view, job.room.outline_in);
    ink.clip();
    if (firm) {
      ink.beginPath();
      trace(ink, view, job.room.outline_in);
      for (const ring of rings) trace(ink, view, ring);
      ink.fillStyle = colours().soundTint;
      ink.fill('evenodd');
    }
    for (const ring of rings) {
      path(ink, view, ring);
      cased(ink, firm ? 3.5 : 2.2, colours().sound, firm ? [] : [7, 6]);
    }
    ink.restore();
    if (firm) nameSoundLine(ink, picture, rings);
  }
}

/** The line's name, at its spot farthest from the room's edges that is on the screen. */
function nameSoundLine(ink: Ink, { view, job }: Picture, rings: Point[][]): void {
  const box = boxOf(job.room.outline_in);
  const inner = ([x, y]: Point) => Math.min(x - box.min[0], box.max[0] - x, y - box.min[1], box.max[1] - y);
  const best = rings.flat().reduce<Point | undefined>((found, p) => (!found || inner(p) > inner(found) ? p : found), undefined);
  if (!best || inner(best) < 6) return;
  const at = toScreen(view, best);
  label(ink, w.soundLine, at.x, at.y - 12, `700 12px ${FONT}`, colours().sound);
}

function drawRoom(ink: Ink, picture: Picture): void {
  const { job, view } = picture;
  ink.save();
  ink.strokeStyle = colours().line;
  ink.lineJoin = 'miter';
  ink.lineWidth = 6;
  path(ink, view, job.room.outline_in);
  ink.stroke();
  for (const door of job.room.doors) {
    ink.strokeStyle = colours().paper;
    ink.lineWidth = 8;
    path(ink, view, [door.from_in, door.to_in], false);
    ink.stroke();
    const at = toScreen(view, centre([door.from_in, door.to_in]));
    label(ink, w.door, at.x, at.y);
  }
  ink.restore();
  if (picture.wallNumbers)
    for (const wall of job.walls) {
      const at = toScreen(view, centre([wall.from_in, wall.to_in]));
      label(ink, wallName(job, wall), at.x, at.y, `600 12px ${FONT}`);
    }
}

function drawSources(ink: Ink, { job, view }: Picture): void {
  for (const source of job.sources) {
    if (!source.at_in) continue;
    const { x, y } = toScreen(view, source.at_in);
    ink.save();
    ink.beginPath();
    ink.moveTo(x, y - 15);
    ink.bezierCurveTo(x + 14, y + 2, x + 8, y + 11, x, y + 11);
    ink.bezierCurveTo(x - 8, y + 11, x - 14, y + 2, x, y - 15);
    ink.fillStyle = '#0a4f8f';
    ink.fill();
    ink.lineWidth = 2.5;
    ink.strokeStyle = '#fff';
    ink.stroke();
    ink.restore();
  }
}

function drawDimensions(ink: Ink, { job, view }: Picture): void {
  const box = boxOf(job.room.outline_in);
  const low = toScreen(view, [view.flip ? box.max[0] : box.min[0], box.min[1]]);
  const high = toScreen(view, [view.flip ? box.min[0] : box.max[0], box.max[1]]);
  label(ink, formatLength(box.max[0] - box.min[0]), (low.x + high.x) / 2, high.y - 27);
  ink.save();
  ink.translate(low.x - 30, (low.y + high.y) / 2);
  ink.rotate(-Math.PI / 2);
  label(ink, formatLength(box.max[1] - box.min[1]), 0, 0);
  ink.restore();
}

/** Whether a mark belongs to what is shown. */
export function belongs(mark: Mark, shown: Shown): boolean {
  if (shown.kind === 'supports') return mark.support !== undefined;
  if (shown.kind === 'walls') return mark.wall !== undefined;
  return mark.layer === shown.id;
}

/** A mark on another layer: only that somebody looked here. */
function drawElsewhere(ink: Ink, { x, y }: Pixel): void {
  ink.beginPath();
  ink.arc(x, y, 5, 0, 2 * Math.PI);
  ink.fillStyle = 'rgba(255, 255, 255, 0.85)';
  ink.fill();
  ink.lineWidth = 1.5;
  ink.strokeStyle = 'rgba(20, 32, 27, 0.8)';
  ink.stroke();
}

function drawMarks(ink: Ink, picture: Picture): void {
  const { job, view, shown, selected, counted } = picture;
  const placed = marksOf(job)
    .map((mark) => ({ mark, at: placeOf(job, mark, counted) }))
    .filter((item): item is { mark: Mark; at: Point } => item.at !== undefined);
  for (const { mark, at } of placed) if (!belongs(mark, shown)) drawElsewhere(ink, toScreen(view, at));
  const taken: Pixel[] = [];
  for (const { mark, at } of placed) {
    if (!belongs(mark, shown)) continue;
    // Readings at one spot stand round it, never out of the room: six places on a ring.
    const { x, y } = toScreen(view, at);
    const beside = taken.filter((other) => Math.hypot(other.x - x, other.y - y) < SYMBOL_PX).length;
    taken.push({ x, y });
    const turn = ((beside - 1) * Math.PI) / 3;
    const out = beside === 0 ? 0 : 2 * SYMBOL_PX + 3;
    drawMark(ink, mark, x + out * Math.cos(turn), y + out * Math.sin(turn), mark.id === selected);
  }
}

/** Where the marks themselves are the matter; elsewhere they would lie over what the stage draws. */
const MARKED = new Set<Stage>(['survey', 'hazards', 'drying', 'papers']);

/** Names keep off the marks of what is shown, which are drawn over everything. */
function keepMarksClear({ job, view, shown, counted, stage }: Picture): void {
  if (!MARKED.has(stage)) return;
  for (const mark of marksOf(job)) {
    const at = belongs(mark, shown) ? placeOf(job, mark, counted) : undefined;
    if (!at) continue;
    const { x, y } = toScreen(view, at);
    keepClear(x, y, 2 * SYMBOL_PX, 2 * SYMBOL_PX);
  }
}

export function draw(ink: Ink, picture: Picture): void {
  const { job, survey, shown, question, size, ratio, view, stage } = picture;
  ink.setTransform(ratio, 0, 0, ratio, 0, 0);
  clearNames();
  keepMarksClear(picture);
  ink.fillStyle = colours().paper;
  ink.fillRect(0, 0, size.width_px, size.height_px);
  if (picture.walk) drawWalk(ink, view, picture.walk);
  if (picture.walk || job.room.outline_in.length < 3) return;
  path(ink, view, job.room.outline_in);
  ink.fillStyle = colours().floor;
  ink.fill();
  const field = survey && shown.kind === 'layer' && stage !== 'room' ? fieldOf(survey, shown.id, question) : undefined;
  if (field) drawField(ink, picture, field);
  drawBoards(ink, picture);
  drawSupports(ink, picture);
  if (stage !== 'room') drawSoundLines(ink, picture);
  drawFixtures(ink, picture);
  drawRoom(ink, picture);
  if (shown.kind !== 'layer') drawLines(ink, picture, shown.kind);
  drawSources(ink, picture);
  drawDimensions(ink, picture);
  drawStage(ink, picture);
  drawNumbers(ink, picture);
  if (MARKED.has(stage)) drawMarks(ink, picture);
  if (picture.spot) drawSpot(ink, view, picture.spot);
}
