// What an act moved: the whole job's figures before and after, side by side, so that a "what if" is answered at once.
import type { Findings } from '../engine/wire';
import { w } from '../words/en';
import { area, money } from '../words/figures';
import { formatLength } from '../words/lengths';
import { sayDate } from '../words/times';

export interface Moved {
  /** what the person did */
  label: string;
  lines: { what: string; before: string; after: string }[];
}

interface Figure {
  what: string;
  said: string;
}

/** The figures that a person decides by, each as it is said. */
function figuresOf(findings: Findings): Figure[] {
  const { price, work, floor, cut_back: cut, shower } = findings;
  const chosen = floor?.options.find((option) => option.id === floor.chosen);
  const answer = shower?.answers.find((item) => item.id === shower.chosen);
  const out: Figure[] = [];
  const add = (what: string, said: string | undefined) => said !== undefined && out.push({ what, said });
  add(w.moved.price, price && `${money(price.p10)}–${money(price.p90)}`);
  add(w.moved.finish, work && (work.finish.p80 ? sayDate(work.finish.p80) : w.moved.days(Math.ceil(work.finish.p80_days))));
  add(w.moved.way, chosen?.title);
  add(w.moved.height, chosen && formatLength(chosen.height_change_in));
  add(w.moved.checks, chosen && String(chosen.checks.filter((check) => !check.ok).length));
  add(w.moved.out, cut && area(Object.values(cut.area_sf).reduce((sum, sf) => sum + sf, 0)));
  add(w.moved.door, answer && formatLength(answer.step_at_door_in));
  add(w.moved.entry, answer && formatLength(answer.step_at_entry_in));
  add(w.moved.edge, shower?.pan ? formatLength(shower.pan.edge_height_in) : undefined);
  return out;
}

export function movedBetween(label: string, before: { findings: Findings }, after: { findings: Findings }): Moved {
  const was = new Map(figuresOf(before.findings).map(({ what, said }) => [what, said]));
  const is = new Map(figuresOf(after.findings).map(({ what, said }) => [what, said]));
  const lines = [...new Set([...was.keys(), ...is.keys()])]
    .map((what) => ({ what, before: was.get(what) ?? w.none, after: is.get(what) ?? w.none }))
    .filter((line) => line.before !== line.after);
  return { label, lines };
}
