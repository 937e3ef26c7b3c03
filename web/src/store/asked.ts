// What the person was asked about the room, and what a job still lacks before a price may be said.
import type { Asked, CardId, Job } from '../engine/wire';

/** The job without what only the page keeps: the engine refuses keys that it does not know. */
export function bare(job: Job): Job {
  const { asked: _, ...rest } = job;
  return rest;
}

export function stateOf(job: Job, card: CardId): Asked[CardId] {
  return job.asked?.[card] ?? (fromDocument(job, card) ? 'answered' : undefined);
}

// A job from a file was described elsewhere: what stands in it counts as answered.
function fromDocument(job: Job, card: CardId): boolean {
  switch (card) {
    case 'water':
      return job.sources.length > 0;
    case 'leak':
      return job.sources.some((source) => source.at_in !== undefined);
    case 'people':
      return job.job.occupied !== undefined;
    case 'age':
      return job.job.year_built !== undefined;
    case 'below':
      return job.job.below !== 'unknown';
    case 'outline':
      return job.room.outline_in.length >= 3;
    case 'doors':
      return job.room.doors.length > 0;
    case 'fixtures':
      return job.fixtures.length > 0;
    case 'layers':
      return job.layers.length > 0;
    case 'framing':
      return job.supports.length > 0;
    case 'walls':
      return job.walls.length > 0;
    case 'finish':
      return job.rebuild !== undefined;
    case 'name':
      return job.job.name !== '';
    default:
      return false;
  }
}

export const DECIDING = ['outline', 'layers', 'framing'] as const satisfies CardId[];

/** Room, layers and framing: which of them is neither described nor answered "don't know". */
export function lacking(job: Job): (typeof DECIDING)[number][] {
  return DECIDING.filter((card) => stateOf(job, card) === undefined);
}

/** Whether there is a room with a floor in it, so that the survey can be asked. */
export function surveyable(job: Job): boolean {
  return job.room.outline_in.length >= 3 && job.layers.length > 0;
}

/** Cards that were answered "don't know": what stands in their place is assumed. */
export function assumedCards(job: Job): CardId[] {
  return (Object.keys(job.asked ?? {}) as CardId[]).filter((card) => job.asked?.[card] === 'unknown');
}
