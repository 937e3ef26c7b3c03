// Cards of the house: water, danger, people, age, what lies below, what is seen, the finish, the name.
import { useState } from 'react';
import type { Job, Source } from '../engine/wire';
import { useStore } from '../store/store';
import { LengthPad, Typed } from '../ui/LengthPad';
import { Choice, Field } from '../ui/parts';
import { w } from '../words/en';
import { parseLength } from '../words/lengths';
import type { CardProps } from './RoomScreen';
import { DECADES, SOURCES } from './stock';

export function firstSource(job: Job): Source {
  return job.sources[0] ?? ({ id: 'water', kind: 'unknown', active: 'unknown' } as Source);
}

export function WaterCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const source = firstSource(job);
  const known = job.sources.length > 0;
  const put = (patch: Partial<Source>) => perform('setSource', { source: { ...source, ...patch }, card: 'water' });
  return (
    <>
      <Choice
        said
        label={w.cards.water.kind}
        value={known ? source.kind : undefined}
        options={[...SOURCES, 'unknown' as const].map((value) => ({ value, text: w.sources[value] }))}
        onChange={(kind) => put({ kind })}
      />
      <Choice
        said
        label={w.cards.water.active}
        value={known ? String(source.active ?? 'unknown') : undefined}
        options={['false', 'true', 'unknown'].map((value) => ({ value, text: w.active[value] }))}
        onChange={(value) => put({ active: (value === 'unknown' ? 'unknown' : value === 'true') as Source['active'] })}
      />
      <Choice
        said
        label={w.cards.water.category}
        value={known ? String(source.water_category ?? '') : undefined}
        options={['1', '2', '3', ''].map((value) => ({ value, text: w.categories[value || '0'] }))}
        onChange={(value) => put({ water_category: value ? Number(value) : undefined })}
      />
      <Next next={next} unknown={known ? undefined : () => perform('setSource', { source, card: 'water', unknown: true })} />
    </>
  );
}

/** On to the next card; before anything was said also "don't know". */
export function Next({ next, unknown, ready = true }: { next: () => void; unknown?: () => void; ready?: boolean }) {
  return (
    <div className="pair">
      {unknown && (
        <button
          type="button"
          onClick={() => {
            unknown();
            next();
          }}
        >
          {w.dontKnowNext}
        </button>
      )}
      {(!unknown || !ready) && (
        <button type="button" className="main" onClick={next}>
          {w.nextCard}
        </button>
      )}
    </div>
  );
}

type Facts = Record<string, boolean | undefined>;

export function DangerCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const facts = ((job as { hazards?: { facts?: Facts } }).hazards?.facts ?? {}) as Facts;
  const said = (key: string) => (facts[key] === undefined ? undefined : facts[key] ? 'yes' : 'no');
  return (
    <>
      <p className="warn">{w.cards.danger.soft}</p>
      {(['gas', 'sewage'] as const).map((key) => (
        <Choice
          said
          key={key}
          label={w.cards.danger.asks[key]}
          value={said(key)}
          options={['no', 'yes', 'unknown'].map((value) => ({ value, text: w.yesNo[value] }))}
          onChange={(value) => perform('setHazardFact', { key, value: value === 'unknown' ? undefined : value === 'yes' })}
        />
      ))}
      <p>{w.cards.danger.wires}</p>
      <Next next={next} unknown={job.asked?.danger ? undefined : () => perform('answer', { card: 'danger', unknown: true })} />
    </>
  );
}

export function PeopleCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const { occupied, only_toilet } = job.job;
  return (
    <>
      <Choice
        said
        label={w.cards.people.lives}
        value={occupied === undefined ? undefined : occupied ? 'yes' : 'no'}
        options={['yes', 'no', 'unknown'].map((value) => ({ value, text: w.yesNo[value] }))}
        onChange={(value) =>
          perform('setFacts', {
            facts: { occupied: value === 'unknown' ? undefined : value === 'yes' },
            card: 'people',
            unknown: value === 'unknown',
          })
        }
      />
      <Choice
        said
        label={w.cards.people.toilet}
        value={only_toilet === undefined ? undefined : only_toilet ? 'yes' : 'no'}
        options={['yes', 'no'].map((value) => ({ value, text: w.yesNo[value] }))}
        onChange={(value) => {
          perform('setFacts', { facts: { only_toilet: value === 'yes' }, card: 'people' });
          next();
        }}
      />
      <Next next={next} unknown={job.asked?.people ? undefined : () => perform('answer', { card: 'people', unknown: true })} />
    </>
  );
}

