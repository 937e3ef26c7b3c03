// Cards that are answered on the plan: the outline, doors, fixtures, the leak, the walls.
import { useEffect, useRef, useState } from 'react';
import type { Fixture, Point } from '../engine/wire';
import { idFor } from '../store/keep';
import { useStore } from '../store/store';
import { LengthPad, Typed } from '../ui/LengthPad';
import { Choice } from '../ui/parts';
import { w } from '../words/en';
import { formatLength, parseLength } from '../words/lengths';
import { closed, doorAt, fixtureAt, newFixture, slanted, turned, type Way, walked } from './geometry';
import { firstSource, Next } from './HouseCards';
import { useRoom } from './placing';
import type { CardProps } from './RoomScreen';
import { DOOR_WIDTHS, FOOTPRINTS } from './stock';

const WAYS: [Way, string][] = [
  ['left', '←'],
  ['up', '↑'],
  ['down', '↓'],
  ['right', '→'],
];
/** What is taken when nobody measured: a small bath. */
const ASSUMED_ROOM: Point[] = [
  [0, 0],
  [96, 0],
  [96, 60],
  [0, 60],
];

export function OutlineCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const { walk, setWalk, typed, type } = useRoom();
  const [slant, setSlant] = useState<number | undefined>();
  const [wrong, setWrong] = useState('');
  const fresh = job.room.outline_in.length < 3;
  useEffect(() => {
    if (fresh && useRoom.getState().walk === undefined) setWalk([[0, 0]]);
  }, [fresh, setWalk]);
  const length = parseLength(typed);
  const go = (way: Way) => {
    if (length === undefined || length <= 0) return setWrong(w.wrong.length);
    setWrong('');
    const signed = way === 'left' || way === 'down' ? -length : length;
    if (slant !== undefined && (way === 'up' || way === 'down')) {
      setWalk(slanted(walk ?? [], slant, signed));
      setSlant(undefined);
    } else if (slant === 0) setSlant(signed);
    else setWalk(walked(walk ?? [], way, length));
    type('');
  };
  const finish = () => {
    const made = closed(walk ?? []);
    if ('wrong' in made) return setWrong(w.outlineWrong[made.wrong]);
    perform('setOutline', { outline: made.corners });
    setWalk(undefined);
    next();
  };
  if (!walk)
    return (
      <div className="stack">
        <button type="button" onClick={() => setWalk([[0, 0]])}>
          {w.walkAgain}
        </button>
        <Next next={next} />
      </div>
    );
  return (
    <>
      <p>{slant !== undefined ? w.slantAsks : w.cards.outline.asks}</p>
      <div className="walls-pad">
        {WAYS.map(([way, arrow]) => (
          <button type="button" key={way} className="main" aria-label={w.ways[way]} onClick={() => go(way)}>
            {arrow}
          </button>
        ))}
      </div>
      <Typed value={typed} label={w.wallLength} />
      {wrong && (
        <p className="wrong" role="alert">
          {wrong}
        </p>
      )}
      <LengthPad value={typed} onChange={type} />
      <div className="triple">
        <button type="button" disabled={walk.length < 2} onClick={() => setWalk(walk.slice(0, -1))}>
          {w.wallBack}
        </button>
        <button type="button" aria-pressed={slant !== undefined} onClick={() => setSlant(slant === undefined ? 0 : undefined)}>
          {w.slant}
        </button>
        <button type="button" className="main" disabled={walk.length < 3} onClick={finish}>
          {w.closeSquare}
        </button>
      </div>
      {fresh && (
        <Next
          next={() => {
            setWalk(undefined);
            next();
          }}
          unknown={() => perform('setOutline', { outline: ASSUMED_ROOM, unknown: true })}
        />
      )}
    </>
  );
}

/** Asks the plan for a spot while the card is open. */
function usePlace(place: ((at: Point) => void) | undefined): void {
  const onPlace = useRoom((state) => state.onPlace);
  const latest = useRef(place);
  latest.current = place;
  const asks = place !== undefined;
  useEffect(() => {
    onPlace(asks ? (at) => latest.current?.(at) : undefined);
    return () => onPlace(undefined);
  }, [asks, onPlace]);
}

