// The store with the real engine and a database in memory: what a person does, from act to answer.
import 'fake-indexeddb/auto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Ask } from '../src/engine/client';
import { latestOnly } from '../src/engine/latest';
import type { Engine } from '../src/engine/module';
import type { Mark } from '../src/engine/wire';
import { Shelf } from '../src/store/keep';
import { makeStore } from '../src/store/store';
import { SMALL, startEngine, startWhole } from './engine';

let engine: Engine;
let whole: Engine;
let counter = 0;
beforeAll(async () => {
  engine = await startEngine();
  whole = await startWhole();
});
const gone: Mark = { id: 'mx', tool: 'awl', reads: 'gone', at_in: [30, 24], layer: 'deck', from: 'above' };

function world(shelf = new Shelf(`test${counter++}`)) {
  const asked: string[] = [];
  const ask: Ask = async (request) => {
    asked.push(request.do);
    await Promise.resolve();
    return (request.do === 'papers' ? whole : engine).run(request);
  };
  const store = makeStore({ ask, shelf, now: () => new Date('2026-05-04T09:00:00Z') });
  const settled = () =>
    new Promise<void>((resolve) => {
      const look = () => (store.getState().surveying ? setTimeout(look, 5) : setTimeout(resolve, 300));
      look();
    });
  return { store, shelf, asked, settled };
}

describe('the store', () => {
  it('opens a job, takes a mark, says what it changed, and goes back', async () => {
    const { store, settled } = world();
    expect(await store.getState().open(SMALL)).toBe(true);
    await settled();
    expect(store.getState().shown).toEqual({ kind: 'layer', id: 'deck' });
    const before = store.getState().survey?.findings.survey;
    store.getState().perform('addMark', { mark: gone });
    await settled();
    const { change, history } = store.getState();
    expect(history?.job.marks.at(-1)?.id).toBe('mx');
    expect(change?.spot?.after).toBeGreaterThan(change?.spot?.before ?? 1);
    store.getState().undo();
    await settled();
    expect(store.getState().history?.job.marks.some((mark) => mark.id === 'mx')).toBe(false);
    expect(store.getState().survey?.findings.survey).toEqual(before);
    store.getState().redo();
    expect(store.getState().history?.job.marks.at(-1)?.id).toBe('mx');
  });

  it('keeps the job and its steps on the device', async () => {
    const first = world();
    await first.store.getState().open(SMALL, 'demo');
    first.store.getState().perform('addMark', { mark: gone });
    await first.settled();
    const second = world(first.shelf);
    expect(await second.store.getState().openLast()).toBe(true);
    expect(second.store.getState().history?.job.marks.at(-1)?.id).toBe('mx');
    second.store.getState().undo();
    await second.settled();
    expect(second.store.getState().history?.job.marks.some((mark) => mark.id === 'mx')).toBe(false);
    expect(await second.shelf.all()).toHaveLength(1);
  });

  it('shows every problem of a broken file and keeps the job that was open', async () => {
    const { store, settled } = world();
    await store.getState().open(SMALL);
    await settled();
    const kept = store.getState().history;
    expect(await store.getState().open('{"format": "awlmark-job", "version": 1, "colour": "red"}')).toBe(false);
    expect(store.getState().history).toBe(kept);
    expect(store.getState().problems.map((problem) => problem.at)).toContain('colour');
  });

  it('asks for the whole job once, and not again after a refusal', async () => {
    const { store, settled, asked } = world();
    await store.getState().open(SMALL);
    await settled();
    await store.getState().askWhole();
    expect(store.getState().whole?.papers.length).toBeGreaterThan(0);
    await store.getState().askWhole();
    expect(asked.filter((what) => what === 'papers')).toHaveLength(1);
    // What if: another finish. The figures of before stay until the new ones are there, then both are told.
    store.getState().perform('setRebuild', { patch: { finish: 'stone_tile' } });
    expect(store.getState().whole).toBeDefined();
    await settled();
    await store.getState().askWhole();
    const { moved, history } = store.getState();
    expect(moved?.label).toBe(history?.past.at(-1)?.label);
    expect(moved?.lines.some((line) => line.what === 'Price' && line.before !== line.after)).toBe(true);
    // Stopped by hand it is not asked for again until somebody asks.
    store.getState().perform('setRebuild', { patch: { finish: 'sheet_vinyl' } });
    await settled();
    store.getState().stopWhole();
    await store.getState().askWhole();
    expect(asked.filter((what) => what === 'papers')).toHaveLength(2);
  });

  it('shows a quick field first for many marks, and tells what changed from the full one alone', async () => {
    const { store, settled } = world();
    const seen: boolean[] = [];
    store.subscribe((state) => seen.push(state.preview !== undefined));
    const many = JSON.parse(SMALL);
    many.marks = Array.from({ length: 30 }, (_, i) => ({
      id: `n${i}`,
      tool: 'awl',
      reads: 'sound',
      at_in: [2 + (i % 6) * 7, 4 + Math.floor(i / 6) * 6],
      layer: 'deck',
    }));
    await store.getState().open(JSON.stringify(many));
    await settled();
    expect(seen).toContain(true);
    expect(store.getState().preview).toBeUndefined();
    expect(store.getState().survey?.findings.survey.grid.cell_in).toBe(3);
  });
});

