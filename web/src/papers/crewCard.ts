// The crew card: one printed page for the hand that cuts. What must be true first, the plan with its saw
// lines and shores, the cuts in order, the sticks. Whatever does not fit one page is counted and stands on
// the crew sheet; no caution is ever among what is left out.
import type { Findings, Job, Paper, Point } from '../engine/wire';
import { acrossOf, membersOf, numbered, runsOf } from '../plan/members';
import { heldName, layerName, wallName } from '../plan/names';
import { said } from '../plan/said';
import { boxOf } from '../plan/view';
import { cardsDue } from '../store/gates';
import { w } from '../words/en';
import { formatLength } from '../words/lengths';
import { sayDay } from '../words/times';

const safe = (text: string) => text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c] ?? c);
type Edge = NonNullable<Findings['cut_back']>['edges'][number];

/** Saw cuts only: along a wall or a seam nothing is sawn. Longest first within a layer, the layers from the top down. */
export function sawCuts(job: Job, findings: Findings): Edge[] {
  const order = new Map(job.layers.map((layer, i) => [layer.id, i]));
  return (findings.cut_back?.edges ?? [])
    .filter((edge) => edge.kind !== 'at_wall' && edge.kind !== 'seam')
    .sort((a, b) => (order.get(a.layer) ?? 99) - (order.get(b.layer) ?? 99) || b.length_in - a.length_in);
}

/** As many as one letter page holds beside the longest cautions. */
const MOST = { cuts: 10, shores: 5, sticks: 5, holds: 3 };

export function crewCard(job: Job, findings: Findings): Paper {
  const cuts = sawCuts(job, findings);
  const title = w.card.title;
  const parts = [
    `<h1>${safe(job.job.name || w.unnamed)}</h1><p class="sub">${safe([title, job.job.address ?? '', job.work?.start ? w.card.starts(sayDay(job.work.start)) : ''].filter(Boolean).join(' · '))}</p>`,
    due(job, findings),
    `<div class="cols"><div>${drawing(job, findings, cuts)}</div><div>${listOf(
      w.card.cuts,
      cuts.map((edge, i) => cutLine(job, edge, i)),
      MOST.cuts,
    )}</div></div>`,
    `<div class="cols">${column(w.card.shores, shores(job, findings), MOST.shores)}${column(w.card.sticks, sticks(findings), MOST.sticks)}${column(w.card.holds, holds(findings), MOST.holds)}</div>`,
    `<p class="foot">${safe(w.card.foot)}</p>`,
  ];
  return {
    file: 'crew-card.html',
    title,
    html: `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>${safe(`${job.job.name} ${title}`)}</title><style>${STYLE}</style></head><body><main>${parts.join('')}</main></body></html>`,
  };
}

function due(job: Job, findings: Findings): string {
  const cards = cardsDue(job, findings, 'cutting');
  if (cards.length === 0) return '';
  return `<section class="due"><h2>${safe(w.card.first)}</h2><ul>${cards.map((card) => `<li>${safe(said(job, card.text))}</li>`).join('')}</ul></section>`;
}

const column = (head: string, lines: string[], most: number) => `<div>${listOf(head, lines, most)}</div>`;

function listOf(head: string, lines: string[], most: number): string {
  const rest = lines.length - most;
  const shown = lines.slice(0, most).map((line) => `<li>${safe(line)}</li>`);
  if (rest > 0) shown.push(`<li class="more">${safe(w.card.more(rest))}</li>`);
  return `<h2>${safe(head)}</h2>${lines.length === 0 ? `<p>${safe(w.none)}</p>` : `<ol>${shown.join('')}</ol>`}`;
}

function cutLine(job: Job, edge: Edge, i: number): string {
  const at = ([x, y]: Point) => `${formatLength(x)}, ${formatLength(y)}`;
  return `${String.fromCharCode(65 + (i % 26))}  ${partName(job, edge.layer)}: ${w.edges[edge.kind]}, ${formatLength(edge.length_in)} (${at(edge.from_in as Point)} → ${at(edge.to_in as Point)})`;
}

/** A layer, or the plate of a wall. */
const partName = (job: Job, id: string) =>
  id.startsWith('wall:') ? `${w.plateUnder} ${wallName(job, id.slice(5)).toLowerCase()}` : layerName(job, id);

const shores = (job: Job, findings: Findings) =>
  (findings.floor?.while_open.shores ?? []).map(
    (shore) =>
      `${heldName(job, shore.under)}: ${Math.round(shore.load_lb)} lb, ${w.fromWalls(formatLength(shore.at_in[0]), formatLength(shore.at_in[1]))}`,
  );

