// ZIP files of a job: written without compression (photos are compressed already), read also where
// another program has deflated them. Whatever does not hold to the format is refused, nothing guessed.

const CRC = (() => {
  const table = new Uint32Array(256);
  for (let n = 0; n < 256; n++) {
    let c = n;
    for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    table[n] = c >>> 0;
  }
  return table;
})();
export function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const byte of bytes) c = (CRC[(c ^ byte) & 255] as number) ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

export interface Entry {
  name: string;
  bytes: Uint8Array;
}

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const UTF8 = 0x0800;
const LOCAL_BYTES = 30;
const CENTRAL_BYTES = 46;
const END_BYTES = 22;

export function zipped(entries: Entry[]): Blob {
  const parts: Uint8Array[] = [];
  const central: Uint8Array[] = [];
  let offset = 0;
  for (const { name, bytes } of entries) {
    const label = new TextEncoder().encode(name);
    const crc = crc32(bytes);
    const local = new DataView(new ArrayBuffer(LOCAL_BYTES));
    local.setUint32(0, LOCAL, true);
    const entry = new DataView(new ArrayBuffer(CENTRAL_BYTES));
    entry.setUint32(0, CENTRAL, true);
    entry.setUint16(4, 20, true);
    // The fields that both headers share, two bytes further on in the central one.
    for (const [view, at] of [
      [local, 4],
      [entry, 6],
    ] as const) {
      view.setUint16(at, 20, true);
      view.setUint16(at + 2, UTF8, true);
      view.setUint16(at + 8, 0x21, true); // 1980-01-01: the same job gives the same file
      view.setUint32(at + 10, crc, true);
      view.setUint32(at + 14, bytes.length, true);
      view.setUint32(at + 18, bytes.length, true);
      view.setUint16(at + 22, label.length, true);
    }
    entry.setUint32(42, offset, true);
    parts.push(new Uint8Array(local.buffer), label, bytes);
    central.push(new Uint8Array(entry.buffer), label);
    offset += LOCAL_BYTES + label.length + bytes.length;
  }
  const size = central.reduce((sum, part) => sum + part.length, 0);
  const end = new DataView(new ArrayBuffer(END_BYTES));
  end.setUint32(0, END, true);
  end.setUint16(8, entries.length, true);
  end.setUint16(10, entries.length, true);
  end.setUint32(12, size, true);
  end.setUint32(16, offset, true);
  return new Blob([...parts, ...central, new Uint8Array(end.buffer)] as BlobPart[], { type: 'application/zip' });
}

const MOST_ENTRIES = 6000;
const MOST_BYTES = 400e6;

export class NotAZip extends Error {}

async function inflated(bytes: Uint8Array, size: number): Promise<Uint8Array> {
  const stream = new Blob([bytes as BlobPart]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const out = new Uint8Array(size);
  let at = 0;
  const reader = stream.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    // A file that says it is small and is not would fill the device.
    if (at + value.length > size) throw new NotAZip('an entry is longer than it says');
    out.set(value, at);
    at += value.length;
  }
  if (at !== size) throw new NotAZip('an entry is shorter than it says');
  return out;
}

export async function unzipped(file: Uint8Array): Promise<Entry[]> {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  let end = file.length - END_BYTES;
  while (end >= 0 && view.getUint32(end, true) !== END) end--;
  if (end < 0) throw new NotAZip('no directory at its end');
  const count = view.getUint16(end + 10, true);
  if (count > MOST_ENTRIES) throw new NotAZip(`${count} entries`);
  let at = view.getUint32(end + 16, true);
  let total = 0;
  const entries: Entry[] = [];
  for (let n = 0; n < count; n++) {
    if (at + CENTRAL_BYTES > file.length || view.getUint32(at, true) !== CENTRAL) throw new NotAZip('its directory is broken');
    const method = view.getUint16(at + 10, true);
    const crc = view.getUint32(at + 16, true);
    const packed = view.getUint32(at + 20, true);
    const size = view.getUint32(at + 24, true);
    const nameBytes = view.getUint16(at + 28, true);
    const name = new TextDecoder().decode(file.subarray(at + CENTRAL_BYTES, at + CENTRAL_BYTES + nameBytes));
    const local = view.getUint32(at + 42, true);
    at += CENTRAL_BYTES + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    total += size;
    if (total > MOST_BYTES) throw new NotAZip('more than 400 MB');
    if (local + LOCAL_BYTES > file.length || view.getUint32(local, true) !== LOCAL) throw new NotAZip(`${name} is not where it should be`);
    const from = local + LOCAL_BYTES + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    if (from + packed > file.length) throw new NotAZip(`${name} is cut off`);
    if (name.endsWith('/')) continue;
    const raw = file.subarray(from, from + packed);
    if (method !== 0 && method !== 8) throw new NotAZip(`${name} is packed in a way that is not read here`);
    const bytes = method === 8 ? await inflated(raw, size) : raw.slice();
    if (bytes.length !== size || crc32(bytes) !== crc) throw new NotAZip(`${name} is damaged`);
    entries.push({ name, bytes });
  }
  return entries;
}
