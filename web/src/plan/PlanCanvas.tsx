// The canvas as a thin view: fingers become taps and a moved window; drawing is draw.ts.
import { useGesture } from '@use-gesture/react';
import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Job, Point } from '../engine/wire';
import type { Shown } from '../store/store';
import { draw, type Picture } from './draw';
import { type Box, boxOf, fitted, type Pixel, panned, type Size, toPlan, type View, zoomed } from './view';

interface Props extends Omit<Picture, 'view' | 'size' | 'ratio'> {
  /** what a screen reader says */
  label: string;
  onTap: (at: Point, inchesAFinger: number) => void;
}

const MARK_REACH_IN = 24;
const MARGIN_PX = 36;

/** The room; with the framing shown, also what of it reaches past the walls, as far as marks may lie. */
function shownBox(job: Job, shown: Shown): Box {
  const room = boxOf(job.room.outline_in);
  if (shown.kind !== 'supports') return room;
  const ends = job.supports.flatMap((support) => [support.from_in, support.to_in]);
  return boxOf([
    room.min,
    room.max,
    ...ends.map(
      ([x, y]): Point => [
        Math.min(room.max[0] + MARK_REACH_IN, Math.max(room.min[0] - MARK_REACH_IN, x)),
        Math.min(room.max[1] + MARK_REACH_IN, Math.max(room.min[1] - MARK_REACH_IN, y)),
      ],
    ),
  ]);
}

const FINGER_PX = 28;

export function PlanCanvas({ label, onTap, ...picture }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<Size>({ width_px: 0, height_px: 0 });
  const [moved, setMoved] = useState<View | undefined>();
  const view = moved ?? fitted(shownBox(picture.job, picture.shown), size, MARGIN_PX);
  const held = useRef(view);
  held.current = view;
  // Several events may come before the next picture: each goes on from the one before it.
  const move = (next: View) => {
    held.current = next;
    setMoved(next);
  };

  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = () => setSize({ width_px: element.clientWidth, height_px: element.clientHeight });
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  useEffect(() => {
    const element = canvas.current;
    const ink = element?.getContext('2d');
    if (!element || !ink || size.width_px === 0) return;
    const ratio = Math.min(3, window.devicePixelRatio || 1);
    element.width = Math.round(size.width_px * ratio);
    element.height = Math.round(size.height_px * ratio);
    draw(ink, { ...picture, view, size, ratio });
  });

  const pixelOf = useCallback((x: number, y: number): Pixel => {
    const box = canvas.current?.getBoundingClientRect();
    return { x: x - (box?.left ?? 0), y: y - (box?.top ?? 0) };
  }, []);

  // On the element itself: React's own touch listeners are passive and could not prevent the click.
  useGesture(
    {
      onDrag: ({ tap, pinching, cancel, event, delta: [dx, dy], xy: [x, y] }) => {
        if (pinching) return cancel();
        if (tap) {
          // Or the click that the browser makes of this touch would land on the sheet that opens, and close it.
          if (event.type.startsWith('touch') && event.cancelable) event.preventDefault();
          return onTap(toPlan(held.current, pixelOf(x, y)), FINGER_PX / held.current.scale);
        }
        if (dx !== 0 || dy !== 0) move(panned(held.current, dx, dy));
      },
      onPinch: ({ origin: [x, y], delta: [ds], offset: [scale] }) => {
        // `delta` is the change of the gesture's own scale: as a factor it does not depend on where it started.
        if (ds !== 0) move(zoomed(held.current, scale / (scale - ds), pixelOf(x, y)));
      },
      onWheel: ({ event, delta: [, dy] }) => {
        if (dy !== 0) move(zoomed(held.current, Math.exp(-dy / 400), pixelOf(event.clientX, event.clientY)));
      },
    },
    {
      target: canvas,
      eventOptions: { passive: false },
      drag: { filterTaps: true, pointer: { touch: true } },
      pinch: { scaleBounds: { min: 0.05, max: 50 } },
    },
  );

  const middle: Pixel = { x: size.width_px / 2, y: size.height_px / 2 };
  return (
    <div className="plan" ref={frame}>
      <canvas ref={canvas} role="img" aria-label={label} data-scale={view.scale.toFixed(4)} data-x={view.x_px} data-y={view.y_px} />
      <div className="zoom">
        <button type="button" aria-label="Closer" onClick={() => setMoved(zoomed(view, 1.5, middle))}>
          +
        </button>
        <button type="button" aria-label="Farther" onClick={() => setMoved(zoomed(view, 1 / 1.5, middle))}>
          −
        </button>
        <button type="button" aria-label="Whole room" onClick={() => setMoved(undefined)}>
          ▣
        </button>
      </div>
    </div>
  );
}
