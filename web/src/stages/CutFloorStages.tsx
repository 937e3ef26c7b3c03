// What comes out and where the saw goes; what the floor carries and the ways to put it back.
import type { Findings, Job } from '../engine/wire';
import { heldName, layerName, memberName } from '../plan/names';
import { said } from '../plan/said';
import { jobOf, useStore } from '../store/store';
import { Choice, Fold, Words } from '../ui/parts';
import { w } from '../words/en';
import { area, money, sentence, spoken } from '../words/figures';
import { formatLength } from '../words/lengths';
import { Page, type StageProps, WholePage, Why } from './shared';

export function CutBackStage({ go }: StageProps) {
  const job = useStore(jobOf);
  return (
    <WholePage stage="cut_back" go={go}>
      {({ cut_back: cut }) => {
        if (!job || !cut) return <Page stage="cut_back" answer={w.nothingOut} />;
        const saw = cut.edges.filter((edge) => edge.kind !== 'at_wall' && edge.kind !== 'seam');
        return (
          <Page
            stage="cut_back"
            answer={
              Object.keys(cut.area_sf).length === 0
                ? w.nothingOut
                : w.takeOut(Object.entries(cut.area_sf).map(([id, sf]) => `${area(sf)} ${layerName(job, id)}`))
            }
            because={<Words lines={[...cut.words, ...cut.notes]} />}
            next={{ text: w.toStage(w.stages.floor.name), go: () => go('floor') }}
          >
            <h3>{w.sawLines}</h3>
            <ul className="gates">
              {saw.slice(0, 30).map((edge) => (
                <li key={`${edge.layer} ${edge.from_in} ${edge.to_in}`}>
                  <p>
                    <b>
                      {layerName(job, edge.layer)}: {w.edges[edge.kind]}, {formatLength(edge.length_in)}
                    </b>{' '}
                    {w.fromWalls(formatLength(edge.from_in[0]), formatLength(edge.from_in[1]))} → {formatLength(edge.to_in[0])},{' '}
                    {formatLength(edge.to_in[1])}
                  </p>
                  <p className="quiet">{said(job, edge.why)}</p>
                </li>
              ))}
            </ul>
            <Fold title={w.rules}>
              <ul className="gates">
                {cut.rules.map((rule) => (
                  <li key={rule.rule}>
                    <p>{rule.words}</p>
                    <Why reason={rule.reason} />
                  </li>
                ))}
              </ul>
            </Fold>
          </Page>
        );
      }}
    </WholePage>
  );
}

type Floor = NonNullable<Findings['floor']>;
type Option = Floor['options'][number];

const verdictOf = (option: Option): string => w.verdicts[option.verdict] ?? spoken(option.verdict);

/** The finish: stone and tile ask for a stiffer floor, so this moves checks, heights and price. */
export function WhatIfFinish({ job }: { job: Job }) {
  const perform = useStore((state) => state.perform);
  return (
    <Choice
      said
      label={w.cards.finish.title}
      value={job.rebuild?.finish}
      options={(['sheet_vinyl', 'ceramic_tile', 'porcelain_tile', 'stone_tile', 'other'] as const).map((value) => ({
        value,
        text: w.finishes[value],
      }))}
      onChange={(finish) => perform('setRebuild', { patch: { finish } })}
    />
  );
}

/** The way to put it back, by name and price. */
export function WhatIfWay({ floor }: { floor: Floor }) {
  const perform = useStore((state) => state.perform);
  return (
    <Choice
      said
      label={w.moved.way}
      value={floor.chosen}
      options={[...floor.options]
        .sort((a, b) => a.rank - b.rank)
        .map((option) => ({ value: option.id, text: `${option.title} (${verdictOf(option)}, ${money(option.cost)})` }))}
      onChange={(option) => perform('setRebuild', { patch: { option } })}
    />
  );
}

