// The plan is the screen. What is due first, what to do next and what a mark changed lie over it; the
// plan itself neither moves nor shrinks for them.
import { type ReactNode, useState } from 'react';
import type { Findings, Job, Point, Survey } from '../engine/wire';
import type { Stage } from '../plan/draw';
import type { Theme } from '../plan/ink';
import { PlanCanvas } from '../plan/PlanCanvas';
import { Section } from '../plan/Section';
import { said } from '../plan/said';
import { useRoom } from '../room/placing';
import { DueSheet } from '../stages/GateSheets';
import { Calendar, Dots, Sticks } from '../stages/pictures';
import { ActButton, actOf, type Proposal } from '../stages/SurveyStage';
import { lacking, surveyable } from '../store/asked';
import { cardsDue, type Gate } from '../store/gates';
import { useStore } from '../store/store';
import { w } from '../words/en';
import { chance, money, sentence } from '../words/figures';
import { formatLength } from '../words/lengths';
import { KeySheet } from './KeySheet';
import { keptDraft, useSheet } from './sheet';
import { planInWords } from './words';

/** Where the hand touches the floor: what is due before that stands on the plan. */
const UP_TO: Partial<Record<Stage, Gate['before']>> = { survey: 'opening', cut_back: 'cutting' };

/** Stages whose answer is no place on the floor: their picture stands where the plan is, or under it. */
const PICTURED = new Set<Stage>(['takeoff', 'work', 'price']);

function StagePicture({ stage, findings, job }: { stage: Stage; findings: Findings; job: Job }) {
  const { takeoff, work, price } = findings;
  if (stage === 'takeoff' && takeoff) return <Sticks takeoff={takeoff} />;
  if (stage === 'work' && work) return <Calendar work={work} />;
  if (stage === 'price' && price) return <Dots price={price} job={job} />;
  return null;
}

/** A picture longer than its place: the keyboard scrolls it too. */
function Scrolled({ old, children }: { old: boolean; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
    <div className={old ? 'picture old' : 'picture'} tabIndex={0}>
      {children}
    </div>
  );
}

/** What lies over the plan, so that the room as it is fitted stands clear of it. */
function marginsOf(stage: Stage, wide: boolean) {
  const due = UP_TO[stage] !== undefined;
  if (wide) return { left: 52, right: 96, top: due ? 104 : 56, bottom: stage === 'survey' ? 100 : 44 };
  return { left: 44, right: 30, top: stage === 'survey' ? 96 : 40, bottom: stage === 'survey' ? 160 : 34 };
}

interface Props {
  stage: Stage;
  theme: Theme;
  wide: boolean;
  go: (stage: Stage) => void;
}

export function PlanScreen({ stage, theme, wide, go }: Props) {
  const { history, shown, question, survey, preview, whole, surveying, counted, below, key, change, lookFrom } = useStore();
  const { openSpot, openByNumbers, openDraft, form, isOpen, mark } = useSheet();
  const { walk, place } = useRoom();
  const [keyOpen, setKeyOpen] = useState(false);
  const job = history?.job;
  if (!job) return null;
  const findings = survey?.findings.survey;
  // A quick field of the newest job goes before the full one of the job before it.
  const drawn = preview?.job === job ? preview : survey;
  const survey_ = stage === 'survey';
  const onTap = (at: Point, finger_in: number) => {
    if (walk) return;
    if (place) return place(at);
    if (survey_ && surveyable(job)) openSpot(job, shown, at, below, finger_in * 0.8);
  };
  const draft = isOpen ? undefined : keptDraft(key);
  const picture =
    PICTURED.has(stage) && whole && lacking(job).length === 0 ? (
      <StagePicture stage={stage} findings={whole.findings} job={job} />
    ) : undefined;
  if (picture && !wide)
    return (
      <section className={`plan-screen on-${stage} pictured`} aria-label={w.pictures[stage]}>
        <Scrolled old={whole?.job !== job}>{picture}</Scrolled>
      </section>
    );
  return (
    <section className={`plan-screen on-${stage}${picture ? ' pictured' : ''}`} aria-label={w.plan}>
      {!wide && <Section job={job} tall={false} />}
      <div className="plan-and-section">
        {wide && !picture && <Section job={job} tall />}
        <div className="over-plan">
          <PlanCanvas
            job={job}
            survey={drawn?.findings.survey}
            surveyed={drawn?.job}
            findings={whole?.job === job ? whole.findings : undefined}
            stage={stage}
            shown={shown}
            counted={counted}
            question={question}
            selected={mark}
            walk={stage === 'room' ? walk : undefined}
            wallNumbers={stage === 'room'}
            below={below}
            theme={theme}
            margins={marginsOf(stage, wide)}
            label={planInWords({ job, surveyed: survey?.job, survey: findings, shown, question, counted }, chance)}
            onTap={onTap}
          />
          <div className="over top">
            {(wide || survey_) && <Due stage={stage} />}
            <Note />
            {surveying && (
              <p className="chip working" role="status">
                {w.reckoningField}
              </p>
            )}
          </div>
          <div className="over bottom">
            {survey_ && <Change />}
            {survey_ && draft && (
              <button type="button" className="chip" onClick={() => openDraft(draft)}>
                {w.unfinished}
              </button>
            )}
            {survey_ && findings && !surveying && !change && <Advice survey={findings} />}
          </div>
        </div>
      </div>
      {!wide && !survey_ && <Due stage={stage} />}
      {picture && <Scrolled old={whole?.job !== job}>{picture}</Scrolled>}
      {survey_ && (
        <div className="dock">
          {surveyable(job) ? (
            <>
              <button type="button" className="main" onClick={() => openByNumbers(job, shown, below)}>
                {w.byNumbersShort}
              </button>
              <button type="button" aria-pressed={below} onClick={() => lookFrom(!below)}>
                {below ? w.seenBelow : w.seenAbove}
              </button>
              <button type="button" onClick={() => setKeyOpen(true)}>
                {w.questions[question]} ◐
              </button>
            </>
          ) : (
            <button type="button" className="main" onClick={() => go('room')}>
              {w.describeRoom}
            </button>
          )}
        </div>
      )}
      <KeySheet opened={keyOpen} onClose={() => setKeyOpen(false)} theme={theme} />
      {form && <span className="unseen">{w.newMark}</span>}
    </section>
  );
}

