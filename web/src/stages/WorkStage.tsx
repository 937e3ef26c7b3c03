// The days: when it ends and what that hangs on; the calendar itself stands where the plan is.
import type { Findings } from '../engine/wire';
import { useStore } from '../store/store';
import { Choice, Field, Words } from '../ui/parts';
import { w } from '../words/en';
import { spoken } from '../words/figures';
import { sayDate, sayDay } from '../words/times';
import { Page, type StageProps, WholePage, Why } from './shared';

type Work = NonNullable<Findings['work']>;

export function WorkStage({ go }: StageProps) {
  const { history, perform } = useStore();
  const job = history?.job;
  return (
    <WholePage stage="work" go={go}>
      {({ work }) => {
        if (!work || !job) return <Page stage="work" answer={w.nothingOut} />;
        const { finish } = work;
        const set = (patch: Partial<NonNullable<typeof job.work>>) =>
          perform('setWork', { work: { ...job.work, ...patch } as NonNullable<typeof job.work> });
        return (
          <Page
            stage="work"
            answer={
              finish.p50
                ? w.doneBy(sayDate(finish.p50), sayDate(finish.p80))
                : w.daysOf(Math.ceil(finish.p50_days), Math.ceil(finish.p80_days))
            }
            because={<Words lines={[...driversOf(work), ...work.notes]} />}
            next={{ text: w.toStage(w.stages.price.name), go: () => go('price') }}
          >
            <h3>{w.whatIf}</h3>
            <Field label={w.startOn} type="date" value={job.work?.start ?? ''} onChange={(start) => set({ start: start || undefined })} />
            <Choice
              said
              label={w.hands}
              value={job.work?.crew === undefined ? undefined : String(job.work.crew)}
              options={['1', '2', '3', '4'].map((value) => ({ value, text: value }))}
              onChange={(crew) => set({ crew: Number(crew) })}
            />
            <h3>{w.tasks}</h3>
            <Tasks work={work} />
          </Page>
        );
      }}
    </WholePage>
  );
}

/** What the end hangs on, worst first. */
function driversOf(work: Work): string[] {
  return work.drivers.slice(0, 5).map((driver) => w.driver(driver.title, Math.round(driver.on_path * 100), Math.round(driver.days)));
}

function Tasks({ work }: { work: Work }) {
  const critical = new Set(work.critical);
  return (
    <ol className="list">
      {work.tasks.map((task) => (
        <li key={task.id}>
          <details>
            <summary>
              <span className="grow">
                {task.title}
                {critical.has(task.id) && <small>{w.decidesEnd}</small>}
              </span>
              <b className="amount">{task.starts ? sayDay(task.starts) : `${task.hours.likely.toFixed(1)} h`}</b>
            </summary>
            <div className="folded">
              <p>
                {task.hours.low.toFixed(1)}–{task.hours.high.toFixed(1)} {w.hours}, {spoken(task.who)}
                {task.wait_hours.likely > 0 ? `; ${w.waits} ${Math.round(task.wait_hours.likely)} h` : ''}
                {task.wait_days.likely > 0 ? `; ${w.waits} ${w.moved.days(Math.round(task.wait_days.likely))}` : ''}
              </p>
              {task.hold && (
                <p>
                  {w.holdUntil} {task.hold}
                </p>
              )}
              {task.gates.length > 0 && (
                <p>
                  {w.gatesFirst} {task.gates.map(spoken).join(', ')}
                </p>
              )}
              <Why reason={task.reason} />
            </div>
          </details>
        </li>
      ))}
    </ol>
  );
}
