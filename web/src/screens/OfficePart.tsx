// The office in the menu: look for it, pair this device, send and fetch, open what is there.
import { useState } from 'react';
import { useOffice } from '../store/office';
import { useStore } from '../store/store';
import { Field } from '../ui/parts';
import { w } from '../words/en';
import { sayTime } from '../words/times';

export function OfficePart({ onDone }: { onDone: () => void }) {
  const { there, who, working, said, jobs, look, pair, sync, open } = useOffice();
  const open_ = useStore((state) => state.history !== undefined);
  const [code, setCode] = useState('');
  const [name, setName] = useState('');
  return (
    <>
      <h3>{w.office.title}</h3>
      {!there && (
        <>
          <p>{there === false ? w.office.notHere : w.office.what}</p>
          <button type="button" className="block" onClick={() => void look()}>
            {w.office.look}
          </button>
        </>
      )}
      {there && !who && (
        <>
          <p>{w.office.pairFirst}</p>
          <Field label={w.office.code} value={code} maxLength={20} onChange={setCode} />
          <Field label={w.office.name} value={name} maxLength={60} onChange={setName} />
          <button
            type="button"
            className="main block"
            disabled={working || !code || !name}
            onClick={() => void pair(code.trim(), name.trim())}
          >
            {w.office.pair}
          </button>
        </>
      )}
      {who && (
        <>
          <p>{w.office.paired(who.device, who.role)}</p>
          <button type="button" className="main block" disabled={working || !open_ || who.role === 'reader'} onClick={() => void sync()}>
            {working ? w.office.working : w.office.sync}
          </button>
          <div className="stack">
            {jobs.map((job) => (
              <button type="button" key={job.id} disabled={working} onClick={() => void open(job.id).then((done) => done && onDone())}>
                {job.id} <small>{w.office.revision(job.revision, sayTime(job.time))}</small>
              </button>
            ))}
          </div>
        </>
      )}
      {said && <p role="status">{said}</p>}
    </>
  );
}
