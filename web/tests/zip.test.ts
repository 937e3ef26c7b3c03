// Files that leave and come back: the ZIP against another program's reader, hostile ones, CSV, iCalendar.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { Findings, Job } from '../src/engine/wire';
import { calendar, marksCsv } from '../src/store/exports';
import { crc32, unzipped, zipped } from '../src/store/zip';

const bytes = (text: string) => new TextEncoder().encode(text);
const entries = [
  { name: 'job.json', bytes: bytes('{"a": 1}') },
  { name: 'photos/ä.jpg', bytes: new Uint8Array([0, 255, 7]) },
];

describe('zip', () => {
  it('has the checksum of the format', () => {
    expect(crc32(bytes('123456789'))).toBe(0xcbf43926);
  });
  it('gives back what it took', async () => {
    const file = new Uint8Array(await zipped(entries).arrayBuffer());
    expect(await unzipped(file)).toEqual(entries);
  });
  it("is read by Python's own zipfile, and reads what that deflates", async () => {
    const dir = mkdtempSync(join(tmpdir(), 'awlmark-zip-'));
    try {
      const path = join(dir, 'a.zip');
      writeFileSync(path, new Uint8Array(await zipped(entries).arrayBuffer()));
      const said = execFileSync(
        'python3',
        [
          '-c',
          'import sys,zipfile;z=zipfile.ZipFile(sys.argv[1]);assert z.testzip() is None;print(z.namelist(), z.read("job.json"))',
          path,
        ],
        { encoding: 'utf8' },
      );
      expect(said).toContain('photos/ä.jpg');
      expect(said).toContain('{"a": 1}');
      execFileSync('python3', [
        '-c',
        'import sys,zipfile;z=zipfile.ZipFile(sys.argv[1],"w",zipfile.ZIP_DEFLATED);z.writestr("job.json","x"*5000)',
        path,
      ]);
      const [entry] = await unzipped(new Uint8Array(readFileSync(path)));
      expect(entry?.bytes.length).toBe(5000);
    } finally {
      rmSync(dir, { recursive: true });
    }
  });
  it('refuses what is damaged, cut off, or larger than it says', async () => {
    const file = new Uint8Array(await zipped(entries).arrayBuffer());
    const flipped = file.slice();
    flipped[40] = (flipped[40] as number) ^ 1;
    await expect(unzipped(flipped)).rejects.toThrow(/damaged/);
    await expect(unzipped(file.slice(0, 50))).rejects.toThrow(/directory/);
    await expect(unzipped(new Uint8Array(0))).rejects.toThrow();
    // A bomb: the directory says 10 bytes, the stream holds a million.
    const packed = deflateRawSync(new Uint8Array(1e6));
    const bomb = new Uint8Array(await zipped([{ name: 'job.json', bytes: packed }]).arrayBuffer());
    const view = new DataView(bomb.buffer);
    const central = bomb.length - 22 - 46 - 8;
    view.setUint16(central + 10, 8, true);
    view.setUint32(central + 24, 10, true);
    await expect(unzipped(bomb)).rejects.toThrow(/longer than it says/);
  });
});

describe('lists', () => {
  const job = {
    job: { name: 'A, B; C' },
    work: { start: '2026-05-11' },
    marks: [{ id: 'm1', layer: 'deck', at_in: [1, 2], tool: 'awl', reads: 'soft', note: '=HYPERLINK("x")' }],
  } as unknown as Job;
  it('never hands a spreadsheet a formula', () => {
    const csv = marksCsv(job);
    expect(csv.split('\r\n')[1]).toContain('"\'=HYPERLINK(""x"")"');
    expect(csv.split('\r\n')[1]).toContain('m1,deck,1,2,');
  });
  it('writes days as iCalendar wants them', () => {
    const findings = {
      work: { tasks: [{ title: 'Flood test', hold: 'it holds water' }], finish: { p50: '2026-05-20', p80: '2026-05-22' } },
    } as unknown as Findings;
    const text = calendar(job, findings, new Date('2026-05-04T09:00:00Z')) ?? '';
    expect(text.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0')).toBe(true);
    expect(text).toContain('DTSTART;VALUE=DATE:20260511');
    expect(text).toContain('SUMMARY:A\\, B\\; C: work starts');
    expect(text.split('\r\n').every((line) => line.length <= 75)).toBe(true);
    expect(calendar({ ...job, work: undefined } as Job, findings, new Date())).toBeUndefined();
  });
});
