// What the last mark changed, in two lines, with the way back beside it.
import { useStore } from '../store/store';
import { area, chance, spoken } from '../words/figures';

export function ChangeNote() {
  const { change, undo, dismiss, history } = useStore();
  if (!change) return null;
  return (
    <div className="change" role="status" aria-label="What changed">
      <div>
        <strong>{change.label}</strong>
        {change.spot && (
          <p>
            Chance of unsound here, {spoken(change.spot.layer)}: {chance(change.spot.before)} → <b>{chance(change.spot.after)}</b>
          </p>
        )}
        {change.areas.slice(0, 2).map((item) => (
          <p key={item.layer}>
            Unsound {spoken(item.layer)}: {area(item.before.p10)}–{area(item.before.p90)} →{' '}
            <b>
              {area(item.after.p10)}–{area(item.after.p90)}
            </b>
          </p>
        ))}
        {!change.spot && change.areas.length === 0 && <p>Nothing that matters changed.</p>}
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
