import type { Value } from '../model/formulas/value.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Chunk, Place } from '../problems/place.ts';
import type { PlaceRef } from './drawing-data.ts';

/** What may be asked for of the pattern while something is made that is kept. */
export interface Asking {
  readonly value: (name: string) => Value | undefined;
  readonly shape: (name: string) => PieceShape | undefined;
  readonly ref: (place: Place | undefined) => PlaceRef | null;
}

/** Something that was made, with all that it was made of. */
interface Made {
  readonly from: readonly unknown[];
  readonly values: ReadonlyMap<string, Value | undefined>;
  readonly shapes: ReadonlyMap<string, PieceShape | undefined>;
  /** Runs of text that it refers to, and whether there was such a one. */
  readonly chunks: ReadonlyMap<Chunk, boolean>;
  readonly result: unknown;
}

/**
 * Keeps what was made of a thing for as long as all that it was made of is the very same: an edit makes anew only what it
 * changes, and what is the very same need not be compared either.
 */
export class Kept {
  readonly #made = new WeakMap<object, Made>();

  /**
   * @param from all that it is made of besides the thing itself and what is asked for
   * @param make makes it, always of the same kind of a thing
   */
  of<Result>(thing: object, from: readonly unknown[], asking: Asking, make: (asking: Asking) => Result): Result {
    const known = this.#made.get(thing);
    if (known !== undefined && isAsItWas(known, from, asking)) return known.result as Result;
    const [values, shapes, chunks] = [new Map<string, Value | undefined>(), new Map<string, PieceShape | undefined>(), new Map<Chunk, boolean>()];
    const result = make({
      value: (name) => noted(values, name, asking.value(name)),
      shape: (name) => noted(shapes, name, asking.shape(name)),
      ref: (place) => {
        const found = asking.ref(place);
        if (place !== undefined) chunks.set(place.chunk, found !== null);
        return found;
      },
    });
    this.#made.set(thing, { from, values, shapes, chunks, result });
    return result;
  }
}

function noted<Answer>(notes: Map<string, Answer>, name: string, answer: Answer): Answer {
  notes.set(name, answer);
  return answer;
}

function isAsItWas(made: Made, from: readonly unknown[], asking: Asking): boolean {
  if (made.from.length !== from.length || made.from.some((one, at) => one !== from[at])) return false;
  for (const [name, answer] of made.values) if (asking.value(name) !== answer) return false;
  for (const [name, answer] of made.shapes) if (asking.shape(name) !== answer) return false;
  // Asked for again, so that where these runs stand now is told with the rest.
  for (const [chunk, wasThere] of made.chunks) if ((asking.ref({ chunk, start: 0, end: 0 }) !== null) !== wasThere) return false;
  return true;
}
