// Marks as symbols: the outline says the tool (awl round, meter square, eye diamond), the inside says
// what it found. Black on white with a black edge, so they read on every ground.
import type { Mark } from '../engine/wire';

export const SYMBOL_PX = 12;

type Ink = CanvasRenderingContext2D;

function outline(ink: Ink, tool: Mark['tool'], x: number, y: number, r: number): void {
  ink.beginPath();
  if (tool === 'awl') ink.arc(x, y, r, 0, 2 * Math.PI);
  else if (tool === 'meter') ink.roundRect(x - r - 2, y - r + 1, 2 * r + 4, 2 * r - 2, 4);
  else {
    const d = r * 1.25;
    ink.moveTo(x, y - d);
    ink.lineTo(x + d, y);
    ink.lineTo(x, y + d);
    ink.lineTo(x - d, y);
    ink.closePath();
  }
}

function inAwl(ink: Ink, reads: Mark['reads'], x: number, y: number, r: number): void {
  if (reads === 'soft') {
    ink.beginPath();
    ink.arc(x, y, r - 1, 0, Math.PI);
    ink.fill();
  }
  if (reads === 'gone') {
    ink.beginPath();
    ink.arc(x, y, r - 1, 0, 2 * Math.PI);
    ink.fill();
    ink.strokeStyle = '#fff';
    ink.lineWidth = 2.5;
    ink.beginPath();
    const d = r * 0.45;
    ink.moveTo(x - d, y - d);
    ink.lineTo(x + d, y + d);
    ink.moveTo(x + d, y - d);
    ink.lineTo(x - d, y + d);
    ink.stroke();
  }
}

const LETTERS: Record<string, string> = { dry: 'D', stained: 'S', wet: 'W', growth: 'G', insects: 'I' };

export function drawMark(ink: Ink, mark: Mark, x: number, y: number, selected: boolean): void {
  const r = SYMBOL_PX;
  ink.save();
  if (selected) {
    outline(ink, mark.tool, x, y, r + 6);
    ink.fillStyle = '#ff8a1f';
    ink.fill();
  }
  outline(ink, mark.tool, x, y, r);
  ink.fillStyle = '#fff';
  ink.fill();
  ink.strokeStyle = '#000';
  ink.lineWidth = 2.5;
  ink.stroke();
  ink.fillStyle = '#000';
  ink.textAlign = 'center';
  ink.textBaseline = 'middle';
  ink.font = 'bold 13px system-ui, sans-serif';
  if (mark.tool === 'awl') inAwl(ink, mark.reads, x, y, r);
  else ink.fillText(mark.tool === 'meter' ? String(Math.round(mark.mc_percent ?? 0)) : (LETTERS[mark.reads ?? ''] ?? '?'), x, y + 1);
  ink.restore();
}
