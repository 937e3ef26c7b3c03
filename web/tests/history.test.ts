import { describe, expect, it } from 'vitest';
import type { Fixture, Job, Mark } from '../src/engine/wire';
import { acts } from '../src/store/acts';
import { did, fresh, type History, redone, undone } from '../src/store/history';
import { fileNameOf, newId } from '../src/store/keep';

const empty = {
  job: { name: 'A' },
  room: { outline_in: [[0, 0]] },
  marks: [],
  fixtures: [{ id: 'f', stands: true }],
  sources: [{ id: 's', active: 'unknown' }],
} as unknown as Job;
const soft: Mark = { id: 'm1', tool: 'awl', reads: 'soft', at_in: [88.5, 12], layer: 'deck' };
const add = (history: History, mark: Mark) =>
  did(history, acts.addMark.label({ mark }, history.job), (draft) => acts.addMark.change(draft, { mark }));

describe('steps', () => {
  it('undoes and does again, to the same job', () => {
    const one = add(fresh(empty), soft);
    const two = did(one, 'lift', (draft) => acts.changeFixture.change(draft, { fixture: { id: 'f', stands: false } as Fixture }));
    const back = undone(undone(two));
    expect(back.job).toEqual(empty);
    expect(back.past).toEqual([]);
    expect(redone(redone(back)).job).toEqual(two.job);
    expect(undone(back)).toBe(back);
    expect(redone(two)).toBe(two);
  });
  it('names each step and drops what was undone when something else is done', () => {
    const one = add(fresh(empty), soft);
    expect(one.past[0]?.label).toBe('awl soft at 7\' 4 1/2", 1\' 0"');
    const other = add(undone(one), { ...soft, id: 'm2', reads: 'sound' });
    expect(other.future).toEqual([]);
    expect(other.job.marks.map((mark) => mark.id)).toEqual(['m2']);
  });
  it('makes no step of an act that changes nothing', () => {
    const start = fresh(empty);
    expect(did(start, 'x', (draft) => acts.changeFixture.change(draft, { fixture: { id: 'x', stands: true } as Fixture }))).toBe(start);
    expect(did(start, 'x', (draft) => acts.changeMark.change(draft, { mark: soft }))).toBe(start);
  });
  it('keeps patches, not jobs, and survives being stored as text', () => {
    const one = add(fresh(empty), soft);
    const stored = JSON.parse(JSON.stringify(one)) as History;
    expect(undone(stored).job).toEqual(empty);
    expect(JSON.stringify(one.past).length).toBeLessThan(600);
  });
  it('keeps the last 200', () => {
    let history = fresh(empty);
    for (let i = 0; i < 230; i++) history = add(history, { ...soft, id: `m${i}` });
    expect(history.past.length).toBe(200);
    expect(history.job.marks.length).toBe(230);
  });
  it('changes and takes away one mark only', () => {
    const two = add(add(fresh(empty), soft), { ...soft, id: 'm2' });
    const changed = did(two, 'c', (draft) => acts.changeMark.change(draft, { mark: { ...soft, reads: 'gone' } }));
    expect(changed.job.marks.map((mark) => mark.reads)).toEqual(['gone', 'soft']);
    const less = did(changed, 'r', (draft) => acts.removeMark.change(draft, { id: 'm1' }));
    expect(less.job.marks.map((mark) => mark.id)).toEqual(['m2']);
  });
  it('forgets the year when it is emptied', () => {
    const known = did(fresh(empty), 'f', (draft) => acts.setFacts.change(draft, { facts: { name: 'B', year_built: 1954 } }));
    expect(known.job.job.year_built).toBe(1954);
    const unknown = did(known, 'f', (draft) => acts.setFacts.change(draft, { facts: { year_built: undefined } }));
    expect('year_built' in unknown.job.job).toBe(false);
  });
});

describe('names', () => {
  it('never gives an id twice', () => {
    const draws = [0, 0, 0.5];
    expect(newId(['m00000'], 'm', () => draws.shift() ?? 0)).not.toBe('m00000');
  });
  it('names files after jobs', () => {
    expect(fileNameOf({ job: { name: 'Juniper Lane, laundry (invented)' } } as Job)).toBe('juniper-lane-laundry-invented.json');
    expect(fileNameOf({ job: { name: '???' } } as Job)).toBe('job.json');
  });
});
