// The shower: heights from the framing up, falls to the drain, the way of the drain, and what cannot all be had.
import type { Findings, Job, Point } from '../engine/wire';
import { memberName } from '../plan/names';
import { centre } from '../plan/places';
import { boxOf } from '../plan/view';
import { fixtureAt } from '../room/geometry';
import { useRoom } from '../room/placing';
import { useStore } from '../store/store';
import { Choice, Fold, Words } from '../ui/parts';
import { w } from '../words/en';
import { sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { Page, type StageProps, WholePage, Why } from './shared';

type Shower = NonNullable<Findings['shower']>;
type Plan = NonNullable<Job['shower']>;

export function ShowerStage({ go }: StageProps) {
  const { history, perform } = useStore();
  const job = history?.job;
  const { onPlace, place } = useRoom();
  if (!job) return null;
  const put = (at: Point) => {
    const outline = fixtureAt(job.room.outline_in, at, [60, 36]);
    onPlace(undefined);
    if (outline)
      perform('setShower', {
        shower: {
          outline_in: outline,
          entry: 'curb',
          drain: { kind: 'point', at_in: centre(outline) },
          least_fall_in_per_ft: 0.25,
        } as Plan,
      });
  };
  if (!job.shower)
    return (
      <Page
        stage="shower"
        answer={place ? w.touchPlan(w.fixtures.shower) : w.noShower}
        next={{ text: w.planShower, go: () => onPlace(put) }}
      >
        <button type="button" onClick={() => go('drying')}>
          {w.toStage(w.stages.drying.name)}
        </button>
      </Page>
    );
  return (
    <WholePage stage="shower" go={go}>
      {({ shower: found }) => {
        const answer = found?.answers.find((item) => item.id === found.chosen) ?? found?.answers[0];
        return (
          <Page
            stage="shower"
            answer={answer ? w.showerStep(formatLength(answer.step_at_door_in), formatLength(answer.step_at_entry_in)) : w.showerPlanned}
            because={answer && <Words lines={[answer.how, answer.strength, answer.door_threshold].filter(Boolean)} />}
            next={{ text: w.toStage(w.stages.drying.name), go: () => go('drying') }}
          >
            {found && found.conflicts.length > 0 && (
              <div className="warn">
                <Words lines={found.conflicts} />
              </div>
            )}
            <WhatIf plan={job.shower as Plan} />
            {found && <Heights found={found} answer={answer} />}
            {found && <Falls found={found} job={job} />}
            {found && <Tests found={found} />}
            <button type="button" className="danger" onClick={() => perform('setShower', { shower: undefined })}>
              {w.noMoreShower}
            </button>
          </Page>
        );
      }}
    </WholePage>
  );
}

/** Entry, fall and drain: each moves the heights, the checks and the price. */
function WhatIf({ plan }: { plan: Plan }) {
  const perform = useStore((state) => state.perform);
  const { onPlace, place } = useRoom();
  const set = (patch: Partial<Plan>) => perform('setShower', { shower: { ...plan, ...patch } });
  const box = boxOf(plan.outline_in);
  const kind = plan.drain?.kind ?? 'point';
  const lay = (how: 'point' | 'line') => {
    // A line lies along the shorter wall of the pan, a hand from it, and runs from wall to wall.
    const along = box.max[0] - box.min[0] <= box.max[1] - box.min[1] ? 0 : 1;
    const ends: [Point, Point] =
      along === 0
        ? [
            [box.min[0], box.max[1] - 3],
            [box.max[0], box.max[1] - 3],
          ]
        : [
            [box.max[0] - 3, box.min[1]],
            [box.max[0] - 3, box.max[1]],
          ];
    set({
      drain: (how === 'point'
        ? { kind: 'point', at_in: centre(plan.outline_in) }
        : { kind: 'line', from_in: ends[0], to_in: ends[1] }) as Plan['drain'],
    });
  };
  return (
    <>
      <h3>{w.whatIf}</h3>
      <Choice
        said
        label={w.entry}
        value={plan.entry}
        options={(['flush', 'curb', 'step'] as const).map((value) => ({ value, text: w.entries[value] }))}
        onChange={(entry) => set({ entry })}
      />
      <Choice
        said
        label={w.leastFall}
        value={String(plan.least_fall_in_per_ft ?? '')}
        options={['0.125', '0.25', '0.5'].map((value) => ({ value, text: `${formatLength(Number(value))} ${w.perFoot}` }))}
        onChange={(value) => set({ least_fall_in_per_ft: Number(value) })}
      />
      <Choice
        said
        label={w.drainKind}
        value={kind}
        options={(['point', 'line'] as const).map((value) => ({ value, text: w.drains[value] }))}
        onChange={lay}
      />
      {kind === 'point' && (
        <button
          type="button"
          className="block"
          aria-pressed={place !== undefined}
          onClick={() =>
            onPlace((at) => {
              onPlace(undefined);
              set({ drain: { kind: 'point', at_in: [Math.round(at[0]), Math.round(at[1])] } as Plan['drain'] });
            })
          }
        >
          {place ? w.touchPlan(w.drainAt) : w.moveDrain}
        </button>
      )}
    </>
  );
}

function Heights({ found, answer }: { found: Shower; answer: Shower['answers'][number] | undefined }) {
  return (
    <>
      <h3>{w.heights}</h3>
      {answer?.stacks.map((stack) => (
        <Fold key={stack.at} title={`${sentence(spoken(stack.at))}: ${formatLength(stack.top_in)}`}>
          <ul>
            {stack.parts.map((part) => (
              <li key={part.what}>
                {part.what} {formatLength(part.thickness_in)}
              </li>
            ))}
          </ul>
        </Fold>
      ))}
      {found.answers.length > 1 && (
        <Fold title={w.otherBuilds(found.answers.length - 1)}>
          <ul>
            {found.answers
              .filter((item) => item !== answer)
              .map((item) => (
                <li key={item.id}>
                  {item.how} {w.showerStep(formatLength(item.step_at_door_in), formatLength(item.step_at_entry_in))}
                </li>
              ))}
          </ul>
        </Fold>
      )}
    </>
  );
}

function Falls({ found, job }: { found: Shower; job: Job }) {
  const { pan, drain_run: run } = found;
  return (
    <>
      {pan && (
        <Fold title={w.pan(formatLength(pan.edge_height_in), pan.flattest_in_per_ft.toFixed(2), pan.steepest_in_per_ft.toFixed(2))}>
          <table>
            <caption>{w.screed}</caption>
            <thead>
              <tr>
                <th scope="col">{w.place}</th>
                <th scope="col">{w.aboveDrain}</th>
                <th scope="col">{w.bed}</th>
              </tr>
            </thead>
            <tbody>
              {pan.heights.map((height) => (
                <tr key={height.at}>
                  <th scope="row">{height.at}</th>
                  <td>{formatLength(height.above_drain_in)}</td>
                  <td>{formatLength(height.bed_in)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p>{w.bedVolume(pan.bed_volume_ft3.toFixed(1))}</p>
        </Fold>
      )}
      {run && (
        <Fold title={`${run.ok ? w.drainOk : w.drainNot} ${run.length_ft.toFixed(1)} ft, ${formatLength(run.total_fall_in)}`}>
          <Words lines={[...run.why, run.another_way].filter(Boolean)} />
          <ul>
            {run.crosses.map((cross) => (
              <li key={`${cross.member} ${cross.at_in}`}>
                {cross.ok ? '✓' : '✕'} {memberName(job, cross.member)}: {cross.why}
              </li>
            ))}
          </ul>
          <Why reason={run.reason} />
        </Fold>
      )}
    </>
  );
}

function Tests({ found }: { found: Shower }) {
  const { flood_test: flood, wet_area: wet } = found;
  const checks = [...found.checks].sort((a, b) => Number(a.ok) - Number(b.ok));
  return (
    <>
      {flood && (
        <Fold title={w.flood(formatLength(flood.depth_in), Math.round(flood.weight_lb), flood.hours)}>
          <Why reason={flood.reason} />
        </Fold>
      )}
      {wet && (
        <Fold title={w.wetArea(wet.total_sf.toFixed(0))}>
          {wet.reasons.map((reason) => (
            <Why key={reason.compares} reason={reason} />
          ))}
        </Fold>
      )}
      {checks.length > 0 && (
        <Fold title={w.showerChecks(checks.filter((check) => !check.ok).length, checks.length)}>
          <ul className="gates">
            {checks.map((check) => (
              <li key={check.id}>
                <p>
                  {check.ok ? '✓' : '✕'} {sentence(spoken(check.kind))}
                </p>
                <Why reason={check.reason} />
              </li>
            ))}
          </ul>
        </Fold>
      )}
    </>
  );
}
