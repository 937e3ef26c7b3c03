// The page: the plan, and one page of the plan for each stage.
import { type ComponentType, lazy, Suspense, useEffect, useRef, useState } from 'react';
import type { Stage } from './plan/draw';
import { type Theme, useInk } from './plan/ink';
import { memberName } from './plan/names';
import { useRoom } from './room/placing';
import { RoomScreen } from './room/RoomScreen';
import { MarkSheet } from './screens/MarkSheet';
import { Menu } from './screens/Menu';
import { PlanScreen } from './screens/PlanScreen';
import { Start } from './screens/Start';
import { SurveyStage } from './stages/SurveyStage';
import type { StageProps } from './stages/shared';
import { Shelf } from './store/keep';
import { lost, remember } from './store/storage';
import { useStore } from './store/store';
import { ProblemList, Sheet } from './ui/parts';
import { intoRow } from './ui/scroll';
import { w } from './words/en';

// What nobody sees before the first mark comes later; the service worker keeps it all the same.
const later = <M,>(load: () => Promise<M>, pick: (module: M) => ComponentType<StageProps>) =>
  lazy(() => load().then((module) => ({ default: pick(module) })));
const cutAndFloor = () => import('./stages/CutFloorStages');

// To add a stage: a line here, its name in words/en/common.ts, and a component (docs/page.md).
const STAGES: { id: Stage; view: ComponentType<StageProps> }[] = [
  { id: 'room', view: ({ go }) => <RoomScreen onSurvey={() => go('survey')} /> },
  { id: 'survey', view: SurveyStage },
  {
    id: 'hazards',
    view: later(
      () => import('./stages/HazardsStage'),
      (m) => m.HazardsStage,
    ),
  },
  { id: 'cut_back', view: later(cutAndFloor, (m) => m.CutBackStage) },
  { id: 'floor', view: later(cutAndFloor, (m) => m.FloorStage) },
  {
    id: 'shower',
    view: later(
      () => import('./stages/ShowerStage'),
      (m) => m.ShowerStage,
    ),
  },
  {
    id: 'drying',
    view: later(
      () => import('./stages/DryingStage'),
      (m) => m.DryingStage,
    ),
  },
  {
    id: 'takeoff',
    view: later(
      () => import('./stages/TakeoffStage'),
      (m) => m.TakeoffStage,
    ),
  },
  {
    id: 'work',
    view: later(
      () => import('./stages/WorkStage'),
      (m) => m.WorkStage,
    ),
  },
  {
    id: 'price',
    view: later(
      () => import('./stages/PriceStage'),
      (m) => m.PriceStage,
    ),
  },
  {
    id: 'papers',
    view: later(
      () => import('./stages/PapersStage'),
      (m) => m.PapersStage,
    ),
  },
];

function useMedia(query: string): boolean {
  const [is, setIs] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const listen = () => setIs(media.matches);
    media.addEventListener('change', listen);
    return () => media.removeEventListener('change', listen);
  }, [query]);
  return is;
}

function useTheme(): [Theme, (theme: Theme) => void] {
  const [theme, setTheme] = useState<Theme>(() => (localStorage.getItem('awlmark.theme') as Theme | null) ?? 'light');
  useInk(theme);
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
    localStorage.setItem('awlmark.theme', theme);
  }, [theme]);
  return [theme, setTheme];
}

/** Opens the job of last time; says so when this browser has lost jobs since. */
function useFirstJob(): boolean {
  const [looked, setLooked] = useState(false);
  useEffect(() => {
    const { openLast, tell } = useStore.getState();
    void (async () => {
      try {
        const jobs = (await new Shelf().all()).length;
        const gone = lost(jobs);
        remember(jobs);
        await openLast();
        if (gone > 0) tell(w.notes.cleared(gone));
      } catch (error) {
        useStore.setState({ problems: [{ at: '', what: `${w.faults.noStorage}: ${error}`, mend: w.faults.noStorageMend }] });
      }
      setLooked(true);
    })();
  }, []);
  const key = useStore((state) => (state.rev > 0 ? state.key : ''));
  useEffect(() => {
    if (key) void new Shelf().all().then((jobs) => remember(jobs.length));
  }, [key]);
  return looked;
}

