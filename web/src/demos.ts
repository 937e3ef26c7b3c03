// The demo jobs of examples/, as text: they are opened like any other file.

import washroom from '../../examples/clubhouse-washroom-1972.json?raw';
import laundry from '../../examples/laundry-1954.json?raw';

const nameOf = (text: string): string => (JSON.parse(text) as { job: { name: string } }).job.name;

export const demos = [
  { key: 'demo-laundry', name: nameOf(laundry), text: laundry },
  { key: 'demo-washroom', name: nameOf(washroom), text: washroom },
] as const;
