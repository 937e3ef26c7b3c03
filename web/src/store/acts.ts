// Every change that a person makes to a job is one named act. The screens call acts by name; undo,
// redo, the list of steps and the tests follow from this table alone.
// To add one: a line in the table with its label and what it does to the draft (docs/page.md).
import type { Asked, CardId, Fixture, Job, JobFacts, Layer, Mark, Photo, Point, Source, Support, Wall } from '../engine/wire';
import { w } from '../words/en';
import { spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import type { LaboratoryResult } from './gates';

export interface Act<Args> {
  /** What the undo button says: "Undo: awl mark, soft". */
  label: (args: Args, job: Job) => string;
  change: (draft: Job, args: Args) => void;
}

const act = <Args>(definition: Act<Args>): Act<Args> => definition;

export function markWords(mark: Mark): string {
  if (mark.tool === 'meter') return `meter ${mark.mc_percent ?? '?'}%`;
  return `${mark.tool} ${spoken(mark.reads ?? '?')}`;
}

function replace<T extends { id: string }>(list: T[], item: T): void {
  const at = list.findIndex((old) => old.id === item.id);
  if (at >= 0) list[at] = item;
}

function answered(draft: Job, card: CardId, how: Asked[CardId] = 'answered'): void {
  draft.asked = { ...draft.asked, [card]: how };
}

/** The last of its kind was taken away: the question is open again. */
function unanswered(draft: Job, card: CardId): void {
  if (draft.asked) delete draft.asked[card];
}

/** Whatever of `patch` is undefined is taken out: not known is left out of the document. */
function assign<T extends object>(target: T, patch: Partial<T>): void {
  for (const [key, value] of Object.entries(patch) as [keyof T, T[keyof T] | undefined][])
    if (value === undefined) delete target[key];
    else target[key] = value;
}

export const acts = {
  addMark: act<{ mark: Mark }>({
    label: ({ mark }) => `${markWords(mark)}${mark.at_in ? ` at ${mark.at_in.map((v) => formatLength(v)).join(', ')}` : ''}`,
    change: (draft, { mark }) => {
      draft.marks.push(mark);
    },
  }),
  changeMark: act<{ mark: Mark }>({
    label: ({ mark }) => `${w.acts.change} ${markWords(mark)}`,
    change: (draft, { mark }) => replace(draft.marks, mark),
  }),
  removeMark: act<{ id: string }>({
    label: ({ id }, job) => {
      const mark = job.marks.find((item) => item.id === id);
      return `${w.acts.takeAway} ${mark ? markWords(mark) : id}`;
    },
    change: (draft, { id }) => {
      draft.marks = draft.marks.filter((mark) => mark.id !== id);
      // A photo stays when its mark goes, but may not point at nothing.
      for (const photo of draft.photos ?? []) if (photo.mark === id) delete photo.mark;
    },
  }),
  setFacts: act<{ facts: Partial<JobFacts>; card?: CardId; unknown?: boolean }>({
    label: ({ card }) => w.cards[card ?? 'name'].title,
    change: (draft, { facts, card, unknown }) => {
      assign(draft.job, facts);
      if (card) answered(draft, card, unknown ? 'unknown' : 'answered');
    },
  }),
  answer: act<{ card: CardId; unknown?: boolean }>({
    label: ({ card }) => w.cards[card].title,
    change: (draft, { card, unknown }) => answered(draft, card, unknown ? 'unknown' : 'answered'),
  }),
  setOutline: act<{ outline: Point[]; unknown?: boolean }>({
    label: () => w.cards.outline.title,
    change: (draft, { outline, unknown }) => {
      draft.room.outline_in = outline;
      draft.room.doors = [];
      answered(draft, 'outline', unknown ? 'unknown' : 'answered');
    },
  }),
  addDoor: act<{ id: string; from_in: Point; to_in: Point }>({
    label: () => w.acts.door,
    change: (draft, door) => {
      draft.room.doors.push(door);
      answered(draft, 'doors');
    },
  }),
  removeDoor: act<{ id: string }>({
    label: () => w.acts.noDoor,
    change: (draft, { id }) => {
      draft.room.doors = draft.room.doors.filter((door) => door.id !== id);
    },
  }),
  addFixture: act<{ fixture: Fixture }>({
    label: ({ fixture }) => spoken(fixture.kind),
    change: (draft, { fixture }) => {
      draft.fixtures.push(fixture);
      answered(draft, 'fixtures');
    },
  }),
  changeFixture: act<{ fixture: Fixture }>({
    label: ({ fixture }) => `${w.acts.change} ${spoken(fixture.kind)}`,
    change: (draft, { fixture }) => replace(draft.fixtures, fixture),
  }),
  removeFixture: act<{ id: string }>({
    label: ({ id }, job) => `${w.acts.takeAway} ${spoken(job.fixtures.find((item) => item.id === id)?.kind ?? id)}`,
    change: (draft, { id }) => {
      draft.fixtures = draft.fixtures.filter((item) => item.id !== id);
    },
  }),
  setSource: act<{ source: Source; card: CardId; unknown?: boolean }>({
    label: () => w.cards.water.title,
    change: (draft, { source, card, unknown }) => {
      if (draft.sources.some((item) => item.id === source.id)) replace(draft.sources, source);
      else draft.sources.push(source);
      answered(draft, card, unknown ? 'unknown' : 'answered');
    },
  }),
  addLayer: act<{ layer: Layer }>({
    label: ({ layer }) => `${w.acts.layer} ${w.materials[layer.material]}`,
    change: (draft, { layer }) => {
      // What was only assumed gives way to the first layer that somebody has seen.
      if (draft.asked?.layers === 'unknown') draft.layers = [];
      draft.layers.push(layer);
      answered(draft, 'layers');
    },
  }),
  changeLayer: act<{ layer: Layer }>({
    label: ({ layer }) => `${w.acts.change} ${w.materials[layer.material]}`,
    change: (draft, { layer }) => replace(draft.layers, layer),
  }),
  removeLayer: act<{ id: string }>({
    label: () => w.acts.noLayer,
    change: (draft, { id }) => {
      draft.layers = draft.layers.filter((layer) => layer.id !== id);
      if (draft.layers.length === 0) unanswered(draft, 'layers');
      const gone = new Set(draft.marks.filter((mark) => mark.layer === id).map((mark) => mark.id));
      draft.marks = draft.marks.filter((mark) => !gone.has(mark.id));
      for (const photo of draft.photos) if (photo.mark && gone.has(photo.mark)) delete photo.mark;
    },
  }),
  assumeLayers: act<{ layers: Layer[] }>({
    label: () => w.cards.layers.title,
    change: (draft, { layers }) => {
      draft.layers = layers;
      answered(draft, 'layers', 'unknown');
    },
  }),
  addSupports: act<{ supports: Support[] }>({
    label: ({ supports }) => `${supports.length} ${w.acts.members}`,
    change: (draft, { supports }) => {
      draft.supports.push(...supports);
      answered(draft, 'framing');
    },
  }),
  removeSupports: act<{ ids: string[] }>({
    label: ({ ids }) => `${w.acts.takeAway} ${ids.length} ${w.acts.members}`,
    change: (draft, { ids }) => {
      const gone = new Set(ids);
      draft.supports = draft.supports.filter((item) => !gone.has(item.id));
      if (draft.supports.length === 0) unanswered(draft, 'framing');
      draft.marks = draft.marks.filter((mark) => mark.support === undefined || !gone.has(mark.support));
      const left = new Set(draft.marks.map((mark) => mark.id));
      for (const photo of draft.photos) if (photo.mark && !left.has(photo.mark)) delete photo.mark;
    },
  }),
  setWalls: act<{ walls: Wall[]; unknown?: boolean }>({
    label: () => w.cards.walls.title,
    change: (draft, { walls, unknown }) => {
      draft.walls = walls;
      answered(draft, 'walls', unknown ? 'unknown' : 'answered');
    },
  }),
  setRebuild: act<{ patch: Partial<NonNullable<Job['rebuild']>>; card?: CardId; unknown?: boolean }>({
    label: ({ patch }) => `${w.acts.rebuild} ${Object.values(patch).map((value) => spoken(String(value)))}`,
    change: (draft, { patch, card, unknown }) => {
      const rebuild = { finish: 'other', option: 'auto', ...draft.rebuild } as NonNullable<Job['rebuild']>;
      assign(rebuild, patch);
      draft.rebuild = rebuild;
      if (card) answered(draft, card, unknown ? 'unknown' : 'answered');
    },
  }),
  setHazardFact: act<{ key: string; value: boolean | undefined }>({
    label: () => w.cards.danger.title,
    change: (draft, { key, value }) => {
      const facts: Record<string, unknown> = { laboratory: [], ...draft.hazards?.facts };
      if (value === undefined) delete facts[key];
      else facts[key] = value;
      draft.hazards = { met: [], ...draft.hazards, facts } as unknown as Job['hazards'];
      answered(draft, 'danger');
    },
  }),
  meetGate: act<{ gate: string; by: string; time: string; evidence?: string }>({
    label: ({ by }) => `${w.acts.met} ${by}`,
    change: (draft, met) => {
      const others = (draft.hazards?.met ?? []).filter((item) => item.gate !== met.gate);
      draft.hazards = { facts: { laboratory: [] }, ...draft.hazards, met: [...others, met] } as unknown as Job['hazards'];
    },
  }),
  setLaboratory: act<{ result: LaboratoryResult }>({
    label: ({ result }) => `${w.acts.laboratory} ${result.result}`,
    change: (draft, { result }) => {
      const facts = { ...draft.hazards?.facts, laboratory: [...(draft.hazards?.facts?.laboratory ?? [])] };
      facts.laboratory = facts.laboratory.filter((item) => item.layer !== result.layer || item.part !== undefined);
      facts.laboratory.push(result as (typeof facts.laboratory)[number]);
      draft.hazards = { met: [], ...draft.hazards, facts } as unknown as Job['hazards'];
    },
  }),
  setShower: act<{ shower: Job['shower'] }>({
    label: () => w.stages.shower.name,
    change: (draft, { shower }) => {
      if (shower) draft.shower = shower;
      else delete draft.shower;
    },
  }),
  setWork: act<{ work: NonNullable<Job['work']> }>({
    label: () => w.acts.calendar,
    change: (draft, { work }) => {
      draft.work = work;
    },
  }),
  /** A day's line: every spot that was read, at once. */
  addReadings: act<{ readings: NonNullable<Job['drying']>['readings'] }>({
    label: ({ readings }) => `${w.acts.reading} ${readings.map((reading) => `${reading.mc_percent ?? '?'}%`).join(', ')}`,
    change: (draft, { readings }) => {
      draft.drying = { ...draft.drying, readings: [...(draft.drying?.readings ?? []), ...readings] };
    },
  }),
  removeReading: act<{ id: string }>({
    label: () => `${w.acts.takeAway} ${w.acts.reading}`,
    change: (draft, { id }) => {
      if (draft.drying) draft.drying.readings = draft.drying.readings.filter((reading) => reading.id !== id);
    },
  }),
  addPhoto: act<{ photo: Photo }>({
    label: () => w.acts.photo,
    change: (draft, { photo }) => {
      draft.photos.push(photo);
    },
  }),
  changePhoto: act<{ photo: Photo }>({
    label: () => `${w.acts.change} ${w.acts.photo}`,
    change: (draft, { photo }) => replace(draft.photos, photo),
  }),
  removePhoto: act<{ id: string }>({
    label: () => `${w.acts.takeAway} ${w.acts.photo}`,
    change: (draft, { id }) => {
      draft.photos = draft.photos.filter((photo) => photo.id !== id);
      for (const opening of draft.openings ?? []) opening.photos = opening.photos?.filter((photo) => photo !== id);
    },
  }),
  /** The document of both windows, as the engine merged it. */
  takeMerged: act<{ job: Job }>({
    label: () => w.acts.merged,
    change: (draft, { job }) => {
      for (const key of Object.keys(draft) as (keyof Job)[]) if (!(key in job)) delete draft[key];
      Object.assign(draft, job);
    },
  }),
} as const;

export type ActName = keyof typeof acts;
export type ArgsOf<N extends ActName> = (typeof acts)[N] extends Act<infer Args> ? Args : never;
