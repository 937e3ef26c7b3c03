// What the plan shows, in words: for screen readers and for headings.
import type { Job, Mark, Places, Survey } from '../engine/wire';
import { looksOf, withFog } from '../plan/draw';
import { fieldOf, type Question } from '../plan/field';
import { marksOf } from '../plan/members';
import { layerName, memberName, wallName } from '../plan/names';
import { markWords } from '../store/acts';
import type { Shown } from '../store/store';
import { w } from '../words/en';
import { sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';

export function nameOfShown(job: Job, shown: Shown): string {
  if (shown.kind === 'layer') return layerName(job, shown.id);
  return shown.kind === 'supports' ? w.framing : w.plates;
}

interface Shows {
  job: Job;
  survey?: Survey;
  surveyed?: Job;
  shown: Shown;
  question: Question;
  counted: Places;
}

export function planInWords({ job, survey, surveyed, shown, question, counted }: Shows, chance: (p: number) => string): string {
  const head = w.planHead(job.job.name || w.theRoom, nameOfShown(job, shown), question, marksOf(job).length);
  const field = survey && shown.kind === 'layer' ? fieldOf(survey, shown.id, question) : undefined;
  if (!field) return head;
  const known = withFog(field, looksOf({ job, surveyed, shown, counted })).p.filter((p): p is number => p !== null && p !== undefined);
  if (known.length === 0) return head;
  const high = known.filter((p) => p >= 0.8).length / known.length;
  const low = known.filter((p) => p < 0.2).length / known.length;
  return `${head} ${w.planField(chance(high), chance(low))}`;
}

export function placeInWords(job: Job, mark: Mark): string {
  if (mark.support)
    return `${memberName(job, mark.support)}${mark.face ? `, ${w.faces[mark.face]}` : ''}, ${formatLength(mark.along_in ?? 0)} ${w.along}`;
  if (mark.wall)
    return `${wallName(job, mark.wall)}${mark.part ? `, ${spoken(mark.part)}` : ''}, ${formatLength(mark.along_in ?? 0)} ${w.along}`;
  const layer = layerName(job, mark.layer ?? '');
  if (mark.at_in) return `${layer}, ${w.fromWalls(formatLength(mark.at_in[0]), formatLength(mark.at_in[1]))}`;
  return `${layer}, ${w.plankAt(String(mark.plank ?? '?'), formatLength(mark.tape_in ?? 0))}`;
}

export function markLine(job: Job, mark: Mark): string {
  return `${sentence(markWords(mark))}, ${placeInWords(job, mark)}`;
}
