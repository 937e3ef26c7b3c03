// The survey's page: what to do next and why, the marks as a list, how far it goes.
import { useState } from 'react';
import type { Mark, Survey } from '../engine/wire';
import { marksOf } from '../plan/members';
import { layerName, memberName, wallName } from '../plan/names';
import { said } from '../plan/said';
import { Gallery } from '../screens/Photos';
import { useSheet } from '../screens/sheet';
import { markLine } from '../screens/words';
import { surveyable } from '../store/asked';
import type { Gate } from '../store/gates';
import { useStore } from '../store/store';
import { Fold, MarkSymbol, Words } from '../ui/parts';
import { w } from '../words/en';
import { money, sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { sayTime } from '../words/times';
import { byLaboratory, MeetSheet } from './GateSheets';
import { Page, type StageProps } from './shared';

export type Proposal = Survey['next_openings'][number] & {
  act?: string;
  from?: string;
  probes_in?: [number, number][];
  pierces?: string[];
  gates?: string[];
};

export function actOf(proposal: Proposal): string {
  return w.actNames[proposal.act ?? 'open'] ?? w.actNames.open!;
}

/** The first line: what to do, or that one may stop. */
export function adviceOf(survey: Survey | undefined, surveying: boolean): string {
  if (!survey) return surveying ? w.reckoningField : w.noField;
  if (survey.stop) return `${w.stopOpening} ${survey.stop_why}`;
  const first = survey.next_openings[0] as Proposal | undefined;
  if (!first) return w.noOpening;
  return `${actOf(first)}: ${w.fromWalls(formatLength(first.at_in[0]), formatLength(first.at_in[1]))}. ${w.worth(money(first.worth), money(first.cost))}`;
}

export function SurveyStage({ go }: StageProps) {
  const { history, shown, survey, surveying, below, warnings } = useStore();
  const { openSpot, openByNumbers, openMark } = useSheet();
  const job = history?.job;
  if (!job) return null;
  const findings = survey?.findings.survey;
  const holds = (findings as { holds?: string[] } | undefined)?.holds ?? [];
  return (
    <Page
      stage="survey"
      answer={surveyable(job) ? adviceOf(findings, surveying) : w.describeFirst}
      next={
        !surveyable(job)
          ? { text: w.describeRoom, go: () => go('room') }
          : findings?.stop
            ? { text: w.toStage(w.stages.cut_back.name), go: () => go('cut_back') }
            : { text: w.markByNumbers, go: () => openByNumbers(job, shown, below) }
      }
    >
      {holds.length > 0 && (
        <>
          <h3>{w.holds}</h3>
          <Words lines={holds} />
        </>
      )}
      {findings && findings.next_openings.length > 0 && <h3>{w.whereNext}</h3>}
      <ol className="rows openings">
        {(findings?.next_openings as Proposal[] | undefined)?.map((opening) => (
          <li key={`${opening.at_in.join()} ${opening.act ?? ''}`}>
            <b>
              {actOf(opening)}, {w.fromWalls(formatLength(opening.at_in[0]), formatLength(opening.at_in[1]))}
              {opening.support ? `, ${memberName(job, opening.support)}` : ''}
              {opening.wall ? `, ${wallName(job, opening.wall)}` : ''}
              {opening.from === 'below' ? `, ${w.fromBelow}` : ''}
            </b>
            <p>
              {w.worth(money(opening.worth), money(opening.cost))}
              {opening.lifts ? ` ${w.liftFirst(spoken(opening.lifts))}` : ''}
            </p>
            <Fold title={w.why}>
              <p>{said(job, opening.why)}</p>
              {(opening.pierces?.length ?? 0) > 0 && (
                <p>
                  {w.pierces} {opening.pierces?.map((id) => layerName(job, id)).join(', ')}
                </p>
              )}
              {(opening.gates?.length ?? 0) > 0 && (
                <p>
                  {w.gatesFirst} {opening.gates?.map(spoken).join(', ')}
                </p>
              )}
            </Fold>
            <ActButton proposal={opening} onMark={() => openSpot(job, shown, opening.at_in, opening.from === 'below' || below)} />
          </li>
        ))}
      </ol>
      {findings && (
        <Fold title={w.howFar}>
          <Words lines={findings.words} />
          <table>
            <caption>{w.unsoundArea}</caption>
            <thead>
              <tr>
                <th scope="col">{w.layer}</th>
                <th scope="col">{w.low}</th>
                <th scope="col">{w.middle}</th>
                <th scope="col">{w.high}</th>
              </tr>
            </thead>
            <tbody>
              {Object.entries(findings.unsound_sf).map(([id, range]) => (
                <tr key={id}>
                  <th scope="row">{layerName(job, id)}</th>
                  <td>{range.p10.toFixed(1)}</td>
                  <td>{range.p50.toFixed(1)}</td>
                  <td>{range.p90.toFixed(1)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="quiet">{w.lowHigh}</p>
          <p className="quiet">{w.decidingNow(money(findings.expected_loss))}</p>
          <Words lines={findings.inference.notes} />
        </Fold>
      )}
      {warnings.length > 0 && (
        <Fold title={w.readWithCare(warnings.length)}>
          <ul>
            {warnings.map((item) => (
              <li key={item.at + item.what}>
                {item.what}
                {item.mend && ` → ${item.mend}`}
              </li>
            ))}
          </ul>
        </Fold>
      )}
      <Gallery job={job} />
      <h3>{w.marksCount(marksOf(job).length)}</h3>
      <Marks marks={[...marksOf(job)].reverse()} open={openMark} />
    </Page>
  );
}

/** What one does about a proposal: marks what is found there; of a sample, writes down what the laboratory says. */
export function ActButton({ proposal, onMark }: { proposal: Proposal; onMark: () => void }) {
  const gates = useStore((state) => state.survey?.findings.hazards?.gates);
  const [gate, setGate] = useState<Gate | undefined>();
  const sample = proposal.act === 'sample' ? gates?.find(byLaboratory) : undefined;
  return (
    <>
      <button type="button" onClick={() => (sample ? setGate(sample) : onMark())}>
        {sample ? w.laboratorySays : w.markHere}
      </button>
      <MeetSheet gate={gate} onClose={() => setGate(undefined)} />
    </>
  );
}

const SHOWN_AT_ONCE = 40;

function Marks({ marks, open }: { marks: Mark[]; open: (mark: Mark) => void }) {
  const { history } = useStore();
  const job = history?.job;
  if (!job) return null;
  const row = (mark: Mark) => (
    <li key={mark.id}>
      <button type="button" className="row" onClick={() => open(mark)}>
        <MarkSymbol tool={mark.tool} reads={mark.reads} percent={mark.mc_percent} />
        <span>
          <b>{sentence(markLine(job, mark))}</b>
          <small>
            {mark.from === 'below' ? `${w.fromBelow}. ` : ''}
            {mark.time ? sayTime(mark.time) : ''}
          </small>
          {mark.note && <small>{mark.note}</small>}
        </span>
      </button>
    </li>
  );
  if (marks.length === 0) return <p>{w.noMarks}</p>;
  return (
    <>
      <ul className="rows">{marks.slice(0, SHOWN_AT_ONCE).map(row)}</ul>
      {marks.length > SHOWN_AT_ONCE && (
        <Fold title={w.moreMarks(marks.length - SHOWN_AT_ONCE)}>
          <ul className="rows">{marks.slice(SHOWN_AT_ONCE).map(row)}</ul>
        </Fold>
      )}
    </>
  );
}
