// What a photo carries: nothing but pixels, unless its place is kept on purpose. And the gates' cards.
import { describe, expect, it } from 'vitest';
import type { Findings, Job, Mark } from '../src/engine/wire';
import { crewCard, sawCuts } from '../src/papers/crewCard';
import { takenAt } from '../src/store/exif';
import { cardsDue, piercing } from '../src/store/gates';

/** A JPEG's head with a GPS directory: 44 deg 30 min N, 93 deg 15 min 36 s W, as a camera writes it. */
function withGps(little: boolean): ArrayBuffer {
  const bytes = new Uint8Array(400);
  const view = new DataView(bytes.buffer);
  const at = 12; // of the TIFF block
  const u16 = (offset: number, value: number) => view.setUint16(at + offset, value, little);
  const u32 = (offset: number, value: number) => view.setUint32(at + offset, value, little);
  view.setUint16(0, 0xffd8);
  view.setUint16(2, 0xffe1);
  view.setUint16(4, 380);
  view.setUint32(6, 0x45786966);
  view.setUint16(12, little ? 0x4949 : 0x4d4d);
  u16(2, 42);
  u32(4, 8);
  u16(8, 1);
  const entry = (offset: number, tag: number, kind: number, count: number, value: number) => {
    u16(offset, tag);
    u16(offset + 2, kind);
    u32(offset + 4, count);
    u32(offset + 8, value);
  };
  entry(10, 0x8825, 4, 1, 40);
  u16(40, 4);
  entry(42, 1, 2, 2, 0);
  bytes[at + 50] = 'N'.charCodeAt(0);
  entry(54, 2, 5, 3, 120);
  entry(66, 3, 2, 2, 0);
  bytes[at + 74] = 'W'.charCodeAt(0);
  entry(78, 4, 5, 3, 150);
  for (const [i, value] of [44, 1, 30, 1, 0, 1].entries()) u32(120 + 4 * i, value);
  for (const [i, value] of [93, 1, 15, 1, 3600, 100].entries()) u32(150 + 4 * i, value);
  return bytes.buffer;
}

describe('where a photo was taken', () => {
  it('is read in either byte order', () => {
    for (const little of [true, false]) {
      const [latitude, longitude] = takenAt(withGps(little)) ?? [0, 0];
      expect(latitude).toBeCloseTo(44.5, 6);
      expect(longitude).toBeCloseTo(-93.26, 6);
    }
  });
  it('is nothing in a file without it, in one cut short, in no JPEG at all', () => {
    const whole = withGps(true);
    for (let size = 0; size < whole.byteLength; size += 7) expect(() => takenAt(whole.slice(0, size))).not.toThrow();
    expect(takenAt(whole.slice(0, 60))).toBeUndefined();
    expect(takenAt(new TextEncoder().encode('no picture').buffer as ArrayBuffer)).toBeUndefined();
  });
});

const gate = (id: string, before: string, hazard: string) => ({
  id,
  before,
  hazard,
  text: `${id} in full`,
  brief: `${id} in short`,
  because: [],
  who: '',
  deadly: true,
  lifted_by: [],
  reason: {},
});
const findings = {
  hazards: {
    gates: [gate('stay_off', 'entering', 'structure'), gate('power', 'cutting', 'electricity'), gate('dust', 'covering', 'lead')],
    due: { cards: [{ hazard: 'structure', text: '', gates: ['stay_off'], deadly: true }], folded: 0 },
    presumed_layers: [],
  },
  cut_back: {
    outlines_in: {
      deck: [
        [
          [0, 0],
          [24, 0],
          [24, 24],
          [0, 24],
        ],
      ],
    },
    edges: Array.from({ length: 30 }, (_, i) => ({
      layer: 'deck',
      kind: i === 0 ? 'at_wall' : 'rip',
      from_in: [i, 0],
      to_in: [i, 24],
      length_in: 24 + i,
      support: '',
      why: '',
    })),
  },
  floor: { while_open: { shores: [{ id: 's1', at_in: [10, 10], under: 'j1', load_lb: 431.4 }] } },
  takeoff: { cut_lists: [] },
  work: { tasks: [] },
} as unknown as Findings;
const job = {
  job: { name: 'Card <b>test</b>' },
  room: {
    outline_in: [
      [0, 0],
      [48, 0],
      [48, 36],
      [0, 36],
    ],
    doors: [],
  },
  layers: [{ id: 'deck', material: 'board' }],
  walls: [],
  supports: [{ id: 'j1', role: 'joist', from_in: [10, 0], to_in: [10, 36], size: '2x8' }],
  marks: [],
  photos: [],
} as unknown as Job;

describe('what is due', () => {
  it("is the engine's own for the next opening, and all up to the cut at the cut", () => {
    expect(cardsDue(job, findings, 'opening').map((card) => card.hazard)).toEqual(['structure']);
    expect(cardsDue(job, findings, 'cutting').map((card) => card.hazard)).toEqual(['structure', 'electricity']);
  });
  it('goes when somebody has said that it is met', () => {
    const met = { ...job, hazards: { facts: { laboratory: [] }, met: [{ gate: 'stay_off', by: 'J. D.', time: '' }] } } as unknown as Job;
    expect(cardsDue(met, findings, 'opening')).toEqual([]);
  });
});

describe('the first reading through a suspect layer', () => {
  const sheet = {
    ...findings,
    hazards: { ...findings.hazards, gates: [gate('asbestos_no_piercing', 'opening', 'asbestos')], presumed_layers: ['sheet'] },
  } as unknown as Findings;
  const covered = {
    ...job,
    layers: [
      { id: 'sheet', material: 'sheet_vinyl' },
      { id: 'deck', material: 'board' },
    ],
  } as unknown as Job;
  const awl = { id: 'm', tool: 'awl', reads: 'sound', layer: 'deck', at_in: [5, 5] } as unknown as Mark;
  it('asks before the layer above is pierced, from above only, and only once', () => {
    expect(piercing(covered, sheet, awl)?.id).toBe('asbestos_no_piercing');
    expect(piercing(covered, sheet, { ...awl, from: 'below' })).toBeUndefined();
    expect(piercing(covered, sheet, { ...awl, tool: 'eye', reads: 'stained' })).toBeUndefined();
    expect(piercing({ ...covered, marks: [{ ...awl, id: 'n' }] }, sheet, awl)).toBeUndefined();
    expect(piercing(job, findings, awl)).toBeUndefined();
  });
});

describe('the crew card', () => {
  const { html } = crewCard(job, findings);
  it('names no wall as a saw line, and counts what it leaves out', () => {
    expect(sawCuts(job, findings)).toHaveLength(29);
    expect(html).toContain('19 more on the crew sheet');
  });
  it('holds every card that is due, the shores, and no mark-up from the job', () => {
    for (const words of ['stay_off in short', 'power in short', 'Joist 1: 431 lb', 'Card &lt;b&gt;test&lt;/b&gt;'])
      expect(html).toContain(words);
    expect(html).not.toContain('<b>test');
  });
});
