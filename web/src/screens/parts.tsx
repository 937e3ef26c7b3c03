// Small parts that every screen uses.
import { Drawer } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Problem } from '../engine/wire';

interface ChoiceProps<T extends string> {
  label: string;
  value: T;
  options: { value: T; text: ReactNode }[];
  onChange: (value: T) => void;
}

/** One of a few, as broad buttons. */
export function Choice<T extends string>({ label, value, options, onChange }: ChoiceProps<T>) {
  return (
    <fieldset className="choice">
      <legend className="unseen">{label}</legend>
      {options.map((option) => (
        <button type="button" key={option.value} aria-pressed={option.value === value} onClick={() => onChange(option.value)}>
          {option.text}
        </button>
      ))}
    </fieldset>
  );
}

interface SheetProps {
  opened: boolean;
  onClose: () => void;
  position: 'bottom' | 'left';
  size: number | string;
  title: string;
  className?: string;
  children: ReactNode;
}

/** A panel over the page. Composed by hand: the library's ready drawer brings a second banner landmark. */
export function Sheet({ opened, onClose, position, size, title, className, children }: SheetProps) {
  return (
    <Drawer.Root opened={opened} onClose={onClose} position={position} size={size} classNames={{ content: className }}>
      <Drawer.Overlay />
      <Drawer.Content>
        <div className="sheet-head">
          <Drawer.Title>{title}</Drawer.Title>
          <Drawer.CloseButton size={56} iconSize={28} aria-label="Close" />
        </div>
        <Drawer.Body>{children}</Drawer.Body>
      </Drawer.Content>
    </Drawer.Root>
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

export function Words({ lines }: { lines: string[] }) {
  return (
    <>
      {lines.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </>
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
