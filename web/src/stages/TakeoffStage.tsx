// What to buy, how to cut it, what goes out.
import type { Findings } from '../engine/wire';
import { Fold, Words } from '../ui/parts';
import { w } from '../words/en';
import { money } from '../words/figures';
import { formatLength } from '../words/lengths';
import { Page, type StageProps, WholePage } from './shared';

const count = (value: number) => (value < 10 ? String(Math.round(value * 10) / 10) : String(Math.round(value)));
type Line = NonNullable<Findings['takeoff']>['lines'][number];

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
            because={<Words lines={[w.measuredFrom, ...takeoff.notes]} />}
            next={{ text: w.toStage(w.stages.work.name), go: () => go('work') }}
          >
            <h3>{w.buy}</h3>
            <Lines lines={buy} />
            <h3>{w.carryOut}</h3>
            <Lines lines={out} />
            {takeoff.cut_lists.length > 0 && (
              <Fold title={w.cutSticks}>
                <ul>
                  {takeoff.cut_lists.map((list) => (
                    <li key={list.item}>
                      <b>{list.item}</b>: {list.proven ? w.leastCost(money(list.cost)) : money(list.cost)}.{' '}
                      {list.sticks
                        .map((stick) => `${stick.times} × ${formatLength(stick.stock_in)} (${stick.cuts.map(formatLength).join(' + ')})`)
                        .join('; ')}
                    </li>
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

function Lines({ lines }: { lines: Line[] }) {
  return (
    <ul className="list">
      {lines.map((line) => (
        <li key={line.id}>
          <details>
            <summary>
              <span className="grow">{line.item}</span>
              <b className="amount">
                {count(line.quantity)} {line.unit}
              </b>
            </summary>
            <div className="folded">
              <p>{line.from}</p>
              {line.unit_price > 0 && <p className="quiet">{w.eachAt(money(line.unit_price), line.unit)}</p>}
            </div>
          </details>
        </li>
      ))}
    </ul>
  );
}
