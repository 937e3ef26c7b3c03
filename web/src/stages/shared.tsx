// What every stage's page has: the answer first, the next step as a button, the rest folded.
import { type ReactNode, useEffect } from 'react';
import type { Findings } from '../engine/wire';
import type { Stage } from '../plan/draw';
import { useRoom } from '../room/placing';
import { assumedCards, lacking } from '../store/asked';
import { jobOf, useStore, type Whole } from '../store/store';
import { Fold, Words } from '../ui/parts';
import { w } from '../words/en';
import { sentence, spoken } from '../words/figures';

export interface StageProps {
  go: (stage: Stage) => void;
}

/** The engine's stages in their order, as it calls them while it works (engine/assess/assess.cpp). */
const STEPS = ['hazards', 'survey', 'cut back', 'floor', 'cut lines', 'shower', 'drying', 'take-off', 'work', 'price'];

/**
 * Asks for the whole job while a page that needs it is open. While it is reckoned anew the figures of before
 * stay, marked as old: a page that goes blank at every touch is no answer to "what if".
 */
export function useWhole(): { whole?: Whole; old: boolean } {
  const { history, whole, assessing, askWhole } = useStore();
  const job = history?.job;
  const ready = job !== undefined && lacking(job).length === 0;
  useEffect(() => {
    if (job && ready && whole?.job !== job && !assessing) void askWhole();
  }, [job, ready, whole, assessing, askWhole]);
  return whole && ready ? { whole, old: whole.job !== job } : { old: false };
}

type Reason = NonNullable<Findings['hazards']>['gates'][number]['reason'];

export function Why({ reason }: { reason: Reason }) {
  const source = [reason.source, reason.edition].filter(Boolean).join(' ');
  return (
    <details className="reason">
      <summary>{w.why}</summary>
      {reason.compares && <p>{sentence(reason.compares)}</p>}
      {reason.demand !== undefined && reason.demand !== null && (
        <p>
          {figure(reason.demand)} {reason.unit} {w.against}{' '}
          {reason.capacity === undefined || reason.capacity === null ? '?' : figure(reason.capacity)} {reason.unit}
        </p>
      )}
      {reason.rule && <p>{reason.rule}</p>}
      <p>
        {source || w.noSource} ({spoken(reason.status)})
      </p>
      {reason.steps.length > 0 && (
        <ul>
          {reason.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ul>
      )}
    </details>
  );
}
const figure = (value: number) =>
  Math.abs(value) >= 100 ? Math.round(value).toLocaleString('en-US') : String(Math.round(value * 1000) / 1000);

interface PageProps {
  stage: Stage;
  /** the answer, once there is one */
  answer?: ReactNode;
  /** the reason of its figures, folded under it */
  because?: ReactNode;
  next?: { text: string; go: () => void };
  children?: ReactNode;
}

export function Page({ stage, answer, because, next, children }: PageProps) {
  const id = `stage-${stage}`;
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{w.stages[stage].name}</h2>
      {answer && <p className="answer">{answer}</p>}
      {next && (
        <button type="button" className="main" onClick={next.go}>
          {next.text}
        </button>
      )}
      {because && <Fold title={w.whyThis}>{because}</Fold>}
      {children}
    </section>
  );
}

interface WholeProps extends StageProps {
  stage: Stage;
  /** papers of an older state must not stay on the screen */
  fresh?: boolean;
  children: (findings: Findings, whole: Whole) => ReactNode;
}

/** A page that speaks of the whole job: says what is missing, that it reckons, or shows its children. */
export function WholePage({ stage, go, fresh, children }: WholeProps) {
  const job = useStore(jobOf);
  const { whole, old } = useWhole();
  if (!job) return null;
  const missing = lacking(job);
  const first = missing[0];
  if (first)
    return (
      <Page
        stage={stage}
        answer={w.notYet(missing.map((id) => w.cards[id].title.toLowerCase()))}
        next={{
          text: w.describeNow(w.cards[first].title.toLowerCase()),
          go: () => {
            go('room');
            // The room's page opens first, then its card.
            setTimeout(() => useRoom.getState().open(first));
          },
        }}
      />
    );
  if (!whole || (old && fresh))
    return (
      <Page stage={stage}>
        <Reckoning />
      </Page>
    );
  return (
    <>
      {old ? <Reckoning over /> : <WhatMoved />}
      <div className={old ? 'old' : undefined} aria-busy={old}>
        {children(whole.findings, whole)}
        <Assumed findings={whole.findings} />
      </div>
    </>
  );
}

/** How far the engine has come, with the way to stop it; or why there is no answer. */
function Reckoning({ over }: { over?: boolean }) {
  const { history, assessing, stage, failed, stopped, stopWhole, askAgain } = useStore();
  const job = history?.job;
  if (!assessing && job && (failed === job || stopped === job))
    return (
      <div className="reckoning">
        <p>{failed === job ? w.failed : w.stopped}</p>
        <button type="button" className="main" onClick={askAgain}>
          {w.reckonNow}
        </button>
      </div>
    );
  const n = Math.max(0, STEPS.indexOf(stage));
  return (
    <div className={over ? 'reckoning over-old' : 'reckoning'}>
      <p role="status">
        {over ? w.oldFigures : w.reckoning} {stage && w.stepOf(n + 1, STEPS.length, stage)}
      </p>
      <progress max={STEPS.length} value={n} aria-label={w.reckoning} />
      <button type="button" onClick={stopWhole}>
        {w.stop}
      </button>
    </div>
  );
}

/** What the last act moved, beside the act's name. */
function WhatMoved() {
  const { moved, undo, history, dismiss } = useStore();
  if (!moved || history?.past.at(-1)?.label !== moved.label) return null;
  return (
    <section className="moved" aria-label={w.moved.title}>
      <div className="what">
        <b className="grow">
          {w.moved.title}: {moved.label}
        </b>
        <button type="button" onClick={undo}>
          {w.undo}
        </button>
        <button type="button" className="icon" aria-label={w.closeNote} onClick={() => dismiss('moved')}>
          ✕
        </button>
      </div>
      {moved.lines.length === 0 && <p>{w.moved.nothing}</p>}
      <dl>
        {moved.lines.map((line) => (
          <div key={line.what}>
            <dt>{line.what}</dt>
            <dd>
              <s>{line.before}</s> → <b>{line.after}</b>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** What the engine took for granted, from all of its stages, each said once. */
function saidOf(findings: Findings): string[] {
  return findings.assumed.map((item) => item.words).filter(Boolean);
}

/** What was not known, and what was taken in its place: under every figure. */
function Assumed({ findings }: { findings: Findings }) {
  const job = useStore(jobOf);
  if (!job) return null;
  const cards = assumedCards(job).map((id) => `${w.cards[id].title}: ${w.cards[id].assumed}`);
  const lines = [...cards, ...saidOf(findings)];
  return (
    <>
      {lines.length > 0 && (
        <Fold title={w.assumedCount(lines.length)}>
          <Words lines={lines} />
        </Fold>
      )}
      <Fold title={w.cautions}>
        <Words lines={findings.cautions} />
      </Fold>
    </>
  );
}
