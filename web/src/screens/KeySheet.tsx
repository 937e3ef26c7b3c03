// What the colours and signs on the plan say, and which question they answer.
import { useEffect, useRef } from 'react';
import type { Question } from '../plan/field';
import { bands, cssOf, foggedOf, ink, patternTile, type Theme } from '../plan/ink';
import { useStore } from '../store/store';
import { Choice, MarkSymbol, Sheet } from '../ui/parts';
import { w } from '../words/en';

const SAMPLES = [
  { p: 0.04, name: 'low' },
  { p: 0.3, name: 'fog' },
  { p: 0.72, name: 'likely' },
  { p: 0.95, name: 'high' },
] as const;

function Sample({ p, question, fog, theme }: { p: number; question: Question; fog: boolean; theme: Theme }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme changes what ink() answers
  useEffect(() => {
    const element = canvas.current;
    const pen = element?.getContext('2d');
    if (!element || !pen) return;
    const ratio = Math.min(3, window.devicePixelRatio || 1);
    element.width = 44 * ratio;
    element.height = 30 * ratio;
    pen.fillStyle = fog ? `rgb(${foggedOf(question, p, 0).join(' ')})` : cssOf(question, p);
    pen.fillRect(0, 0, element.width, element.height);
    const found = bands.find((item) => p >= item.low && p < item.high);
    const pattern = found && pen.createPattern(patternTile(found.pattern, ratio), 'repeat');
    if (!pattern) return;
    pen.fillStyle = pattern;
    pen.fillRect(0, 0, element.width, element.height);
  }, [p, question, fog, theme]);
  return <canvas ref={canvas} className="sample" />;
}

const MARKS = [
  { tool: 'awl', reads: 'sound' },
  { tool: 'awl', reads: 'soft' },
  { tool: 'awl', reads: 'gone' },
  { tool: 'meter', percent: 18 },
  { tool: 'eye', reads: 'stained' },
] as const;

export function KeySheet({ opened, onClose, theme }: { opened: boolean; onClose: () => void; theme: Theme }) {
  const { question, ask } = useStore();
  return (
    <Sheet opened={opened} onClose={onClose} title={w.keyTitle}>
      <Choice
        label={w.questionShown}
        value={question}
        options={(['unsound', 'gone', 'wet'] as const).map((value) => ({ value, text: w.questions[value] }))}
        onChange={ask}
      />
      <ul className="legend" aria-label={w.legend}>
        {SAMPLES.map((sample) => (
          <li key={sample.name}>
            <Sample p={sample.p} question={question} fog={sample.name === 'fog'} theme={theme} />
            {w.bands[question][sample.name]}
          </li>
        ))}
        {question !== 'wet' && (
          <li>
            <svg className="sample" viewBox="0 0 44 30" aria-hidden="true">
              <path d="M1 22C14 2 28 26 43 8" fill="none" stroke={ink().sound} strokeWidth="4" />
            </svg>
            {w.soundLineMeans}
          </li>
        )}
        <li>
          <svg className="sample" viewBox="0 0 44 30" aria-hidden="true">
            <rect x="9" y="3" width="26" height="24" fill="none" stroke={ink().opening} strokeWidth="3.5" strokeDasharray="7 4" />
          </svg>
          {w.squareMeans}
        </li>
        {MARKS.map((mark) => (
          <li key={`${mark.tool} ${'reads' in mark ? mark.reads : ''}`}>
            <MarkSymbol
              tool={mark.tool}
              reads={'reads' in mark ? mark.reads : undefined}
              percent={'percent' in mark ? mark.percent : undefined}
            />
            {w.markMeans['reads' in mark ? mark.reads : 'meter']}
          </li>
        ))}
        <li>{w.otherMarks}</li>
      </ul>
    </Sheet>
  );
}
