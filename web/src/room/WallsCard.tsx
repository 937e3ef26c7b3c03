// Walls and what they carry, in a builder's words: what comes down on each, what stands below it, how far
// to the next wall that carries. Left out of the document is what nobody said.
import { useState } from 'react';
import type { Job, Wall } from '../engine/wire';
import { wallName } from '../plan/names';
import { useStore } from '../store/store';
import { Choice, Field, Fold, Select } from '../ui/parts';
import { w } from '../words/en';
import { formatLength, parseLength } from '../words/lengths';
import { wallsOf } from './geometry';
import { Next } from './HouseCards';
import type { CardProps } from './RoomScreen';

type Says = 'roof' | 'floor' | 'none' | 'unknown';

export function saysOf(wall: Wall): Says {
  if (wall.bearing === undefined) return 'unknown';
  if (!wall.bearing) return 'none';
  return wall.floors_above ? 'floor' : 'roof';
}

/** The wall with what was said put in; undefined or unknown takes a word out again. */
export function withWord(wall: Wall, patch: Partial<Wall>): Wall {
  const next = { ...wall, ...patch };
  for (const [key, value] of Object.entries(patch) as [keyof Wall, unknown][])
    if (value === undefined || value === 'unknown' || (Array.isArray(value) && value.length === 0)) delete next[key];
  if (next.stands_on === undefined) next.stands_on = 'unknown';
  return next;
}

export function withLoad(wall: Wall, says: Says): Wall {
  if (says === 'unknown') return withWord(wall, { bearing: undefined, floors_above: undefined, lands_here: undefined });
  if (says === 'none') return withWord(wall, { bearing: false, floors_above: undefined, lands_here: undefined });
  return withWord(wall, { bearing: true, floors_above: says === 'floor' ? 1 : undefined, lands_here: says === 'roof' ? true : undefined });
}

export function WallsCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  if (job.room.outline_in.length < 3) return <p>{w.outlineFirst}</p>;
  const walls = job.walls.length > 0 ? job.walls : wallsOf(job.room.outline_in);
  const put = (index: number, wall: Wall) => perform('setWalls', { walls: walls.map((old, i) => (i === index ? wall : old)) });
  return (
    <>
      <p>{w.cards.walls.asks}</p>
      {walls.map((wall, i) => (
        <div key={wall.id} className="details">
          <Choice
            said
            label={wallName({ ...job, walls }, wall)}
            value={job.walls.length > 0 ? saysOf(wall) : undefined}
            options={(['none', 'roof', 'floor', 'unknown'] as const).map((value) => ({ value, text: w.carries[value] }))}
            onChange={(says) => put(i, withLoad(wall, says))}
          />
          {wall.bearing !== false && job.walls.length > 0 && (
            <Fold title={w.moreOfWall}>
              <More wall={wall} onChange={(patch) => put(i, withWord(wall, patch))} />
            </Fold>
          )}
        </div>
      ))}
      {walls.some((wall) => wall.bearing === true) && <House job={job} />}
      <Next
        next={next}
        unknown={job.walls.length === 0 ? () => perform('setWalls', { walls: wallsOf(job.room.outline_in), unknown: true }) : undefined}
      />
    </>
  );
}

const BELOW = ['unknown', 'foundation', 'wall', 'girder', 'nothing'] as const;
const ATTIC = ['unknown', 'trusses', 'rafters', 'none'] as const;
const yesNo = (value: boolean | undefined) => (value === undefined ? 'unknown' : value ? 'yes' : 'no');
const said = (value: string) => (value === 'unknown' ? undefined : value === 'yes');

function More({ wall, onChange }: { wall: Wall; onChange: (patch: Partial<Wall>) => void }) {
  const reach = wall.next_bearing_in?.[0];
  const [typed, setTyped] = useState(reach === undefined ? '' : formatLength(reach));
  const length = parseLength(typed);
  const asks: [keyof Wall, string][] = [
    ['outside', w.wallWords.outside],
    ['heavy_roof', w.wallWords.heavyRoof],
    ['wide_opening', w.wallWords.wideOpening],
    ['studs_run_past', w.wallWords.studsRunPast],
  ];
  return (
    <>
      <Select
        label={w.wallWords.below}
        value={wall.below ?? 'unknown'}
        options={BELOW.map((value) => ({ value, label: w.wallBelow[value] }))}
        onChange={(below) => onChange({ below: below as Wall['below'] })}
      />
      <Select
        label={w.wallWords.standsOn}
        value={wall.stands_on ?? 'unknown'}
        options={(['unknown', 'deck', 'framing'] as const).map((value) => ({ value, label: w.standsOn[value] }))}
        onChange={(stands_on) => onChange({ stands_on: stands_on as Wall['stands_on'] })}
      />
      <Select
        label={w.wallWords.attic}
        value={wall.attic ?? 'unknown'}
        options={ATTIC.map((value) => ({ value, label: w.attics[value] }))}
        onChange={(attic) => onChange({ attic: attic as Wall['attic'] })}
      />
      <Select
        label={w.wallWords.floors}
        value={String(wall.floors_above ?? 'unknown')}
        options={['unknown', '0', '1', '2'].map((value) => ({ value, label: value === 'unknown' ? w.dontKnow : value }))}
        onChange={(value) => onChange({ floors_above: value === 'unknown' ? undefined : Number(value) })}
      />
      <Field
        label={w.wallWords.nextBearing}
        value={typed}
        read={length === undefined ? undefined : `= ${formatLength(length)}`}
        error={typed.trim() !== '' && length === undefined ? w.wrong.length : undefined}
        onChange={(value) => {
          setTyped(value);
          const inches = parseLength(value);
          if (value.trim() === '') onChange({ next_bearing_in: [] });
          else if (inches !== undefined && inches > 0) onChange({ next_bearing_in: [inches] });
        }}
      />
      {asks.map(([key, label]) => (
        <Choice
          said
          key={key}
          label={label}
          value={yesNo(wall[key] as boolean | undefined)}
          options={['no', 'yes', 'unknown'].map((value) => ({ value, text: w.yesNo[value] }))}
          onChange={(value) => onChange({ [key]: said(value) })}
        />
      ))}
    </>
  );
}

/** What the load of a roof hangs on besides: the house's width and the snow. */
function House({ job }: { job: Job }) {
  const perform = useStore((state) => state.perform);
  const [width, setWidth] = useState(job.job.house_width_in === undefined ? '' : formatLength(job.job.house_width_in));
  const [snow, setSnow] = useState(job.job.ground_snow_psf === undefined ? '' : String(job.job.ground_snow_psf));
  const length = parseLength(width);
  const psf = Number(snow);
  const right = (width.trim() === '' || (length !== undefined && length > 0)) && (snow.trim() === '' || (psf >= 0 && psf <= 300));
  return (
    <div className="details">
      <Field
        label={w.wallWords.houseWidth}
        value={width}
        read={length === undefined ? undefined : `= ${formatLength(length)}`}
        onChange={setWidth}
      />
      <Field label={w.wallWords.snow} value={snow} inputMode="decimal" onChange={setSnow} />
      <button
        type="button"
        className="block"
        disabled={!right}
        onClick={() =>
          perform('setFacts', {
            facts: { house_width_in: width.trim() === '' ? undefined : length, ground_snow_psf: snow.trim() === '' ? undefined : psf },
            card: 'walls',
          })
        }
      >
        {w.set}
      </button>
    </div>
  );
}
