import { distance } from '../geometry/vector.ts';
import { calledOtherwise } from './called-now.ts';
import type { Pair } from './pair.ts';

/** What places of the earlier pieces are called now, as `Gusset: rivet`: a mark at the same point under another name is the same mark, and so is an edge or a window at the same place. */
export function placesNow({ pieces }: Pair): (place: string) => string {
  const marks = new Map<string, string>(pieces.both.flatMap(([{ shape: was }, { shape: now }]) => was.marks.flatMap((mark) => {
    const same = now.marks.find(({ name }) => name === mark.name) ?? now.marks.find(({ name, point }) => !was.marks.some((one) => one.name === name) && distance(point, mark.point) < 0.05);
    return same === undefined ? [] : [[`${was.title}: ${mark.title}`, `${now.title}: ${same.title}`] as const];
  }).concat(calledOtherwise(was, now).map((one) => [`${was.title}: ${one.was}`, `${now.title}: ${one.now}`] as const))));
  const titles = pieces.both.map(([was, now]) => [`${was.shape.title}: `, `${now.shape.title}: `] as const);
  return (place) => {
    const [was, now] = titles.find(([title]) => place.startsWith(title)) ?? ['', ''];
    return marks.get(place) ?? `${now}${place.slice(was.length)}`;
  };
}
