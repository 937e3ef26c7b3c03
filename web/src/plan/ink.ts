// The plan's colours and patterns. One ramp from pale straw (sound) through cool grey (fog: not known)
// to dark rust (unsound): its lightness falls all the way, so it reads in sunlight and without colour;
// dots for fog and strokes for bad wood say the same a second time.
import type { Question } from './field';

type Rgb = [number, number, number];
type Stop = [number, Rgb];

const UNSOUND: Stop[] = [
  [0, [252, 238, 194]],
  [0.1, [244, 228, 186]],
  [0.3, [198, 203, 204]],
  [0.5, [166, 164, 160]],
  [0.65, [178, 108, 78]],
  [0.8, [142, 52, 26]],
  [1, [82, 16, 8]],
];
const WET: Stop[] = [
  [0, [252, 238, 194]],
  [0.1, [244, 228, 186]],
  [0.3, [198, 203, 204]],
  [0.5, [158, 168, 176]],
  [0.65, [74, 132, 160]],
  [0.8, [20, 84, 128]],
  [1, [6, 34, 78]],
];

export const paper = '#f4f1ea';
export const line = '#14201b';
export const flag = '#ff8a1f';
export const soundLine = '#0b5d3b';

function stopsOf(question: Question): Stop[] {
  return question === 'wet' ? WET : UNSOUND;
}

export function rgbOf(question: Question, p: number): Rgb {
  const stops = stopsOf(question);
  for (let i = 1; i < stops.length; i++) {
    const [high, to] = stops[i] as Stop;
    const [low, from] = stops[i - 1] as Stop;
    if (p <= high) {
      const t = Math.max(0, (p - low) / (high - low));
      return from.map((value, k) => Math.round(value + t * ((to[k] as number) - value))) as Rgb;
    }
  }
  return (stops.at(-1) as Stop)[1];
}

export function cssOf(question: Question, p: number): string {
  return `rgb(${rgbOf(question, p).join(' ')})`;
}

/** Bands of chance that carry a pattern besides the colour; the legend lists the same. */
export interface Band {
  low: number;
  high: number;
  pattern: 'dots' | 'thick dots' | 'strokes' | 'cross strokes';
}
export const bands: Band[] = [
  { low: 0.12, high: 0.25, pattern: 'dots' },
  { low: 0.25, high: 0.6, pattern: 'thick dots' },
  { low: 0.6, high: 0.85, pattern: 'strokes' },
  { low: 0.85, high: 1.01, pattern: 'cross strokes' },
];

const TILE = 10;

/** One tile of a band's pattern, drawn at the device's own resolution. */
export function patternTile(pattern: Band['pattern'], ratio: number): HTMLCanvasElement {
  const tile = document.createElement('canvas');
  tile.width = TILE * ratio;
  tile.height = TILE * ratio;
  const ink = tile.getContext('2d') as CanvasRenderingContext2D;
  ink.scale(ratio, ratio);
  if (pattern === 'dots' || pattern === 'thick dots') {
    ink.fillStyle = 'rgba(40, 52, 60, 0.62)';
    const radius = pattern === 'dots' ? 0.8 : 1.3;
    for (const [x, y] of [
      [2.5, 2.5],
      [7.5, 7.5],
    ] as const) {
      ink.beginPath();
      ink.arc(x, y, radius, 0, 7);
      ink.fill();
    }
    return tile;
  }
  ink.strokeStyle = 'rgba(255, 244, 224, 0.55)';
  ink.lineWidth = 1.3;
  ink.beginPath();
  for (const shift of [-TILE, 0, TILE]) {
    ink.moveTo(shift, TILE);
    ink.lineTo(shift + TILE, 0);
    if (pattern === 'cross strokes') {
      ink.moveTo(shift, 0);
      ink.lineTo(shift + TILE, TILE);
    }
  }
  ink.stroke();
  return tile;
}
