// The canvas as a thin view: fingers become taps and a moved window; drawing is draw.ts. The canvas
// keeps its size and its window while messages come and go: they lie over it.
import { useGesture } from '@use-gesture/react';
import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Job, Point } from '../engine/wire';
import { w } from '../words/en';
import { draw, type Picture } from './draw';
import type { Theme } from './ink';
import { membersOf } from './members';
import { type Box, boxOf, fitted, type Margins, type Pixel, panned, type Size, toPlan, type View, zoomed } from './view';

interface Props extends Omit<Picture, 'view' | 'size' | 'ratio'> {
  /** what a screen reader says */
  label: string;
  below: boolean;
  theme: Theme;
  margins: Margins;
  onTap: (at: Point, inchesAFinger: number) => void;
}

/** How far past the walls the ends of members are kept in sight. */
const ENDS_IN = 8;
const FINGER_PX = 28;
/** On a low canvas what lies over it has less room, so that the plan keeps some. */
function withinOf(margins: Margins, { height_px }: Size): Margins {
  if (height_px < 300) return { ...margins, top: 34, bottom: Math.min(72, margins.bottom) };
  return height_px < 460 ? { ...margins, top: 44, bottom: Math.min(142, margins.bottom) } : margins;
}

/** The room and the ends of its members: the same box whatever layer is shown, so that choosing one moves nothing. */
function shownBox({ job, walk }: { job: Job; walk?: Point[] }): Box {
  const points = walk ?? job.room.outline_in;
  // An empty sheet is a room of usual size, so that the first wall does not fill it.
  if (points.length < 3) return boxOf([[0, 0], [96, 72], ...points]);
  const room = boxOf(points);
  if (walk) return room;
  const ends = membersOf(job).flatMap((support) => [support.from_in, support.to_in]);
  const reach = (k: 0 | 1, value: number) => Math.min(room.max[k] + ENDS_IN, Math.max(room.min[k] - ENDS_IN, value));
  return boxOf([room.min, room.max, ...ends.map(([x, y]): Point => [reach(0, x), reach(1, y)])]);
}

export function PlanCanvas({ label, onTap, below, theme, margins, ...picture }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<Size>({ width_px: 0, height_px: 0 });
  const [moved, setMoved] = useState<View | undefined>();
  const whole = fitted(shownBox(picture), size, withinOf(margins, size), below);
  const view = moved && (moved.flip ?? false) === below && !picture.walk ? moved : whole;
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
    <div className="plan" ref={frame} data-theme-drawn={theme}>
      <canvas
        ref={canvas}
        role="img"
        aria-label={label}
        data-scale={view.scale.toFixed(4)}
        data-x={view.x_px}
        data-y={view.y_px}
        data-flip={view.flip ? 1 : 0}
      />
      <div className="zoom">
        <button type="button" aria-label={w.closer} onClick={() => setMoved(zoomed(view, 1.5, middle))}>
          +
        </button>
        <button type="button" aria-label={w.farther} onClick={() => setMoved(zoomed(view, 1 / 1.5, middle))}>
          −
        </button>
        <button type="button" aria-label={w.wholeRoom} onClick={() => setMoved(undefined)}>
          ▣
        </button>
      </div>
    </div>
  );
}
