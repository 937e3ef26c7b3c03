// What must be true first, in the order of the work, and who said that it is.
import { useState } from 'react';
import { said } from '../plan/said';
import { type Gate, isMet } from '../store/gates';
import { jobOf, useStore } from '../store/store';
import { Fold } from '../ui/parts';
import { w } from '../words/en';
import { sayTime } from '../words/times';
import { byLaboratory, MeetSheet } from './GateSheets';
import { Page, type StageProps, Why } from './shared';

export function HazardsStage({ go }: StageProps) {
  const job = useStore(jobOf);
  const survey = useStore((state) => state.survey);
  const [gate, setGate] = useState<Gate | undefined>();
  if (!job) return null;
  const hazards = survey?.findings.hazards;
  const gates = hazards?.gates ?? [];
  const open = gates.filter((item) => !isMet(job, item));
  return (
    <Page
      stage="hazards"
      answer={!hazards ? w.describeFirst : open.length === 0 ? w.allMet : w.gatesOpen(open.length)}
      next={hazards ? { text: w.toStage(w.stages.survey.name), go: () => go('survey') } : { text: w.describeRoom, go: () => go('room') }}
    >
      {(['touching', 'entering', 'opening', 'lifting', 'cutting', 'drying', 'covering', 'finishing'] as const).map((before) => {
        const here = gates.filter((item) => item.before === before);
        if (here.length === 0) return null;
        return (
          <div key={before}>
            <h3>{w.before[before]}</h3>
            <ul className="gates">
              {here.map((item) => {
                const met = isMet(job, item);
                return (
                  <li key={item.id} className={met ? 'met' : undefined}>
                    <p>{said(job, item.text)}</p>
                    {item.who && (
                      <p className="quiet">
                        {w.who} {item.who}
                      </p>
                    )}
                    {met ? (
                      <p className="quiet">
                        ✓ {met.by}, {sayTime(met.time)}
                        {met.evidence ? `, ${met.evidence}` : ''}
                      </p>
                    ) : (
                      <button type="button" onClick={() => setGate(item)}>
                        {byLaboratory(item) ? w.laboratorySays : w.itIsMet}
                      </button>
                    )}
                    <Why reason={item.reason} />
                  </li>
                );
              })}
            </ul>
          </div>
        );
      })}
      {hazards && hazards.protection.length > 0 && (
        <Fold title={w.protection}>
          <ul className="gates">
            {hazards.protection.map((item) => (
              <li key={item.id}>
                <p>{item.text}</p>
                <Why reason={item.reason} />
              </li>
            ))}
          </ul>
        </Fold>
      )}
      <MeetSheet gate={gate} onClose={() => setGate(undefined)} />
    </Page>
  );
}
