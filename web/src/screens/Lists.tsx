// The same marks and openings as on the plan, as lists: for keyboards, gloves and screen readers.

import { markWords } from '../store/acts';
import { useStore } from '../store/store';
import { money, sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { MarkSymbol } from './parts';
import { useSheet } from './sheet';
import { placeInWords } from './words';

export function MarksScreen() {
  const { history, shown } = useStore();
  const { openMark, openByNumbers } = useSheet();
  const job = history?.job;
  if (!job) return null;
  const marks = [...job.marks].reverse();
  return (
    <section aria-labelledby="marks-title">
      <h2 id="marks-title">Marks ({marks.length})</h2>
      <button type="button" className="main" onClick={() => openByNumbers(job, shown)}>
        + Mark by numbers
      </button>
      <MarkKeys />
      {marks.length === 0 && <p>No marks yet. Tap the plan where the awl went in.</p>}
      <ul className="rows">
        {marks.map((mark) => (
          <li key={mark.id}>
            <button type="button" onClick={() => openMark(mark)}>
              <MarkSymbol tool={mark.tool} reads={mark.reads} percent={mark.mc_percent} />
              <span>
                <b>{sentence(markWords(mark))}</b>
                <small>
                  {placeInWords(mark)}
                  {mark.from === 'below' ? ', from below' : ''}
                  {mark.time ? ` · ${mark.time.slice(0, 16).replace('T', ' ')}` : ''}
                </small>
                {mark.note && <small>{mark.note}</small>}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

const KEYS = [
  { tool: 'awl', reads: 'sound', text: 'awl: sound' },
  { tool: 'awl', reads: 'soft', text: 'awl: soft' },
  { tool: 'awl', reads: 'gone', text: 'awl: gone' },
  { tool: 'meter', percent: 18, text: 'meter: percent moisture' },
  { tool: 'eye', reads: 'stained', text: 'eye: dry, stained, wet, growth or insects by its letter' },
];

function MarkKeys() {
  return (
    <details>
      <summary>What the marks mean on the plan</summary>
      <ul className="keys">
        {KEYS.map((key) => (
          <li key={key.text}>
            <MarkSymbol tool={key.tool} reads={key.reads} percent={key.percent} /> {key.text}
          </li>
        ))}
        <li>A small ring is a mark on another layer. A blue drop is where the water came from.</li>
      </ul>
    </details>
  );
}

export function NextScreen() {
  const { history, shown, survey, surveying } = useStore();
  const { openSpot } = useSheet();
  const job = history?.job;
  if (!job) return null;
  const findings = survey?.findings.survey;
  return (
    <section aria-labelledby="next-title">
      <h2 id="next-title">Where to open next</h2>
      {!findings && <p role="status">{surveying ? 'Reckoning…' : 'Not known yet.'}</p>}
      {findings?.stop && <p className="stop">Stop opening. {findings.stop_why}</p>}
      <ol className="rows openings">
        {findings?.next_openings.map((opening, i) => (
          <li key={opening.at_in.join()}>
            <span className="number" aria-hidden="true">
              {i + 1}
            </span>
            <div>
              <b>
                {formatLength(opening.at_in[0]!)} across, {formatLength(opening.at_in[1]!)} up
                {opening.support ? `, at ${opening.support}` : ''}
                {opening.wall ? `, under wall ${opening.wall}` : ''}
              </b>
              <p>
                Worth {money(opening.worth)}, costs {money(opening.cost)}
                {opening.lifts ? `; lift the ${spoken(opening.lifts)} first` : ''}.
              </p>
              <p>{opening.why}</p>
              <button type="button" onClick={() => openSpot(job, shown, opening.at_in)}>
                Mark what you find here
              </button>
            </div>
          </li>
        ))}
      </ol>
      {findings && !findings.stop && findings.next_openings.length === 0 && <p>No opening was proposed.</p>}
      {findings && (
        <p className="quiet">Deciding now would cost {money(findings.expected_loss)} on average in wood left or torn out by mistake.</p>
      )}
    </section>
  );
}
