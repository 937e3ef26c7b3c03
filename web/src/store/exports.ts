// What leaves the page: the job as a file, everything as one ZIP, lists as CSV, days as iCalendar.
import type { Asked, Findings, Job, Paper, Problem } from '../engine/wire';
import { w } from '../words/en';
import { bare } from './asked';
import { fileStem, type Shelf } from './keep';
import { sha256Of } from './photos';
import { type Entry, NotAZip, unzipped, zipped } from './zip';

const text = (value: string) => new TextEncoder().encode(value);
const PHOTO = /^photos\/([0-9a-f]{64})\.jpg$/;

/** The job, its photos, and what only the page knows; papers too where they are made. */
export async function everything(job: Job, jobText: string, shelf: Shelf, papers: Paper[]): Promise<Blob> {
  const entries: Entry[] = [{ name: 'job.json', bytes: text(jobText) }];
  if (job.asked) entries.push({ name: 'page.json', bytes: text(JSON.stringify({ asked: job.asked })) });
  const hashes = new Set(job.photos.map((photo) => photo.sha256).filter((hash): hash is string => hash !== undefined));
  for (const hash of hashes) {
    const kept = await shelf.photos.get(hash);
    if (kept) entries.push({ name: `photos/${hash}.jpg`, bytes: new Uint8Array(await kept.blob.arrayBuffer()) });
  }
  for (const paper of papers) entries.push({ name: `papers/${paper.file}`, bytes: text(paper.html) });
  return zipped(entries);
}

export type Taken = { jobText: string; asked?: Asked; photos: number } | { problems: Problem[] };

/** Reads such a ZIP: photos whose hash does not fit their name are left out and said. */
export async function taken(bytes: Uint8Array, shelf: Shelf): Promise<Taken> {
  let entries: Entry[];
  try {
    entries = await unzipped(bytes);
  } catch (error) {
    const what = error instanceof NotAZip ? error.message : String(error);
    return { problems: [{ at: '', what: `${w.faults.zip}: ${what}`, mend: w.faults.zipMend }] };
  }
  const job = entries.find((entry) => entry.name === 'job.json');
  if (!job) return { problems: [{ at: 'job.json', what: w.faults.noJob, mend: w.faults.zipMend }] };
  let photos = 0;
  for (const entry of entries) {
    const hash = PHOTO.exec(entry.name)?.[1];
    if (!hash) continue;
    if ((await sha256Of(entry.bytes.slice().buffer)) !== hash)
      return { problems: [{ at: entry.name, what: w.faults.photoHash, mend: w.faults.zipMend }] };
    await shelf.photos.put({ sha256: hash, blob: new Blob([entry.bytes as BlobPart], { type: 'image/jpeg' }) });
    photos++;
  }
  return { jobText: new TextDecoder().decode(job.bytes), asked: askedOf(entries), photos };
}

function askedOf(entries: Entry[]): Asked | undefined {
  const page = entries.find((entry) => entry.name === 'page.json');
  if (!page) return undefined;
  try {
    const { asked } = JSON.parse(new TextDecoder().decode(page.bytes)) as { asked?: Record<string, unknown> };
    const known = Object.entries(asked ?? {}).filter(([card, how]) => card in w.cards && (how === 'answered' || how === 'unknown'));
    return Object.fromEntries(known) as Asked;
  } catch {
    return undefined;
  }
}

/** A cell that a spreadsheet would take for a formula is led by an apostrophe. */
function cell(value: string | number | undefined): string {
  const plain = value === undefined ? '' : String(value);
  const safe = typeof value === 'string' && /^[=+\-@\t\r]/.test(plain) ? `'${plain}` : plain;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

export function takeoffCsv(findings: Findings): string {
  const lines = (findings.takeoff?.lines ?? []).map((line) => [line.group, line.item, line.quantity, line.unit, line.from]);
  return [['group', 'item', 'quantity', 'unit', 'measured_from'], ...lines].map((row) => row.map(cell).join(',')).join('\r\n');
}

export function marksCsv(job: Job): string {
  const rows = job.marks.map((mark) => [
    mark.id,
    mark.layer ?? mark.support ?? mark.wall,
    mark.at_in?.[0],
    mark.at_in?.[1],
    mark.along_in,
    mark.plank,
    mark.tape_in,
    mark.from,
    mark.tool,
    mark.reads,
    mark.mc_percent,
    mark.depth_in,
    mark.time,
    mark.note,
  ]);
  const head = [
    'id',
    'on',
    'x_in',
    'y_in',
    'along_in',
    'plank',
    'tape_in',
    'from',
    'tool',
    'reads',
    'mc_percent',
    'depth_in',
    'time',
    'note',
  ];
  return [head, ...rows].map((row) => row.map(cell).join(',')).join('\r\n');
}

const folded = (line: string): string => line.replace(/(.{70})(?=.)/gu, '$1\r\n ');
const escaped = (value: string): string => value.replace(/[\\;,]/g, (c) => `\\${c}`).replace(/\r?\n/g, '\\n');

/** iCalendar (RFC 5545): the start, and the days by which it ends. Nothing without a start date. */
export function calendar(job: Job, findings: Findings, now: Date): string | undefined {
  const { work } = findings;
  const start = job.work?.start;
  if (!work || !start || !work.finish.p50) return undefined;
  const stamp = `${now.toISOString().replace(/[-:]|\.\d+/g, '')}`;
  const event = (id: string, date: string, summary: string, note: string) => [
    'BEGIN:VEVENT',
    `UID:${fileStem(job)}-${id}@awlmark`,
    `DTSTAMP:${stamp}`,
    `DTSTART;VALUE=DATE:${date.replaceAll('-', '')}`,
    `SUMMARY:${escaped(`${job.job.name}: ${summary}`)}`,
    `DESCRIPTION:${escaped(note)}`,
    'END:VEVENT',
  ];
  const holds = work.tasks.filter((task) => task.hold).map((task) => `${task.title}: ${task.hold}`);
  return [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Awlmark//page//EN',
    ...event('start', start, w.calendar.start, [w.calendar.holds, ...holds].join('\n')),
    ...event('likely', work.finish.p50, w.calendar.likely, w.calendar.likelyNote),
    ...event('late', work.finish.p80, w.calendar.late, w.calendar.lateNote),
    'END:VCALENDAR',
    '',
  ]
    .map(folded)
    .join('\r\n');
}

export function bareText(job: Job): string {
  return JSON.stringify(bare(job), null, 2);
}
