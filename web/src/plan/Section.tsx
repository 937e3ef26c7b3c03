// The section through the floor, to scale: what lies on what. A layer touched here is shown on the plan.
// The framing's depth is broken, as on any section drawing: it would leave the layers no height.
import { useEffect, useRef } from 'react';
import type { Job, Layer } from '../engine/wire';
import { usualThickness } from '../room/stock';
import { type Shown, useStore } from '../store/store';
import { intoRow } from '../ui/scroll';
import { w } from '../words/en';
import { formatLength } from '../words/lengths';
import { membersOf } from './members';
import { layerName } from './names';

export function keyOf(shown: Shown): string {
  return shown.kind === 'layer' ? `layer:${shown.id}` : shown.kind;
}
export function shownOf(key: string): Shown {
  return key.startsWith('layer:') ? { kind: 'layer', id: key.slice(6) } : { kind: key as 'supports' | 'walls' };
}

export function thicknessOf(layer: Layer): number {
  return layer.thickness_in ?? usualThickness(layer.material);
}

type Hatch = 'wood' | 'sheet' | 'tile' | 'bed' | 'film';
function hatchOf(material: Layer['material']): Hatch {
  if (['board', 'plank_tg', 'wall_plate'].includes(material)) return 'wood';
  if (['plywood', 'plywood_underlayment', 'osb', 'particleboard', 'hardboard'].includes(material)) return 'sheet';
  if (/tile$/.test(material) && !/vinyl|asphalt/.test(material)) return 'tile';
  if (['mortar_bed', 'cement_board', 'gypsum_board'].includes(material)) return 'bed';
  return 'film';
}

const WIDE = 72;
const FRAMING_PX = 26;

/** The drawing alone: heights in one scale, so that they can be compared. */
export function SectionDrawing({ job, high, chosen }: { job: Job; high: number; chosen?: string }) {
  const total = job.layers.reduce((sum, layer) => sum + thicknessOf(layer), 0);
  const framed = membersOf(job).length > 0;
  const scale = total > 0 ? (high - (framed ? FRAMING_PX : 0) - 4) / total : 0;
  let y = 2;
  return (
    <svg className="section-drawing" viewBox={`0 0 ${WIDE} ${high}`} width={WIDE} height={high} aria-hidden="true">
      {job.layers.map((layer) => {
        const top = y;
        const tall = Math.max(1.6, thicknessOf(layer) * scale);
        y += tall;
        return (
          <g key={layer.id} className={`hatch ${hatchOf(layer.material)}${chosen === `layer:${layer.id}` ? ' chosen' : ''}`}>
            <rect x="2" y={top} width={WIDE - 4} height={tall} />
            {hatchOf(layer.material) === 'wood' && tall > 5 && <path d={`M26 ${top}v${tall}M50 ${top}v${tall}`} />}
            {hatchOf(layer.material) === 'sheet' && tall > 5 && <path d={`M2 ${top + tall / 3}h68M2 ${top + (2 * tall) / 3}h68`} />}
          </g>
        );
      })}
      {framed && (
        <g className={`hatch framing${chosen === 'supports' ? ' chosen' : ''}`}>
          {[10, 52].map((x) => (
            <path key={x} d={`M${x} ${y}h10v${FRAMING_PX - 9}l-4 3-3-5-3 3z`} />
          ))}
        </g>
      )}
    </svg>
  );
}

interface Item {
  key: string;
  name: string;
  more: string;
}

export function itemsOf(job: Job): Item[] {
  const size = membersOf(job)[0]?.size;
  return [
    ...job.layers.map((layer) => ({ key: `layer:${layer.id}`, name: layerName(job, layer), more: formatLength(thicknessOf(layer)) })),
    ...(membersOf(job).length > 0 ? [{ key: 'supports', name: w.framing, more: typeof size === 'string' ? size : '' }] : []),
    ...(job.walls.length > 0 ? [{ key: 'walls', name: w.plates, more: '' }] : []),
  ];
}

export function Section({ job, tall }: { job: Job; tall: boolean }) {
  const { shown, show } = useStore();
  const chosen = keyOf(shown);
  const items = itemsOf(job);
  const current = useRef<HTMLButtonElement>(null);
  // When another layer is chosen, and when the strip is shown again after a stage that hides it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another layer is chosen
  useEffect(() => {
    const row = current.current?.parentElement;
    intoRow(current.current);
    if (!row) return;
    const watch = new ResizeObserver(() => intoRow(current.current));
    watch.observe(row);
    return () => watch.disconnect();
  }, [chosen, items.length]);
  if (items.length === 0) return null;
  return (
    <div className={tall ? 'section tall' : 'section'}>
      <SectionDrawing job={job} high={tall ? 190 : 56} chosen={chosen} />
      <fieldset className="choice layers">
        <legend className="unseen">{w.layerShown}</legend>
        {items.map((item) => (
          <button
            type="button"
            key={item.key}
            aria-pressed={item.key === chosen}
            ref={item.key === chosen ? current : undefined}
            onClick={() => show(shownOf(item.key))}
          >
            {item.name}
            {tall && item.more && <small>{item.more}</small>}
          </button>
        ))}
      </fieldset>
    </div>
  );
}
