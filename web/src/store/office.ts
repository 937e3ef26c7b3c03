// The firm's office, when it serves this page (docs/office.md): a job is pushed with the revision that it
// stands on; what others did meanwhile comes back merged, with its conflicts. Nothing here is needed to work:
// without the office, or without a signal, the job lives in this browser as before.
import { create } from 'zustand';
import { askEngine } from '../engine/client';
import type { Job, Problem } from '../engine/wire';
import { w } from '../words/en';
import { bare } from './asked';
import { fileStem, newId, Shelf } from './keep';
import { useStore } from './store';

interface Pushed {
  revision: number;
  merged: boolean;
  conflicts: { at: string; why: string }[];
  document?: Job;
}
interface Office {
  /** undefined: nobody asked yet */
  there?: boolean;
  who?: { device: string; role: string };
  working: boolean;
  said?: string;
  jobs: { id: string; revision: number; time: string }[];
  look: () => Promise<void>;
  pair: (code: string, name: string) => Promise<void>;
  sync: () => Promise<void>;
  open: (id: string) => Promise<boolean>;
}

const TOKEN = 'awlmark.office.token';
const KNOWN = 'awlmark.office';
const shelf = new Shelf();

class Refused extends Error {}

async function ask<T>(path: string, init: RequestInit = {}): Promise<T> {
  const token = localStorage.getItem(TOKEN);
  const headers = { ...(token ? { Authorization: `Bearer ${token}` } : {}), ...init.headers };
  const response = await fetch(`./api/${path}`, { ...init, headers });
  const reply = (await response.json()) as { ok: boolean; value?: T; problems?: Problem[] };
  if (!reply.ok) throw new Refused(reply.problems?.map((problem) => `${problem.at} ${problem.what}: ${problem.mend}`.trim()).join('; '));
  return reply.value as T;
}
const asJson = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'Content-Type': 'application/json' },
  body: JSON.stringify(body),
});

/** Every photo of the job goes where it is missing: to the office, or to this device. */
async function photos(job: Job): Promise<number> {
  let moved = 0;
  const sent = new Set(JSON.parse(localStorage.getItem(`${KNOWN}.photos`) ?? '[]') as string[]);
  for (const { sha256 } of job.photos) {
    if (!sha256) continue;
    const kept = await shelf.photos.get(sha256);
    if (kept && !sent.has(sha256)) {
      await ask(`photos/${sha256}`, { method: 'PUT', headers: { 'Content-Type': 'image/jpeg' }, body: kept.blob });
      sent.add(sha256);
      moved++;
    } else if (!kept) {
      const token = localStorage.getItem(TOKEN);
      const response = await fetch(`./api/photos/${sha256}`, { headers: token ? { Authorization: `Bearer ${token}` } : {} });
      if (!response.ok) continue; // the device that took it has not sent it yet
      await shelf.photos.put({ sha256, blob: await response.blob() });
      moved++;
    }
  }
  localStorage.setItem(`${KNOWN}.photos`, JSON.stringify([...sent]));
  return moved;
}

/** What others did meanwhile, put into the open job as one act of its own. */
async function take(document: Job): Promise<void> {
  const reply = await askEngine({ do: 'read', job: document });
  if (!reply.ok) throw new Refused(reply.problems.map((problem) => `${problem.at} ${problem.what}`).join('; '));
  const { history, perform } = useStore.getState();
  perform('takeMerged', { job: { ...document, ...(history?.job.asked ? { asked: history.job.asked } : {}) } });
}

export const useOffice = create<Office>()((set, get) => {
  /** One request after the other; a fault is said, and nothing else happens. */
  async function careful<T>(work: () => Promise<T>): Promise<T | undefined> {
    if (get().working) return undefined;
    set({ working: true, said: undefined });
    try {
      return await work();
    } catch (error) {
      set({ said: error instanceof Refused ? error.message : w.office.noAnswer });
      return undefined;
    } finally {
      set({ working: false });
    }
  }
  async function known(): Promise<void> {
    const who = await ask<{ device: string; role: string }>('me');
    set({ who, jobs: await ask<Office['jobs']>('jobs') });
  }

  return {
    working: false,
    jobs: [],
    async look() {
      try {
        await ask('health');
        set({ there: true });
        localStorage.setItem(KNOWN, 'yes');
      } catch {
        return set({ there: false, who: undefined });
      }
      await known().catch(() => set({ who: undefined }));
    },
    async pair(code, name) {
      await careful(async () => {
        const { token } = await ask<{ token: string }>('pair', asJson({ code, name }));
        localStorage.setItem(TOKEN, token);
        await known();
      });
    },
    async sync() {
      await careful(async () => {
        const { key, history } = useStore.getState();
        const kept = await shelf.jobs.get(key);
        if (!history || !kept) return;
        const { job } = history;
        const id = kept.office?.id ?? newId([], `${fileStem(job).slice(0, 50)}-`);
        const pushed = await ask<Pushed>(`jobs/${id}`, asJson({ base: kept.office?.revision ?? 0, document: bare(job) }));
        await shelf.jobs.update(key, { office: { id, revision: pushed.revision } });
        if (pushed.document && useStore.getState().key === key) await take(pushed.document);
        const moved = await photos(pushed.document ?? job);
        const conflicts = pushed.conflicts.map((conflict) => conflict.why);
        set({
          said: [pushed.document ? w.office.merged : w.office.sent(pushed.revision), moved > 0 ? w.office.photos(moved) : '', ...conflicts]
            .filter(Boolean)
            .join(' '),
        });
        await known();
      });
    },
    async open(id) {
      const mine = (await shelf.jobs.toArray()).find((job) => job.office?.id === id);
      if (mine) {
        await useStore.getState().openKept(mine.key);
        await get().sync();
        return true;
      }
      const opened = await careful(async () => {
        const { revision, document } = await ask<{ revision: number; document: Job }>(`jobs/${id}`);
        if (!(await useStore.getState().open(JSON.stringify(document)))) return false;
        const { key } = useStore.getState();
        // The job is kept a moment after it opens.
        for (let i = 0; i < 50 && !(await shelf.jobs.get(key)); i++) await new Promise((resolve) => setTimeout(resolve, 100));
        await shelf.jobs.update(key, { office: { id, revision } });
        await photos(document);
        return true;
      });
      return opened ?? false;
    },
  };
});

const SETTLE_MS = 4000;

/** A job that the office knows goes there by itself a few seconds after an act, and when the signal comes back. */
export function followOffice(): void {
  if (localStorage.getItem(KNOWN) !== 'yes') return;
  const { look, sync } = useOffice.getState();
  const again = async () => {
    const kept = await shelf.jobs.get(useStore.getState().key);
    if (kept?.office && useOffice.getState().who) await sync();
  };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let seen = useStore.getState().rev;
  useStore.subscribe(({ rev }) => {
    if (rev === seen) return;
    seen = rev;
    clearTimeout(timer);
    timer = setTimeout(() => void again(), SETTLE_MS);
  });
  window.addEventListener('online', () => void look().then(again));
  void look();
}
