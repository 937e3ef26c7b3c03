// The jobs in this browser's own database. Each keeps its steps too, so undo outlives a reload.
import Dexie, { type EntityTable } from 'dexie';
import type { Job } from '../engine/wire';
import type { History } from './history';

export interface KeptJob {
  key: string;
  name: string;
  changed: string;
  history: History;
}
interface Setting {
  name: string;
  value: string;
}

export class Shelf extends Dexie {
  jobs!: EntityTable<KeptJob, 'key'>;
  settings!: EntityTable<Setting, 'name'>;

  constructor(name = 'awlmark') {
    super(name);
    // Versions only ever add: an older page must still be able to read what it wrote.
    this.version(1).stores({ jobs: 'key, changed', settings: 'name' });
  }

  async keep(key: string, history: History, now: Date): Promise<void> {
    await this.transaction('rw', this.jobs, this.settings, async () => {
      await this.jobs.put({ key, name: history.job.job.name || 'Unnamed job', changed: now.toISOString(), history });
      await this.settings.put({ name: 'last job', value: key });
    });
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

export function fileNameOf(job: Job): string {
  const name = job.job.name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return `${name || 'job'}.json`;
}