export function AgeCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const [typed, setTyped] = useState('');
  const year = Number(typed);
  const possible = Number.isInteger(year) && year >= 1600 && year <= new Date().getFullYear();
  const set = (year_built: number) => {
    perform('setFacts', { facts: { year_built }, card: 'age' });
    next();
  };
  return (
    <>
      <p>{w.cards.age.asks}</p>
      <Choice
        label={w.cards.age.asks}
        value={job.job.year_built === undefined ? undefined : String(job.job.year_built)}
        options={DECADES.map((value) => ({ value, text: value === '1930' ? w.before1940 : value === '2000' ? w.since2000 : `${value}s` }))}
        onChange={(value) => set(Number(value))}
      />
      <div className="pair">
        <Field
          label={w.cards.age.exact}
          name="year"
          inputMode="numeric"
          value={typed}
          error={typed.length >= 4 && !possible ? w.wrong.year : undefined}
          onChange={setTyped}
        />
        <button type="button" disabled={!possible} onClick={() => set(year)}>
          {w.set}
        </button>
      </div>
      <Next next={next} unknown={() => perform('setFacts', { facts: { year_built: undefined }, card: 'age', unknown: true })} />
    </>
  );
}

export function BelowCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const facts = job.job as Job['job'] & { hatch?: 'unknown' | 'inside' | 'outside' | 'none'; headroom_in?: number };
  const [typed, setTyped] = useState('');
  const headroom = parseLength(typed);
  return (
    <>
      <Choice
        said
        label={w.cards.below.asks}
        value={stateValue(job)}
        options={(['crawl_space', 'basement', 'room', 'unknown'] as const).map((value) => ({ value, text: w.below[value] }))}
        onChange={(below) => {
          perform('setFacts', {
            facts: { below, storey: below === 'room' ? 'upper' : below === 'unknown' ? 'unknown' : 'ground' },
            card: 'below',
            unknown: below === 'unknown',
          });
          if (below === 'unknown' || below === 'room') next();
        }}
      />
      {(job.job.below === 'crawl_space' || job.job.below === 'basement') && (
        <>
          <Choice
            said
            label={w.cards.below.hatch}
            value={facts.hatch}
            options={(['inside', 'outside', 'none'] as const).map((value) => ({ value, text: w.hatches[value] }))}
            onChange={(hatch) => perform('setFacts', { facts: { hatch } as Partial<Job['job']>, card: 'below' })}
          />
          <Typed value={typed} label={w.cards.below.headroom} />
          <LengthPad value={typed} onChange={setTyped} />
          <button
            type="button"
            className="main"
            onClick={() => {
              if (headroom !== undefined && headroom > 0)
                perform('setFacts', { facts: { headroom_in: headroom } as Partial<Job['job']>, card: 'below' });
              next();
            }}
          >
            {w.nextCard}
          </button>
        </>
      )}
    </>
  );
}
function stateValue(job: Job) {
  return job.asked?.below || job.job.below !== 'unknown' ? job.job.below : undefined;
}

export function SeenCard({ next }: CardProps) {
  const { perform, lookFrom } = useStore();
  return (
    <>
      <p>{w.cards.seen.asks}</p>
      <div className="stack">
        <button
          type="button"
          onClick={() => {
            lookFrom(true);
            perform('answer', { card: 'seen' });
            next();
          }}
        >
          {w.cards.seen.something}
        </button>
        <button
          type="button"
          onClick={() => {
            perform('answer', { card: 'seen' });
            next();
          }}
        >
          {w.cards.seen.nothing}
        </button>
        <button
          type="button"
          onClick={() => {
            perform('answer', { card: 'seen', unknown: true });
            next();
          }}
        >
          {w.cards.seen.cannot}
        </button>
      </div>
    </>
  );
}

export function FinishCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  return (
    <>
      <Choice
        label={w.cards.finish.title}
        value={job.asked?.finish === 'unknown' ? undefined : job.rebuild?.finish}
        options={(['sheet_vinyl', 'ceramic_tile', 'porcelain_tile', 'stone_tile', 'other'] as const).map((value) => ({
          value,
          text: w.finishes[value],
        }))}
        onChange={(finish) => {
          perform('setRebuild', { patch: { finish }, card: 'finish' });
          next();
        }}
      />
      <Next next={next} unknown={() => perform('answer', { card: 'finish', unknown: true })} />
    </>
  );
}

export function NameCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const [name, setName] = useState(job.job.name);
  const [owner, setOwner] = useState(job.job.owner ?? '');
  const [address, setAddress] = useState(job.job.address ?? '');
  return (
    <>
      <Field label={w.cards.name.name} value={name} maxLength={200} onChange={setName} />
      <Field label={w.cards.name.owner} value={owner} maxLength={200} onChange={setOwner} />
      <Field label={w.cards.name.address} value={address} maxLength={200} onChange={setAddress} />
      <button
        type="button"
        className="main"
        onClick={() => {
          perform('setFacts', {
            facts: { name: name.trim(), owner: owner.trim() || undefined, address: address.trim() || undefined },
            card: 'name',
          });
          next();
        }}
      >
        {w.set}
      </button>
    </>
  );
}
