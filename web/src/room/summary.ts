// One line on what a card was answered with.
import type { CardId, Job } from '../engine/wire';
import { membersOf } from '../plan/members';
import { layerName } from '../plan/names';
import { boxOf } from '../plan/view';
import { w } from '../words/en';
import { formatLength } from '../words/lengths';

export function summary(job: Job, card: CardId): string {
  const source = job.sources[0];
  switch (card) {
    case 'water':
      return source ? `${w.sources[source.kind]}, ${w.active[String(source.active ?? 'unknown')]}` : '';
    case 'people':
      return [job.job.occupied === undefined ? '' : job.job.occupied ? w.livedIn : w.empty, job.job.only_toilet ? w.onlyToilet : '']
        .filter(Boolean)
        .join(', ');
    case 'age':
      return String(job.job.year_built ?? '');
    case 'below':
      return w.below[job.job.below];
    case 'outline': {
      const box = boxOf(job.room.outline_in);
      return `${formatLength(box.max[0] - box.min[0])} × ${formatLength(box.max[1] - box.min[1])}, ${w.corners(job.room.outline_in.length)}`;
    }
    case 'doors':
      return String(job.room.doors.length || w.none);
    case 'fixtures':
      return job.fixtures.map((item) => w.fixtures[item.kind]).join(', ') || w.none;
    case 'leak':
      return source?.at_in ? w.fromWalls(formatLength(source.at_in[0]), formatLength(source.at_in[1])) : '';
    case 'layers':
      return job.layers.map((layer) => layerName(job, layer)).join(', ');
    case 'framing': {
      const members = membersOf(job);
      const size = members[0]?.size;
      return `${members.length} ${w.acts.members}${typeof size === 'string' ? `, ${size}` : ''}`;
    }
    case 'walls':
      return w.wallsSaid(job.walls.filter((wall) => wall.bearing === true).length, job.walls.length);
    case 'finish':
      return job.rebuild ? w.finishes[job.rebuild.finish] : '';
    case 'name':
      return job.job.name;
    default:
      return w.done;
  }
}
