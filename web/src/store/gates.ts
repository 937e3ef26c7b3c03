// The gates as the hand meets them: which are due now, which were met, and by whom.
import type { Findings, Job, Layer } from '../engine/wire';

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

/** Gates that stand before what one does at this stage, the ones that were met left out. */
export function dueNow(job: Job, findings: Findings | undefined, upTo: Gate['before']): Gate[] {
  const until = ORDER.indexOf(upTo);
  return (findings?.hazards?.gates ?? []).filter((gate) => ORDER.indexOf(gate.before) <= until && !isMet(job, gate));
}

/** The gate that forbids to pierce this layer now, if one does. */
export function piercing(job: Job, findings: Findings | undefined, layer: Layer | undefined): Gate | undefined {
  if (!layer) return undefined;
  return findings?.hazards?.gates.find(
    (gate) =>
      gate.hazard === 'asbestos' &&
      (gate.before === 'opening' || gate.before === 'lifting') &&
      gate.because.some((fact) => fact.includes(`(${layer.id})`)) &&
      !isMet(job, gate),
  );
}
