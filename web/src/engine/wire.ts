// What the page asks and what it is answered: the TypeScript side of apps/wasm/engine_api.hpp.
import type { Findings } from '../generated/findings';
import type { Job as EngineJob } from '../generated/job';

export type { EngineJob, Findings };

/** The cards of the guided run (screens/room), each answered or answered "don't know". */
export type CardId =
  | 'water'
  | 'danger'
  | 'people'
  | 'age'
  | 'below'
  | 'outline'
  | 'doors'
  | 'fixtures'
  | 'leak'
  | 'layers'
  | 'framing'
  | 'walls'
  | 'seen'
  | 'finish'
  | 'name';
export type Asked = Partial<Record<CardId, 'answered' | 'unknown'>>;
/** The document, and beside it what only the page keeps (store/asked.ts takes it off again). */
export type Job = EngineJob & { asked?: Asked };
export type JobFacts = Job['job'];
export type Photo = Job['photos'][number];
export type Source = Job['sources'][number];
export type Layer = Job['layers'][number];
export type Mark = Job['marks'][number];
export type Support = Job['supports'][number];
export type Fixture = Job['fixtures'][number];
export type Wall = Job['walls'][number];
export type Survey = Findings['survey'];
export type Point = [number, number];

export interface Problem {
  at: string;
  what: string;
  mend: string;
}
/** Where marks lie on the plan, by id. */
export type Places = Record<string, Point>;

export interface Paper {
  file: string;
  title: string;
  html: string;
}
export interface RunOptions {
  cell_in?: number;
  draws?: number;
  seed?: number;
}

export type Document = { job: Job } | { text: string };
export type Request =
  | ({ do: 'read' } & Document)
  | { do: 'new' }
  | { do: 'merge'; base?: Job; ours: Job; theirs: Job }
  | ({ do: 'survey' | 'assess' | 'papers'; options?: RunOptions } & Document)
  | { do: 'reckon'; topic?: string; in?: unknown }
  | { do: 'schema' };

export type ValueOf<R extends Request> = R extends { do: 'read' }
  ? { job: Job; text: string; places: Places }
  : R extends { do: 'merge' }
    ? { merged: Job; conflicts: { at: string; why: string }[]; renamed: { list: string; from: string; to: string }[] }
    : R extends { do: 'new' }
      ? { text: string }
      : R extends { do: 'survey' | 'assess' }
        ? Findings
        : R extends { do: 'papers' }
          ? { papers: Paper[]; findings: Findings }
          : unknown;

export type Reply<V> = { ok: true; value: V; warnings: Problem[] } | { ok: false; problems: Problem[]; warnings: Problem[] };
