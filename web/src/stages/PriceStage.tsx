// The price as an honest range; the dots stand where the plan is.
import type { Findings } from '../engine/wire';
import { said } from '../plan/said';
import { useStore } from '../store/store';
import { Fold, Words } from '../ui/parts';
import { w } from '../words/en';
import { chance, money, sentence, spoken } from '../words/figures';
import { WhatIfFinish, WhatIfWay } from './CutFloorStages';
import { Page, type StageProps, WholePage, Why } from './shared';

type Price = NonNullable<Findings['price']>;

export function PriceStage({ go }: StageProps) {
  const job = useStore((state) => state.history?.job);
  return (
    <WholePage stage="price" go={go}>
      {({ price, floor }) => {
        if (!price || !job) return <Page stage="price" answer={w.nothingOut} />;
        const { branches } = price;
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
            because={<WhySoWide price={price} />}
            next={{ text: w.toStage(w.stages.papers.name), go: () => go('papers') }}
          >
            <p className="figure">
              {w.base} {money(price.base)}, {w.cap} {money(price.cap)}
            </p>
            <Fold title={w.whatIf}>
              <WhatIfFinish job={job} />
              {floor && <WhatIfWay floor={floor} />}
            </Fold>
            {branches.length > 0 && <h3>{w.branchesTitle}</h3>}
            {branches.map((branch) => (
              <Fold
                key={branch.id}
                title={`${sentence(said(job, branch.words || spoken(branch.id.replaceAll('.', ', '))))}: ${money(branch.p50)}`}
              >
                <p>
                  {w.priceRange(money(branch.p10), money(branch.p90), money(branch.p50))} {w.chanceOf(chance(branch.chance))}
                </p>
                <Why reason={branch.reason} />
              </Fold>
            ))}
            {price.unit_prices.length > 0 && (
              <Fold title={w.unitPrices}>
                <ul>
                  {price.unit_prices.map((line) => (
                    <li key={line.item}>
                      {line.item}: {money(line.price)} / {line.unit}
                    </li>
                  ))}
                </ul>
              </Fold>
            )}
            <Fold title={w.whereItGoes}>
              <Money price={price} />
            </Fold>
            {price.not_included.length > 0 && (
              <Fold title={w.notIncluded}>
                <ul>
                  {price.not_included.map((line) => (
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

function WhySoWide({ price }: { price: Price }) {
  const shares = Object.entries(price.spread).filter(([, share]) => share >= 0.005);
  return (
    <>
      <p>{w.fromFloor(Math.round(price.from_floor_share * 100))}</p>
      {shares.length > 0 && (
        <ul>
          {shares
            .sort((a, b) => b[1] - a[1])
            .map(([key, share]) => (
              <li key={key}>
                {sentence(spoken(key))}: {Math.round(share * 100)}%
              </li>
            ))}
        </ul>
      )}
      <Words lines={price.words} />
    </>
  );
}

function Money({ price }: { price: Price }) {
  return (
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
  );
}
