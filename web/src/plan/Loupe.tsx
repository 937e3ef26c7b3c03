// The spot under the finger, enlarged, with keys that nudge it: the sheet hides the plan, not the spot.
import { useEffect, useRef } from 'react';
import type { Point } from '../engine/wire';
import { useStore } from '../store/store';
import { w } from '../words/en';
import { draw } from './draw';

const SIDE_PX = 132;
const INCHES_SEEN = 26;
export const NUDGE_IN = 0.5;

export function Loupe({ at }: { at: Point }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { history, survey, shown, question, counted, below } = useStore();
  const job = history?.job;
  useEffect(() => {
    const element = canvas.current;
    const ink = element?.getContext('2d');
    if (!element || !ink || !job) return;
    const ratio = Math.min(3, window.devicePixelRatio || 1);
    element.width = SIDE_PX * ratio;
    element.height = SIDE_PX * ratio;
    const scale = SIDE_PX / INCHES_SEEN;
    draw(ink, {
      job,
      survey: survey?.findings.survey,
      surveyed: survey?.job,
      stage: 'survey',
      counted,
      shown,
      question,
      ratio,
      size: { width_px: SIDE_PX, height_px: SIDE_PX },
      view: { scale, x_px: SIDE_PX / 2 - (below ? -1 : 1) * scale * at[0], y_px: SIDE_PX / 2 + scale * at[1], flip: below },
      spot: at,
    });
  });
  return <canvas className="loupe" ref={canvas} role="img" aria-label={w.loupe} style={{ width: SIDE_PX, height: SIDE_PX }} />;
}

/** Keys that move the spot the way they point on the screen, also on the mirrored plan. */
export function Nudge({ onNudge }: { onNudge: (by: Point) => void }) {
  const below = useStore((state) => state.below);
  const way = below ? -1 : 1;
  const keys: [string, string, Point][] = [
    ['←', w.nudge.left, [-NUDGE_IN * way, 0]],
    ['↑', w.nudge.up, [0, NUDGE_IN]],
    ['↓', w.nudge.down, [0, -NUDGE_IN]],
    ['→', w.nudge.right, [NUDGE_IN * way, 0]],
  ];
  return (
    <div className="nudge">
      {keys.map(([arrow, name, by]) => (
        <button type="button" key={arrow} aria-label={name} onClick={() => onNudge(by)}>
          {arrow}
        </button>
      ))}
    </div>
  );
}
