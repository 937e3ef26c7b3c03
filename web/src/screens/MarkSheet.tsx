// The sheet that takes a mark: place, tool, and one big button that both says the reading and saves it.
import { NativeSelect, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { Job, Mark } from '../engine/wire';
import { newId } from '../store/keep';
import { useStore } from '../store/store';
import { sentence, spoken } from '../words/figures';
import { formatLength, parseLength } from '../words/lengths';
import { Choice, MarkSymbol, Sheet } from './parts';
import { type Draft, useSheet } from './sheet';
import { placeInWords } from './words';

type Tool = Mark['tool'];
type Reads = NonNullable<Mark['reads']>;
const READINGS: Record<'awl' | 'eye', Reads[]> = { awl: ['sound', 'soft', 'gone'], eye: ['dry', 'stained', 'wet', 'growth', 'insects'] };
const HINTS: Record<string, string> = { sound: 'firm all the way', soft: 'gives, still fibre', gone: 'no hold at all' };

interface Form {
  on: string;
  across: string;
  up: string;
  along: string;
  /** how a spot on a layer is told: from two walls, or by plank and tape */
  by: 'walls' | 'plank';
  plank: string;
  tape: string;
  from: 'above' | 'below';
  face: NonNullable<Mark['face']>;
  part: NonNullable<Mark['part']>;
  percent: string;
  depth: string;
  note: string;
}

function formOf(draft: Draft, mark?: Mark): Form {
  return {
    on: draft.on,
    across: formatLength(draft.across),
    up: formatLength(draft.up),
    along: formatLength(draft.along),
    by: mark?.plank !== undefined && !mark.at_in ? 'plank' : 'walls',
    plank: mark?.plank === undefined ? '' : String(mark.plank),
    tape: mark?.tape_in === undefined ? '' : formatLength(mark.tape_in),
    from: mark?.from ?? 'above',
    face: mark?.face ?? 'top',
    part: mark?.part ?? 'plate',
    percent: mark?.mc_percent === undefined ? '' : String(mark.mc_percent),
    depth: mark?.depth_in === undefined ? '' : formatLength(mark.depth_in),
    note: mark?.note ?? '',
  };
}

/** The mark that the form says, or the fields that cannot be read. */
export function markOf(
  form: Form,
  tool: Tool,
  reads: Reads | undefined,
  base: { id: string; time?: string },
): { mark?: Mark; wrong: string[] } {
  const wrong: string[] = [];
  const length = (name: string, text: string): number => {
    const value = parseLength(text);
    if (value === undefined) wrong.push(name);
    return value ?? 0;
  };
  const mark: Mark = { id: base.id, tool };
  const [kind, id] = form.on.split(':');
  if (kind === 'support') Object.assign(mark, { support: id, along_in: length('along', form.along), face: form.face });
  else if (kind === 'wall') Object.assign(mark, { wall: id, along_in: length('along', form.along), part: form.part });
  else if (form.by === 'plank') {
    const plank = Number(form.plank);
    if (!Number.isInteger(plank) || plank < 1) wrong.push('plank');
    Object.assign(mark, { plank, tape_in: length('tape', form.tape), layer: form.on });
  } else Object.assign(mark, { at_in: [length('across', form.across), length('up', form.up)], layer: form.on });
  mark.from = form.from;
  if (tool === 'meter') {
    const percent = Number(form.percent.replace(',', '.'));
    if (form.percent.trim() === '' || !(percent >= 0)) wrong.push('percent');
    mark.mc_percent = percent;
  } else mark.reads = reads;
  if (form.depth.trim() !== '' && tool === 'awl') mark.depth_in = length('depth', form.depth);
  if (form.note.trim() !== '') mark.note = form.note.trim();
  if (base.time) mark.time = base.time;
  return wrong.length > 0 ? { wrong } : { mark, wrong };
}

function placesOf(job: Job): { value: string; label: string }[] {
  return [
    ...job.layers.map((layer) => ({ value: layer.id, label: `${spoken(layer.id)}: ${spoken(layer.material)}` })),
    ...job.supports.map((support) => ({ value: `support:${support.id}`, label: `${spoken(support.role)} ${support.id}` })),
    ...job.walls.map((wall) => ({ value: `wall:${wall.id}`, label: `wall ${wall.id}` })),
  ];
}

export function MarkSheet() {
  const job = useStore((state) => state.history?.job);
  const perform = useStore((state) => state.perform);
  const { isOpen, draft, mark, close } = useSheet();
  const [tool, setTool] = useState<Tool>('awl');
  const [form, setForm] = useState<Form>(() => formOf(draft));
  const [wrong, setWrong] = useState<string[]>([]);
  useEffect(() => {
    if (!isOpen) return;
    setForm(formOf(draft, mark));
    setWrong([]);
    if (mark) setTool(mark.tool);
  }, [isOpen, draft, mark]);
  if (!job) return null;
  const put = (part: Partial<Form>) => setForm({ ...form, ...part });
  const save = (reads?: Reads) => {
    const base = mark
      ? { id: mark.id, time: mark.time }
      : {
          id: newId(
            job.marks.map((item) => item.id),
            'm',
          ),
          time: new Date().toISOString().replace(/\.\d+Z$/, 'Z'),
        };
    const made = markOf(form, tool, reads, base);
    setWrong(made.wrong);
    if (!made.mark) return;
    // What the sheet does not show of a mark that came from elsewhere stays as it was.
    perform(mark ? 'changeMark' : 'addMark', { mark: mark ? { ...hidden(mark), ...made.mark } : made.mark });
    close();
  };
  const isLine = form.on.includes(':');
  const bad = (name: string) => (wrong.includes(name) ? 'Write a length, like 7\' 4 1/2" or 88.5' : undefined);
  return (
    <Sheet
      opened={isOpen}
      onClose={close}
      position="bottom"
      size="auto"
      title={mark ? `Mark: ${placeInWords(mark)}` : 'New mark'}
      className="sheet"
    >
      <div className="sheet-body">
        <NativeSelect label="On" value={form.on} data={placesOf(job)} onChange={(event) => put({ on: event.currentTarget.value })} />
        {isLine ? (
          <div className="pair">
            <TextInput
              label="Along"
              value={form.along}
              error={bad('along')}
              onChange={(event) => put({ along: event.currentTarget.value })}
            />
            {form.on.startsWith('support') ? (
              <NativeSelect
                label="Face"
                value={form.face}
                data={['top', 'side', 'bottom', 'end']}
                onChange={(event) => put({ face: event.currentTarget.value as Form['face'] })}
              />
            ) : (
              <NativeSelect
                label="Part"
                value={form.part}
                data={['plate', 'stud', 'wallboard']}
                onChange={(event) => put({ part: event.currentTarget.value as Form['part'] })}
              />
            )}
          </div>
        ) : (
          <SpotFields
            form={form}
            put={put}
            bad={bad}
            planks={job.layers.some((layer) => layer.id === form.on && layer.face_width_in !== undefined)}
          />
        )}
        <Choice
          label="Seen from"
          value={form.from}
          options={[
            { value: 'above', text: 'From above' },
            { value: 'below', text: 'From below' },
          ]}
          onChange={(from) => put({ from })}
        />
        <Choice
          label="Tool"
          value={tool}
          options={[
            { value: 'awl', text: 'Awl' },
            { value: 'meter', text: 'Meter' },
            { value: 'eye', text: 'Eye' },
          ]}
          onChange={setTool}
        />
        {tool === 'meter' ? (
          <div className="pair">
            <TextInput
              label="Moisture, percent"
              inputMode="decimal"
              value={form.percent}
              error={wrong.includes('percent') ? 'Write a number, like 18.5' : undefined}
              onChange={(event) => put({ percent: event.currentTarget.value })}
            />
            <button type="button" className="main" onClick={() => save()}>
              Save reading
            </button>
          </div>
        ) : (
          <div className={`readings ${tool}`}>
            {READINGS[tool].map((reads) => (
              <button type="button" key={reads} data-reads={reads} aria-pressed={mark?.reads === reads} onClick={() => save(reads)}>
                <MarkSymbol tool={tool} reads={reads} />
                <span>{sentence(reads)}</span>
                {HINTS[reads] && <small>{HINTS[reads]}</small>}
              </button>
            ))}
          </div>
        )}
        <details>
          <summary>Depth and note</summary>
          {tool === 'awl' && (
            <TextInput
              label="Depth it went in, if measured"
              value={form.depth}
              error={bad('depth')}
              onChange={(event) => put({ depth: event.currentTarget.value })}
            />
          )}
          <TextInput label="Note" value={form.note} maxLength={400} onChange={(event) => put({ note: event.currentTarget.value })} />
        </details>
        {mark && (
          <button
            type="button"
            className="danger"
            onClick={() => {
              perform('removeMark', { id: mark.id });
              close();
            }}
          >
            Take this mark away
          </button>
        )}
      </div>
    </Sheet>
  );
}

interface SpotProps {
  form: Form;
  put: (part: Partial<Form>) => void;
  bad: (name: string) => string | undefined;
  planks: boolean;
}

function SpotFields({ form, put, bad, planks }: SpotProps) {
  const byPlank = form.by === 'plank';
  return (
    <>
      {(planks || byPlank) && (
        <Choice
          label="Place told by"
          value={form.by}
          options={[
            { value: 'walls', text: 'From two walls' },
            { value: 'plank', text: 'Plank and tape' },
          ]}
          onChange={(by) => put({ by })}
        />
      )}
      {byPlank ? (
        <div className="pair">
          <TextInput
            label="Plank, from the low wall"
            inputMode="numeric"
            value={form.plank}
            error={bad('plank') && 'Write a whole number, like 4'}
            onChange={(event) => put({ plank: event.currentTarget.value })}
          />
          <TextInput
            label="Tape along it"
            value={form.tape}
            error={bad('tape')}
            onChange={(event) => put({ tape: event.currentTarget.value })}
          />
        </div>
      ) : (
        <div className="pair">
          <TextInput
            label="From left"
            value={form.across}
            error={bad('across')}
            onChange={(event) => put({ across: event.currentTarget.value })}
          />
          <TextInput label="From bottom" value={form.up} error={bad('up')} onChange={(event) => put({ up: event.currentTarget.value })} />
        </div>
      )}
    </>
  );
}

/** Keys that the sheet has no field for. */
function hidden(mark: Mark): Partial<Mark> {
  const { width_in, wood_temp_f, height_in, by } = mark;
  return Object.fromEntries(Object.entries({ width_in, wood_temp_f, height_in, by }).filter(([, value]) => value !== undefined));
}
