import { useHotkeys } from '@mantine/hooks';
import { useEffect, useState } from 'react';
import { demos } from './demos';
import { FindingsScreen } from './screens/FindingsScreen';
import { MarksScreen, NextScreen } from './screens/Lists';
import { MarkSheet } from './screens/MarkSheet';
import { Menu } from './screens/Menu';
import { PapersScreen } from './screens/PapersScreen';
import { PlanScreen } from './screens/PlanScreen';
import { ProblemList } from './screens/parts';
import { useStore } from './store/store';

// To add a screen: a line here and a component (docs/page.md).
const SCREENS = [
  { id: 'plan', name: 'Plan', view: PlanScreen },
  { id: 'marks', name: 'Marks', view: MarksScreen },
  { id: 'next', name: 'Next', view: NextScreen },
  { id: 'findings', name: 'Findings', view: FindingsScreen },
  { id: 'papers', name: 'Papers', view: PapersScreen },
] as const;
type ScreenId = (typeof SCREENS)[number]['id'];

function useWide(): boolean {
  const query = '(min-width: 900px)';
  const [wide, setWide] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const listen = () => setWide(media.matches);
    media.addEventListener('change', listen);
    return () => media.removeEventListener('change', listen);
  }, []);
  return wide;
}

/** Opens the job of last time, else the demo. */
function useFirstJob(): void {
  useEffect(() => {
    const { openLast, open } = useStore.getState();
    void openLast().then((found) => found || open(demos[0].text, demos[0].key));
  }, []);
}

function Header({ onMenu }: { onMenu: () => void }) {
  const { history, undo, redo } = useStore();
  const last = history?.past.at(-1)?.label;
  const next = history?.future[0]?.label;
  return (
    <header>
      <button type="button" aria-label="Menu" onClick={onMenu}>
        ☰
      </button>
      <h1>{history?.job.job.name || 'Awlmark'}</h1>
      <button type="button" aria-label={last ? `Undo: ${last}` : 'Nothing to undo'} disabled={!last} onClick={undo}>
        ↶
      </button>
      <button type="button" aria-label={next ? `Do again: ${next}` : 'Nothing to do again'} disabled={!next} onClick={redo}>
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
      <b>This needs mending</b>
      <ProblemList problems={problems} />
      <button type="button" onClick={() => dismiss('problems')}>
        Close
      </button>
    </div>
  );
}

export function App() {
  useFirstJob();
  const { undo, redo } = useStore();
  useHotkeys([
    ['mod+Z', undo],
    ['mod+shift+Z', redo],
    ['mod+Y', redo],
  ]);
  const wide = useWide();
  const [screen, setScreen] = useState<ScreenId>('plan');
  const [menu, setMenu] = useState(false);
  // On a broad screen the plan stays; the tabs turn what stands beside it.
  const tabs = SCREENS.filter((item) => !wide || item.id !== 'plan');
  const chosen = tabs.find((item) => item.id === screen) ?? tabs.find((item) => item.id === 'next') ?? SCREENS[0];
  const View = chosen.view;
  return (
    <div className={wide ? 'app wide' : 'app'}>
      <Header onMenu={() => setMenu(true)} />
      <Problems />
      <main>
        {wide && <PlanScreen />}
        <div className={chosen.id === 'plan' ? 'pane bare' : 'pane'}>
          <View />
        </div>
      </main>
      <nav aria-label="Screens">
        {tabs.map((item) => (
          <button type="button" key={item.id} aria-current={item.id === chosen.id ? 'page' : undefined} onClick={() => setScreen(item.id)}>
            {item.name}
          </button>
        ))}
      </nav>
      <MarkSheet />
      <Menu opened={menu} onClose={() => setMenu(false)} />
    </div>
  );
}
