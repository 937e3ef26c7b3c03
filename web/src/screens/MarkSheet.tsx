// The sheet that takes a mark: the spot enlarged, the tool, and one big button that both says the
// reading and saves it. A mark that stands already is changed here too, with a Save of its own.
import { useEffect, useRef, useState } from 'react';
import type { Job, Mark, Point } from '../engine/wire';
import { Loupe, Nudge } from '../plan/Loupe';
import { membersOf } from '../plan/members';
import { layerName, memberName, wallName } from '../plan/names';
import { type Gate, piercing } from '../store/gates';
import { idFor, Shelf } from '../store/keep';
import { photoOf, type Shelved, shelve, takePicture } from '../store/photos';
import { useStore } from '../store/store';
import { LengthPad, Typed } from '../ui/LengthPad';
import { Choice, Field, Fold, MarkSymbol, Select, Sheet } from '../ui/parts';
import { w } from '../words/en';
import { sentence } from '../words/figures';
import { formatLength, parseLength, roundToFinger } from '../words/lengths';
import { sayTime, stamp } from '../words/times';
import { markOf } from './mark';
import { PhotoStrip } from './Photos';
import { type Form, keepDraft, lineOf, type Reads, spotOf, useSheet } from './sheet';
import { markLine, placeInWords } from './words';

const READINGS: Record<'awl' | 'eye', Reads[]> = { awl: ['sound', 'soft', 'gone'], eye: ['dry', 'stained', 'wet', 'growth', 'insects'] };

function placesOf(job: Job): { value: string; label: string }[] {
  return [
    ...job.layers.map((layer) => ({ value: layer.id, label: layerName(job, layer) })),
    ...membersOf(job).map((member) => ({ value: `support:${member.id}`, label: memberName(job, member) })),
    ...job.walls.map((wall) => ({ value: `wall:${wall.id}`, label: `${w.plateUnder} ${wallName(job, wall)}` })),
  ];
}

