// The pictures of the stages that the plan cannot draw: sticks to cut, bars on a calendar, the range as
// dots, the meter's log with its forecast. Drawn where the plan stands; every figure in them is also text.
import type { ReactNode } from 'react';
import type { Findings, Job } from '../engine/wire';
import { said } from '../plan/said';
import { w } from '../words/en';
import { money, sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { sayDay, sayWeek } from '../words/times';

type Takeoff = NonNullable<Findings['takeoff']>;
type Work = NonNullable<Findings['work']>;
type Price = NonNullable<Findings['price']>;
type DryingLayer = NonNullable<Findings['drying']>['layers'][number];

/** Every stick at one scale, with its cuts numbered by their length; hatched is what is left over. */
export function Sticks({ takeoff }: { takeoff: Takeoff }) {
  const longest = Math.max(1, ...takeoff.cut_lists.flatMap((list) => list.sticks.map((stick) => stick.stock_in)));
  return (
    <div className="sticks">
      {takeoff.cut_lists.length === 0 && <p>{w.noSticks}</p>}
      {takeoff.cut_lists.map((list) => (
        <section key={list.item} aria-label={list.item}>
          <p>
            <b>{list.item}</b> {list.proven ? w.leastCost(money(list.cost)) : money(list.cost)}
          </p>
          {list.sticks.map((stick) => (
            <Stick key={`${stick.stock_in} ${stick.cuts.join()}`} longest={longest} {...stick} kerf={list.kerf_in} />
          ))}
        </section>
      ))}
    </div>
  );
}

interface StickProps {
  stock_in: number;
  cuts: number[];
  times: number;
  longest: number;
  kerf: number;
}
function Stick({ stock_in: stock, cuts, times, longest, kerf }: StickProps) {
  let at = 0;
  const parts = cuts.map((cut) => {
    const from = at;
    at += cut + kerf;
    return { from, cut };
  });
  return (
    <figure className="stick">
      <div className="stick-bar" style={{ width: `${(100 * stock) / longest}%` }} aria-hidden="true">
        {parts.map(({ from, cut }) => (
          <span key={from} style={{ left: `${(100 * from) / stock}%`, width: `${(100 * cut) / stock}%` }}>
            {cut / longest > 0.13 ? formatLength(cut) : ''}
          </span>
        ))}
      </div>
      <figcaption>
        <b>{times} ×</b> {formatLength(stock)}: {cuts.map((cut) => formatLength(cut)).join(' + ')}
        {stock - at > 0.5 ? `, ${w.leftOver(formatLength(Math.floor(stock - at)))}` : ''}
      </figcaption>
    </figure>
  );
}

const DAY_MS = 86_400_000;
const dayOf = (text: string) => Math.round(Date.parse(`${text.slice(0, 10)}T12:00:00Z`) / DAY_MS);

/** The tasks on a calendar, one row each, Sundays ruled; those that decide the end are dark. Without dates: in order, by hours. */
export function Calendar({ work }: { work: Work }) {
  const dated = work.tasks.filter((task) => task.starts && task.ends);
  if (dated.length === 0) return <p className="quiet">{w.giveStart}</p>;
  const first = Math.min(...dated.map((task) => dayOf(task.starts)));
  const late = work.finish.p90 || work.finish.p80 || work.finish.p50;
  const last = Math.max(...dated.map((task) => dayOf(task.ends)), late ? dayOf(late) : 0) + 1;
  const span = Math.max(1, last - first);
  const at = (day: number) => `${(100 * (day - first)) / span}%`;
  const critical = new Set(work.critical);
  const mondays = Array.from({ length: span }, (_, i) => first + i).filter((day) => new Date(day * DAY_MS).getUTCDay() === 1);
  // Four names of weeks fit a phone; the weeks between are lines alone.
  const every = Math.ceil(mondays.length / 4);
  const ends = [
    { day: work.finish.p50, name: w.asLikely },
    { day: work.finish.p80, name: w.fourInFive },
  ].filter((item) => item.day);
  return (
    <figure className="calendar" aria-label={w.calendarOf}>
      <div className="weeks" aria-hidden="true">
        {mondays.map((day, i) => (
          <span key={day} style={{ left: at(day) }}>
            {i % every === 0 ? sayWeek(new Date(day * DAY_MS).toISOString()) : ''}
          </span>
        ))}
      </div>
      <ol>
        {dated.map((task) => (
          <li key={task.id} className={critical.has(task.id) ? 'critical' : undefined}>
            <span
              className="bar"
              style={{ left: at(dayOf(task.starts)), width: `${(100 * (dayOf(task.ends) + 1 - dayOf(task.starts))) / span}%` }}
            />
            <span className="name">
              {task.title}
              <span className="unseen">
                : {sayDay(task.starts)} {w.until} {sayDay(task.ends)}
              </span>
              {task.hold ? <em> {w.holdShort}</em> : null}
            </span>
          </li>
        ))}
        {ends.map((end) => (
          <li key={end.name} className="end" style={{ left: at(dayOf(end.day) + 1) }} aria-label={`${end.name}: ${sayDay(end.day)}`} />
        ))}
      </ol>
      <figcaption>
        {ends.map((end) => (
          <span key={end.name}>
            {end.name}: <b>{sayDay(end.day)}</b>
          </span>
        ))}
        <span>{w.darkDecides}</span>
      </figcaption>
    </figure>
  );
}

interface Range {
  id: string;
  name: ReactNode;
  p10: number;
  p50: number;
  p90: number;
}

/** One row of dots a range, all on one scale of money: each dot is one job in twenty. */
export function Dots({ price, job }: { price: Price; job: Job }) {
  const rows: Range[] =
    price.branches.length > 0
      ? price.branches.map((branch) => ({
          ...branch,
          name: (
            <>
              {sentence(said(job, branch.words || spoken(branch.id.replaceAll('.', ', '))))}{' '}
              <small>{w.inTen(Math.max(1, Math.round(branch.chance * 10)))}</small>
            </>
          ),
        }))
      : [{ id: 'all', name: w.allIn, p10: price.p10, p50: price.p50, p90: price.p90 }];
  const all = rows.flatMap((row) => valuesOf(row));
  const low = Math.min(...all, price.base || Number.POSITIVE_INFINITY);
  const high = Math.max(...all, price.cap || 0);
  const at = (value: number) => (100 * (value - low)) / Math.max(1, high - low);
  return (
    <figure className="dots" aria-label={w.rangeAsDots}>
      {rows.map((row) => (
        <div key={row.id} className="dot-row">
          <p>{row.name}</p>
          <DotRow values={valuesOf(row)} at={at} />
          <p className="ends">
            {money(row.p10)} – {money(row.p90)} <b>{money(row.p50)}</b>
          </p>
        </div>
      ))}
      <figcaption>
        <span>{money(low)}</span>
        <span>{w.eachDot}</span>
        <span>{money(high)}</span>
      </figcaption>
    </figure>
  );
}

/** Twenty values of equal chance; two lie below the low figure, two above the high. */
function valuesOf({ p10, p50, p90 }: { p10: number; p50: number; p90: number }): number[] {
  const at = (q: number) => (q <= 0.5 ? p10 + ((q - 0.1) / 0.4) * (p50 - p10) : p50 + ((q - 0.5) / 0.4) * (p90 - p50));
  return Array.from({ length: 20 }, (_, i) => at((i + 0.5) / 20));
}

function DotRow({ values, at }: { values: number[]; at: (value: number) => number }) {
  const COLUMNS = 28;
  const heights = new Map<number, number>();
  const dots = values.map((value) => {
    const column = Math.min(COLUMNS - 1, Math.floor((at(value) / 100) * COLUMNS));
    heights.set(column, (heights.get(column) ?? 0) + 1);
    return { column, row: heights.get(column) ?? 1 };
  });
  const tall = Math.max(2, ...heights.values());
  return (
    <svg viewBox={`0 0 ${COLUMNS * 10} ${tall * 10}`} aria-hidden="true">
      <path className="base" d={`M0 ${tall * 10 - 0.5}h${COLUMNS * 10}`} />
      {dots.map(({ column, row }) => (
        <circle key={`${column} ${row}`} cx={column * 10 + 5} cy={tall * 10 - row * 10 + 5} r="4.2" />
      ))}
    </svg>
  );
}

/** The log of one place as dots, the forecast as a band, the limit as a line: where they cross it may be closed. */
export function DryingChart({ layer }: { layer: DryingLayer }) {
  const points = [...layer.readings.map((reading) => reading.time.slice(0, 10)), ...layer.band.map((point) => point.date)];
  if (points.length === 0) return null;
  const first = Math.min(...points.map(dayOf));
  const span = Math.max(1, Math.max(...points.map(dayOf)) - first);
  const percents = [
    ...layer.readings.map((r) => r.corrected_percent),
    ...layer.band.flatMap((p) => [p.p10_percent, p.p90_percent]),
    layer.limit_percent,
  ];
  const [low, high] = [Math.floor(Math.min(...percents) - 1), Math.ceil(Math.max(...percents) + 1)];
  const x = (date: string) => 34 + (264 * (dayOf(date) - first)) / span;
  const y = (percent: number) => 8 + (104 * (high - percent)) / (high - low);
  const edge = (key: 'p10_percent' | 'p90_percent') => layer.band.map((point) => `${x(point.date).toFixed(1)} ${y(point[key]).toFixed(1)}`);
  return (
    <svg className="drying-chart" viewBox="0 0 310 132" aria-hidden="true">
      {layer.band.length > 1 && (
        <>
          <path className="band" d={`M${[...edge('p90_percent'), ...edge('p10_percent').reverse()].join('L')}Z`} />
          <path
            className="middle"
            d={`M${layer.band.map((point) => `${x(point.date).toFixed(1)} ${y(point.p50_percent).toFixed(1)}`).join('L')}`}
          />
        </>
      )}
      <path className="limit" d={`M34 ${y(layer.limit_percent)}H298`} />
      <text x="30" y={y(layer.limit_percent) + 4} textAnchor="end">
        {layer.limit_percent}%
      </text>
      {layer.readings.map((reading) => (
        <circle key={reading.time} cx={x(reading.time)} cy={y(reading.corrected_percent)} r="4" />
      ))}
      <text x="34" y="128">
        {sayDay(points.reduce((a, b) => (dayOf(a) <= dayOf(b) ? a : b)))}
      </text>
      <text x="298" y="128" textAnchor="end">
        {sayDay(points.reduce((a, b) => (dayOf(a) >= dayOf(b) ? a : b)))}
      </text>
    </svg>
  );
}
