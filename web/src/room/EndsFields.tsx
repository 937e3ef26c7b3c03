// "What does each end sit on?" in a builder's words, with what may stand half way.
import { Select } from '../ui/parts';
import { w } from '../words/en';
import { END_CHOICES, type Ends, MIDDLE_CHOICES, type RestOn } from './rests';

interface Props {
  ends: Ends;
  runs: 'x' | 'y';
  onChange: (ends: Ends) => void;
}

export function EndsFields({ ends, runs, onChange }: Props) {
  const options = (list: RestOn[]) => list.map((value) => ({ value, label: w.restsOn[value] ?? value }));
  const [low, high] = runs === 'y' ? [w.sides.bottom, w.sides.top] : [w.sides.left, w.sides.right];
  return (
    <fieldset className="ends">
      <legend>{w.eachEnd}</legend>
      <Select
        label={w.endAt(low)}
        value={ends.from}
        options={options(END_CHOICES)}
        onChange={(on) => onChange({ ...ends, from: on as RestOn })}
      />
      <Select
        label={w.endAt(high)}
        value={ends.to}
        options={options(END_CHOICES)}
        onChange={(on) => onChange({ ...ends, to: on as RestOn })}
      />
      <Select
        label={w.inBetween}
        value={ends.middle}
        options={MIDDLE_CHOICES.map((value) => ({ value, label: value === 'nothing' ? w.none : (w.restsOn[value] ?? value) }))}
        onChange={(on) => onChange({ ...ends, middle: on as RestOn })}
      />
    </fieldset>
  );
}
