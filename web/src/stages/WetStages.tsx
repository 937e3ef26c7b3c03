// The shower's heights and falls, and the drying log. Both speak only of what the job asks for.
import { useState } from 'react';
import type { Point } from '../engine/wire';
import { layerName } from '../plan/names';
import { centre } from '../plan/places';
import { fixtureAt } from '../room/geometry';
import { useRoom } from '../room/placing';
import { idFor } from '../store/keep';
import { jobOf, useStore } from '../store/store';
import { LengthPad, Typed } from '../ui/LengthPad';
import { Choice, Fold, Select, Words } from '../ui/parts';
import { w } from '../words/en';
import { formatLength } from '../words/lengths';
import { sayDate, sayTime, stamp } from '../words/times';
import { Page, type StageProps, WholePage } from './shared';

interface ShowerFindings {
  answers?: {
    id: string;
    step_at_door_in?: number;
    step_at_entry_in?: number;
    stacks?: { at: string; top_in: number; parts: { what: string; thickness_in: number }[] }[];
  }[];
  chosen?: string;
  pan?: { edge_height_in?: number; steepest_in_per_ft?: number; flattest_in_per_ft?: number; bed_volume_ft3?: number };
  drain_run?: { ok: boolean; length_ft?: number; total_fall_in?: number; crosses?: string[] };
  flood_test?: { depth_in?: number; volume_gal?: number; weight_lb?: number; hours?: number };
  conflicts?: string[];
  words?: string[];
}

export function ShowerStage({ go }: StageProps) {
  const { history, perform } = useStore();
  const job = history?.job;
  const { onPlace, place } = useRoom();
  if (!job) return null;
  const put = (at: Point) => {
    const outline = fixtureAt(job.room.outline_in, at, [60, 36]);
    onPlace(undefined);
    if (outline)
      perform('setShower', {
        shower: { outline_in: outline, entry: 'curb', drain: { kind: 'point', at_in: centre(outline) }, least_fall_in_per_ft: 0.25 },
      });
  };
  if (!job.shower)
    return (
      <Page
        stage="shower"
        answer={place ? w.touchPlan(w.fixtures.shower) : w.noShower}
        next={{ text: w.planShower, go: () => onPlace(put) }}
      >
        <button type="button" onClick={() => go('drying')}>
          {w.toStage(w.stages.drying.name)}
        </button>
      </Page>
    );
  const shower = job.shower;
  return (
    <WholePage stage="shower" go={go}>
      {(findings) => {
        const found = (findings as unknown as { shower?: ShowerFindings }).shower;
        const answer = found?.answers?.find((item) => item.id === found.chosen) ?? found?.answers?.[0];
        return (
          <Page
            stage="shower"
            answer={
              answer ? w.showerStep(formatLength(answer.step_at_door_in ?? 0), formatLength(answer.step_at_entry_in ?? 0)) : w.showerPlanned
            }
            next={{ text: w.toStage(w.stages.drying.name), go: () => go('drying') }}
          >
            <Choice
              said
              label={w.entry}
              value={shower.entry}
              options={(['flush', 'curb', 'step'] as const).map((value) => ({ value, text: w.entries[value] }))}
              onChange={(entry) => perform('setShower', { shower: { ...shower, entry } })}
            />
            <Choice
              said
              label={w.leastFall}
              value={String(shower.least_fall_in_per_ft ?? '')}
              options={['0.125', '0.25', '0.5'].map((value) => ({ value, text: `${formatLength(Number(value))} ${w.perFoot}` }))}
              onChange={(value) => perform('setShower', { shower: { ...shower, least_fall_in_per_ft: Number(value) } })}
            />
            {(found?.conflicts?.length ?? 0) > 0 && (
              <div className="warn">
                <Words lines={found?.conflicts ?? []} />
              </div>
            )}
            {answer?.stacks?.map((stack) => (
              <Fold key={stack.at} title={`${stack.at}: ${formatLength(stack.top_in)}`}>
                <ul>
                  {stack.parts.map((part) => (
                    <li key={part.what}>
                      {part.what} {formatLength(part.thickness_in)}
                    </li>
                  ))}
                </ul>
              </Fold>
            ))}
            {found?.pan && (
              <p>
                {w.pan(
                  formatLength(found.pan.edge_height_in ?? 0),
                  (found.pan.flattest_in_per_ft ?? 0).toFixed(2),
                  (found.pan.steepest_in_per_ft ?? 0).toFixed(2),
                )}
              </p>
            )}
            {found?.flood_test && (
              <p>
                {w.flood(
                  formatLength(found.flood_test.depth_in ?? 0),
                  Math.round(found.flood_test.weight_lb ?? 0),
                  found.flood_test.hours ?? 24,
                )}
              </p>
            )}
            {found?.drain_run && (
              <p>
                {found.drain_run.ok ? w.drainOk : w.drainNot} {(found.drain_run.length_ft ?? 0).toFixed(1)} ft,{' '}
                {formatLength(found.drain_run.total_fall_in ?? 0)}
              </p>
            )}
            <button type="button" className="danger" onClick={() => perform('setShower', { shower: undefined })}>
              {w.noMoreShower}
            </button>
          </Page>
        );
      }}
    </WholePage>
  );
}

