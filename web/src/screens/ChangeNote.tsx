// What the last mark changed, in two lines, with the way back beside it.
import { useStore } from '../store/store';
import { chance, sentence, spoken } from '../words/figures';

const band = ({ p10, p90 }: { p10: number; p90: number }) => `${p10.toFixed(1)} to ${p90.toFixed(1)} sf`;

export function ChangeNote() {
  const { change, undo, dismiss, history } = useStore();
  if (!change) return null;
  // The layer of the mark says enough; an act without a spot may have moved several.
  const areas = change.spot ? change.areas.filter((item) => item.layer === change.spot?.layer) : change.areas.slice(0, 2);
  return (
    <div className="change" role="status" aria-label="What changed">
      <div>
        <strong>{sentence(change.label)}</strong>
        {change.spot && (
          <p>
            Unsound here: {chance(change.spot.before)} → <b>{chance(change.spot.after)}</b>
          </p>
        )}
        {areas.map((item) => (
          <p key={item.layer}>
            In all, {spoken(item.layer)}: {band(item.before)} → <b>{band(item.after)}</b>
          </p>
        ))}
        {!change.spot && areas.length === 0 && <p>Nothing that matters changed.</p>}
      </div>
      {history && history.past.length > 0 && !change.label.startsWith('Undone') && (
        <button type="button" onClick={undo}>
          Undo
        </button>
      )}
      <button type="button" aria-label="Close this note" onClick={() => dismiss('change')}>
        ✕
      </button>
    </div>
  );
}
