// The plan with its switches: which layer, which question, and where a finger says 'mark here'.
import type { Point } from '../engine/wire';
import { belongs } from '../plan/draw';
import type { Question } from '../plan/field';
import { PlanCanvas } from '../plan/PlanCanvas';
import { marksNear } from '../plan/places';
import { type Shown, useStore } from '../store/store';
import { chance, spoken } from '../words/figures';
import { ChangeNote } from './ChangeNote';
import { Legend } from './Legend';
import { Choice } from './parts';
import { useSheet } from './sheet';
import { nameOfShown, planInWords } from './words';

const QUESTIONS: { value: Question; text: string }[] = [
  { value: 'unsound', text: 'Unsound' },
  { value: 'gone', text: 'Gone' },
  { value: 'wet', text: 'Wet' },
];

function keyOf(shown: Shown): string {
  return shown.kind === 'layer' ? `layer:${shown.id}` : shown.kind;
}
function shownOf(key: string): Shown {
  return key.startsWith('layer:') ? { kind: 'layer', id: key.slice(6) } : { kind: key as 'supports' | 'walls' };
}

export function PlanScreen() {
  const { history, shown, question, survey, surveying, change, counted, show, ask } = useStore();
  const sheet = useSheet();
  const job = history?.job;
  if (!job) return null;
  const options = [
    ...job.layers.map((layer) => ({ value: `layer:${layer.id}`, text: spoken(layer.id) })),
    ...(job.supports.length > 0 ? [{ value: 'supports', text: 'framing' }] : []),
    ...(job.walls.length > 0 ? [{ value: 'walls', text: 'plates' }] : []),
  ];
  const onTap = (at: Point, finger_in: number) => {
    const hit = marksNear(job, at, finger_in * 0.8, (mark) => belongs(mark, shown), counted)[0];
    if (hit) sheet.openMark(hit);
    else sheet.openSpot(job, shown, at);
  };
  const findings = survey?.findings.survey;
  return (
    <section className="plan-screen" aria-label="Plan">
      <div className="switches">
        <Choice label="Layer shown" value={keyOf(shown)} options={options} onChange={(key) => show(shownOf(key))} />
        <Choice label="Question shown" value={question} options={QUESTIONS} onChange={ask} />
      </div>
      <PlanCanvas
        job={job}
        survey={findings}
        shown={shown}
        counted={counted}
        question={question}
        selected={sheet.mark?.id}
        spot={sheet.isOpen ? sheet.spot : undefined}
        label={planInWords(job, findings, shown, question, chance)}
        onTap={onTap}
      />
      {surveying && (
        <p className="working" role="status">
          Reckoning the field of {nameOfShown(shown)}…
        </p>
      )}
      <ChangeNote />
      {!change && <Legend question={question} />}
      <div className="add">
        <button type="button" className="main" onClick={() => sheet.openByNumbers(job, shown)}>
          + Mark by numbers
        </button>
        <p>or tap the plan</p>
      </div>
    </section>
  );
}