/** What may be done on this floor today: said before any figure. */
function Today({ today }: { today: Floor['as_found']['today'] }) {
  if (today.stand && today.bathe && today.work) return null;
  return (
    <div className="warn">
      <p>{[!today.stand && w.noStanding, !today.bathe && w.noBathing, !today.work && w.noWorking].filter(Boolean).join(' ')}</p>
      <Words lines={today.words} />
    </div>
  );
}

export function FloorStage({ go }: StageProps) {
  const { history, perform } = useStore();
  const job = history?.job;
  return (
    <WholePage stage="floor" go={go}>
      {({ floor }) => {
        if (!job || !floor) return <Page stage="floor" answer={w.noFloor} />;
        const chosen = floor.options.find((option) => option.id === floor.chosen);
        const failing = floor.as_found.checks.filter((check) => !check.ok);
        return (
          <Page
            stage="floor"
            answer={`${failing.length > 0 ? w.asFoundFails(failing.length) : w.asFoundOk} ${chosen ? `${chosen.title}: ${verdictOf(chosen)}.` : ''}`}
            because={
              chosen && <Words lines={[chosen.trade_off, ...chosen.engineer_for, ...chosen.fails_for, ...chosen.asks].filter(Boolean)} />
            }
            next={{ text: w.toStage(w.stages.price.name), go: () => go('price') }}
          >
            <Today today={floor.as_found.today} />
            <h3>{w.whatIf}</h3>
            <WhatIfFinish job={job} />
            <h3>{w.waysBack}</h3>
            <ol className="rows options">
              {[...floor.options]
                .sort((a, b) => a.rank - b.rank)
                .map((option) => (
                  <li key={option.id} className={option.id === floor.chosen ? 'chosen' : undefined}>
                    <b>{option.title}</b>
                    <p className={`verdict ${option.verdict}`}>{verdictOf(option)}</p>
                    <p>
                      {formatLength(option.height_change_in)} {w.higher}, {option.weight_psf.toFixed(1)} psf, {money(option.cost)},{' '}
                      {option.hours.low.toFixed(0)}–{option.hours.high.toFixed(0)} {w.hours}
                    </p>
                    <Fold title={w.why}>
                      <p>{option.trade_off}</p>
                      <Words lines={option.engineer_for} />
                      <Words lines={option.steps} />
                      <Words lines={option.rules_out.map((item) => `${w.rulesOut} ${item}`)} />
                      {option.checks
                        .filter((check) => !check.ok)
                        .map((check) => (
                          <div key={check.id}>
                            <p>
                              {spoken(check.kind)}, {memberName(job, check.member)}: {w.times(check.ratio)}
                            </p>
                            <Why reason={check.reason} />
                          </div>
                        ))}
                    </Fold>
                    {option.id !== floor.chosen && (
                      <button type="button" onClick={() => perform('setRebuild', { patch: { option: option.id } })}>
                        {w.takeThis}
                      </button>
                    )}
                  </li>
                ))}
            </ol>
            <Fold title={w.whileOpen}>
              <Words lines={floor.while_open.words} />
              <ul className="gates">
                {floor.while_open.shores.map((shore) => (
                  <li key={shore.id}>
                    <p>
                      {w.shore} {heldName(job, shore.under)}: {Math.round(shore.load_lb)} lb
                    </p>
                    <Why reason={shore.reason} />
                  </li>
                ))}
              </ul>
            </Fold>
            <Fold title={w.checksAsFound(failing.length, floor.as_found.checks.length)}>
              <Words lines={floor.as_found.words} />
              <ul className="gates">
                {[...floor.as_found.checks]
                  .sort((a, b) => b.ratio - a.ratio)
                  .slice(0, 25)
                  .map((check) => (
                    <li key={check.id}>
                      <p>
                        {check.ok ? '✓' : '✕'} {sentence(spoken(check.kind))}, {memberName(job, check.member)}: {w.times(check.ratio)}
                      </p>
                      <Why reason={check.reason} />
                    </li>
                  ))}
              </ul>
            </Fold>
          </Page>
        );
      }}
    </WholePage>
  );
}
