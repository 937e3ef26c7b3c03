// The first screen: one's own room, a file, or an invented job to look at.
import { demos } from '../demos';
import { useStore } from '../store/store';
import { w } from '../words/en';
import { emptyJob, KeptJobs, openDemo, openFile } from './Menu';

export function Start({ onRoom }: { onRoom: () => void }) {
  const { begin, note } = useStore();
  return (
    <main className="start">
      <h2>{w.startTitle}</h2>
      <p>{w.startWhat}</p>
      {note && (
        <p className="warn" role="alert">
          {note}
        </p>
      )}
      <div className="stack">
        <button type="button" className="main" onClick={() => void begin(emptyJob()).then(onRoom)}>
          {w.describeOwn}
        </button>
        <button type="button" onClick={() => void openFile()}>
          {w.openFile}
        </button>
        {demos.map((demo) => (
          <button type="button" key={demo.key} onClick={() => void openDemo(demo.text)}>
            {w.demo(demo.name)}
          </button>
        ))}
      </div>
      <KeptJobs onDone={() => {}} />
      <p className="quiet">{w.startCaution}</p>
    </main>
  );
}
