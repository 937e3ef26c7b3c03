// A gate as the hand meets it: what is due now, who says that it is met, and what a laboratory found.
import { useState } from 'react';
import { layerName } from '../plan/names';
import { said } from '../plan/said';
import { type DueCard, type Gate, laboratoryOf, presumed } from '../store/gates';
import { Shelf } from '../store/keep';
import { photoOf, type Shelved, shelve, takePicture } from '../store/photos';
import { jobOf, useStore } from '../store/store';
import { Choice, Field, Fold, Select, Sheet } from '../ui/parts';
import { w } from '../words/en';
import { sentence, spoken } from '../words/figures';
import { stamp } from '../words/times';
import { Why } from './shared';

/** Only a laboratory lifts it; a tick would not. */
export const byLaboratory = (gate: Gate): boolean => gate.hazard === 'asbestos' && gate.id !== 'asbestos_local_rule';

/** Everything that is due now: a card a hazard, each gate with its way to be met. */
export function DueSheet({ cards, opened, onClose }: { cards: DueCard[]; opened: boolean; onClose: () => void }) {
  const [meeting, setMeeting] = useState<Gate | undefined>();
  const job = useStore(jobOf);
  return (
    <>
      <Sheet opened={opened && meeting === undefined} onClose={onClose} title={w.dueNow}>
        {cards.length === 0 && <p>{w.allMet}</p>}
        {cards.map((card) => (
          <section key={card.hazard} className="due-card" aria-label={sentence(spoken(card.hazard))}>
            <h3>{sentence(spoken(card.hazard))}</h3>
            {card.gates.map((gate) => (
              <div key={gate.id} className="due-gate">
                <p>
                  <b>{said(job, gate.brief || gate.text)}</b>
                </p>
                <button type="button" onClick={() => setMeeting(gate)}>
                  {byLaboratory(gate) ? w.laboratorySays : w.itIsMet}
                </button>
                <Fold title={w.inFull}>
                  <p>{said(job, gate.text)}</p>
                  {gate.who && (
                    <p className="quiet">
                      {w.who} {gate.who}
                    </p>
                  )}
                  <Why reason={gate.reason} />
                </Fold>
              </div>
            ))}
          </section>
        ))}
      </Sheet>
      <MeetSheet gate={meeting} onClose={() => setMeeting(undefined)} />
    </>
  );
}

/** By whom, when, and with what to show for it. */
export function MeetSheet({ gate, onClose }: { gate: Gate | undefined; onClose: () => void }) {
  const { history, perform, survey } = useStore();
  const [by, setBy] = useState(() => localStorage.getItem('awlmark.by') ?? '');
  const [evidence, setEvidence] = useState('');
  const [photo, setPhoto] = useState<Shelved | undefined>();
  const [wrong, setWrong] = useState(false);
  if (!history) return null;
  const laboratory = gate !== undefined && byLaboratory(gate) && presumed(history.job, survey?.findings).length > 0;
  /** What shows it, the photo taken for it first; nothing when nobody said who. */
  const shown = (): string | undefined => {
    setWrong(by.trim() === '');
    if (by.trim() === '') return undefined;
    localStorage.setItem('awlmark.by', by.trim());
    if (!photo) return evidence.trim();
    const made = photoOf(history.job, photo, { caption: gate?.brief || gate?.text.slice(0, 200) });
    perform('addPhoto', { photo: made });
    return [`photo ${made.id}`, evidence.trim()].filter(Boolean).join(', ');
  };
  const done = () => {
    setEvidence('');
    setPhoto(undefined);
    onClose();
  };
  const meet = () => {
    const proof = gate && shown();
    if (!gate || proof === undefined) return;
    perform('meetGate', { gate: gate.id, by: by.trim(), time: stamp(new Date()), ...(proof ? { evidence: proof } : {}) });
    done();
  };
  return (
    <Sheet opened={gate !== undefined} onClose={onClose} title={laboratory ? w.laboratoryTitle : w.meetTitle}>
      <p>{said(history.job, gate?.text ?? '')}</p>
      {gate?.who && (
        <p>
          <b>
            {w.who} {gate.who}
          </b>
        </p>
      )}
      {gate && byLaboratory(gate) && !laboratory && <p className="warn">{w.noTick}</p>}
      <Field label={w.byWhom} value={by} error={wrong ? w.wrong.name : undefined} maxLength={100} onChange={setBy} />
      <Field label={laboratory ? w.report : w.evidence} value={evidence} maxLength={300} onChange={setEvidence} />
      <button
        type="button"
        className="block"
        onClick={() => void takePicture().then(async (file) => file && setPhoto(await shelve(new Shelf(), file)))}
      >
        {photo ? w.photosTaken(1) : w.camera}
      </button>
      {laboratory ? (
        <Laboratory
          onSave={(layer, result) => {
            const report = shown();
            if (report === undefined) return;
            perform('setLaboratory', {
              result: { layer, result, by: by.trim(), date: stamp(new Date()).slice(0, 10), ...(report ? { report } : {}) },
            });
            done();
          }}
        />
      ) : (
        <button type="button" className="main block" disabled={gate !== undefined && byLaboratory(gate)} onClick={meet}>
          {w.itIsMet}
        </button>
      )}
      {gate && <Why reason={gate.reason} />}
    </Sheet>
  );
}

/** Which layer was looked at, and what was found in it. */
function Laboratory({ onSave }: { onSave: (layer: string, result: 'clear' | 'positive') => void }) {
  const job = useStore(jobOf);
  const survey = useStore((state) => state.survey);
  const [picked, setPicked] = useState('');
  const [result, setResult] = useState<'clear' | 'positive' | undefined>();
  if (!job) return null;
  const layers = presumed(job, survey?.findings);
  const layer = layers.find((item) => item.id === picked) ?? layers[0];
  const known = laboratoryOf(job).filter((item) => item.layer);
  if (!layer) return null;
  return (
    <>
      <Select
        label={w.sampleOf}
        value={layer.id}
        options={layers.map((item) => ({ value: item.id, label: layerName(job, item) }))}
        onChange={setPicked}
      />
      <Choice
        said
        label={w.laboratorySays}
        value={result}
        options={(['clear', 'positive'] as const).map((value) => ({ value, text: w.laboratory[value] }))}
        onChange={setResult}
      />
      <button type="button" className="main block" disabled={!result} onClick={() => result && onSave(layer.id, result)}>
        {w.saveResult}
      </button>
      {known.map((item) => (
        <p key={item.layer} className="quiet">
          {layerName(job, item.layer ?? '')}: {w.laboratory[item.result]}
          {item.by ? `, ${item.by}` : ''} {item.date ?? ''}
        </p>
      ))}
    </>
  );
}
