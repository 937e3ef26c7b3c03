// Small parts that every screen uses.
import { type ReactNode, useEffect, useId, useRef } from 'react';
import type { Problem } from '../engine/wire';
import { said } from '../plan/said';
import { jobOf, useStore } from '../store/store';
import { w } from '../words/en';
import { useBack } from './back';

interface ChoiceProps<T extends string> {
  label: string;
  /** the label stands above the buttons, not only for screen readers */
  said?: boolean;
  value?: T;
  options: { value: T; text: ReactNode }[];
  onChange: (value: T) => void;
}

/** One of a few, as broad buttons. */
export function Choice<T extends string>({ label, said, value, options, onChange }: ChoiceProps<T>) {
  return (
    <fieldset className="choice">
      <legend className={said ? '' : 'unseen'}>{label}</legend>
      {options.map((option) => (
        <button type="button" key={option.value} aria-pressed={option.value === value} onClick={() => onChange(option.value)}>
          {option.text}
        </button>
      ))}
    </fieldset>
  );
}

interface FieldProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  error?: string;
  /** what the entry is read as */
  read?: string;
  name?: string;
  inputMode?: 'text' | 'numeric' | 'decimal';
  maxLength?: number;
  type?: 'text' | 'date' | 'datetime-local';
}

export function Field({ label, value, onChange, error, read, name, inputMode, maxLength, type = 'text' }: FieldProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        type={type}
        value={value}
        inputMode={inputMode}
        maxLength={maxLength}
        autoComplete="off"
        aria-invalid={error !== undefined}
        aria-describedby={error || read ? `${id}-said` : undefined}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
      {(error ?? read) && (
        <p id={`${id}-said`} className={error ? 'wrong' : 'quiet'}>
          {error ?? read}
        </p>
      )}
    </div>
  );
}

interface SelectProps {
  label: string;
  value: string;
  options: { value: string; label: string }[];
  onChange: (value: string) => void;
}

export function Select({ label, value, options, onChange }: SelectProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.currentTarget.value)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}

interface SheetProps {
  opened: boolean;
  onClose: () => void;
  side?: 'bottom' | 'left' | 'full';
  title: string;
  children: ReactNode;
}

/** A panel over the page: Escape, Back and Close all leave it. */
export function Sheet({ opened, onClose, side = 'bottom', title, children }: SheetProps) {
  const ref = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = ref.current;
    if (!dialog) return;
    if (opened && !dialog.open) dialog.showModal();
    if (!opened && dialog.open) dialog.close();
  }, [opened]);
  useBack(opened, onClose);
  return (
    <dialog
      ref={ref}
      className={`sheet ${side}`}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      {opened && (
        <>
          <div className="sheet-head">
            <h2 id={id}>{title}</h2>
            <button type="button" className="icon" aria-label={w.close} onClick={onClose}>
              ✕
            </button>
          </div>
          <div className="sheet-body">{children}</div>
        </>
      )}
    </dialog>
  );
}

export function ProblemList({ problems }: { problems: Problem[] }) {
  return (
    <ul className="problems">
      {problems.map((problem) => (
        <li key={problem.at + problem.what}>
          {problem.at && <code>{problem.at}</code>} {problem.what}
          {problem.mend && <em> → {problem.mend}</em>}
        </li>
      ))}
    </ul>
  );
}

/** The engine's own sentences, with the members called as a person calls them. */
export function Words({ lines }: { lines: string[] }) {
  const job = useStore(jobOf);
  return (
    <>
      {[...new Set(lines)].map((text) => (
        <p key={text}>{job ? said(job, text) : text}</p>
      ))}
    </>
  );
}

/** What is not needed at once, behind its own line. */
export function Fold({ title, children }: { title: ReactNode; children: ReactNode }) {
  return (
    <details>
      <summary>{title}</summary>
      <div className="folded">{children}</div>
    </details>
  );
}

/** The mark's symbol for lists and buttons: the same shapes as on the plan. */
export function MarkSymbol({ tool, reads, percent }: { tool: string; reads?: string; percent?: number }) {
  const text =
    tool === 'meter'
      ? percent === undefined
        ? '%'
        : String(Math.round(percent))
      : tool === 'eye'
        ? (reads?.[0]?.toUpperCase() ?? '')
        : '';
  return (
    <svg className="symbol" viewBox="0 0 36 36" aria-hidden="true">
      {tool === 'awl' && <circle cx="18" cy="18" r="13" />}
      {tool === 'meter' && <rect x="2" y="6" width="32" height="24" rx="5" />}
      {tool === 'eye' && <path d="M18 2 34 18 18 34 2 18z" />}
      {reads === 'soft' && <path className="full" d="M6.5 18a11.5 11.5 0 0 0 23 0z" />}
      {reads === 'gone' && (
        <>
          <circle className="full" cx="18" cy="18" r="11.5" />
          <path className="cross" d="m13 13 10 10m0-10-10 10" />
        </>
      )}
      {text && (
        <text x="18" y="23.5" textAnchor="middle">
          {text}
        </text>
      )}
    </svg>
  );
}
