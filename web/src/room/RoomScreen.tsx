// The room described: cards in any order, each with stock answers and "don't know". What a card asks of
// the plan (a spot, a wall) is touched on the plan itself.
import { type ReactNode, useEffect, useRef } from 'react';
import type { CardId, Job } from '../engine/wire';
import { assumedCards, lacking, stateOf } from '../store/asked';
import { useStore } from '../store/store';
import { toTop } from '../ui/scroll';
import { w } from '../words/en';
import { FramingCard } from './FramingCard';
import { AgeCard, BelowCard, DangerCard, FinishCard, NameCard, PeopleCard, SeenCard, WaterCard } from './HouseCards';
import { LayersCard } from './LayersCard';
import { DoorsCard, FixturesCard, LeakCard, OutlineCard } from './PlanCards';
import { useRoom } from './placing';
import { summary } from './summary';
import { WallsCard } from './WallsCard';

export interface CardProps {
  job: Job;
  /** the card is answered: on to the next that is open */
  next: () => void;
}

const CARDS: { id: CardId; view: (props: CardProps) => ReactNode }[] = [
  { id: 'water', view: WaterCard },
  { id: 'danger', view: DangerCard },
  { id: 'people', view: PeopleCard },
  { id: 'age', view: AgeCard },
  { id: 'below', view: BelowCard },
  { id: 'outline', view: OutlineCard },
  { id: 'doors', view: DoorsCard },
  { id: 'fixtures', view: FixturesCard },
  { id: 'leak', view: LeakCard },
  { id: 'layers', view: LayersCard },
  { id: 'framing', view: FramingCard },
  { id: 'walls', view: WallsCard },
  { id: 'seen', view: SeenCard },
  { id: 'finish', view: FinishCard },
  { id: 'name', view: NameCard },
];

export function nextCard(job: Job, after?: CardId): CardId | undefined {
  const from = CARDS.findIndex((card) => card.id === after) + 1;
  const order = [...CARDS.slice(from), ...CARDS.slice(0, from)];
  return order.find((card) => stateOf(job, card.id) === undefined && card.id !== after)?.id;
}

export function RoomScreen({ onSurvey }: { onSurvey: () => void }) {
  const job = useStore((state) => state.history?.job);
  const { card, open } = useRoom();
  const head = useRef<HTMLButtonElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another card opens
  useEffect(() => toTop(head.current), [card]);
  // Leaving the room's page ends what the plan was asked for.
  useEffect(() => () => useRoom.getState().open(undefined), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only once, when the page of a job opens
  useEffect(() => {
    if (job && job.room.outline_in.length < 3 && !card) open(nextCard(job));
  }, []);
  if (!job) return null;
  const missing = lacking(job);
  const assumed = assumedCards(job);
  return (
    <section aria-labelledby="room-title">
      <h2 id="room-title">{w.stages.room.name}</h2>
      <p className="answer">
        {missing.length > 0
          ? w.roomMissing(missing.map((id) => w.cards[id].title.toLowerCase()))
          : assumed.length > 0
            ? w.roomAssumed(assumed.length)
            : w.roomDone}
      </p>
      {missing.length < 3 && !missing.includes('outline') && !missing.includes('layers') && (
        <button type="button" className="main" onClick={onSurvey}>
          {w.goMark}
        </button>
      )}
      <ol className="cards">
        {CARDS.map(({ id, view: View }) => {
          const state = stateOf(job, id);
          const isOpen = id === card;
          return (
            <li key={id} className={isOpen ? 'open' : undefined} data-card={id}>
              <button
                type="button"
                className="card-head"
                aria-expanded={isOpen}
                ref={isOpen ? head : undefined}
                onClick={() => open(isOpen ? undefined : id)}
              >
                <span className={`tick ${state ?? 'open'}`} aria-hidden="true">
                  {state === 'answered' ? '✓' : state === 'unknown' ? '?' : '○'}
                </span>
                <span>
                  <b>{w.cards[id].title}</b>
                  <small>{state === 'unknown' ? w.dontKnow : state === 'answered' ? summary(job, id) : w.cards[id].why}</small>
                </span>
              </button>
              {isOpen && (
                <div className="card-body">
                  <View job={job} next={() => open(nextCard(useStore.getState().history?.job ?? job, id))} />
                </div>
              )}
            </li>
          );
        })}
      </ol>
      {assumed.length > 0 && (
        <>
          <h3>{w.assumedTitle}</h3>
          <ul>
            {assumed.map((id) => (
              <li key={id}>
                {w.cards[id].title}: {w.cards[id].assumed}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