interface DryingFindings {
  layers?: { layer: string; limit_percent?: number; now_percent?: number; close_p50?: string; close_p90?: string }[];
  words?: string[];
}

export function DryingStage({ go }: StageProps) {
  const { history, perform, whole } = useStore();
  const job = history?.job;
  const { onPlace } = useRoom();
  const [at, setAt] = useState<Point | undefined>();
  const [percent, setPercent] = useState('');
  const [layer, setLayer] = useState('');
  if (!job) return null;
  const found = whole?.job === job ? (whole.findings as unknown as { drying?: DryingFindings }).drying : undefined;
  const readings = job.drying?.readings ?? [];
  const on = layer || job.layers.at(-1)?.id || '';
  const mc = Number(percent);
  const possible = percent !== '' && mc >= 4 && mc <= 100;
  const last = found?.layers?.find((item) => item.close_p90);
  return (
    <Page
      stage="drying"
      answer={
        last
          ? w.closeBy(layerName(job, last.layer), sayDate(last.close_p50 ?? ''), sayDate(last.close_p90 ?? ''))
          : readings.length > 0
            ? w.readingsSoFar(readings.length)
            : w.noReadings
      }
      next={{ text: w.toStage(w.stages.price.name), go: () => go('price') }}
    >
      <h3>{w.addReading}</h3>
      <Select
        label={w.on}
        value={on}
        options={job.layers.map((item) => ({ value: item.id, label: layerName(job, item) }))}
        onChange={setLayer}
      />
      <button
        type="button"
        onClick={() =>
          onPlace((spot) => {
            setAt([Math.round(spot[0]), Math.round(spot[1])]);
            onPlace(undefined);
          })
        }
      >
        {at ? w.fromWalls(formatLength(at[0]), formatLength(at[1])) : w.spotOnPlan}
      </button>
      <Typed value={percent} label={w.moisture} />
      {percent !== '' && !possible && <p className="wrong">{w.wrong.percentRange}</p>}
      <LengthPad plain value={percent} onChange={setPercent} />
      <button
        type="button"
        className="main"
        disabled={!possible}
        onClick={() => {
          perform('addReading', {
            reading: { id: idFor(readings, 'r'), time: stamp(new Date()), layer: on, mc_percent: mc, ...(at ? { at_in: at } : {}) },
          });
          setPercent('');
        }}
      >
        {w.saveReading}
      </button>
      {found?.layers?.map((item) => (
        <p key={item.layer}>
          {layerName(job, item.layer)}: {item.now_percent?.toFixed(1) ?? '?'}% → {item.limit_percent ?? '?'}%
        </p>
      ))}
      <Words lines={found?.words ?? []} />
      <h3>{w.meterLog}</h3>
      <ul className="rows">
        {[...readings].reverse().map((reading) => (
          <li key={reading.id}>
            <b>{reading.mc_percent ?? '?'}%</b> {reading.layer ? layerName(job, reading.layer) : ''} {sayTime(reading.time)}
          </li>
        ))}
      </ul>
    </Page>
  );
}

export function useJob() {
  return useStore(jobOf);
}
