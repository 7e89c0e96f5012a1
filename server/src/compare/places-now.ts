import { distance } from '../geometry/vector.ts';
import type { Resolved, ResolvedPiece } from '../model/pattern.ts';
import { edgeOrWindow } from '../table/mark-supplies.ts';
import { withNamesNow } from './called-now.ts';
import type { Pair } from './pair.ts';

/** What places of the earlier pieces are called now, as `Gusset: rivet`: a mark at the same point under another name is the same mark. */
export function placesNow({ pieces }: Pair): (place: string) => string {
  const marks = new Map<string, string>(pieces.both.flatMap(([{ shape: was }, { shape: now }]) => was.marks.flatMap((mark) => {
    const same = now.marks.find(({ name }) => name === mark.name) ?? now.marks.find(({ name, point }) => !was.marks.some((one) => one.name === name) && distance(point, mark.point) < 0.05);
    return same === undefined ? [] : [[`${was.title}: ${mark.title}`, `${now.title}: ${same.title}`] as const];
  })));
  const titles = pieces.both.map(([was, now]) => [`${was.shape.title}: `, `${now.shape.title}: `] as const);
  return (place) => {
    const [was, now] = titles.find(([title]) => place.startsWith(title)) ?? ['', ''];
    return marks.get(place) ?? `${now}${place.slice(was.length)}`;
  };
}

/** Both sides with edges and windows called as they are now, and told in an order of their own: a supply may go along several, written in any order. */
export function withPlacesNow({ was, now, pieces }: Pair): readonly [was: Resolved, now: Resolved] {
  const later = new Map(pieces.both);
  return [
    { ...was, pieces: was.pieces.map((piece) => inOrder(withNamesNow(piece, later.get(piece) ?? piece))) },
    { ...now, pieces: now.pieces.map(inOrder) },
  ];
}

/** A piece with what becomes of its edges by their titles, in whatever order the spec has them. */
export function inOrder(piece: ResolvedPiece): ResolvedPiece {
  const title = ([name]: readonly [string, unknown]): string => edgeOrWindow(piece.shape, name);
  return { ...piece, finishes: new Map([...piece.finishes].sort((a, b) => title(a).localeCompare(title(b), 'en'))) };
}
