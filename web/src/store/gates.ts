// The gates as the hand meets them: which are due now, which were met, and by whom.
import type { Findings, Job, Layer, Mark } from '../engine/wire';
import { marksOf } from '../plan/members';

export type Gate = NonNullable<Findings['hazards']>['gates'][number];
export interface Met {
  gate: string;
  by: string;
  time: string;
  evidence?: string;
}
type Hazards = { met?: Met[] } | undefined;

export function metOf(job: Job): Met[] {
  return (job as { hazards?: Hazards }).hazards?.met ?? [];
}
/** No tick lifts a gate on suspect asbestos: a laboratory does, and then the engine no longer names the gate. */
export function isMet(job: Job, gate: Gate): Met | undefined {
  if (gate.hazard === 'asbestos' && gate.id !== 'asbestos_local_rule') return undefined;
  return metOf(job).find((met) => met.gate === gate.id);
}

const ORDER: Gate['before'][] = ['touching', 'entering', 'opening', 'lifting', 'cutting', 'drying', 'covering', 'finishing'];

/** What is due, one card a hazard, the worst first: few words, the gates behind them in full. */
export interface DueCard {
  hazard: string;
  text: string;
  gates: Gate[];
}

/** Gates that stand before what one does at this stage, the ones that were met left out. */
export function dueNow(job: Job, findings: Findings | undefined, upTo: Gate['before']): Gate[] {
  const until = ORDER.indexOf(upTo);
  return (findings?.hazards?.gates ?? []).filter((gate) => ORDER.indexOf(gate.before) <= until && !isMet(job, gate));
}

/**
 * The cards that stand on the plan. The survey's are the engine's own, for what it asks for next; those of
 * later steps are all gates up to there. What a hand has just ticked is gone at once.
 */
export function cardsDue(job: Job, findings: Findings | undefined, upTo: Gate['before']): DueCard[] {
  const hazards = findings?.hazards;
  if (!hazards) return [];
  const open = dueNow(job, findings, upTo);
  const now = new Set(hazards.due.cards.flatMap((card) => card.gates));
  const due = upTo === 'opening' ? hazards.gates.filter((gate) => now.has(gate.id) && !isMet(job, gate)) : open;
  const ranked = [...hazards.due.cards.map((card) => card.hazard), ...due.map((gate) => gate.hazard)];
  return [...new Set(ranked)]
    .map((hazard) => {
      const gates = due.filter((gate) => gate.hazard === hazard);
      return { hazard, gates, text: gates.map((gate) => gate.brief || gate.text).join(' ') };
    })
    .filter((card) => card.gates.length > 0);
}

export interface LaboratoryResult {
  layer?: string;
  result: 'clear' | 'positive';
  by?: string;
  date?: string;
  report?: string;
}
/** The layers that are taken as holding asbestos until a laboratory has spoken. */
export function presumed(job: Job, findings: Findings | undefined): Layer[] {
  const ids = new Set(findings?.hazards?.presumed_layers ?? []);
  return job.layers.filter((layer) => ids.has(layer.id));
}
export function laboratoryOf(job: Job): LaboratoryResult[] {
  return (job.hazards?.facts?.laboratory ?? []) as LaboratoryResult[];
}

/**
 * The gate that stands before this reading: an awl or a meter from above goes through every layer over its
 * own. Asked once: where somebody has gone through before, the layer is open already.
 */
export function piercing(job: Job, findings: Findings | undefined, mark: Mark): Gate | undefined {
  const depthOf = (one: Mark) => (one.layer === undefined ? job.layers.length : job.layers.findIndex((layer) => layer.id === one.layer));
  const fromAbove = (one: Mark) => one.tool !== 'eye' && one.wall === undefined && (one.from ?? 'above') === 'above';
  if (!fromAbove(mark)) return undefined;
  const suspect = presumed(job, findings).map((layer) => job.layers.indexOf(layer));
  const first = Math.min(...suspect.filter((depth) => depth <= depthOf(mark)));
  if (!Number.isFinite(first) || marksOf(job).some((one) => fromAbove(one) && depthOf(one) >= first)) return undefined;
  const gates = (findings?.hazards?.gates ?? []).filter((gate) => gate.hazard === 'asbestos' && !isMet(job, gate));
  return gates.find((gate) => gate.before === 'opening') ?? gates[0];
}
