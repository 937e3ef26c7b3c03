// What to buy and how to cut it, the days, the price. Pictures first: sticks, bars, the range as dots.
import type { Findings } from '../engine/wire';
import { useStore } from '../store/store';
import { Choice, Field, Fold, Words } from '../ui/parts';
import { w } from '../words/en';
import { chance, money, sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { sayDate } from '../words/times';
import { type More, Page, type StageProps, WholePage, Why } from './shared';

const count = (value: number) => (value < 10 ? String(Math.round(value * 10) / 10) : String(Math.round(value)));

export function TakeoffStage({ go }: StageProps) {
  return (
    <WholePage stage="takeoff" go={go}>
      {({ takeoff }) => {
        if (!takeoff) return <Page stage="takeoff" answer={w.nothingOut} />;
        const buy = takeoff.lines.filter((line) => line.group !== 'take_out');
        const out = takeoff.lines.filter((line) => line.group === 'take_out');
        return (
          <Page
            stage="takeoff"
            answer={w.toBuy(buy.length, takeoff.bags, Math.round(takeoff.debris_lb))}
            next={{ text: w.toStage(w.stages.work.name), go: () => go('work') }}
          >
            {takeoff.cut_lists.length > 0 && <h3>{w.cutSticks}</h3>}
            {takeoff.cut_lists.map((list) => (
              <div key={list.item} className="sticks">
                <p>
                  <b>{list.item}</b> {list.proven ? w.leastCost(money(list.cost)) : money(list.cost)}
                </p>
                {list.sticks.map((stick) => (
                  <Stick key={`${stick.stock_in} ${stick.cuts.join()}`} stock={stick.stock_in} cuts={stick.cuts} times={stick.times} />
                ))}
              </div>
            ))}
            <h3>{w.buy}</h3>
            <Lines lines={buy} />
            <h3>{w.carryOut}</h3>
            <Lines lines={out} />
            <Words lines={takeoff.notes} />
          </Page>
        );
      }}
    </WholePage>
  );
}

function Lines({ lines }: { lines: NonNullable<Findings['takeoff']>['lines'] }) {
  return (
    <ul className="gates">
      {lines.map((line) => (
        <li key={line.id}>
          <p>
            <b>
              {count(line.quantity)} {line.unit}
            </b>{' '}
            {line.item}
          </p>
          <Fold title={w.why}>
            <p>{line.from}</p>
          </Fold>
        </li>
      ))}
    </ul>
  );
}

function Stick({ stock, cuts, times }: { stock: number; cuts: number[]; times: number }) {
  let at = 0;
  return (
    <figure className="stick">
      <svg viewBox={`0 0 ${stock} 14`} preserveAspectRatio="none" aria-hidden="true">
        <rect className="rest" width={stock} height="14" />
        {cuts.map((cut) => {
          const x = at;
          at += cut + 0.125;
          return <rect key={x} className="cut" x={x} width={cut} height="14" />;
        })}
      </svg>
      <figcaption>
        {times} × {formatLength(stock)}: {cuts.map((cut) => formatLength(cut)).join(' + ')}
      </figcaption>
    </figure>
  );
}

type Task = NonNullable<Findings['work']>['tasks'][number];

export function WorkStage({ go }: StageProps) {
  const { history, perform } = useStore();
  const job = history?.job;
  return (
    <WholePage stage="work" go={go}>
      {({ work }) => {
        if (!work || !job) return <Page stage="work" answer={w.nothingOut} />;
        const finish = work.finish as More<typeof work.finish> & { p90?: string };
        const set = (patch: Partial<NonNullable<typeof job.work>>) =>
          perform('setWork', { work: { ...job.work, ...patch } as NonNullable<typeof job.work> });
        return (
          <Page
            stage="work"
            answer={
              finish.p50
                ? w.doneBy(sayDate(finish.p50), sayDate(finish.p80))
                : w.daysOf(Math.ceil(work.finish.p50_days), Math.ceil(work.finish.p80_days))
            }
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
            <Bars tasks={work.tasks} critical={new Set(work.critical)} />
            <Words lines={[...driversOf(work), ...work.notes]} />
          </Page>
        );
      }}
    </WholePage>
  );
}

interface Driver {
  title: string;
  on_path: number;
  days: number;
}
/** What the end hangs on, worst first. */
function driversOf(work: NonNullable<Findings['work']>): string[] {
  const { drivers = [] } = work as unknown as { drivers?: Driver[] };
  return drivers.slice(0, 5).map((driver) => w.driver(driver.title, Math.round(driver.on_path * 100), Math.round(driver.days)));
}

/** Each task as a bar from when it can begin; waiting is the hollow part, which runs day and night. */
function Bars({ tasks, critical }: { tasks: Task[]; critical: Set<string> }) {
  const begins = new Map<string, number>();
  const ends = new Map<string, number>();
  const WORKING_DAY_H = 8;
  for (const task of tasks) {
    const begin = Math.max(0, ...task.after.map((id) => ends.get(id) ?? 0));
    begins.set(task.id, begin);
    ends.set(task.id, begin + (task.hours.likely / WORKING_DAY_H / 2) * 24 + task.wait_hours.likely);
  }
  const total = Math.max(1, ...ends.values());
  return (
    <ol className="bars">
      {tasks.map((task) => {
        const begin = begins.get(task.id) ?? 0;
        const end = ends.get(task.id) ?? 0;
        const hands = (task.hours.likely / WORKING_DAY_H / 2) * 24;
        return (
          <li key={task.id}>
            <details>
              <summary>
                <span>
                  {task.title}
                  <svg
                    viewBox="0 0 100 6"
                    preserveAspectRatio="none"
                    aria-hidden="true"
                    className={critical.has(task.id) ? 'critical' : undefined}
                  >
                    <rect className="wait" x={(100 * begin) / total} width={Math.max(0.6, (100 * (end - begin)) / total)} height="6" />
                    <rect className="hands" x={(100 * begin) / total} width={Math.max(0.6, (100 * hands) / total)} height="6" />
                  </svg>
                </span>
              </summary>
              <div className="folded">
                <p>
                  {task.hours.low.toFixed(1)}–{task.hours.high.toFixed(1)} {w.hours}, {spoken(task.who)}
                  {task.wait_hours.likely > 0 ? `; ${w.waits} ${Math.round(task.wait_hours.likely)} h` : ''}
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
        );
      })}
    </ol>
  );
}

interface Branch {
  id: string;
  words?: string;
  chance: number;
  p10: number;
  p50: number;
  p90: number;
}
interface MorePrice {
  branches?: Branch[];
  unit_prices?: { item: string; unit: string; price: number }[];
  cap?: number;
  not_included?: string[];
  spread?: Record<string, number>;
}

export function PriceStage({ go }: StageProps) {
  return (
    <WholePage stage="price" go={go}>
      {({ price }) => {
        if (!price) return <Page stage="price" answer={w.nothingOut} />;
        const more = price as typeof price & MorePrice;
        const branches = more.branches ?? [];
        return (
          <Page
            stage="price"
            answer={
              branches.length > 0
                ? w.priceBranches(
                    money(Math.min(...branches.map((item) => item.p10))),
                    money(Math.max(...branches.map((item) => item.p90))),
                  )
                : w.priceRange(money(price.p10), money(price.p90), money(price.p50))
            }
            next={{ text: w.toStage(w.stages.papers.name), go: () => go('papers') }}
          >
            {branches.length > 0 ? (
              branches.map((branch) => (
                <div key={branch.id}>
                  <h3>
                    {w.ifBranch} {branch.words ?? spoken(branch.id.replaceAll('.', ', '))} ({chance(branch.chance)})
                  </h3>
                  <Dots p10={branch.p10} p50={branch.p50} p90={branch.p90} />
                  <p>{w.priceRange(money(branch.p10), money(branch.p90), money(branch.p50))}</p>
                </div>
              ))
            ) : (
              <Dots p10={price.p10} p50={price.p50} p90={price.p90} />
            )}
            <p className="figure">
              {w.base} {money(price.base)}
              {more.cap !== undefined ? `, ${w.cap} ${money(more.cap)}` : ''}
            </p>
            {more.unit_prices && more.unit_prices.length > 0 && (
              <>
                <h3>{w.unitPrices}</h3>
                <ul>
                  {more.unit_prices.map((line) => (
                    <li key={line.item}>
                      {line.item}: {money(line.price)} / {line.unit}
                    </li>
                  ))}
                </ul>
              </>
            )}
            <Fold title={w.whereItGoes}>
              <table>
                <thead>
                  <tr>
                    <th scope="col">{w.item}</th>
                    <th scope="col">{w.low}</th>
                    <th scope="col">{w.likely}</th>
                    <th scope="col">{w.high}</th>
                  </tr>
                </thead>
                <tbody>
                  {price.lines.map((line) => (
                    <tr key={line.item}>
                      <th scope="row">{line.item}</th>
                      <td>{money(line.low)}</td>
                      <td>{money(line.likely)}</td>
                      <td>{money(line.high)}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </Fold>
            <Fold title={w.whySoWide}>
              <p>{w.fromFloor(Math.round(price.from_floor_share * 100))}</p>
              {more.spread && (
                <ul>
                  {Object.entries(more.spread).map(([key, share]) => (
                    <li key={key}>
                      {sentence(spoken(key))}: {Math.round(share * 100)}%
                    </li>
                  ))}
                </ul>
              )}
              <Words lines={price.words} />
            </Fold>
            {more.not_included && more.not_included.length > 0 && (
              <Fold title={w.notIncluded}>
                <ul>
                  {more.not_included.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
              </Fold>
            )}
          </Page>
        );
      }}
    </WholePage>
  );
}

/** Twenty jobs like this one: each dot is one in twenty. Two lie below the low figure, two above the high. */
function Dots({ p10, p50, p90 }: { p10: number; p50: number; p90: number }) {
  const at = (q: number): number => {
    if (q <= 0.5) return p10 + ((q - 0.1) / 0.4) * (p50 - p10);
    return p50 + ((q - 0.5) / 0.4) * (p90 - p50);
  };
  const values = Array.from({ length: 20 }, (_, i) => at((i + 0.5) / 20));
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const columns = 12;
  const heights = new Array<number>(columns).fill(0);
  const dots = values.map((value) => {
    const column = Math.min(columns - 1, Math.floor(((value - low) / Math.max(1, high - low)) * columns));
    heights[column] = (heights[column] ?? 0) + 1;
    return { column, row: heights[column] ?? 1 };
  });
  const tall = Math.max(...heights);
  return (
    <figure className="dots">
      <svg viewBox={`0 0 ${columns * 10} ${tall * 10 + 2}`} aria-hidden="true">
        {dots.map(({ column, row }) => (
          <circle key={`${column} ${row}`} cx={column * 10 + 5} cy={tall * 10 - row * 10 + 6} r="4" />
        ))}
      </svg>
      <figcaption>
        <span>{money(low)}</span>
        <span>{w.eachDot}</span>
        <span>{money(high)}</span>
      </figcaption>
    </figure>
  );
}
