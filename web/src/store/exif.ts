// Where a photo was taken, as the camera wrote it (EXIF 2.3, TIFF 6.0: the GPS directory). Read only when
// the person keeps places on purpose; what is kept of a photo otherwise holds pixels alone.

interface Reader {
  view: DataView;
  base: number;
  little: boolean;
}

/** The EXIF block of a JPEG; nothing in any other file. */
function exifOf(bytes: ArrayBuffer): Reader | undefined {
  const view = new DataView(bytes);
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return undefined;
  let at = 2;
  while (at + 10 < view.byteLength) {
    const marker = view.getUint16(at);
    const size = view.getUint16(at + 2);
    if ((marker & 0xff00) !== 0xff00 || marker === 0xffda || size < 2) return undefined;
    if (marker === 0xffe1 && view.getUint32(at + 4) === 0x45786966) {
      const base = at + 10;
      return base + 8 <= view.byteLength ? { view, base, little: view.getUint16(base) === 0x4949 } : undefined;
    }
    at += 2 + size;
  }
  return undefined;
}

/** Entries of one directory by tag, each with where its value stands. */
function directory({ view, base, little }: Reader, offset: number): Map<number, number> {
  const entries = new Map<number, number>();
  const count = view.getUint16(base + offset, little);
  for (let i = 0; i < count; i++) {
    const at = base + offset + 2 + 12 * i;
    entries.set(view.getUint16(at, little), at + 8);
  }
  return entries;
}

const GPS = 0x8825;
const TAGS = { southNorth: 1, latitude: 2, westEast: 3, longitude: 4 };

function degrees({ view, base, little }: Reader, at: number): number {
  const from = base + view.getUint32(at, little);
  const part = (i: number) => view.getUint32(from + 8 * i, little) / (view.getUint32(from + 8 * i + 4, little) || 1);
  return part(0) + part(1) / 60 + part(2) / 3600;
}

/** Latitude and longitude in degrees, north and east positive. */
export function takenAt(bytes: ArrayBuffer): [number, number] | undefined {
  try {
    const reader = exifOf(bytes);
    if (!reader) return undefined;
    const { view, base, little } = reader;
    const gps = directory(reader, view.getUint32(base + 4, little)).get(GPS);
    if (gps === undefined) return undefined;
    const entries = directory(reader, view.getUint32(gps, little));
    const [latitude, longitude] = [entries.get(TAGS.latitude), entries.get(TAGS.longitude)];
    if (latitude === undefined || longitude === undefined) return undefined;
    const letter = (tag: number) => String.fromCharCode(view.getUint8(entries.get(tag) ?? 0));
    const place: [number, number] = [
      degrees(reader, latitude) * (letter(TAGS.southNorth) === 'S' ? -1 : 1),
      degrees(reader, longitude) * (letter(TAGS.westEast) === 'W' ? -1 : 1),
    ];
    return place.every(Number.isFinite) ? place : undefined;
  } catch {
    // A block that ends too early says nothing.
    return undefined;
  }
}
