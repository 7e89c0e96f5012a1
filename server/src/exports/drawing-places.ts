import type { PieceShape } from '../model/piece/piece.ts';
import type { Chunk, Place } from '../problems/place.ts';
import type { Declaration, Node } from '../syntax/tree.ts';
import type { Located } from '../workspace/snapshot.ts';
import type { PlaceRef } from './drawing-model.ts';

const isDeclaration = (chunk: Chunk): chunk is Declaration => 'tree' in chunk;

const isAround = (node: Node, place: Place): boolean => node.start <= place.start && place.end <= node.end;

/** The whole line of a piece that a place lies in, or the step of a path: what one wants to change when one clicks on it. */
export function statementPlace(place: Place): Place {
  const { chunk } = place;
  if (!isDeclaration(chunk) || chunk.tree.kind !== 'piece') return place;
  const statement = chunk.tree.body.statements.find((one) => isAround(one, place));
  if (statement === undefined) return place;
  const steps = 'shape' in statement && statement.shape.kind === 'path' ? statement.shape.steps.statements : [];
  const step = steps.find((one) => isAround(one, place));
  const { start, end } = step ?? statement;
  return { chunk, start, end };
}

/** The outline’s own line; for a piece taken from another, its name. */
export function outlinePlace(shape: PieceShape): Place {
  const { declaration } = shape;
  const outline = declaration.tree.kind === 'piece' ? declaration.tree.body.statements.find((one) => one.kind === 'outline') : undefined;
  return outline === undefined ? shape.place : { chunk: declaration, start: outline.start, end: outline.end };
}

/** Turns places into references, and keeps the list of files that they refer to. */
export interface PlaceWriter {
  readonly files: readonly string[];
  readonly ref: (place: Place | undefined) => PlaceRef | null;
}

export function placeWriter(locate: (place: Place) => Located | undefined, fileName: (path: string) => string): PlaceWriter {
  const files: string[] = [];
  const indexes = new Map<string, number>();
  return {
    files,
    ref: (place) => {
      const found = place && locate(place);
      if (found === undefined) return null;
      let index = indexes.get(found.file);
      if (index === undefined) indexes.set(found.file, (index = files.push(fileName(found.file)) - 1));
      return [index, found.start, found.end];
    },
  };
}
