// The job's photos: small ones in a row, one of them large, with its caption and its place on the plan.
import { useEffect, useState } from 'react';
import type { Job, Photo } from '../engine/wire';
import { useRoom } from '../room/placing';
import { Shelf } from '../store/keep';
import { useStore } from '../store/store';
import { Field, Fold, Sheet } from '../ui/parts';
import { w } from '../words/en';
import { sayTime } from '../words/times';
import { markLine } from './words';

/** The picture's address while it is shown; undefined while it is read, null when this device does not hold it. */
function usePixels(sha256: string | undefined): string | null | undefined {
  const [address, setAddress] = useState<string | null | undefined>();
  useEffect(() => {
    let made: string | undefined;
    let gone = false;
    void new Shelf().photos.get(sha256 ?? '').then((kept) => {
      if (gone) return;
      made = kept && URL.createObjectURL(kept.blob);
      setAddress(made ?? null);
    });
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [sha256]);
  return address;
}

function nameOf(job: Job, photo: Photo): string {
  const mark = job.marks.find((item) => item.id === photo.mark);
  return photo.caption || (mark ? w.photos.ofMark(markLine(job, mark)) : photo.time ? sayTime(photo.time) : photo.id);
}

function Thumb({ job, photo, onOpen }: { job: Job; photo: Photo; onOpen: () => void }) {
  const address = usePixels(photo.sha256);
  return (
    <button type="button" className="thumb" aria-label={w.photos.open(nameOf(job, photo))} onClick={onOpen}>
      {address ? <img src={address} alt="" /> : <span aria-hidden="true">{address === null ? '?' : '…'}</span>}
    </button>
  );
}

/** Photos in a row; a touch shows one large. */
export function PhotoStrip({ job, photos }: { job: Job; photos: Photo[] }) {
  const [open, setOpen] = useState<string | undefined>();
  const photo = job.photos.find((item) => item.id === open);
  if (photos.length === 0) return null;
  return (
    <>
      <div className="thumbs">
        {photos.map((item) => (
          <Thumb key={item.id} job={job} photo={item} onOpen={() => setOpen(item.id)} />
        ))}
      </div>
      <Sheet opened={photo !== undefined} onClose={() => setOpen(undefined)} side="full" title={photo ? nameOf(job, photo) : ''}>
        {photo && <Large key={photo.id} job={job} photo={photo} onClose={() => setOpen(undefined)} />}
      </Sheet>
    </>
  );
}

function Large({ job, photo, onClose }: { job: Job; photo: Photo; onClose: () => void }) {
  const perform = useStore((state) => state.perform);
  const onPlace = useRoom((state) => state.onPlace);
  const address = usePixels(photo.sha256);
  const [caption, setCaption] = useState(photo.caption ?? '');
  const mark = job.marks.find((item) => item.id === photo.mark);
  return (
    <div className="large-photo">
      {address ? <img src={address} alt={nameOf(job, photo)} /> : <p>{address === null ? w.photos.missing : '…'}</p>}
      <p className="quiet">
        {mark ? w.photos.ofMark(markLine(job, mark)) : ''} {photo.time ? sayTime(photo.time) : ''}
      </p>
      <Field label={w.photos.caption} value={caption} maxLength={300} onChange={setCaption} />
      <div className="pair">
        <button
          type="button"
          className="main"
          onClick={() => {
            perform('changePhoto', { photo: { ...photo, caption: caption.trim() || undefined } });
            onClose();
          }}
        >
          {w.photos.save}
        </button>
        {!mark && (
          <button
            type="button"
            onClick={() => {
              onClose();
              onPlace((at) => {
                onPlace(undefined);
                perform('changePhoto', { photo: { ...photo, at_in: [Math.round(at[0]), Math.round(at[1])] } });
              });
            }}
          >
            {w.photos.pin}
          </button>
        )}
        <button
          type="button"
          className="danger"
          onClick={() => {
            perform('removePhoto', { id: photo.id });
            onClose();
          }}
        >
          {w.photos.remove}
        </button>
      </div>
    </div>
  );
}

/** All photos of the job, newest first. */
export function Gallery({ job }: { job: Job }) {
  return (
    <Fold title={w.photos.title(job.photos.length)}>
      {job.photos.length === 0 && <p>{w.photos.none}</p>}
      <PhotoStrip job={job} photos={[...job.photos].reverse()} />
    </Fold>
  );
}
