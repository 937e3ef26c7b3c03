// Draws the plan. Knows nothing of React or of fingers: a picture in, ink out.
import type { Job, Mark, Places, Point, Survey } from '../engine/wire';
import type { Shown } from '../store/store';
import { money, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { type Field, fieldOf, type Question, runs } from './field';
import { bands, cssOf, line, paper, patternTile, rgbOf, soundLine } from './ink';
import { along, centre, placeOf } from './places';
import { drawFlag, drawMark, SYMBOL_PX } from './symbols';
import { boxOf, type Pixel, type Size, toScreen, type View } from './view';

export interface Picture {
  job: Job;
  survey?: Survey;
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
}

type Ink = CanvasRenderingContext2D;

function path(ink: Ink, view: View, points: Point[], closed = true): void {
  ink.beginPath();
  points.forEach((p, i) => {
    const { x, y } = toScreen(view, p);
    if (i === 0) ink.moveTo(x, y);
    else ink.lineTo(x, y);
  });
  if (closed) ink.closePath();
}

/** The field one pixel a cell; cells without a chance take their neighbour's, so that edges stay clean when it is stretched. */
function cells(field: Field, question: Question): HTMLCanvasElement {
  const { nx, ny } = field.grid;
  const canvas = document.createElement('canvas');
  canvas.width = nx;
  canvas.height = ny;
  const ink = canvas.getContext('2d') as Ink;
  const image = ink.createImageData(nx, ny);
  for (let j = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      const near = [0, 1, -1, nx, -nx].map((step) => field.p[j * nx + i + step]).find((p) => p !== null && p !== undefined);
      if (near === undefined || near === null) continue;
      const at = 4 * ((ny - 1 - j) * nx + i);
      image.data.set([...rgbOf(question, near), 255], at);
    }
  ink.putImageData(image, 0, 0);
  return canvas;
}

function drawField(ink: Ink, picture: Picture, field: Field): void {
  const { view, question } = picture;
  const { grid } = field;
  const top = toScreen(view, [grid.origin_in[0]!, grid.origin_in[1]! + grid.ny * grid.cell_in]);
  const wide = grid.nx * grid.cell_in * view.scale;
  const high = grid.ny * grid.cell_in * view.scale;
  ink.save();
  path(ink, view, picture.job.room.outline_in as Point[]);
  ink.clip();
  ink.imageSmoothingEnabled = true;
  ink.imageSmoothingQuality = 'high';
  ink.drawImage(cells(field, question), top.x, top.y, wide, high);
  for (const band of bands) {
    const pattern = ink.createPattern(patternTile(band.pattern, picture.ratio), 'repeat');
    if (!pattern) continue;
    pattern.setTransform(new DOMMatrix([1 / picture.ratio, 0, 0, 1 / picture.ratio, view.x_px % 10, view.y_px % 10]));
    ink.fillStyle = pattern;
    ink.beginPath();
    for (const rect of runs(field, band.low, band.high)) {
      const at = toScreen(view, [rect.x_in, rect.y_in + grid.cell_in]);
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
  if (!width || width * view.scale < 9 || (layer.runs !== 'x' && layer.runs !== 'y')) return;
  const box = boxOf(job.room.outline_in as Point[]);
  const across = layer.runs === 'x' ? 1 : 0;
  ink.save();
  path(ink, view, job.room.outline_in as Point[]);
  ink.clip();
  ink.strokeStyle = 'rgba(70, 48, 20, 0.28)';
  ink.lineWidth = 1;
  for (let at = box.min[across]! + width; at < box.max[across]!; at += width) {
    path(
      ink,
      view,
      across === 1
        ? [
            [box.min[0], at],
            [box.max[0], at],
          ]
        : [
            [at, box.min[1]],
            [at, box.max[1]],
          ],
      false,
    );
    ink.stroke();
  }
  ink.restore();
}

function drawSupports(ink: Ink, picture: Picture): void {
  ink.save();
  ink.lineWidth = 1.5;
  ink.strokeStyle = 'rgba(20, 32, 27, 0.5)';
  ink.setLineDash([10, 5]);
  for (const support of picture.job.supports) {
    path(ink, picture.view, [support.from_in as Point, support.to_in as Point], false);
    ink.stroke();
  }
  ink.restore();
}

/** Members or plates as broad bars, coloured by their own chance along them. */
function drawLines(ink: Ink, picture: Picture, kind: 'supports' | 'walls'): void {
  const { job, survey, view, question } = picture;
  const key = ({ unsound: 'p_unsound', gone: 'p_gone', wet: 'p_wet' } as const)[question];
  for (const item of job[kind]) {
    const span = { from_in: item.from_in as Point, to_in: item.to_in as Point };
    ink.lineCap = 'butt';
    ink.lineWidth = 13;
    ink.strokeStyle = line;
    path(ink, view, [span.from_in, span.to_in], false);
    ink.stroke();
    const field = survey?.[kind].find((found) => found.id === item.id);
    const stations = field?.along_in ?? [];
    ink.lineWidth = 9;
    stations.forEach((at, i) => {
      const before = i === 0 ? at : (at + stations[i - 1]!) / 2;
      const after = i === stations.length - 1 ? at : (at + stations[i + 1]!) / 2;
      ink.strokeStyle = cssOf(question, field?.[key][i] ?? 0);
      // A hair longer than its share, or the seams would show.
      path(ink, view, [along(span, before), along(span, after + 0.7 / view.scale)], false);
      ink.stroke();
    });
  }
}

function label(ink: Ink, text: string, x: number, y: number, font = '600 13px system-ui, sans-serif'): void {
  ink.save();
  ink.font = font;
  ink.textAlign = 'center';
  ink.textBaseline = 'middle';
  ink.lineWidth = 4;
  ink.lineJoin = 'round';
  ink.strokeStyle = 'rgba(255, 255, 255, 0.9)';
  ink.strokeText(text, x, y);
  ink.fillStyle = line;
  ink.fillText(text, x, y);
  ink.restore();
}

const FIXTURE_FONT = '600 12px system-ui, sans-serif';

function drawFixtures(ink: Ink, { job, view, shown }: Picture): void {
  for (const fixture of job.fixtures) {
    const outline = fixture.outline_in as Point[];
    ink.save();
    path(ink, view, outline);
    ink.strokeStyle = line;
    ink.lineWidth = 2;
    if (!fixture.stands) ink.setLineDash([4, 4]);
    ink.stroke();
    ink.restore();
    if (shown.kind === 'supports') continue; // the members would cross out its name
    // At its low edge, where fewer marks lie; by its short name where the long one does not fit.
    const box = boxOf(outline);
    const at = toScreen(view, [(box.min[0] + box.max[0]) / 2, box.min[1]]);
    const wide = (box.max[0] - box.min[0]) * view.scale;
    ink.font = FIXTURE_FONT;
    const long = `${spoken(fixture.kind)}${fixture.stands ? '' : ', lifted'}`;
    label(ink, ink.measureText(long).width < wide + 8 ? long : fixture.id, at.x, at.y - 10, FIXTURE_FONT);
  }
}

function drawSoundLines(ink: Ink, { survey, shown, view, question }: Picture): void {
  if (!survey || shown.kind !== 'layer' || question === 'wet') return;
  for (const item of survey.sound_lines) {
    if (item.layer !== shown.id) continue;
    const firm = item.confidence >= 0.9;
    for (const ring of item.rings_in) {
      for (const [width, colour] of [
        [7, 'rgba(255, 255, 255, 0.9)'],
        [3.5, soundLine],
      ] as const) {
        ink.save();
        path(ink, view, ring as Point[]);
        ink.lineJoin = 'round';
        ink.lineWidth = firm ? width : width * 0.7;
        ink.strokeStyle = colour;
        if (!firm) ink.setLineDash([7, 6]);
        ink.stroke();
        ink.restore();
      }
    }
  }
}

function drawRoom(ink: Ink, { job, view }: Picture): void {
  ink.save();
  ink.strokeStyle = line;
  ink.lineJoin = 'miter';
  ink.lineWidth = 6;
  path(ink, view, job.room.outline_in as Point[]);
  ink.stroke();
  for (const door of job.room.doors) {
    ink.strokeStyle = paper;
    ink.lineWidth = 8;
    path(ink, view, [door.from_in as Point, door.to_in as Point], false);
    ink.stroke();
    const at = toScreen(view, centre([door.from_in as Point, door.to_in as Point]));
    label(ink, 'door', at.x, at.y);
  }
  ink.restore();
}

function drawSources(ink: Ink, { job, view }: Picture): void {
  for (const source of job.sources) {
    if (!source.at_in) continue;
    const { x, y } = toScreen(view, source.at_in as Point);
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
  const box = boxOf(job.room.outline_in as Point[]);
  const low = toScreen(view, box.min);
  const high = toScreen(view, box.max);
  label(ink, formatLength(box.max[0] - box.min[0]), (low.x + high.x) / 2, high.y - 16);
  ink.save();
  ink.translate(low.x - 16, (low.y + high.y) / 2);
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
  const placed = job.marks
    .map((mark) => ({ mark, at: placeOf(job, mark, counted) }))
    .filter((item): item is { mark: Mark; at: Point } => item.at !== undefined);
  for (const { mark, at } of placed) if (!belongs(mark, shown)) drawElsewhere(ink, toScreen(view, at));
  const taken: { x: number; y: number }[] = [];
  for (const { mark, at } of placed) {
    if (!belongs(mark, shown)) continue;
    // Two readings at one spot stand side by side.
    const { x, y } = toScreen(view, at);
    const beside = taken.filter((other) => Math.hypot(other.x - x, other.y - y) < SYMBOL_PX).length;
    taken.push({ x, y });
    drawMark(ink, mark, x + beside * (2 * SYMBOL_PX + 4), y, mark.id === selected);
  }
}

function drawSpot(ink: Ink, { spot, view }: Picture): void {
  if (!spot) return;
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

export function draw(ink: Ink, picture: Picture): void {
  const { job, survey, shown, question, size, ratio, view } = picture;
  ink.setTransform(ratio, 0, 0, ratio, 0, 0);
  ink.fillStyle = paper;
  ink.fillRect(0, 0, size.width_px, size.height_px);
  path(ink, view, job.room.outline_in as Point[]);
  ink.fillStyle = '#e7e3d8';
  ink.fill();
  const field = survey && shown.kind === 'layer' ? fieldOf(survey, shown.id, question) : undefined;
  if (field) drawField(ink, picture, field);
  drawBoards(ink, picture);
  if (shown.kind !== 'supports') drawSupports(ink, picture);
  drawSoundLines(ink, picture);
  drawFixtures(ink, picture);
  drawRoom(ink, picture);
  if (shown.kind !== 'layer') drawLines(ink, picture, shown.kind);
  drawSources(ink, picture);
  drawDimensions(ink, picture);
  drawMarks(ink, picture);
  survey?.next_openings.forEach((opening, i) => {
    const { x, y } = toScreen(view, opening.at_in as Point);
    drawFlag(ink, i + 1, money(opening.worth), x, y);
  });
  drawSpot(ink, picture);
}
