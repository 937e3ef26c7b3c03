// What the plan shows, in words: for screen readers and for headings.
import type { Job, Mark, Survey } from '../engine/wire';
import { fieldOf, type Question } from '../plan/field';
import type { Shown } from '../store/store';
import { spoken } from '../words/figures';
import { formatLength } from '../words/lengths';

export function nameOfShown(shown: Shown): string {
  if (shown.kind === 'layer') return `the ${spoken(shown.id)}`;
  return shown.kind === 'supports' ? 'the framing' : 'the wall plates';
}

export function planInWords(job: Job, survey: Survey | undefined, shown: Shown, question: Question, chance: (p: number) => string): string {
  const marks = `${job.marks.length} marks`;
  const head = `Plan of ${job.job.name || 'the room'}, ${nameOfShown(shown)}, chance of ${question}. ${marks}.`;
  const field = survey && shown.kind === 'layer' ? fieldOf(survey, shown.id, question) : undefined;
  const known = field?.p.filter((p): p is number => p !== null) ?? [];
  if (known.length === 0) return head;
  const high = known.filter((p) => p >= 0.8).length / known.length;
  const low = known.filter((p) => p < 0.2).length / known.length;
  return `${head} ${chance(high)} of it is 8 in 10 or worse, ${chance(low)} is under 2 in 10; the rest is fog.`;
}

export function placeInWords(mark: Mark): string {
  const line = mark.support ?? mark.wall;
  if (line !== undefined) {
    const part = mark.support ? mark.face : mark.part;
    return `${line}${part ? `, ${spoken(part)}` : ''}, ${formatLength(mark.along_in ?? 0)} along`;
  }
  const layer = spoken(mark.layer ?? '');
  if (mark.at_in) return `${layer} at ${formatLength(mark.at_in[0]!)}, ${formatLength(mark.at_in[1]!)}`;
  return `${layer}, plank ${mark.plank ?? '?'} at ${formatLength(mark.tape_in ?? 0)}`;
}
