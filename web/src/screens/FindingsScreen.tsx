// What the engine found, in words and a few figures, each with its reason one touch away.
import { useEffect } from 'react';
import type { Findings } from '../engine/wire';
import { useStore, type Whole } from '../store/store';
import { area, money, sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { ProblemList, Words } from './parts';

/** Asks for the whole job while a screen that needs it is open; the answer only when it is this job's. */
export function useWhole(): Whole | undefined {
  const { history, whole, assessing, askWhole } = useStore();
  const job = history?.job;
  useEffect(() => {
    if (job && whole?.job !== job && !assessing) void askWhole();
  }, [job, whole, assessing, askWhole]);
  return whole && whole.job === job ? whole : undefined;
}

export function Progress() {
  const { assessing, stage } = useStore();
  if (!assessing) return null;
  return <p role="status">Reckoning the whole job{stage ? `: ${stage}` : ''}…</p>;
}

type Gate = NonNullable<Findings['hazards']>['gates'][number];
type Reasoned = Gate['reason'];

function ReasonBox({ reason }: { reason: Reasoned }) {
  const source = [reason.source, reason.edition].filter(Boolean).join(' ');
  return (
    <details className="reason">
      <summary>Why</summary>
      {reason.compares && <p>{sentence(reason.compares)}</p>}
      {reason.rule && <p>{reason.rule}</p>}
      <p>
        {source || 'No source'} ({spoken(reason.status)})
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

function Field({ findings }: { findings: Findings }) {
  const { survey } = findings;
  return (
    <>
      <h3>How far it goes</h3>
      <Words lines={survey.words} />
      <table>
        <caption>Unsound area, square feet</caption>
        <thead>
          <tr>
            <th scope="col">Layer</th>
            <th scope="col">Low</th>
            <th scope="col">Middle</th>
            <th scope="col">High</th>
          </tr>
        </thead>
        <tbody>
          {Object.entries(survey.unsound_sf).map(([layer, range]) => (
            <tr key={layer}>
              <th scope="row">{spoken(layer)}</th>
              <td>{range.p10.toFixed(1)}</td>
              <td>{range.p50.toFixed(1)}</td>
              <td>{range.p90.toFixed(1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">Low and high: one chance in ten that it is less, one in ten that it is more.</p>
      {survey.inference.notes.length > 0 && (
        <details>
          <summary>What was taken as safer ({survey.inference.notes.length})</summary>
          <Words lines={survey.inference.notes} />
        </details>
      )}
    </>
  );
}

const BEFORE = {
  touching: 'Before touching anything',
  opening: 'Before opening',
  cutting: 'Before cutting',
  covering: 'Before covering',
} as const;

function Gates({ findings }: { findings: Findings }) {
  const gates = findings.hazards?.gates ?? [];
  return (
    <>
      <h3>What must be true first</h3>
      {gates.length === 0 && <p>No gate was raised.</p>}
      {(Object.keys(BEFORE) as (keyof typeof BEFORE)[]).map((before) => {
        const here = gates.filter((gate) => gate.before === before);
        if (here.length === 0) return null;
        return (
          <div key={before}>
            <h4>{BEFORE[before]}</h4>
            <ul className="gates">
              {here.map((gate) => (
                <li key={gate.id}>
                  <p>{gate.text}</p>
                  {gate.who && <p className="quiet">Who: {gate.who}</p>}
                  <ReasonBox reason={gate.reason} />
                </li>
              ))}
            </ul>
          </div>
        );
      })}
    </>
  );
}

function CutAndFloor({ findings }: { findings: Findings }) {
  const { cut_back: cut, floor } = findings;
  return (
    <>
      {cut && (
        <>
          <h3>Cut back</h3>
          <Words lines={cut.words} />
          <ul>
            {Object.entries(cut.area_sf).map(([layer, sf]) => (
              <li key={layer}>
                {spoken(layer)}: take out {area(sf)}
              </li>
            ))}
          </ul>
        </>
      )}
      {floor && (
        <>
          <h3>The floor as found</h3>
          <Words lines={floor.as_found.words} />
          <Words lines={floor.while_open.words} />
          <h3>Ways to put it back</h3>
          <ol className="gates">
            {[...floor.options]
              .sort((a, b) => a.rank - b.rank)
              .map((option) => (
                <li key={option.id}>
                  <p>
                    <b>{option.title}</b> {option.ok ? 'passes its checks' : 'does not pass its checks'}
                    {option.needs_engineer ? '; needs an engineer' : ''}
                  </p>
                  <p>{option.trade_off}</p>
                  <p className="quiet">
                    Height {option.height_change_in >= 0 ? '+' : ''}
                    {formatLength(option.height_change_in)}, {option.weight_psf.toFixed(1)} psf, {money(option.cost)},{' '}
                    {option.hours.low.toFixed(0)}–{option.hours.high.toFixed(0)} hours
                  </p>
                  {option.checks
                    .filter((check) => !check.ok)
                    .map((check) => (
                      <p key={check.id}>
                        Fails: {spoken(check.kind)} of {check.member},{' '}
                        {check.state === 'nothing_left'
                          ? 'nothing is left to carry it'
                          : check.state === 'not_allowed'
                            ? 'which the rule does not allow'
                            : `${check.ratio.toFixed(2)} of what it may be`}
                      </p>
                    ))}
                </li>
              ))}
          </ol>
        </>
      )}
    </>
  );
}

function PriceAndTime({ findings }: { findings: Findings }) {
  const { price, work } = findings;
  return (
    <>
      {price && (
        <>
          <h3>Price</h3>
          <p className="figure">
            {money(price.p10)} to {money(price.p90)}, as likely as not {money(price.p50)}
          </p>
          <Words lines={price.words} />
          <p className="quiet">{Math.round(price.from_floor_share * 100)}% of the spread comes from floor that nobody has seen yet.</p>
        </>
      )}
      {work && (
        <>
          <h3>Time</h3>
          <p>
            {work.total_hours.low.toFixed(0)} to {work.total_hours.high.toFixed(0)} crew hours
            {work.finish.p50 ? `; done by ${work.finish.p50} as likely as not, by ${work.finish.p80} four times in five` : ''}.
          </p>
        </>
      )}
    </>
  );
}

export function FindingsScreen() {
  const survey = useStore((state) => state.survey);
  const warnings = useStore((state) => state.warnings);
  const whole = useWhole();
  return (
    <section aria-labelledby="findings-title">
      <h2 id="findings-title">Findings</h2>
      {survey && <Field findings={survey.findings} />}
      {warnings.length > 0 && (
        <>
          <h3>Read with care</h3>
          <ProblemList problems={warnings} />
        </>
      )}
      <Progress />
      {whole && (
        <>
          <Gates findings={whole.findings} />
          <CutAndFloor findings={whole.findings} />
          <PriceAndTime findings={whole.findings} />
        </>
      )}
      {survey && (
        <>
          <h3>Cautions</h3>
          <Words lines={(whole?.findings ?? survey.findings).cautions} />
        </>
      )}
    </section>
  );
}
