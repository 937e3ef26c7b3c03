// Jobs in, jobs out, and the facts of the job that decide the most.
import { TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import { demos } from '../demos';
import { askEngine } from '../engine/client';
import type { Job } from '../engine/wire';
import { pickFile, saveFile } from '../files';
import { useOffline } from '../offline';
import { boxOf } from '../plan/view';
import { fileNameOf, Shelf } from '../store/keep';
import { useStore } from '../store/store';
import { spoken } from '../words/figures';
import { formatLength, parseLength } from '../words/lengths';
import { Choice, Sheet } from './parts';

type Kept = Awaited<ReturnType<Shelf['all']>>;

function Files({ onDone }: { onDone: () => void }) {
  const { history, open } = useStore();
  const openFile = async () => {
    const text = await pickFile('.json,application/json');
    if (text !== undefined && (await open(text))) onDone();
    else if (text !== undefined) onDone();
  };
  const save = async () => {
    if (!history) return;
    const reply = await askEngine({ do: 'read', job: history.job });
    if (reply.ok) saveFile(fileNameOf(history.job), reply.value.text, 'application/json');
    else useStore.setState({ problems: reply.problems });
  };
  const fresh = async () => {
    const reply = await askEngine({ do: 'new' });
    if (reply.ok && (await open(reply.value.text))) onDone();
  };
  return (
    <div className="stack">
      <button type="button" onClick={() => void fresh()}>
        New job
      </button>
      <button type="button" onClick={() => void openFile()}>
        Open a job file
      </button>
      <button type="button" onClick={() => void save()}>
        Save this job as a file
      </button>
      {demos.map((demo) => (
        <button type="button" key={demo.key} onClick={() => void open(demo.text, demo.key).then(onDone)}>
          Demo: {demo.name}
        </button>
      ))}
    </div>
  );
}

function KeptJobs({ onDone }: { onDone: () => void }) {
  const { openKept, key } = useStore();
  const [kept, setKept] = useState<Kept>([]);
  useEffect(() => {
    void new Shelf().all().then(setKept, () => setKept([]));
  }, []);
  if (kept.length < 2) return null;
  return (
    <>
      <h3>On this device</h3>
      <div className="stack">
        {kept.map((item) => (
          <button
            type="button"
            key={item.key}
            aria-current={item.key === key || undefined}
            onClick={() => void openKept(item.key).then(onDone)}
          >
            {item.name} <small>{item.marks} marks</small>
          </button>
        ))}
      </div>
    </>
  );
}

/** A plain rectangle at the origin can be resized by two lengths; any other outline comes from its file. */
function plainSize(job: Job): { wide: number; deep: number } | undefined {
  const outline = job.room.outline_in as [number, number][];
  const box = boxOf(outline);
  if (outline.length !== 4 || box.min[0] !== 0 || box.min[1] !== 0) return undefined;
  if (!outline.every(([x, y]) => (x === 0 || x === box.max[0]) && (y === 0 || y === box.max[1]))) return undefined;
  return { wide: box.max[0], deep: box.max[1] };
}

function Facts({ job }: { job: Job }) {
  const perform = useStore((state) => state.perform);
  const size = plainSize(job);
  const [name, setName] = useState(job.job.name);
  const [year, setYear] = useState(job.job.year_built?.toString() ?? '');
  const [wide, setWide] = useState(size ? formatLength(size.wide) : '');
  const [deep, setDeep] = useState(size ? formatLength(size.deep) : '');
  const [wrong, setWrong] = useState<string[]>([]);
  const save = () => {
    const built = year.trim() === '' ? undefined : Number(year);
    const wide_in = parseLength(wide);
    const deep_in = parseLength(deep);
    const bad: string[] = [];
    if (built !== undefined && !(Number.isInteger(built) && built >= 1600 && built <= 2100)) bad.push('year');
    if (size && !((wide_in ?? 0) >= 12)) bad.push('wide');
    if (size && !((deep_in ?? 0) >= 12)) bad.push('deep');
    setWrong(bad);
    if (bad.length > 0) return;
    perform('setFacts', { name: name.trim(), yearBuilt: built });
    if (size && wide_in !== undefined && deep_in !== undefined && (wide_in !== size.wide || deep_in !== size.deep))
      perform('setRoomSize', { wide_in, deep_in });
  };
  const lengthWrong = 'Write a length of at least a foot, like 7\' 4 1/2"';
  return (
    <>
      <h3>This job</h3>
      <TextInput label="Name" value={name} maxLength={200} onChange={(event) => setName(event.currentTarget.value)} />
      <TextInput
        label="Year built (empty: not known, treated as old)"
        inputMode="numeric"
        value={year}
        error={wrong.includes('year') ? 'Write a year, like 1954' : undefined}
        onChange={(event) => setYear(event.currentTarget.value)}
      />
      {size && (
        <div className="pair">
          <TextInput
            label="Room, across"
            value={wide}
            error={wrong.includes('wide') ? lengthWrong : undefined}
            onChange={(event) => setWide(event.currentTarget.value)}
          />
          <TextInput
            label="Room, up"
            value={deep}
            error={wrong.includes('deep') ? lengthWrong : undefined}
            onChange={(event) => setDeep(event.currentTarget.value)}
          />
        </div>
      )}
      <div className="stack">
        <button type="button" className="main" onClick={save}>
          Set
        </button>
      </div>
      {job.fixtures.map((fixture) => (
        <div key={fixture.id}>
          <h4>{spoken(fixture.kind)}</h4>
          <Choice
            label={`${spoken(fixture.kind)} ${fixture.id}`}
            value={fixture.stands ? 'stands' : 'lifted'}
            options={[
              { value: 'stands', text: 'Stands there' },
              { value: 'lifted', text: 'Lifted' },
            ]}
            onChange={(value) => perform('setFixtureStands', { id: fixture.id, stands: value === 'stands' })}
          />
        </div>
      ))}
      {job.sources.map((source) => (
        <div key={source.id}>
          <h4>Water: {spoken(source.kind)}</h4>
          <Choice
            label={`Source ${source.id}`}
            value={String(source.active ?? 'unknown')}
            options={[
              { value: 'true', text: 'Still leaks' },
              { value: 'false', text: 'Stopped' },
              { value: 'unknown', text: 'Not known' },
            ]}
            onChange={(value) => perform('setSourceActive', { id: source.id, active: value === 'unknown' ? 'unknown' : value === 'true' })}
          />
        </div>
      ))}
    </>
  );
}

function Offline() {
  const { ready, newer } = useOffline();
  return (
    <>
      <h3>No signal</h3>
      <p>{ready ? 'This page is kept on the device and opens without a network.' : 'This page is not kept on the device yet.'}</p>
      {newer && (
        <div className="stack">
          <button type="button" className="main" onClick={newer}>
            Take the newer version
          </button>
        </div>
      )}
    </>
  );
}

export function Menu({ opened, onClose }: { opened: boolean; onClose: () => void }) {
  const { history, key } = useStore();
  return (
    <Sheet opened={opened} onClose={onClose} position="left" size={400} title="Awlmark">
      <Files onDone={onClose} />
      <KeptJobs onDone={onClose} />
      {history && <Facts key={key} job={history.job} />}
      <Offline />
    </Sheet>
  );
}
