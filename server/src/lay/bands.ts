import type { LayProblem } from './problem.ts';

/** A part of the width of cloth that is folded in part, as a problem of its own. */
export interface Band {
  readonly problem: LayProblem;
  /** The number in the whole of each piece. */
  readonly pieces: readonly number[];
  /** Where it begins across the cloth, millimetres. */
  readonly from: number;
}

/** The band that lies in two layers, and beyond it the one that lies in a single layer; no piece lies on both. */
export function bandsOf({ width, pieces, gap, doubleTo = width }: LayProblem): readonly Band[] {
  const band = (single: boolean, wide: number, from: number): Band => {
    const own = pieces.flatMap((piece, index) => ((piece.single ?? false) === single ? [{ piece, index }] : []));
    return { problem: { width: wide, gap, pieces: own.map(({ piece }) => piece) }, pieces: own.map(({ index }) => index), from };
  };
  return [band(false, doubleTo, 0), band(true, width - doubleTo, doubleTo)];
}