const sticks = (findings: Findings) =>
  (findings.takeoff?.cut_lists ?? []).flatMap((list) =>
    list.sticks.map(
      (stick) => `${stick.times} × ${list.item} ${formatLength(stick.stock_in)}: ${stick.cuts.map(formatLength).join(' + ')}`,
    ),
  );

const holds = (findings: Findings) => (findings.work?.tasks ?? []).filter((task) => task.hold).map((task) => `${task.title}: ${task.hold}`);

/** The room, its members by number, what comes out, the saw lines by letter, the shores. */
function drawing(job: Job, findings: Findings, cuts: Edge[]): string {
  const room = job.room.outline_in as Point[];
  const box = boxOf(room);
  const pad = 14;
  const y = (v: number) => box.max[1] - v;
  const points = (ring: Point[]) => ring.map((p) => `${p[0]},${y(p[1])}`).join(' ');
  const out: string[] = [];
  for (const [id, outlines] of Object.entries(findings.cut_back?.outlines_in ?? {}))
    if (!id.startsWith('wall:')) for (const ring of outlines as Point[][]) out.push(`<polygon class="out" points="${points(ring)}"/>`);
  out.push(`<polygon class="room" points="${points(room)}"/>`);
  const members = membersOf(job);
  const numbers = numbered(members);
  for (const member of members) {
    out.push(`<path class="member" d="M${member.from_in[0]} ${y(member.from_in[1])}L${member.to_in[0]} ${y(member.to_in[1])}"/>`);
    const up = runsOf(member) === 'y';
    const [tx, ty] = up ? [acrossOf(member), y(box.min[1]) + 9] : [box.min[0] - 8, y(acrossOf(member)) + 2];
    out.push(`<text x="${tx}" y="${ty}">${member.role === 'girder' ? 'G' : 'J'}${numbers.get(member.id) ?? ''}</text>`);
  }
  cuts.slice(0, MOST.cuts).forEach((edge, i) => {
    const [a, b] = [edge.from_in as Point, edge.to_in as Point];
    out.push(`<path class="saw" d="M${a[0]} ${y(a[1])}L${b[0]} ${y(b[1])}"/>`);
    out.push(`<text class="letter" x="${(a[0] + b[0]) / 2}" y="${y((a[1] + b[1]) / 2) + 2}">${String.fromCharCode(65 + (i % 26))}</text>`);
  });
  for (const shore of findings.floor?.while_open.shores ?? []) {
    const [sx, sy] = [shore.at_in[0], y(shore.at_in[1])];
    out.push(`<path class="shore" d="M${sx - 3} ${sy - 3}h6v6h-6zm0 0l6 6m0-6l-6 6"/>`);
  }
  return `<svg viewBox="${box.min[0] - pad} ${-pad} ${box.max[0] - box.min[0] + 2 * pad} ${box.max[1] - box.min[1] + 2 * pad}" role="img" aria-label="${safe(w.card.plan)}">${out.join('')}</svg>`;
}

const STYLE = `@page{size:letter;margin:12mm}*{box-sizing:border-box}body{margin:0;font:10pt/1.25 system-ui,sans-serif;color:#111}
main{max-width:190mm;margin:0 auto;padding:8px}
@media print{body{font-size:8.4pt}h1{font-size:14pt}.due{padding:0 6px 3px}}h1{font-size:17pt;margin:0}.sub{margin:0 0 6px;color:#444}h2{font-size:11pt;margin:8px 0 2px;border-bottom:1.5px solid #111}
ol,ul{margin:0;padding-left:0;list-style:none}li{padding:1px 0;border-bottom:.5px solid #ccc}.due{border:3px solid #9b1c12;padding:2px 8px 6px}.due h2{border:0;color:#9b1c12}.due ul{columns:2;column-gap:14px}.due li{border:0;font-weight:600;break-inside:avoid}@media(max-width:520px){.due ul{columns:1}}
.cols{display:grid;grid-template-columns:repeat(auto-fit,minmax(58mm,1fr));gap:0 12px}.more{font-style:italic}.foot{margin:8px 0 0;font-size:9pt;color:#444}
svg{width:100%;max-height:76mm}.room{fill:none;stroke:#111;stroke-width:2}.out{fill:#9b1c12;fill-opacity:.07}.member{stroke:#555;stroke-width:.8;stroke-dasharray:5 3;fill:none}
.saw{stroke:#9b1c12;stroke-width:1.8;fill:none}.shore{stroke:#a3004f;stroke-width:1;fill:none}text{font-size:6px;text-anchor:middle;fill:#111}.letter{font-size:7px;font-weight:700;fill:#9b1c12;stroke:#fff;stroke-width:2;paint-order:stroke}
@media print{main{padding:0}section,svg,ol{break-inside:avoid}}`;
