// The drying log: a line a day for the spots that are read, and when each may be closed.
import { useState } from 'react';
import type { Job, Point } from '../engine/wire';
import { layerName, memberName } from '../plan/names';
import { useRoom } from '../room/placing';
import { idFor } from '../store/keep';
import { useStore } from '../store/store';
import { Field, Fold, Select, Words } from '../ui/parts';
import { w } from '../words/en';
import { formatLength } from '../words/lengths';
import { sayDate, sayTime, stamp } from '../words/times';
import { DryingChart } from './pictures';
import { Page, type StageProps, useWhole, Why } from './shared';

type Reading = NonNullable<Job['drying']>['readings'][number];
interface Spot {
  key: string;
  layer?: string;
  support?: string;
  at_in?: Point;
  last?: Reading;
}

const keyOf = (spot: Pick<Reading, 'layer' | 'at_in'> & { support?: string }) =>
  `${spot.layer ?? ''} ${spot.support ?? ''} ${spot.at_in?.join() ?? ''}`;

/** The spots that were read so far, each with its last reading. */
export function spotsOf(readings: Reading[]): Spot[] {
  const spots = new Map<string, Spot>();
  for (const reading of readings) {
    const { layer, at_in, support } = reading as Reading & { support?: string };
    spots.set(keyOf({ layer, at_in, support }), {
      key: keyOf({ layer, at_in, support }),
      ...(layer ? { layer } : {}),
      ...(support ? { support } : {}),
      ...(at_in ? { at_in: at_in as Point } : {}),
      last: reading,
    });
  }
  return [...spots.values()];
}

const nameOf = (job: Job, spot: Pick<Spot, 'layer' | 'support' | 'at_in'>) =>
  [
    spot.support ? memberName(job, spot.support) : layerName(job, spot.layer ?? ''),
    spot.at_in ? w.fromWalls(formatLength(spot.at_in[0]), formatLength(spot.at_in[1])) : '',
  ]
    .filter(Boolean)
    .join(', ');

export function DryingStage({ go }: StageProps) {
  const { history } = useStore();
  const job = history?.job;
  const { whole } = useWhole();
  if (!job) return null;
  const drying = whole?.findings.drying;
  const readings = job.drying?.readings ?? [];
  const dated = drying?.layers.find((item) => item.close_p90) ?? drying?.layers[0];
  return (
    <Page
      stage="drying"
      answer={
        drying?.released
          ? w.mayClose
          : dated?.close_p50
            ? w.closeBy(
                nameOf(job, { layer: dated.layer, support: dated.support }),
                sayDate(drying?.close_p50 ?? dated.close_p50),
                sayDate(drying?.close_p90 ?? dated.close_p90 ?? ''),
              )
            : readings.length > 0
              ? w.readingsSoFar(readings.length)
              : w.noReadings
      }
      because={drying && drying.words.length > 0 && <Words lines={drying.words} />}
      next={{ text: w.toStage(w.stages.price.name), go: () => go('price') }}
    >
      <Day job={job} spots={spotsOf(readings)} />
      {drying?.layers.map((item) => (
        <section key={`${item.layer} ${item.support} ${item.at_in}`} className="drying-layer">
          <h3>{nameOf(job, { layer: item.layer, support: item.support, at_in: item.at_in as Point | undefined })}</h3>
          <p>
            <b>{w.nowAndLimit(item.now_percent.toFixed(1), String(item.limit_percent))}</b> {item.released ? w.mayClose : item.needs}
          </p>
          <DryingChart layer={item} />
          <Fold title={w.why}>
            <Words lines={item.assumed} />
            <ul>
              {item.what_if.map((what) => (
                <li key={what.what}>
                  {what.what}: {what.close_p50 ? sayDate(what.close_p50) : w.never}
                </li>
              ))}
            </ul>
            <Why reason={item.reason} />
          </Fold>
        </section>
      ))}
      <Log job={job} readings={readings} />
    </Page>
  );
}

