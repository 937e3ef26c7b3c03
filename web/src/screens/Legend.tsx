import { useEffect, useRef } from 'react';
import type { Question } from '../plan/field';
import { bands, cssOf, patternTile } from '../plan/ink';

const SAMPLES = [
  { p: 0.04, unsound: 'sound', wet: 'dry' },
  { p: 0.19, unsound: 'thin fog', wet: 'thin fog' },
  { p: 0.42, unsound: 'fog: not known', wet: 'fog: not known' },
  { p: 0.72, unsound: 'likely bad', wet: 'likely wet' },
  { p: 0.95, unsound: 'bad', wet: 'wet' },
];

function Sample({ p, question }: { p: number; question: Question }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const element = canvas.current;
    const ink = element?.getContext('2d');
    if (!element || !ink) return;
    const ratio = Math.min(3, window.devicePixelRatio || 1);
    element.width = 34 * ratio;
    element.height = 22 * ratio;
    ink.fillStyle = cssOf(question, p);
    ink.fillRect(0, 0, element.width, element.height);
    const band = bands.find((item) => p >= item.low && p < item.high);
    const pattern = band && ink.createPattern(patternTile(band.pattern, ratio), 'repeat');
    if (!pattern) return;
    ink.fillStyle = pattern;
    ink.fillRect(0, 0, element.width, element.height);
  }, [p, question]);
  return <canvas ref={canvas} className="sample" />;
}

export function Legend({ question }: { question: Question }) {
  return (
    <ul className="legend" aria-label="Legend">
      {SAMPLES.map((sample) => (
        <li key={sample.p}>
          <Sample p={sample.p} question={question} />
          {question === 'wet'
            ? sample.wet
            : question === 'gone'
              ? sample.unsound.replace('sound', 'not gone').replace('bad', 'gone')
              : sample.unsound}
        </li>
      ))}
      {question !== 'wet' && (
        <li>
          <svg className="sample" viewBox="0 0 34 22" aria-hidden="true">
            <path d="M1 16C10 2 22 20 33 6" fill="none" stroke="#0b5d3b" strokeWidth="3.5" />
          </svg>
          sound line, 19 in 20 (dashed: 4 in 5)
        </li>
      )}
    </ul>
  );
}
