// Big keys for lengths as people say them: 7' 4 1/2", 88, 7-4-1/2. No keyboard slides over the plan.

import { w } from '../words/en';
import { formatLength, parseLength } from '../words/lengths';

const KEYS = ['7', '8', '9', "'", '4', '5', '6', '"', '1', '2', '3', '½', '0', '.', '¼', '¾'] as const;
const FRACTIONS: Record<string, string> = { '½': '1/2', '¼': '1/4', '¾': '3/4' };

/** The text after a key: a fraction stands apart from the whole inches before it. */
export function pressed(text: string, key: string): string {
  const fraction = FRACTIONS[key];
  if (!fraction) return text + key;
  return /\d$/.test(text) ? `${text} ${fraction}` : text + fraction;
}

interface Props {
  value: string;
  onChange: (value: string) => void;
  /** only digits: a count, a year, a percentage */
  plain?: boolean;
}

export function LengthPad({ value, onChange, plain }: Props) {
  const keys = plain ? KEYS.filter((key) => /[\d.]/.test(key)) : KEYS;
  return (
    <fieldset className={plain ? 'pad plain' : 'pad'} aria-label={w.pad}>
      {keys.map((key) => (
        <button type="button" key={key} aria-label={w.keyNames[key] ?? key} onClick={() => onChange(pressed(value, key))}>
          {key}
        </button>
      ))}
      <button type="button" aria-label={w.keyNames.back} onClick={() => onChange(value.slice(0, -1))}>
        ⌫
      </button>
      <button type="button" aria-label={w.keyNames.clear} onClick={() => onChange('')}>
        C
      </button>
    </fieldset>
  );
}

/** A length as typed and as read. */
export function Typed({ value, label }: { value: string; label: string }) {
  const inches = parseLength(value);
  return (
    <p className="typed">
      <span>{label}</span> <b>{value || '—'}</b>
      {value !== '' && <small>{inches === undefined ? w.notALength : `= ${formatLength(inches)}`}</small>}
    </p>
  );
}
