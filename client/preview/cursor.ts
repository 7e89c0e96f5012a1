import type { PlaceRef, PreviewData } from '../../server/src/preview/drawing-data.ts';
import { placeNow } from '../../server/src/preview/places.ts';

/** What the cursor is on: a piece, and those of its parts that are written there. */
export interface AtCursor {
  readonly piece: string | undefined;
  readonly parts: readonly number[];
}

/** Finds what is written at an offset; the narrowest place counts. */
export function findAt(data: PreviewData, file: string, offset: number): AtCursor {
  const holds = (place: PlaceRef | null): place is PlaceRef => {
    const now = placeNow(data, place);
    return now !== undefined && now.file === file && now.start <= offset && offset <= now.end;
  };
  const piece = data.pieces.find(({ span }) => holds(span));
  if (piece === undefined) return { piece: data.undrawn.find(({ span }) => holds(span))?.name, parts: [] };
  let best = -1;
  piece.places.forEach((place, at) => {
    const known = piece.places[best];
    if (holds(place) && (known === null || known === undefined || place[2] - place[1] < known[2] - known[1])) best = at;
  });
  return { piece: piece.name, parts: piece.drawing.parts.flatMap((part, at) => (part.place === best ? [at] : [])) };
}
