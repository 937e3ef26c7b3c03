// Jobs in, jobs out, what this browser keeps, and how the page looks.
import { useEffect, useState } from 'react';
import { demos } from '../demos';
import { askEngine } from '../engine/client';
import type { Job } from '../engine/wire';
import { pickFile, saveFile } from '../files';
import { useOffline } from '../offline';
import type { Theme } from '../plan/ink';
import { bare, surveyable } from '../store/asked';
import { everything, taken } from '../store/exports';
import { fileNameOf, fileStem, Shelf } from '../store/keep';
import { keepPlaces, keepsPlaces } from '../store/photos';
import { persisted } from '../store/storage';
import { useStore } from '../store/store';
import { Choice, Sheet } from '../ui/parts';
import { w } from '../words/en';
import { sayTime } from '../words/times';
import { OfficePart } from './OfficePart';

type Kept = Awaited<ReturnType<Shelf['all']>>;

/** A job with nothing in it yet: the cards fill it. */
export function emptyJob(): Job {
  const today = new Date().toLocaleDateString(undefined, { day: 'numeric', month: 'short', year: 'numeric' });
  return {
    format: 'awlmark-job',
    version: 1,
    job: { name: w.newJobName(today), storey: 'unknown', below: 'unknown', plumbing_code: 'irc' },
    room: { outline_in: [], doors: [] },
    layers: [],
    walls: [],
    supports: [],
    fixtures: [],
    sources: [],
    marks: [],
    photos: [],
    asked: {},
  } as unknown as Job;
}

/** A file that a person picks: a job document, or a ZIP with its photos. */
export async function openFile(): Promise<boolean> {
  const file = await pickFile('.json,.zip,application/json,application/zip');
  if (!file) return false;
  const bytes = new Uint8Array(await file.arrayBuffer());
  const isZip = bytes[0] === 0x50 && bytes[1] === 0x4b;
  if (!isZip) return useStore.getState().open(new TextDecoder().decode(bytes));
  const found = await taken(bytes, new Shelf());
  if ('problems' in found) {
    useStore.setState({ problems: found.problems });
    return false;
  }
  const opened = await useStore.getState().open(found.jobText, undefined, found.asked);
  if (opened && found.photos > 0) useStore.getState().tell(w.notes.photosIn(found.photos));
  return opened;
}

/** The demo is never written over: it opens as a copy. */
export async function openDemo(text: string): Promise<boolean> {
  return useStore.getState().open(text);
}

function Files({ onDone }: { onDone: () => void }) {
  const { history, whole, markFiled } = useStore();
  const job = history?.job;
  const text = async (): Promise<string | undefined> => {
    if (!job) return undefined;
    const reply = await askEngine({ do: 'read', job: bare(job) });
    if (reply.ok) return reply.value.text;
    useStore.setState({ problems: reply.problems });
    onDone();
    return undefined;
  };
  const save = async () => {
    const said = await text();
    if (said === undefined || !job) return;
    saveFile(fileNameOf(job), said, 'application/json');
    await markFiled();
  };
  const zip = async () => {
    const said = await text();
    if (said === undefined || !job) return;
    const papers = whole?.job === job ? whole.papers : [];
    saveFile(`${fileStem(job)}.zip`, await everything(job, said, new Shelf(), papers), 'application/zip');
    await markFiled();
  };
  return (
    <div className="stack">
      <button type="button" onClick={() => void useStore.getState().begin(emptyJob()).then(onDone)}>
        {w.newJob}
      </button>
      <button type="button" onClick={() => void openFile().then(onDone)}>
        {w.openFile}
      </button>
      <button type="button" disabled={!job || !surveyable(job)} onClick={() => void save()}>
        {w.saveJob}
      </button>
      <button type="button" disabled={!job || !surveyable(job)} onClick={() => void zip()}>
        {w.saveZip}
      </button>
      {demos.map((demo) => (
        <button type="button" key={demo.key} onClick={() => void openDemo(demo.text).then(onDone)}>
          {w.demo(demo.name)}
        </button>
      ))}
    </div>
  );
}

export function KeptJobs({ onDone }: { onDone: () => void }) {
  const { openKept, key } = useStore();
  const [kept, setKept] = useState<Kept>([]);
  useEffect(() => {
    void new Shelf().all().then(setKept, () => setKept([]));
  }, []);
  if (kept.length === 0) return null;
  return (
    <>
      <h3>{w.onThisDevice}</h3>
      <div className="stack">
        {kept.map((item) => (
          <button
            type="button"
            key={item.key}
            aria-current={item.key === key || undefined}
            onClick={() => void openKept(item.key).then(onDone)}
          >
            {item.name || w.unnamed} <small>{w.marksAnd(item.marks, sayTime(item.changed))}</small>
          </button>
        ))}
      </div>
    </>
  );
}

function Storage() {
  const { ready, newer } = useOffline();
  const { filed, rev, history } = useStore();
  const [safe, setSafe] = useState<boolean | undefined>();
  useEffect(() => {
    void persisted().then(setSafe);
  }, []);
  return (
    <>
      <h3>{w.keeping}</h3>
      <p>{ready ? w.offlineReady : w.offlineNot}</p>
      <p className={safe ? undefined : 'warn'}>{safe ? w.persisted : w.notPersisted}</p>
      {history && <p>{filed ? `${w.filed(sayTime(filed.time))}${filed.rev < rev ? ` ${w.filedOld}` : ''}` : w.notFiled}</p>}
      {newer && (
        <div className="stack">
          <button type="button" className="main" onClick={newer}>
            {w.takeNewer}
          </button>
        </div>
      )}
    </>
  );
}

function Places() {
  const [kept, setKept] = useState(keepsPlaces);
  return (
    <Choice
      label={w.photos.places}
      value={kept ? 'kept' : 'stripped'}
      options={(['stripped', 'kept'] as const).map((value) => ({ value, text: w.photos[value] }))}
      onChange={(value) => {
        keepPlaces(value === 'kept');
        setKept(value === 'kept');
      }}
    />
  );
}

interface Props {
  opened: boolean;
  onClose: () => void;
  theme: Theme;
  onTheme: (theme: Theme) => void;
}

export function Menu({ opened, onClose, theme, onTheme }: Props) {
  return (
    <Sheet opened={opened} onClose={onClose} side="left" title="Awlmark">
      <Files onDone={onClose} />
      <KeptJobs onDone={onClose} />
      <OfficePart onDone={onClose} />
      <h3>{w.look}</h3>
      <Choice
        label={w.look}
        value={theme}
        options={(['light', 'dark', 'sun'] as const).map((value) => ({ value, text: w.themes[value] }))}
        onChange={onTheme}
      />
      <h3>{w.photos.places}</h3>
      <Places />
      <Storage />
    </Sheet>
  );
}
