// The jobs in this browser's own database. Each keeps its steps too, so undo outlives a reload. Each
// write says which revision it stands on: two windows never overwrite each other unseen.
import Dexie, { type EntityTable } from 'dexie';
import type { Job } from '../engine/wire';
import type { History } from './history';

export interface KeptJob {
  key: string;
  name: string;
  changed: string;
  rev: number;
  history: History;
  /** when it was last saved as a file, and at which revision */
  filed?: { time: string; rev: number };
  /** what the firm's office calls it, and the revision that this device last had of it */
  office?: { id: string; revision: number };
}
interface Setting {
  name: string;
  value: string;
}
export interface KeptPhoto {
  sha256: string;
  blob: Blob;
}
export type Written = { ok: true; rev: number } | { ok: false; theirs: KeptJob };

export class Shelf extends Dexie {
  jobs!: EntityTable<KeptJob, 'key'>;
  settings!: EntityTable<Setting, 'name'>;
  photos!: EntityTable<KeptPhoto, 'sha256'>;

  constructor(name = 'awlmark') {
    super(name);
    // Versions only ever add: an older page must still be able to read what it wrote.
    this.version(1).stores({ jobs: 'key, changed', settings: 'name' });
    this.version(2).stores({ photos: 'sha256' });
  }

  /** Writes the job as the revision after `on`, or answers what another window wrote meanwhile. */
  async keep(key: string, history: History, now: Date, on = 0): Promise<Written> {
    return this.transaction('rw', this.jobs, this.settings, async () => {
      const held = await this.jobs.get(key);
      if (held && (held.rev ?? 1) !== on) return { ok: false, theirs: held } as const;
      const rev = on + 1;
      await this.jobs.put({ ...held, key, name: history.job.job.name, changed: now.toISOString(), rev, history });
      await this.settings.put({ name: 'last job', value: key });
      return { ok: true, rev } as const;
    });
  }

  async filed(key: string, now: Date): Promise<void> {
    const held = await this.jobs.get(key);
    if (held) await this.jobs.update(key, { filed: { time: now.toISOString(), rev: held.rev ?? 1 } });
  }

  async last(): Promise<KeptJob | undefined> {
    const last = await this.settings.get('last job');
    return last && this.jobs.get(last.value);
  }

  async all(): Promise<{ key: string; name: string; changed: string; marks: number }[]> {
    const kept = await this.jobs.orderBy('changed').reverse().toArray();
    return kept.map(({ key, name, changed, history }) => ({ key, name, changed, marks: history.job.marks.length }));
  }
}

/** A short id unlike those of another device: lists merge by id (docs/job-document.md). */
export function newId(taken: Iterable<string>, letter: string, random: () => number = Math.random): string {
  const used = new Set(taken);
  for (;;) {
    const id =
      letter +
      Math.floor(random() * 36 ** 5)
        .toString(36)
        .padStart(5, '0');
    if (!used.has(id)) return id;
  }
}

export function idFor(list: { id: string }[], letter: string): string {
  return newId(
    list.map((item) => item.id),
    letter,
  );
}

/** A file's name made of the job's. */
export function fileStem(job: Job): string {
  const name = job.job.name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return name || 'job';
}

export function fileNameOf(job: Job): string {
  return `${fileStem(job)}.json`;
}
