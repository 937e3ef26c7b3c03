// Framing by the row, as it is called out: "2x8 at 16, running up, from this wall"; or one member by itself.
import { useState } from 'react';
import type { Support } from '../engine/wire';
import { memberName } from '../plan/names';
import { boxOf } from '../plan/view';
import { useStore } from '../store/store';
import { LengthPad, Typed } from '../ui/LengthPad';
import { Choice } from '../ui/parts';
import { w } from '../words/en';
import { formatLength, parseLength } from '../words/lengths';
import { EndsFields } from './EndsFields';
import { type RowSpec, rowOf } from './geometry';
import { Next } from './HouseCards';
import type { CardProps } from './RoomScreen';
import { type Ends, NOT_KNOWN, restsOf } from './rests';
import { SIZES, SPACINGS } from './stock';

export function FramingCard({ job, next }: CardProps) {
  const { perform, show } = useStore();
  const [how, setHow] = useState<'row' | 'one'>('row');
  const [size, setSize] = useState('2x8');
  const [spacing, setSpacing] = useState('16');
  const [runs, setRuns] = useState<'x' | 'y'>('y');
  const [from, setFrom] = useState<RowSpec['from']>('low');
  const [ends, setEnds] = useState<Ends>(NOT_KNOWN);
  const [first, setFirst] = useState('');
  if (job.room.outline_in.length < 3) return <p>{w.outlineFirst}</p>;
  const spec: RowSpec = {
    size,
    spacing_in: Number(spacing),
    runs,
    from,
    ends,
    first_in: parseLength(first) ?? Math.min(4, Number(spacing) / 2),
  };
  const row = rowOf(job.room.outline_in, spec, job.supports);
  const add = (supports: Support[]) => {
    perform('addSupports', { supports });
    show({ kind: 'supports' });
  };
  return (
    <>
      {job.supports.length > 0 && (
        <div className="stack">
          <p>{w.framingStands(job.supports.length)}</p>
          {job.supports.slice(0, 40).map((member) => (
            <button type="button" key={member.id} onClick={() => perform('removeSupports', { ids: [member.id] })}>
              ✕ {memberName(job, member)} {typeof member.size === 'string' ? member.size : ''}
            </button>
          ))}
          <button type="button" onClick={() => perform('removeSupports', { ids: job.supports.map((item) => item.id) })}>
            ✕ {w.acts.takeAway} {w.allMembers}
          </button>
        </div>
      )}
      <Choice
        label={w.framing}
        value={how}
        options={[
          { value: 'row', text: w.aRow },
          { value: 'one', text: w.oneMember },
        ]}
        onChange={setHow}
      />
      <Choice said label={w.size} value={size} options={SIZES.map((value) => ({ value, text: value }))} onChange={setSize} />
      <Choice
        said
        label={w.theyRun}
        value={runs}
        options={[
          { value: 'y', text: w.runs.y },
          { value: 'x', text: w.runs.x },
        ]}
        onChange={setRuns}
      />
      {how === 'row' ? (
        <>
          <Choice
            said
            label={w.spacing}
            value={spacing}
            options={SPACINGS.map((value) => ({ value, text: `${value}"` }))}
            onChange={setSpacing}
          />
          <Choice
            said
            label={w.fromWall}
            value={from}
            options={[
              { value: 'low', text: runs === 'y' ? w.sides.left : w.sides.bottom },
              { value: 'high', text: runs === 'y' ? w.sides.right : w.sides.top },
            ]}
            onChange={setFrom}
          />
          <EndsFields ends={ends} runs={runs} onChange={setEnds} />
          <details>
            <summary>{w.firstAt(formatLength(spec.first_in))}</summary>
            <div className="folded">
              <Typed value={first} label={w.first} />
              <LengthPad value={first} onChange={setFirst} />
            </div>
          </details>
          <button
            type="button"
            className="main"
            onClick={() => {
              add(row);
              next();
            }}
          >
            {w.addRow(row.length, size, spacing)}
          </button>
        </>
      ) : (
        <One {...{ size, runs, add }} {...{ job, next }} />
      )}
      <Next next={next} unknown={job.supports.length === 0 ? () => perform('answer', { card: 'framing', unknown: true }) : undefined} />
    </>
  );
}

interface OneProps extends CardProps {
  size: string;
  runs: 'x' | 'y';
  add: (supports: Support[]) => void;
}

/** One member by itself: what it is, how far from the wall, what each end sits on. */
function One({ job, size, runs, add }: OneProps) {
  const [role, setRole] = useState<'joist' | 'girder'>('girder');
  const [at, setAt] = useState('');
  const [ends, setEnds] = useState<Ends>(NOT_KNOWN);
  const box = boxOf(job.room.outline_in);
  const place = parseLength(at);
  const [run, across] = runs === 'x' ? ([0, 1] as const) : ([1, 0] as const);
  const possible = place !== undefined && place >= -24 && place <= box.max[across] - box.min[across] + 24;
  const make = () => {
    if (place === undefined) return;
    const ids = new Set(job.supports.map((item) => item.id));
    let n = 1;
    const letter = role === 'girder' ? 'g' : 'j';
    while (ids.has(`${letter}${n}`)) n++;
    const point = (s: number): [number, number] => (run === 0 ? [s, place] : [place, s]);
    const length = box.max[run] - box.min[run] + 8;
    add([
      {
        id: `${letter}${n}`,
        role,
        size,
        from_in: point(box.min[run] - 4),
        to_in: point(box.max[run] + 4),
        ...restsOf(ends, length),
      } as Support,
    ]);
    setAt('');
  };
  return (
    <>
      <Choice
        said
        label={w.whatIsIt}
        value={role}
        options={(['girder', 'joist'] as const).map((value) => ({ value, text: w.roles[value] }))}
        onChange={setRole}
      />
      <EndsFields ends={ends} runs={runs} onChange={setEnds} />
      <Typed value={at} label={runs === 'x' ? w.fromBottomWall : w.fromLeftWall} />
      {at !== '' && place !== undefined && !possible && <p className="wrong">{w.wrong.offPlan}</p>}
      <LengthPad value={at} onChange={setAt} />
      <button type="button" className="main" disabled={!possible} onClick={make}>
        {w.addMember}
      </button>
    </>
  );
}
