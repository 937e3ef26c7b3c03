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

/** Asks for the whole job while a page that needs it is open; the answer only when it is this job's. */
export function useWhole(): Whole | undefined {
  const { history, whole, assessing, askWhole } = useStore();
  const job = history?.job;
  const ready = job !== undefined && lacking(job).length === 0;
  useEffect(() => {
    if (job && ready && whole?.job !== job && !assessing) void askWhole();
  }, [job, ready, whole, assessing, askWhole]);
  return whole && whole.job === job && ready ? whole : undefined;
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
  next?: { text: string; go: () => void };
  children?: ReactNode;
}

export function Page({ stage, answer, next, children }: PageProps) {
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
      {children}
    </section>
  );
}

/** A page that speaks of the whole job: says what is missing, that it reckons, or shows its children. */
export function WholePage({
  stage,
  go,
  children,
}: StageProps & { stage: Stage; children: (findings: Findings, whole: Whole) => ReactNode }) {
  const job = useStore(jobOf);
  const { assessing, stage: at, failed } = useStore();
  const whole = useWhole();
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
  if (!whole)
    return (
      <Page stage={stage} answer={failed === job ? w.failed : undefined}>
        {assessing && (
          <p role="status" className="progress">
            {w.reckoning} {at}…
          </p>
        )}
      </Page>
    );
  return (
    <>
      {children(whole.findings, whole)}
      <Assumed findings={whole.findings} />
    </>
  );
}

/** What the engine took for granted, from all of its stages, each said once. */
function saidOf(findings: Findings): string[] {
  const said = (findings as unknown as { assumed?: (string | { words?: string; what?: string })[] }).assumed ?? [];
  return said.map((item) => (typeof item === 'string' ? item : (item.words ?? item.what ?? ''))).filter(Boolean);
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

export type More<T> = T & Record<string, unknown>;
