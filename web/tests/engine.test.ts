// The engine as the page loads it: the same module, in Node.
import { beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../src/engine/module';
import type { Job } from '../src/engine/wire';
import { chanceAt, fieldOf } from '../src/plan/field';
import { acts } from '../src/store/acts';
import { did, fresh } from '../src/store/history';
import { formatLength, parseLength } from '../src/words/lengths';
import { example, examples, SMALL, startEngine, startReckon } from './engine';

let engine: Engine;
beforeAll(async () => {
  engine = await startEngine();
});

function jobOf(name: string): Job {
  const reply = engine.run({ do: 'read', text: example(name) });
  if (!reply.ok) throw new Error(JSON.stringify(reply.problems));
  return reply.value.job;
}

describe('the engine module', () => {
  it('reads what it writes, and writes the same again', () => {
    for (const name of examples) {
      const first = engine.run({ do: 'read', text: example(name) });
      if (!first.ok) throw new Error(JSON.stringify(first.problems));
      const second = engine.run({ do: 'read', job: first.value.job });
      expect(second).toEqual(first);
      expect(engine.run({ do: 'read', text: first.value.text })).toEqual(first);
    }
  });

  it('answers every problem of a broken job, each with its place', () => {
    const broken = example('laundry-1954')
      .replace('"tool": "awl", "reads": "gone"', '"tool": "owl", "reads": "gone"')
      .replace('"version": 1', '"version": 1, "mraks": []');
    const reply = engine.run({ do: 'read', text: broken });
    expect(reply.ok).toBe(false);
    if (reply.ok) return;
    const places = reply.problems.map((problem) => problem.at);
    expect(places).toContain('mraks');
    expect(places.some((place) => /^marks\[\d+\]\.tool$/.test(place))).toBe(true);
    for (const problem of reply.problems) expect(problem.mend.length).toBeGreaterThan(3);
  });

  it('answers requests that make no sense instead of stopping', () => {
    const odd: unknown[] = [
      {},
      [],
      7,
      { do: 'dance' },
      { do: 'survey' },
      { do: 'read', job: {}, text: '{}' },
      { do: 'survey', job: { nothing: 1 } },
      { do: 'read', text: '{"a":' },
      { do: 'read', text: `${'['.repeat(200)}` },
      { do: 'new', extra: 1 },
    ];
    for (const request of odd) {
      const reply = engine.run(request as { do: 'schema' });
      expect(reply.ok, JSON.stringify(request)).toBe(false);
      if (!reply.ok) expect(reply.problems.length).toBeGreaterThan(0);
    }
    const options = engine.run({ do: 'survey', job: jobOf('laundry-1954'), options: { cell_in: 0.01 } });
    expect(options.ok).toBe(false);
    if (!options.ok) expect(options.problems[0]?.at).toBe('options.cell_in');
  });

  it('still reads a job after any of its marks was taken away, photos and all', () => {
    const job = jobOf('laundry-1954');
    for (const { id } of job.marks) {
      const less = did(fresh(job), 'less', (draft) => acts.removeMark.change(draft, { id })).job;
      const reply = engine.run({ do: 'read', job: less });
      expect(reply.ok, `${id}: ${reply.ok ? '' : JSON.stringify(reply.problems)}`).toBe(true);
    }
  });

  it('takes two thousand marks, and refuses one more with the place and the limit', () => {
    const job = jobOf('laundry-1954');
    const many = (count: number): Job => ({
      ...job,
      photos: [],
      openings: [],
      marks: Array.from({ length: count }, (_, i) => ({
        id: `n${i}`,
        tool: 'awl' as const,
        reads: 'sound' as const,
        at_in: [5, 5] as [number, number],
        layer: 'deck',
      })),
    });
    expect(engine.run({ do: 'read', job: many(2000) }).ok).toBe(true);
    const reply = engine.run({ do: 'read', job: many(2001) });
    expect(reply.ok).toBe(false);
    if (!reply.ok) expect(JSON.stringify(reply.problems.find((problem) => problem.at === 'marks'))).toContain('2000');
  });

  it('gives a starting job that it can read itself', () => {
    const reply = engine.run({ do: 'new' });
    if (!reply.ok) throw new Error('new');
    expect(engine.run({ do: 'read', text: reply.value.text }).ok).toBe(true);
  });

  it('sees a sound mark lower the chance at its spot, and a gone mark raise it', () => {
    const job = JSON.parse(SMALL) as Job;
    const at: [number, number] = [30, 20];
    const chance = (reads?: 'sound' | 'gone') => {
      const marks = reads
        ? [...job.marks, { id: 'new', tool: 'awl' as const, reads, at_in: at, layer: 'deck', from: 'above' as const }]
        : job.marks;
      const reply = engine.run({ do: 'survey', job: { ...job, marks }, options: { draws: 100 } });
      if (!reply.ok) throw new Error(JSON.stringify(reply.problems));
      const field = fieldOf(reply.value.survey, 'deck', 'unsound');
      return (field && chanceAt(field, at)) as number;
    };
    const before = chance();
    expect(chance('sound')).toBeLessThan(before);
    expect(chance('gone')).toBeGreaterThan(before);
    expect(chance('gone')).toBeGreaterThan(0.5);
  });

  it('says where a mark lies that is counted out by plank and tape', () => {
    const job = jobOf('laundry-1954');
    // Boards run x and are 5 1/2 in. wide: plank 3 has its middle 13 3/4 in. from the low wall.
    const mark = { id: 'counted', tool: 'awl' as const, reads: 'sound' as const, layer: 'deck', plank: 3, tape_in: 40 };
    const reply = engine.run({ do: 'read', job: { ...job, photos: [], marks: [mark] } });
    if (!reply.ok) throw new Error(JSON.stringify(reply.problems));
    expect(reply.value.places.counted?.[0]).toBeCloseTo(40, 9);
    expect(reply.value.places.counted?.[1]).toBeCloseTo(13.75, 9);
  });
});

describe('the module for single questions', () => {
  it('lists its topics, explains one and answers it', async () => {
    const reckon = await startReckon();
    const list = reckon.run({ do: 'reckon' });
    expect(list.ok && (list.value as { id: string }[]).some((topic) => topic.id === 'emc')).toBe(true);
    const help = reckon.run({ do: 'reckon', topic: 'emc' });
    expect(help.ok && (help.value as { help: string }).help).toContain('rh_percent');
    const emc = reckon.run({ do: 'reckon', topic: 'emc', in: { temp_f: 70, rh_percent: 50 } });
    // Wood Handbook (FPL-GTR-282) table 4-2: 70 F and 50 % give 9.2 %.
    expect(emc.ok && Math.abs((emc.value as { emc_percent: number }).emc_percent - 9.2)).toBeLessThan(0.15);
    for (const wrong of [
      { do: 'reckon', topic: 'emc', in: { temp_f: 'hot' } },
      { do: 'reckon', topic: 'emcee', in: {} },
      { do: 'reckon', colour: 1 },
      { do: 'schema', extra: 1 },
      { do: 'survey' },
      3,
    ]) {
      const reply = reckon.run(wrong as { do: 'reckon' });
      expect(reply.ok, JSON.stringify(wrong)).toBe(false);
    }
  });
});

describe('lengths', () => {
  const texts = [
    '7\' 4 1/2"',
    '7\'-4 1/2"',
    '7-4 1/2',
    '88.5',
    '88 1/2"',
    '4 1/2 in',
    '7 ft 4 in',
    '2.25 m',
    '12 cm',
    '19 mm',
    '-3/4',
    "5'",
    '0',
    '.5',
    '1/2',
    '4-1/2',
    '7 feet',
    '7 ft. 3',
    '6\u2032 2\u2033',
    // not lengths
    '',
    'x',
    '7\' 14"',
    '7-',
    '1/0',
    '5/',
    '7 4',
    "7' x",
    '3/2/1',
    '1e3',
    'in',
    '- -3',
    '9999999',
    '2 m 3',
    '4 6/4',
  ];
  it('are read as the engine reads them', () => {
    const job = jobOf('laundry-1954');
    for (const text of texts) {
      const door = { id: 'd9', from_in: [12, 0], to_in: [44, 0], meets_height_in: text };
      const asked = { ...job, room: { ...job.room, doors: [door] } } as unknown as Job;
      const reply = engine.run({ do: 'read', job: asked });
      const here = parseLength(text);
      const inRange = here !== undefined && Math.abs(here) <= 24;
      const refusedAsText = !reply.ok && reply.problems.some((problem) => /not a length/.test(problem.what));
      expect(refusedAsText, `'${text}' here: ${here}`).toBe(here === undefined);
      if (reply.ok && inRange) expect(reply.value.job.room.doors[0]?.meets_height_in, text).toBeCloseTo(here, 9);
    }
  });
  it('are written in feet, inches and sixteenths', () => {
    expect([88.5, 5.5, 0, 12, 0.0625, -3.75, 11.99].map(formatLength)).toEqual([
      '7\' 4 1/2"',
      '5 1/2"',
      '0"',
      '1\' 0"',
      '1/16"',
      '-3 3/4"',
      '1\' 0"',
    ]);
    for (let sixteenths = -400; sixteenths < 4000; sixteenths += 7)
      expect(parseLength(formatLength(sixteenths / 16))).toBeCloseTo(sixteenths / 16, 12);
  });
});