/** Undo and redo by the keyboard, except where somebody types. */
function useKeys(): void {
  const { undo, redo } = useStore();
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || (event.target as HTMLElement).matches('input, textarea, select')) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      event.preventDefault();
      if (key === 'y' || event.shiftKey) redo();
      else undo();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [undo, redo]);
}

function Header({ onMenu }: { onMenu: () => void }) {
  const { history, undo, redo } = useStore();
  const last = history?.past.at(-1)?.label;
  const next = history?.future[0]?.label;
  return (
    <header>
      <button type="button" aria-label={w.menu} onClick={onMenu}>
        ☰
      </button>
      <h1>{history ? history.job.job.name || w.unnamed : 'Awlmark'}</h1>
      <button type="button" aria-label={last ? `${w.undo}: ${last}` : w.nothingToUndo} disabled={!last} onClick={undo}>
        ↶
      </button>
      <button type="button" aria-label={next ? `${w.doAgain}: ${next}` : w.nothingToRedo} disabled={!next} onClick={redo}>
        ↷
      </button>
    </header>
  );
}

function Problems() {
  const { problems, dismiss } = useStore();
  if (problems.length === 0) return null;
  return (
    <div className="alert" role="alert">
      <b>{w.needsMending}</b>
      <ProblemList problems={problems} />
      <button type="button" onClick={() => dismiss('problems')}>
        {w.close}
      </button>
    </div>
  );
}

export function App() {
  const looked = useFirstJob();
  useKeys();
  const [theme, setTheme] = useTheme();
  const wide = useMedia('(min-width: 900px) and (min-height: 560px)');
  const [stage, setStage] = useState<Stage>('survey');
  const [menu, setMenu] = useState(false);
  const [shore, setShore] = useState<string | undefined>();
  const { key, history } = useStore();
  // A job that opens without a floor begins with the room.
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another job opens
  useEffect(() => {
    if (history) setStage(history.job.layers.length === 0 ? 'room' : 'survey');
  }, [key]);
  const current = useRef<HTMLButtonElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another stage is chosen
  useEffect(() => intoRow(current.current), [stage, history === undefined]);
  // What a stage asked of the plan ends with it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another stage is chosen
  useEffect(() => () => useRoom.getState().onPlace(undefined), [stage]);
  const View = STAGES.find((item) => item.id === stage)?.view ?? SurveyStage;
  const planAlone = !wide && stage === 'survey';
  const noPlan = !wide && stage === 'papers';
  return (
    <div className={`app${wide ? ' wide' : ''}${planAlone ? ' plan-alone' : ''} at-${stage}`}>
      <Header onMenu={() => setMenu(true)} />
      <Problems />
      {!history ? (
        looked && <Start onRoom={() => setStage('room')} />
      ) : (
        <main>
          {!noPlan && <PlanScreen stage={stage} theme={theme} wide={wide} go={setStage} />}
          {planAlone ? (
            <details className="under">
              <summary>{w.surveyMore}</summary>
              <div className="pane">
                <View go={setStage} />
              </div>
            </details>
          ) : (
            <div className="pane">
              <Suspense fallback={<p role="status">{w.opening}</p>}>
                <View go={setStage} key={`${key} ${stage}`} />
              </Suspense>
            </div>
          )}
        </main>
      )}
      {history && (
        <nav aria-label={w.stagesLabel}>
          {STAGES.map(({ id }) => (
            <button
              type="button"
              key={id}
              ref={id === stage ? current : undefined}
              aria-current={id === stage ? 'page' : undefined}
              onClick={() => setStage(id)}
            >
              {w.stages[id].name}
            </button>
          ))}
        </nav>
      )}
      <MarkSheet onShore={setShore} />
      <Menu opened={menu} onClose={() => setMenu(false)} theme={theme} onTheme={setTheme} />
      <Sheet opened={shore !== undefined} onClose={() => setShore(undefined)} title={w.shoreTitle}>
        <p className="warn">{shore && history && w.shoreFirst(memberName(history.job, shore))}</p>
        <button type="button" className="main" onClick={() => setShore(undefined)}>
          {w.understood}
        </button>
      </Sheet>
    </div>
  );
}
