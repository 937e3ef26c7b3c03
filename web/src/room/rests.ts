// What a member sits on, end by end, as the document keeps it. Nothing known is left out: the engine then
// takes the safer branch and says so. One end known writes both, or the other end would hang free.
import type { Support } from '../engine/wire';

export type RestOn = NonNullable<Support['rests']>[number]['on'];
export interface Ends {
  from: RestOn;
  to: RestOn;
  /** half way between: a girder or a post under it, or nothing */
  middle: RestOn;
}
export const NOT_KNOWN: Ends = { from: 'unknown', to: 'unknown', middle: 'nothing' };

export const END_CHOICES: RestOn[] = ['unknown', 'foundation', 'wall', 'girder', 'ledger', 'hanger', 'header', 'post', 'nothing'];
export const MIDDLE_CHOICES: RestOn[] = ['nothing', 'girder', 'post', 'wall'];

export function restsOf(ends: Ends, length_in: number): Pick<Support, 'rests'> | Record<string, never> {
  const { from, to, middle } = ends;
  if (from === 'unknown' && to === 'unknown' && middle === 'nothing') return {};
  const rests = [
    { end: 'from', on: from },
    ...(middle === 'nothing' ? [] : [{ at_in: length_in / 2, on: middle }]),
    { end: 'to', on: to },
  ].filter((rest) => rest.on !== 'nothing');
  return { rests } as Pick<Support, 'rests'>;
}
