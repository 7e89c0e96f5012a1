import type { PieceShape } from '../model/piece/piece.ts';
import type { Chunk, Place } from '../problems/place.ts';
import type { Declaration, Node } from '../syntax/tree.ts';
import type { Located } from '../workspace/snapshot.ts';
import type { ChunkStart, PlaceRef, PreviewData } from './drawing-data.ts';

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

/**
 * Gives each run of text a number that it keeps for as long as it is the same run, through any number of edits around
 * it. Numbers are given in the order in which they are asked for.
 */
export class ChunkNumbers {
  readonly #numbers = new WeakMap<Chunk, number>();
  #next = 0;

  of(chunk: Chunk): number {
    let number = this.#numbers.get(chunk);
    if (number === undefined) this.#numbers.set(chunk, (number = this.#next++));
    return number;
  }
}

/** Turns places into references, and keeps the lists of what they refer to. */
export interface PlaceWriter {
  /** What the references so far refer to. */
  readonly soFar: () => Pick<PreviewData, 'files' | 'chunks'>;
  readonly ref: (place: Place | undefined) => PlaceRef | null;
}

export function placeWriter(locate: (place: Place) => Located | undefined, fileName: (path: string) => string, numbers: ChunkNumbers): PlaceWriter {
  const files: string[] = [];
  const indexes = new Map<string, number>();
  const chunks: Record<string, ChunkStart> = {};
  const indexOf = (file: string): number => {
    let index = indexes.get(file);
    if (index === undefined) indexes.set(file, (index = files.push(fileName(file)) - 1));
    return index;
  };
  return {
    soFar: () => ({ files: [...files], chunks: { ...chunks } }),
    ref: (place) => {
      if (place === undefined) return null;
      const number = numbers.of(place.chunk);
      if (chunks[number] === undefined) {
        const found = locate({ chunk: place.chunk, start: 0, end: 0 });
        if (found === undefined) return null;
        chunks[number] = [indexOf(found.file), found.start];
      }
      return [number, place.start, place.end];
    },
  };
}

/** Where something is written now: its file, and UTF-16 offsets in that. */
export interface PlaceNow {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

/** Undefined where a reference leads nowhere. */
export function placeNow({ files, chunks }: Pick<PreviewData, 'files' | 'chunks'>, place: PlaceRef | null | undefined): PlaceNow | undefined {
  if (place === null || place === undefined) return undefined;
  const [chunk, start, end] = place;
  const at = chunks[chunk];
  const file = at && files[at[0]];
  return at === undefined || file === undefined ? undefined : { file, start: at[1] + start, end: at[1] + end };
}
