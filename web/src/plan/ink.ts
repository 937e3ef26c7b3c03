// The plan's colours and patterns. One ramp from pale straw (sound) through cool grey (fog: not known)
// to dark rust (unsound): its lightness falls all the way, so it reads in sunlight and without colour;
// dots for fog and strokes for bad wood say the same a second time.
import type { Question } from './field';

type Rgb = [number, number, number];
type Stop = [number, Rgb];

/** Everything that is drawn on a canvas takes its colour here. Three palettes: daylight, the dark of a
 * crawl space, and full sun. In each the ramp's lightness goes one way all along. */
export interface Palette {
  paper: string;
  floor: string;
  line: string;
  halo: string;
  sound: string;
  soundTint: string;
  opening: string;
  saw: string;
  boards: string;
  dots: string;
  strokes: string;
  fog: Rgb;
  unsound: Stop[];
  wet: Stop[];
}
const light: Palette = {
  paper: '#f4f1ea',
  floor: '#e7e3d8',
  line: '#14201b',
  halo: 'rgba(255, 255, 255, 0.9)',
  sound: '#0b5d3b',
  soundTint: 'rgba(11, 93, 59, 0.2)',
  opening: '#a3004f',
  saw: '#9b1c12',
  boards: 'rgba(70, 48, 20, 0.28)',
  dots: 'rgba(40, 52, 60, 0.62)',
  strokes: 'rgba(255, 244, 224, 0.55)',
  fog: [190, 197, 200],
  unsound: [
    [0, [252, 238, 194]],
    [0.1, [244, 228, 186]],
    [0.3, [198, 203, 204]],
    [0.5, [166, 164, 160]],
    [0.65, [178, 108, 78]],
    [0.8, [142, 52, 26]],
    [1, [82, 16, 8]],
  ],
  wet: [
    [0, [252, 238, 194]],
    [0.1, [244, 228, 186]],
    [0.3, [198, 203, 204]],
    [0.5, [158, 168, 176]],
    [0.65, [74, 132, 160]],
    [0.8, [20, 84, 128]],
    [1, [6, 34, 78]],
  ],
};
const dark: Palette = {
  paper: '#101513',
  floor: '#1c2320',
  line: '#e9e4d6',
  halo: 'rgba(10, 14, 12, 0.9)',
  sound: '#6fd6a4',
  soundTint: 'rgba(111, 214, 164, 0.18)',
  opening: '#ff8fc0',
  saw: '#ff9a86',
  boards: 'rgba(233, 228, 214, 0.18)',
  dots: 'rgba(220, 226, 230, 0.5)',
  strokes: 'rgba(20, 8, 2, 0.6)',
  fog: [74, 80, 82],
  unsound: [
    [0, [44, 50, 36]],
    [0.1, [48, 54, 42]],
    [0.3, [70, 76, 78]],
    [0.5, [104, 104, 102]],
    [0.65, [172, 104, 70]],
    [0.8, [226, 124, 72]],
    [1, [255, 178, 120]],
  ],
  wet: [
    [0, [44, 50, 36]],
    [0.1, [48, 54, 42]],
    [0.3, [70, 76, 78]],
    [0.5, [92, 106, 116]],
    [0.65, [76, 142, 180]],
    [0.8, [104, 186, 230]],
    [1, [176, 226, 255]],
  ],
};
const sun: Palette = {
  ...light,
  paper: '#ffffff',
  floor: '#ffffff',
  line: '#000000',
  halo: '#ffffff',
  sound: '#00402a',
  opening: '#7a003b',
  boards: 'rgba(0, 0, 0, 0.35)',
  dots: 'rgba(0, 0, 0, 0.8)',
  strokes: 'rgba(255, 255, 255, 0.85)',
  fog: [196, 196, 196],
  unsound: [
    [0, [255, 255, 255]],
    [0.1, [248, 248, 240]],
    [0.3, [206, 206, 206]],
    [0.5, [164, 164, 164]],
    [0.65, [140, 76, 46]],
    [0.8, [92, 26, 8]],
    [1, [30, 0, 0]],
  ],
};
export const PALETTES = { light, dark, sun } as const;
export type Theme = keyof typeof PALETTES;
let now: Palette = light;
export const ink = (): Palette => now;
export function useInk(theme: Theme): void {
  now = PALETTES[theme];
}

function stopsOf(question: Question): Stop[] {
  return question === 'wet' ? now.wet : now.unsound;
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

/** The colour where nobody looked: fog, unless what is known elsewhere already speaks of rot here. */
export function foggedOf(question: Question, p: number, looked: number): Rgb {
  const own = rgbOf(question, p);
  const fog = Math.max(0, 1 - looked) * Math.min(1, Math.max(0, (0.62 - p) / 0.2));
  return own.map((value, k) => Math.round(value + fog * ((now.fog[k] as number) - value))) as Rgb;
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
    ink.fillStyle = now.dots;
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
  ink.strokeStyle = now.strokes;
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
