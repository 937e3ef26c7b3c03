// What must be true first, in the order of the work, and who said that it is.
import { useState } from 'react';
import { type Gate, isMet } from '../store/gates';
import { Shelf } from '../store/keep';
import { photoOf, shelve, takePicture } from '../store/photos';
import { jobOf, useStore } from '../store/store';
import { Field, Fold, Sheet } from '../ui/parts';
import { w } from '../words/en';
import { sayTime, stamp } from '../words/times';
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
                    <p>{item.text}</p>
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
                        {w.itIsMet}
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

/** By whom, when, and with what to show for it. */
export function MeetSheet({ gate, onClose }: { gate: Gate | undefined; onClose: () => void }) {
  const { history, perform } = useStore();
  const [by, setBy] = useState(() => localStorage.getItem('awlmark.by') ?? '');
  const [evidence, setEvidence] = useState('');
  const [photo, setPhoto] = useState<string | undefined>();
  const [wrong, setWrong] = useState(false);
  if (!history) return null;
  const save = () => {
    setWrong(by.trim() === '');
    if (!gate || by.trim() === '') return;
    let shown = evidence.trim();
    if (photo) {
      const made = photoOf(history.job, photo, {});
      perform('addPhoto', { photo: made });
      shown = [`photo ${made.id}`, shown].filter(Boolean).join(', ');
    }
    perform('meetGate', { gate: gate.id, by: by.trim(), time: stamp(new Date()), ...(shown ? { evidence: shown } : {}) });
    localStorage.setItem('awlmark.by', by.trim());
    setEvidence('');
    setPhoto(undefined);
    onClose();
  };
  return (
    <Sheet opened={gate !== undefined} onClose={onClose} title={w.meetTitle}>
      <p>{gate?.text}</p>
      {gate?.who && (
        <p>
          <b>
            {w.who} {gate.who}
          </b>
        </p>
      )}
      <Field label={w.byWhom} value={by} error={wrong ? w.wrong.name : undefined} maxLength={100} onChange={setBy} />
      <Field label={w.evidence} value={evidence} maxLength={300} onChange={setEvidence} />
      <div className="pair">
        <button type="button" onClick={() => void takePicture().then(async (file) => file && setPhoto(await shelve(new Shelf(), file)))}>
          {photo ? w.photosTaken(1) : w.camera}
        </button>
        <button type="button" className="main" onClick={save}>
          {w.itIsMet}
        </button>
      </div>
      {gate && <Why reason={gate.reason} />}
    </Sheet>
  );
}