/** What is due before anyone does what this stage is about: stays until somebody says that it is met. */
function Due({ stage }: { stage: Stage }) {
  const { history, survey } = useStore();
  const [open, setOpen] = useState(false);
  const upTo = UP_TO[stage];
  const cards = history && upTo ? cardsDue(history.job, survey?.findings, upTo) : [];
  const first = cards[0];
  const more = cards.reduce((sum, card) => sum + card.gates.length, 0) - 1;
  return (
    <>
      {first && (
        <section className="due" aria-label={w.dueFirst}>
          <button type="button" className="what" onClick={() => setOpen(true)}>
            <span>
              <b>{w.dueFirst}</b> {said(history?.job, first.gates[0]?.brief || first.text)}
            </span>
            <span className="count">{more > 0 ? w.andMore(more) : '▸'}</span>
          </button>
        </section>
      )}
      <DueSheet cards={cards} opened={open} onClose={() => setOpen(false)} />
    </>
  );
}

function Note() {
  const { note, dismiss } = useStore();
  if (!note) return null;
  return (
    <div className="note" role="status">
      <p>{note}</p>
      <button type="button" className="icon" aria-label={w.closeNote} onClick={() => dismiss('note')}>
        ✕
      </button>
    </div>
  );
}

/** What to do next, or stop: its worth and its reason stand beside it. */
function Advice({ survey }: { survey: Survey }) {
  const { history, shown, below } = useStore();
  const openSpot = useSheet((state) => state.openSpot);
  const [open, setOpen] = useState(false);
  const job = history?.job;
  const first = survey.next_openings[0] as Proposal | undefined;
  if (!job || (!survey.stop && !first)) return null;
  return (
    <div className="advice">
      <button type="button" className="what" aria-expanded={open} onClick={() => setOpen(!open)}>
        {survey.stop ? (
          <b>{w.stopOpening}</b>
        ) : (
          <>
            <b>{first && actOf(first)}</b> {first && w.fromWalls(formatLength(first.at_in[0]), formatLength(first.at_in[1]))},{' '}
            {first && w.worthShort(money(first.worth))}
          </>
        )}
        <span aria-hidden="true">{open ? ' ▾' : ' ▸'}</span>
      </button>
      {open && <p>{said(job, (survey.stop ? survey.stop_why : first?.why) ?? '')}</p>}
      {open && first && <ActButton proposal={first} onMark={() => openSpot(job, shown, first.at_in, below)} />}
    </div>
  );
}

const band = ({ p10, p90 }: { p10: number; p90: number }) => `${p10.toFixed(0)}–${p90.toFixed(0)} sf`;

/** What the last mark changed, with the way back beside it. */
function Change() {
  const { change, undo, dismiss, history } = useStore();
  if (!change) return null;
  // The layer of the mark says enough; an act without a spot may have moved several.
  const areas = change.spot ? change.areas.filter((item) => item.layer === change.spot?.layer) : change.areas.slice(0, 2);
  return (
    <div className="change" role="status" aria-label={w.whatChanged}>
      <div>
        <p>
          {change.spot ? (
            <>
              {w.unsoundHere} {chance(change.spot.before)} → <b>{chance(change.spot.after)}</b>
            </>
          ) : (
            sentence(change.label)
          )}
        </p>
        {areas.slice(0, 1).map((item) => (
          <p key={item.layer}>
            {w.inAll} {band(item.before)} → <b>{band(item.after)}</b>
          </p>
        ))}
        {!change.spot && areas.length === 0 && <p>{w.nothingChanged}</p>}
      </div>
      {history && history.past.length > 0 && !change.label.startsWith(w.undone) && (
        <button type="button" onClick={undo}>
          {w.undo}
        </button>
      )}
      <button type="button" className="icon" aria-label={w.closeNote} onClick={() => dismiss('change')}>
        ✕
      </button>
    </div>
  );
}
