// The papers: made by the engine, shown in a frame that runs no script, printed, shared or saved as they are.
import { useRef, useState } from 'react';
import { askEngine } from '../engine/client';
import type { Job, Paper } from '../engine/wire';
import { saveFile, shareFile } from '../files';
import { crewCard } from '../papers/crewCard';
import { bare } from '../store/asked';
import { calendar, everything, marksCsv, takeoffCsv } from '../store/exports';
import { fileStem, Shelf } from '../store/keep';
import { useStore } from '../store/store';
import { Sheet } from '../ui/parts';
import { w } from '../words/en';
import { Page, type StageProps, WholePage } from './shared';

export function PapersStage({ go }: StageProps) {
  const { history, markFiled } = useStore();
  const job = history?.job;
  const [picked, setPicked] = useState<{ paper: Paper; job: Job } | undefined>();
  // A paper of an older state of the job must not stay on the screen unnoticed.
  const open = picked && picked.job === job ? picked.paper : undefined;
  const frame = useRef<HTMLIFrameElement>(null);
  const nameOf = (paper: Paper) => (job ? `${fileStem(job)}-${paper.file}` : paper.file);
  return (
    <>
      <WholePage stage="papers" go={go} fresh>
        {(findings, whole) => {
          const days = job && calendar(job, findings, new Date());
          if (!job) return null;
          const papers = findings.cut_back ? [crewCard(job, findings), ...whole.papers] : whole.papers;
          const zip = async (share: boolean) => {
            const reply = await askEngine({ do: 'read', job: bare(job) });
            if (!reply.ok) return useStore.setState({ problems: reply.problems });
            const name = `${fileStem(job)}.zip`;
            const all = await everything(job, reply.value.text, new Shelf(), papers);
            if (!share || !(await shareFile(name, all, 'application/zip'))) saveFile(name, all, 'application/zip');
            await markFiled();
          };
          return (
            <Page stage="papers" answer={w.papersReady(papers.length)} next={{ text: w.shareEverything, go: () => void zip(true) }}>
              <button type="button" className="block" onClick={() => void zip(false)}>
                {w.saveEverything}
              </button>
              <ul className="rows">
                {papers.map((paper) => (
                  <li key={paper.file}>
                    <button type="button" className="row" onClick={() => setPicked({ paper, job })}>
                      <span>
                        <b>{paper.title}</b>
                        <small>{paper.file === 'crew-card.html' ? w.card.what : nameOf(paper)}</small>
                      </span>
                    </button>
                  </li>
                ))}
              </ul>
              <h3>{w.lists}</h3>
              <div className="stack">
                <button type="button" onClick={() => job && saveFile(`${fileStem(job)}-take-off.csv`, takeoffCsv(findings), 'text/csv')}>
                  {w.csvTakeoff}
                </button>
                <button type="button" onClick={() => job && saveFile(`${fileStem(job)}-marks.csv`, marksCsv(job), 'text/csv')}>
                  {w.csvMarks}
                </button>
                {days ? (
                  <button type="button" onClick={() => job && saveFile(`${fileStem(job)}.ics`, days, 'text/calendar')}>
                    {w.ics}
                  </button>
                ) : (
                  <p className="quiet">{w.icsNeeds}</p>
                )}
              </div>
            </Page>
          );
        }}
      </WholePage>
      <Sheet opened={open !== undefined} onClose={() => setPicked(undefined)} side="full" title={open?.title ?? ''}>
        <div className="paper-acts">
          <button type="button" className="main" onClick={() => frame.current?.contentWindow?.print()}>
            {w.print}
          </button>
          <button
            type="button"
            onClick={() =>
              open &&
              void shareFile(nameOf(open), open.html, 'text/html').then(
                (shared) => shared || saveFile(nameOf(open), open.html, 'text/html'),
              )
            }
          >
            {w.share}
          </button>
        </div>
        {/* allow-same-origin lets this page print the frame; without allow-scripts nothing in it runs. */}
        <iframe
          ref={frame}
          title={open?.title ?? 'paper'}
          sandbox="allow-same-origin allow-modals"
          srcDoc={open?.html ?? ''}
          onLoad={(event) => {
            const inner = event.currentTarget.contentDocument;
            // The file that a printer makes is named after the job.
            if (inner && open) inner.title = nameOf(open).replace(/\.html$/, '');
          }}
        />
      </Sheet>
    </>
  );
}