/** Today's line: the spots of before with a field each, the air, and one Save. */
function Day({ job, spots }: { job: Job; spots: Spot[] }) {
  const perform = useStore((state) => state.perform);
  const { onPlace, place } = useRoom();
  const [typed, setTyped] = useState<Record<string, string>>({});
  const [air, setAir] = useState({ temp: '', rh: '' });
  const [added, setAdded] = useState<Spot[]>([]);
  const [layer, setLayer] = useState('');
  const on = layer || job.layers.at(-1)?.id || '';
  const rows = [...spots, ...added.filter((spot) => !spots.some((known) => known.key === spot.key))];
  const number = (text: string) => Number(text.replace(',', '.'));
  const wrong = (text: string, low: number, high: number) => text.trim() !== '' && !(number(text) >= low && number(text) <= high);
  const filled = rows.filter((spot) => (typed[spot.key] ?? '').trim() !== '');
  const bad = filled.some((spot) => wrong(typed[spot.key] ?? '', 4, 100)) || wrong(air.temp, -20, 150) || wrong(air.rh, 0, 100);
  const add = (at: Point) => {
    const at_in: Point = [Math.round(at[0]), Math.round(at[1])];
    onPlace(undefined);
    setAdded((list) => [...list, { key: keyOf({ layer: on, at_in }), layer: on, at_in }]);
  };
  const save = () => {
    const time = stamp(new Date());
    const readings: Reading[] = [];
    for (const spot of filled)
      readings.push({
        id: idFor([...(job.drying?.readings ?? []), ...readings], 'r'),
        time,
        ...(spot.layer ? { layer: spot.layer } : {}),
        ...(spot.support ? { support: spot.support } : {}),
        ...(spot.at_in ? { at_in: spot.at_in } : {}),
        mc_percent: number(typed[spot.key] ?? ''),
        ...(air.temp ? { air_temp_f: number(air.temp) } : {}),
        ...(air.rh ? { air_rh_percent: number(air.rh) } : {}),
      } as Reading);
    perform('addReadings', { readings });
    setTyped({});
    setAdded([]);
  };
  return (
    <>
      <h3>{w.todaysLine}</h3>
      {rows.map((spot) => (
        <Field
          key={spot.key}
          label={`${nameOf(job, spot)}${spot.last ? ` (${w.wasPercent(spot.last.mc_percent ?? 0)})` : ''}`}
          inputMode="decimal"
          value={typed[spot.key] ?? ''}
          error={wrong(typed[spot.key] ?? '', 4, 100) ? w.wrong.percentRange : undefined}
          onChange={(value) => setTyped((all) => ({ ...all, [spot.key]: value }))}
        />
      ))}
      {rows.length > 0 && (
        <>
          <div className="pair">
            <Field
              label={w.airTemp}
              inputMode="decimal"
              value={air.temp}
              error={wrong(air.temp, -20, 150) ? w.wrong.airTemp : undefined}
              onChange={(temp) => setAir({ ...air, temp })}
            />
            <Field
              label={w.airRh}
              inputMode="decimal"
              value={air.rh}
              error={wrong(air.rh, 0, 100) ? w.wrong.airRh : undefined}
              onChange={(rh) => setAir({ ...air, rh })}
            />
          </div>
          <button type="button" className="main block" disabled={filled.length === 0 || bad} onClick={save}>
            {w.saveDay(filled.length)}
          </button>
        </>
      )}
      <Fold title={w.newSpot}>
        <Select
          label={w.on}
          value={on}
          options={job.layers.map((item) => ({ value: item.id, label: layerName(job, item) }))}
          onChange={setLayer}
        />
        <button type="button" className="block" aria-pressed={place !== undefined} onClick={() => onPlace(add)}>
          {w.spotOnPlan}
        </button>
      </Fold>
    </>
  );
}

function Log({ job, readings }: { job: Job; readings: Reading[] }) {
  const perform = useStore((state) => state.perform);
  if (readings.length === 0) return null;
  return (
    <Fold title={`${w.meterLog} (${readings.length})`}>
      <ul className="rows">
        {[...readings].reverse().map((reading) => (
          <li key={reading.id} className="log-line">
            <span className="grow">
              <b>{reading.mc_percent ?? '?'}%</b>{' '}
              {nameOf(job, { layer: reading.layer, support: reading.support, at_in: reading.at_in as Point | undefined })}
              <small>{sayTime(reading.time)}</small>
            </span>
            <button
              type="button"
              className="icon"
              aria-label={`${w.acts.takeAway} ${w.acts.reading} ${reading.mc_percent ?? '?'}%`}
              onClick={() => perform('removeReading', { id: reading.id })}
            >
              ✕
            </button>
          </li>
        ))}
      </ul>
    </Fold>
  );
}
