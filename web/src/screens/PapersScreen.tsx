// The papers: made by the engine, shown in a frame that runs no script, printed or saved as they are.
import { useRef, useState } from 'react';
import type { Job, Paper } from '../engine/wire';
import { saveFile } from '../files';
import { useStore } from '../store/store';
import { Progress, useWhole } from './FindingsScreen';
import { Sheet } from './parts';

export function PapersScreen() {
  const whole = useWhole();
  const job = useStore((state) => state.history?.job);
  const [picked, setPicked] = useState<{ paper: Paper; job: Job } | undefined>();
  // A paper of an older state of the job must not stay on the screen unnoticed.
  const open = picked && picked.job === job ? picked.paper : undefined;
  const frame = useRef<HTMLIFrameElement>(null);
  return (
    <section aria-labelledby="papers-title">
      <h2 id="papers-title">Papers</h2>
      <Progress />
      <ul className="rows">
        {whole?.papers.map((paper) => (
          <li key={paper.file}>
            <button type="button" onClick={() => job && setPicked({ paper, job })}>
              <span>
                <b>{paper.title}</b>
                <small>{paper.file}</small>
              </span>
            </button>
          </li>
        ))}
      </ul>
      <Sheet
        opened={open !== undefined}
        onClose={() => setPicked(undefined)}
        position="bottom"
        size="100%"
        title={open?.title ?? ''}
        className="paper"
      >
        <div className="paper-acts">
          <button type="button" className="main" onClick={() => frame.current?.contentWindow?.print()}>
            Print
          </button>
          <button type="button" onClick={() => open && saveFile(open.file, open.html, 'text/html')}>
            Save
          </button>
        </div>
        {/* allow-same-origin lets this page print the frame; without allow-scripts nothing in it runs. */}
        <iframe ref={frame} title={open?.title ?? 'paper'} sandbox="allow-same-origin allow-modals" srcDoc={open?.html ?? ''} />
      </Sheet>
    </section>
  );
}
