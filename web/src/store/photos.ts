// Photos: made smaller, with nothing left in them of where and with what they were taken, and kept by
// the hash of what is kept. The document names the hash; the pixels stay in this browser's database.

import type { Job, Photo } from '../engine/wire';
import { w } from '../words/en';
import { stamp } from '../words/times';
import { takenAt } from './exif';
import { idFor, type Shelf } from './keep';

const LONGEST_PX = 1600;
const QUALITY = 0.82;

export async function sha256Of(bytes: ArrayBuffer): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Drawn anew: the file that comes out holds pixels only, no place, no device, no time. */
export async function smaller(file: Blob): Promise<Blob> {
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, LONGEST_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/jpeg', QUALITY),
  );
}

export interface Shelved {
  sha256: string;
  /** where it was taken, in words: only where the person keeps places on purpose */
  place?: string;
}
export async function shelve(shelf: Shelf, file: Blob): Promise<Shelved> {
  const blob = await smaller(file);
  const sha256 = await sha256Of(await blob.arrayBuffer());
  await shelf.photos.put({ sha256, blob });
  const at = keepsPlaces() ? takenAt(await file.arrayBuffer()) : undefined;
  return { sha256, ...(at ? { place: `${at[0].toFixed(5)}, ${at[1].toFixed(5)}` } : {}) };
}

const PLACES = 'awlmark.photo places';
export const keepsPlaces = (): boolean => typeof localStorage !== 'undefined' && localStorage.getItem(PLACES) === 'kept';
export function keepPlaces(keep: boolean): void {
  localStorage.setItem(PLACES, keep ? 'kept' : 'stripped');
}

export function photoOf(job: Job, { sha256, place }: Shelved, pinned: Pick<Photo, 'mark' | 'at_in' | 'caption'>): Photo {
  const caption = [pinned.caption, place && `${w.takenAt} ${place}`].filter(Boolean).join('. ');
  return { id: idFor(job.photos, 'p'), sha256, time: stamp(new Date()), ...pinned, ...(caption ? { caption } : {}) };
}

/** Asks for a picture: the camera on a phone, a file elsewhere. */
export function takePicture(): Promise<File | undefined> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = 'image/*';
    input.setAttribute('capture', 'environment');
    input.addEventListener('change', () => resolve(input.files?.[0]));
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}