describe('two windows', () => {
  /** Two stores on one shelf that hear each other, as two windows do. */
  function pair() {
    const shelf = new Shelf(`test${counter++}`);
    const ears: ((message: { key: string; rev: number }) => void)[] = [];
    // The field is not asked here: it would hold up the thread that both windows share in this test.
    const asks: Ask = async (request) =>
      request.do === 'read' || request.do === 'merge' ? engine.run(request) : { ok: false, problems: [], warnings: [] };
    const open = (deaf: boolean) => {
      const own: ((message: { key: string; rev: number }) => void)[] = [];
      const channel = {
        post: (message: { key: string; rev: number }) => {
          for (const hear of ears) if (!own.includes(hear)) hear(message);
        },
        listen: (hear: (message: { key: string; rev: number }) => void) => {
          own.push(hear);
          if (!deaf) ears.push(hear);
        },
      };
      return makeStore({ ask: asks, shelf, now: () => new Date('2026-05-04T09:00:00Z'), channel });
    };
    return { shelf, open };
  }
  const tiny =
    '{"format":"awlmark-job","version":1,"room":{"outline_in":[[0,0],[24,0],[24,24],[0,24]]},"layers":[{"id":"deck","material":"board"}]}';
  const pause = (ms = 400) => new Promise((resolve) => setTimeout(resolve, ms));
  const at = (id: string, x: number): Mark => ({ ...gone, id, at_in: [x, 12] });

  it('hear of each other: neither overwrites what the other marked', async () => {
    const { shelf, open } = pair();
    const one = open(false);
    await one.getState().open(tiny, 'job');
    await pause();
    const two = open(false);
    await two.getState().openKept('job');
    one.getState().perform('addMark', { mark: at('a', 6) });
    await pause();
    two.getState().perform('addMark', { mark: at('b', 18) });
    await pause();
    expect((await shelf.jobs.get('job'))?.history.job.marks.map((mark) => mark.id)).toEqual(['a', 'b']);
    expect(one.getState().history?.job.marks.map((mark) => mark.id)).toEqual(['a', 'b']);
    expect(await shelf.jobs.count()).toBe(1);
  });

  it('that did not hear of each other: nothing is lost, both are kept or put together', async () => {
    const { shelf, open } = pair();
    const one = open(true);
    await one.getState().open(tiny, 'job');
    await pause();
    const two = open(true);
    await two.getState().openKept('job');
    await pause();
    one.getState().perform('addMark', { mark: at('a', 6) });
    await pause();
    two.getState().perform('addMark', { mark: at('b', 18) });
    await pause(900);
    const kept = await shelf.jobs.toArray();
    const marks = new Set(kept.flatMap((job) => job.history.job.marks.map((mark) => mark.id)));
    expect(marks).toEqual(new Set(['a', 'b']));
    expect(two.getState().history?.job.marks.some((mark) => mark.id === 'b')).toBe(true);
    expect(two.getState().note).toBeTruthy();
  });
});

describe('latestOnly', () => {
  it('skips what was overtaken, and always does the last', async () => {
    const seen: number[] = [];
    const gates: (() => void)[] = [];
    const run = latestOnly<number>(async (n) => {
      seen.push(n);
      await new Promise<void>((resolve) => gates.push(resolve));
    });
    const turn = () => new Promise((resolve) => setTimeout(resolve, 0));
    for (const n of [1, 2, 3, 4]) run(n);
    expect(seen).toEqual([1]);
    gates.shift()?.();
    await turn();
    expect(seen).toEqual([1, 4]);
    gates.shift()?.();
    await turn();
    run(5);
    expect(seen).toEqual([1, 4, 5]);
  });
});
