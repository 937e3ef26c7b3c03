// Lengths as people write them, in feet, inches and sixteenths: the same forms as
// engine/base/length.hpp reads and writes (tests/lengths.test.ts holds the two against each other).

const KINDS: [RegExp, number][] = [
  [/^mm/, 1 / 25.4],
  [/^cm/, 1 / 2.54],
  [/^m/, 1 / 0.0254],
];
const MIXED = /^(?:(\d+(?:\.\d*)?|\.\d+)\s*\/\s*(\d+)|(\d+(?:\.\d*)?|\.\d+)(?:(?:-|\s+)(\d+)\/(\d+))?)/;
const FEET = /^\s*(?:'(?!')|\u2032|feet|foot|ft\.|ft)/;
const INCHES = /^\s*(?:"|\u2033|''|inches|inch|in\.|in)/;
const LONGEST_IN = 1e6;

// "4", "4.5", "1/2", "4 1/2" or "4-1/2" at the start of the text, and what follows it.
function mixed(text: string): { value: number; rest: string } | undefined {
  const found = MIXED.exec(text);
  if (!found) return undefined;
  const [whole, above, below, alone, top, under] = found;
  const rest = text.slice(whole.length);
  if (above !== undefined) return Number(below) > 0 ? { value: Number(above) / Number(below), rest } : undefined;
  if (top === undefined) return { value: Number(alone), rest };
  if (Number(under) === 0 || Number(top) >= Number(under)) return undefined;
  return { value: Number(alone) + Number(top) / Number(under), rest };
}

function unsigned(text: string): number | undefined {
  const first = mixed(text);
  if (!first) return undefined;
  const unit = first.rest.trimStart();
  for (const [pattern, scale] of KINDS)
    if (pattern.test(unit)) return unit.replace(pattern, '').trim() === '' ? first.value * scale : undefined;
  const feet = FEET.test(first.rest);
  let rest = first.rest.replace(FEET, '').trimStart();
  const dash = rest.startsWith('-');
  if (dash) rest = rest.slice(1).trimStart();
  if (!feet && !dash) return first.rest.replace(INCHES, '').trim() === '' ? first.value : undefined;
  if (rest === '') return dash ? undefined : first.value * 12;
  const inches = mixed(rest);
  if (!inches || inches.value >= 12 || inches.rest.replace(INCHES, '').trim() !== '') return undefined;
  return first.value * 12 + inches.value;
}

/** Inches, or undefined when the text is not a length. `7-4 1/2` is seven feet, four and a half inches. */
export function parseLength(text: string): number | undefined {
  const trimmed = text.trim();
  const minus = /^[-\u2212]/.test(trimmed);
  const value = unsigned(minus ? trimmed.slice(1).trimStart() : trimmed);
  if (value === undefined || !(value <= LONGEST_IN)) return undefined;
  return minus ? -value : value;
}

function inchesText(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16);
  let top = sixteenths % 16;
  if (top === 0) return `${whole}"`;
  let under = 16;
  while (top % 2 === 0) {
    top /= 2;
    under /= 2;
  }
  return whole === 0 ? `${top}/${under}"` : `${whole} ${top}/${under}"`;
}

/** Feet, inches and sixteenths: 88.5 is 7' 4 1/2". */
export function formatLength(length_in: number): string {
  if (!(Math.abs(length_in) <= LONGEST_IN)) return '?';
  const total = Math.round(Math.abs(length_in) * 16);
  const sign = length_in < 0 && total > 0 ? '-' : '';
  const feet = Math.floor(total / 192);
  return sign + (feet === 0 ? '' : `${feet}' `) + inchesText(total % 192);
}

/** A finger is not finer than half an inch. */
export function roundToFinger(length_in: number): number {
  return Math.round(length_in * 2) / 2;
}