export function MarkSheet({ onShore }: { onShore: (member: string) => void }) {
  const { history, key, survey, perform } = useStore();
  const { isOpen, form, mark: markId, here, put, close, openMark } = useSheet();
  const [wrong, setWrong] = useState<Record<string, string>>({});
  const [held, setHeld] = useState<{ gate: Gate; reads?: Reads } | undefined>();
  const [photos, setPhotos] = useState<Shelved[]>([]);
  const job = history?.job;
  const mark = job?.marks.find((item) => item.id === markId);
  const first = useRef<Form | undefined>(undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new sheet starts clean
  useEffect(() => {
    setWrong({});
    setHeld(undefined);
    setPhotos([]);
    first.current = isOpen ? form : undefined;
  }, [isOpen, markId]);
  // What was entered outlives Close, Back and the tab: only a save or 'throw away' ends it.
  useEffect(() => {
    if (isOpen && form && first.current && form !== first.current) keepDraft({ key, form, mark: markId });
  }, [isOpen, form, key, markId]);
  if (!job) return null;

  const save = (reads?: Reads, sure = false) => {
    if (!form) return;
    const base = mark ?? { id: idFor(job.marks, 'm'), time: stamp(new Date()) };
    const made = markOf(job, form, reads, base);
    setWrong(made.wrong);
    const bad = Object.keys(made.wrong)[0];
    if (bad) return void document.querySelector<HTMLElement>(`dialog[open] [name="${bad}"]`)?.focus();
    if (!made.mark) return;
    const gate = mark ? undefined : piercing(job, survey?.findings, made.mark);
    if (gate && !sure) return setHeld({ gate, reads });
    perform(mark ? 'changeMark' : 'addMark', { mark: made.mark });
    for (const photo of photos) {
      const now = useStore.getState().history?.job;
      if (now) perform('addPhoto', { photo: photoOf(now, photo, { mark: made.mark.id }) });
    }
    keepDraft(undefined);
    close();
    if (made.mark.support && made.mark.reads === 'gone') onShore(made.mark.support);
  };
  const snap = async () => {
    const file = await takePicture();
    if (!file) return;
    try {
      const photo = await shelve(new Shelf(), file);
      setPhotos((list) => [...list, photo]);
    } catch (error) {
      useStore.setState({ problems: [{ at: '', what: `${w.faults.photo}: ${error}`, mend: w.faults.photoMend }] });
    }
  };
  return (
    <Sheet opened={isOpen && form !== undefined} onClose={close} title={mark ? w.changeMark(placeInWords(job, mark)) : w.newMark}>
      {form && (
        <>
          {!mark && here.length > 0 && <Here job={job} ids={here} onOpen={openMark} />}
          <Place job={job} form={form} put={put} wrong={wrong} />
          <Choice
            label={w.seenFrom}
            value={form.from}
            options={[
              { value: 'above', text: w.fromAbove },
              { value: 'below', text: w.fromBelow },
            ]}
            onChange={(from) => put({ from })}
          />
          <Choice
            label={w.tool}
            value={form.tool}
            options={[
              { value: 'awl', text: w.tools.awl },
              { value: 'meter', text: w.tools.meter },
              { value: 'eye', text: w.tools.eye },
            ]}
            onChange={(tool) => put({ tool, reads: undefined })}
          />
          {held ? (
            <Held
              gate={held.gate}
              onGo={() => save(held.reads, true)}
              onLook={() => {
                put({ tool: 'eye' });
                setHeld(undefined);
              }}
            />
          ) : (
            <Readings form={form} mark={mark} put={put} wrong={wrong} save={save} />
          )}
          {mark && <PhotoStrip job={job} photos={job.photos.filter((photo) => photo.mark === mark.id)} />}
          <div className="pair">
            <button type="button" onClick={() => void snap()}>
              {photos.length > 0 ? w.photosTaken(photos.length) : w.camera}
            </button>
            {mark && (
              <button
                type="button"
                className="danger"
                onClick={() => {
                  perform('removeMark', { id: mark.id });
                  keepDraft(undefined);
                  close();
                }}
              >
                {w.takeAwayMark}
              </button>
            )}
          </div>
          <Fold title={w.depthAndNote}>
            {form.tool === 'awl' && (
              <Field label={w.depth} name="depth" value={form.depth} error={wrong.depth} onChange={(depth) => put({ depth })} />
            )}
            <Field label={w.note} name="note" value={form.note} maxLength={400} onChange={(note) => put({ note })} />
            <button
              type="button"
              onClick={() => {
                keepDraft(undefined);
                close();
              }}
            >
              {w.throwAway}
            </button>
          </Fold>
        </>
      )}
    </Sheet>
  );
}

/** Old marks at the spot: behind a chip, so that a tap never changes what was found before. */
function Here({ job, ids, onOpen }: { job: Job; ids: string[]; onOpen: (mark: Mark) => void }) {
  const [open, setOpen] = useState(false);
  return (
    <div className="here">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {w.hereMarks(ids.length)}
      </button>
      {open &&
        ids.map((id) => {
          const mark = job.marks.find((item) => item.id === id);
          if (!mark) return null;
          return (
            <button type="button" key={id} className="row" onClick={() => onOpen(mark)}>
              <MarkSymbol tool={mark.tool} reads={mark.reads} percent={mark.mc_percent} />
              <span>
                {markLine(job, mark)}
                {mark.time && <small>{sayTime(mark.time)}</small>}
              </span>
            </button>
          );
        })}
    </div>
  );
}

/** A layer that may hold asbestos, and an awl: asked before it is written down. */
function Held({ gate, onGo, onLook }: { gate: Gate; onGo: () => void; onLook: () => void }) {
  return (
    <div className="held" role="alert">
      <b>{w.heldTitle}</b>
      <p>{gate.text}</p>
      <div className="pair">
        <button type="button" className="main" onClick={onLook}>
          {w.heldLook}
        </button>
        <button type="button" onClick={onGo}>
          {w.heldGo}
        </button>
      </div>
    </div>
  );
}

interface Part {
  form: Form;
  put: (part: Partial<Form>) => void;
  wrong: Record<string, string>;
}

function Readings({ form, mark, put, wrong, save }: Part & { mark?: Mark; save: (reads?: Reads) => void }) {
  const { tool } = form;
  if (tool === 'meter')
    return (
      <div className="pair">
        <Field
          label={w.moisture}
          name="percent"
          inputMode="decimal"
          value={form.percent}
          error={wrong.percent}
          onChange={(percent) => put({ percent })}
        />
        <button type="button" className="main" onClick={() => save()}>
          {mark ? w.save : w.saveReading}
        </button>
      </div>
    );
  const chosen = mark ? (form.reads ?? (mark.tool === tool ? mark.reads : undefined)) : undefined;
  return (
    <>
      <div className={`readings ${tool}`}>
        {READINGS[tool].map((reads) => (
          <button
            type="button"
            key={reads}
            data-reads={reads}
            aria-pressed={mark ? chosen === reads : undefined}
            onClick={() => (mark ? put({ reads }) : save(reads))}
          >
            <MarkSymbol tool={tool} reads={reads} />
            <span>{sentence(w.reads[reads])}</span>
            {w.hints[reads] && <small>{w.hints[reads]}</small>}
          </button>
        ))}
      </div>
      {wrong.reads && <p className="wrong">{wrong.reads}</p>}
      {mark && (
        <button type="button" className="main" onClick={() => save(chosen)}>
          {w.save}
        </button>
      )}
    </>
  );
}

function Place({ job, form, put, wrong }: Part & { job: Job }) {
  const spot = spotOf(job, form, parseLength);
  const line = lineOf(job, form.on);
  const nudge = ([dx, dy]: Point) => {
    if (!spot) return;
    if (line) {
      const length = Math.hypot(line.to_in[0] - line.from_in[0], line.to_in[1] - line.from_in[1]) || 1;
      const by = (dx * (line.to_in[0] - line.from_in[0]) + dy * (line.to_in[1] - line.from_in[1])) / length;
      put({ along: formatLength(Math.min(length, Math.max(0, (parseLength(form.along) ?? 0) + by))) });
    } else put({ across: formatLength(roundToFinger(spot[0] + dx)), up: formatLength(roundToFinger(spot[1] + dy)) });
  };
  const said = line
    ? `${form.along} ${w.along}`
    : form.by === 'plank'
      ? w.plankAt(form.plank || '?', form.tape || '?')
      : w.fromWalls(form.across, form.up);
  const faults = ['across', 'up', 'along', 'plank', 'tape'].filter((name) => wrong[name]);
  return (
    <>
      <div className="place">
        {spot && <Loupe at={spot} />}
        <div className="grow">
          <Select label={w.on} value={form.on} options={placesOf(job)} onChange={(on) => put({ on })} />
          <p className="read-back">{said}</p>
        </div>
      </div>
      {spot && <Nudge onNudge={nudge} />}
      <details open={faults.length > 0 || !spot || undefined}>
        <summary>{w.byNumbers}</summary>
        <div className="folded">
          <Numbers job={job} form={form} put={put} wrong={wrong} />
        </div>
      </details>
    </>
  );
}

/** The place in figures, on big keys; the field that was touched last takes them. */
function Numbers({ job, form, put, wrong }: Part & { job: Job }) {
  const [at, setAt] = useState<'across' | 'up' | 'along' | 'plank' | 'tape'>('across');
  const isLine = form.on.includes(':');
  const layer = job.layers.find((item) => item.id === form.on);
  const planks = layer?.face_width_in !== undefined || form.by === 'plank';
  const fields = isLine ? (['along'] as const) : form.by === 'plank' ? (['plank', 'tape'] as const) : (['across', 'up'] as const);
  const current = (fields as readonly string[]).includes(at) ? at : fields[0];
  return (
    <>
      {!isLine && planks && (
        <Choice
          label={w.placeBy}
          value={form.by}
          options={[
            { value: 'walls', text: w.byWalls },
            { value: 'plank', text: w.byPlank },
          ]}
          onChange={(by) => put({ by })}
        />
      )}
      {isLine && form.on.startsWith('support') && (
        <Choice
          label={w.face}
          value={form.face}
          options={(['top', 'side', 'bottom', 'end'] as const).map((value) => ({ value, text: w.faces[value] }))}
          onChange={(face) => put({ face })}
        />
      )}
      {isLine && form.on.startsWith('wall') && (
        <Choice
          label={w.part}
          value={form.part}
          options={(['plate', 'stud', 'wallboard', 'rim', 'mudsill'] as const).map((value) => ({ value, text: w.parts[value] }))}
          onChange={(part) => put({ part })}
        />
      )}
      <div className="pair">
        {fields.map((name) => (
          <div key={name} onFocusCapture={() => setAt(name)}>
            <Field
              label={w.placeFields[name]}
              name={name}
              value={form[name]}
              error={wrong[name]}
              onChange={(value) => put({ [name]: value } as Partial<Form>)}
            />
          </div>
        ))}
      </div>
      <Typed value={form[current]} label={w.placeFields[current]} />
      <LengthPad value={form[current]} plain={current === 'plank'} onChange={(value) => put({ [current]: value } as Partial<Form>)} />
    </>
  );
}
