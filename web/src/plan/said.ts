// The engine speaks of members by the document's ids where a sentence is its own; a person reads "joist 6".
import type { Job } from '../engine/wire';
import { membersOf } from './members';
import { memberName } from './names';

const cache = new WeakMap<Job, [RegExp, Map<string, string>] | null>();

function namesOf(job: Job): [RegExp, Map<string, string>] | null {
  const known = cache.get(job);
  if (known !== undefined) return known;
  const names = new Map<string, string>();
  // An id that is a word of its own ("deck", "north") reads as it is; j6, g1, row.3 do not.
  for (const member of membersOf(job)) if (/\d/.test(member.id)) names.set(member.id, memberName(job, member).toLowerCase());
  // "sheet vinyl (sheet)": the id in brackets says nothing more.
  for (const layer of job.layers) names.set(` (${layer.id})`, '');
  const escaped = [...names.keys()].map((id) => id.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).sort((a, b) => b.length - a.length);
  const found: [RegExp, Map<string, string>] | null =
    escaped.length === 0 ? null : [new RegExp(escaped.map((id) => (id.startsWith(' ') ? id : `\\b${id}\\b`)).join('|'), 'g'), names];
  cache.set(job, found);
  return found;
}

export function said(job: Job | undefined, words: string): string {
  const names = job && namesOf(job);
  return names ? words.replace(names[0], (id) => names[1].get(id) ?? id) : words;
}