export function DoorsCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const [width, setWidth] = useState('30');
  const [wrong, setWrong] = useState('');
  usePlace((at) => {
    const cut = doorAt(job.room.outline_in, at, Number(width));
    setWrong(cut ? '' : w.noWallSoLong);
    if (cut) perform('addDoor', { id: idFor(job.room.doors, 'd'), ...cut });
  });
  if (job.room.outline_in.length < 3) return <p>{w.outlineFirst}</p>;
  return (
    <>
      <p>{w.cards.doors.asks}</p>
      <Choice
        said
        label={w.doorWidth}
        value={width}
        options={DOOR_WIDTHS.map((value) => ({ value, text: `${value}"` }))}
        onChange={setWidth}
      />
      {wrong && <p className="wrong">{wrong}</p>}
      <div className="stack">
        {job.room.doors.map((door) => (
          <button type="button" key={door.id} onClick={() => perform('removeDoor', { id: door.id })}>
            ✕ {w.door} {formatLength(Math.hypot(door.to_in[0] - door.from_in[0], door.to_in[1] - door.from_in[1]))}
          </button>
        ))}
      </div>
      <Next next={next} unknown={job.room.doors.length === 0 ? () => perform('answer', { card: 'doors', unknown: true }) : undefined} />
    </>
  );
}

export function FixturesCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const [kind, setKind] = useState<Fixture['kind'] | undefined>();
  const size = FOOTPRINTS.find(([name]) => name === kind)?.[1];
  usePlace(
    kind && size
      ? (at) => {
          const outline = fixtureAt(job.room.outline_in, at, size);
          if (!outline) return;
          const same = job.fixtures.filter((item) => item.kind === kind).length;
          const id = same === 0 && !job.fixtures.some((item) => item.id === kind) ? kind : idFor(job.fixtures, 'f');
          perform('addFixture', { fixture: newFixture(id, kind, outline) });
          setKind(undefined);
        }
      : undefined,
  );
  if (job.room.outline_in.length < 3) return <p>{w.outlineFirst}</p>;
  return (
    <>
      <p>{kind ? w.touchPlan(w.fixtures[kind]) : w.cards.fixtures.asks}</p>
      <Choice
        label={w.cards.fixtures.title}
        value={kind}
        options={FOOTPRINTS.map(([value]) => ({ value, text: w.fixtures[value] }))}
        onChange={setKind}
      />
      {job.fixtures.map((fixture) => (
        <div className="triple" key={fixture.id}>
          <button
            type="button"
            onClick={() =>
              perform('changeFixture', { fixture: { ...fixture, outline_in: turned(fixture.outline_in, job.room.outline_in) } })
            }
          >
            ↻ {w.fixtures[fixture.kind]}
          </button>
          <button
            type="button"
            aria-pressed={!fixture.stands}
            onClick={() => perform('changeFixture', { fixture: { ...fixture, stands: !fixture.stands } })}
          >
            {w.isLifted}
          </button>
          <button
            type="button"
            aria-label={`${w.acts.takeAway} ${w.fixtures[fixture.kind]}`}
            onClick={() => perform('removeFixture', { id: fixture.id })}
          >
            ✕
          </button>
        </div>
      ))}
      <Next next={next} unknown={job.fixtures.length === 0 ? () => perform('answer', { card: 'fixtures', unknown: true }) : undefined} />
    </>
  );
}

export function LeakCard({ job, next }: CardProps) {
  const perform = useStore((state) => state.perform);
  const source = firstSource(job);
  usePlace((at) => {
    const at_in: Point = [Math.round(at[0]), Math.round(at[1])];
    perform('setSource', { source: { ...source, at_in }, card: 'leak' });
    next();
  });
  if (job.room.outline_in.length < 3) return <p>{w.outlineFirst}</p>;
  return (
    <>
      <p>{w.cards.leak.asks}</p>
      <Next next={next} unknown={() => perform('setSource', { source: { ...source, at_in: undefined }, card: 'leak', unknown: true })} />
    </>
  );
}
