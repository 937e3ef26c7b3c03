// Layers as a section that grows, from what one walks on down to the subfloor.
import { useState } from 'react';
import type { Job, Layer } from '../engine/wire';
import { layerName } from '../plan/names';
import { SectionDrawing, thicknessOf } from '../plan/Section';
import { idFor } from '../store/keep';
import { useStore } from '../store/store';
import { Choice } from '../ui/parts';
import { w } from '../words/en';
import { formatLength, parseLength } from '../words/lengths';
import { Next } from './HouseCards';
import type { CardProps } from './RoomScreen';
import { BOARDS, DECADES, FACE_WIDTHS, MATERIALS, PANELS, THICKNESSES } from './stock';

/** Short ids that say what they are, as examples have them: sheet, under, deck. */
function layerId(job: Job, material: Layer['material']): string {
  const plain = BOARDS.includes(material) || PANELS.includes(material) ? 'deck' : material;
  return job.layers.some((layer) => layer.id === plain) ? idFor(job.layers, 'l') : plain;
}

function newLayer(job: Job, material: Layer['material']): Layer {
  const board = BOARDS.includes(material);
  return {
    id: layerId(job, material),
    material,
    ...(board ? { runs: 'x', face_width_in: 5.5 } : {}),
  } as Layer;
}

export function LayersCard({ job, next }: CardProps) {
  const { perform, show } = useStore();
  const [open, setOpen] = useState<string | undefined>();
  const shown = job.layers.find((layer) => layer.id === open) ?? job.layers.at(-1);
  const add = (material: Layer['material']) => {
    const layer = newLayer(job.asked?.layers === 'unknown' ? { ...job, layers: [] } : job, material);
    perform('addLayer', { layer });
    show({ kind: 'layer', id: layer.id });
    setOpen(layer.id);
  };
  return (
    <>
      <p>{job.layers.length === 0 ? w.cards.layers.asks : w.cards.layers.under}</p>
      {job.layers.length > 0 && (
        <div className="growing">
          <SectionDrawing job={job} high={Math.max(72, 34 * job.layers.length)} chosen={shown && `layer:${shown.id}`} />
          <div className="stack grow">
            {job.layers.map((layer) => (
              <button type="button" key={layer.id} aria-pressed={layer.id === shown?.id} onClick={() => setOpen(layer.id)}>
                {layerName(job, layer)} <small>{formatLength(thicknessOf(layer))}</small>
              </button>
            ))}
          </div>
        </div>
      )}
      {shown && job.asked?.layers !== 'unknown' && <Details key={shown.id} job={job} layer={shown} />}
      <Choice said label={w.addLayer} options={MATERIALS.map((value) => ({ value, text: w.materials[value] }))} onChange={add} />
      <Next
        next={next}
        unknown={
          job.layers.length === 0
            ? () => perform('assumeLayers', { layers: [{ id: 'deck', material: 'board', runs: 'x', face_width_in: 5.5 } as Layer] })
            : undefined
        }
      />
    </>
  );
}

function Details({ job, layer }: { job: Job; layer: Layer }) {
  const perform = useStore((state) => state.perform);
  const put = (patch: Partial<Layer>) => {
    const changed = Object.fromEntries(
      Object.entries({ ...layer, ...patch }).filter(([, value]) => value !== undefined),
    ) as unknown as Layer;
    perform('changeLayer', { layer: changed });
  };
  const board = BOARDS.includes(layer.material);
  const thick = THICKNESSES[layer.material];
  return (
    <div className="details">
      {thick && (
        <Choice
          said
          label={w.thickness}
          value={thick.find((text) => parseLength(text) === layer.thickness_in) ?? ''}
          options={[...thick.map((value) => ({ value, text: `${value}"` })), { value: '', text: w.dontKnow }]}
          onChange={(value) => put({ thickness_in: value ? parseLength(value) : undefined })}
        />
      )}
      {board && (
        <>
          <Choice
            said
            label={w.boardsRun}
            value={String(layer.runs)}
            options={[
              { value: 'x', text: w.runs.x },
              { value: 'y', text: w.runs.y },
              { value: '45', text: w.runs.slant },
            ]}
            onChange={(value) => put({ runs: (value === '45' ? 45 : value) as Layer['runs'] })}
          />
          <Choice
            said
            label={w.boardWidth}
            value={FACE_WIDTHS.find((text) => parseLength(text) === layer.face_width_in) ?? ''}
            options={FACE_WIDTHS.map((value) => ({ value, text: `${value}"` }))}
            onChange={(value) => put({ face_width_in: parseLength(value) })}
          />
        </>
      )}
      {!board && (
        <Choice
          said
          label={w.layerAge}
          value={layer.installed_year === undefined ? '' : String(layer.installed_year)}
          options={[
            ...DECADES.slice(2).map((value) => ({ value, text: value === '2000' ? w.since2000 : `${value}s` })),
            { value: '', text: w.dontKnow },
          ]}
          onChange={(value) => put({ installed_year: value ? Number(value) : undefined })}
        />
      )}
      <button type="button" onClick={() => perform('removeLayer', { id: layer.id })}>
        ✕ {w.acts.takeAway} {layerName(job, layer)}
      </button>
    </div>
  );
}
