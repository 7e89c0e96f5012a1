/** What a lay is: the question put to a planner and the shape of its answer. Plain data, all lengths in millimetres. */

/** A point in millimetres; x runs along the length of the cloth, y across its width (0 ≤ y ≤ width). */
export interface LayPoint {
  readonly x: number;
  readonly y: number;
}

/** One kind of piece to place. */
export interface LayPiece {
  readonly id: string;
  /** Closed outline, counter-clockwise, first point not repeated, millimetres, in the piece's own frame. */
  readonly outline: readonly LayPoint[];
  /** How many placements there must be as drawn and how many mirrored (mirrored: y -> -y before turning); `either` may be laid either way. */
  readonly count: { readonly asDrawn: number; readonly mirrored: number; readonly either: number };
  /** Permitted turns in degrees, counter-clockwise. */
  readonly turns: readonly number[];
  /** Whether any other turn is permitted too: it is not tried, but a bound must hold for it. */
  readonly anyTurn?: boolean;
  /** In a folded lay: the outline is a half whose edge on y = 0 (own frame, before turning) must lie on the fold. */
  readonly onFold: boolean;
  /** On cloth that is folded in part: whether it is cut from the single layer. */
  readonly single?: boolean;
}

export interface LayProblem {
  /** Usable width, millimetres. */
  readonly width: number;
  readonly pieces: readonly LayPiece[];
  /** Least gap between pieces, millimetres. */
  readonly gap: number;
  /** Where the fold of folded cloth is: along it at y = 0 unless it is said to run across the cloth, at x = 0. */
  readonly fold?: 'across';
  /** Cloth that is folded in part lies in two layers up to this y, millimetres, and in one beyond; no piece lies on both. */
  readonly doubleTo?: number;
}

/** Where one piece lies: mirrored first (if at all), then turned, then moved. */
export interface Placement {
  /** Index into `LayProblem.pieces`. */
  readonly piece: number;
  readonly mirrored: boolean;
  /** Degrees, counter-clockwise. */
  readonly turn: number;
  /** Translation applied after mirroring and turning, millimetres. */
  readonly x: number;
  readonly y: number;
}

export interface Lay {
  /** Cloth used along its length, millimetres. */
  readonly length: number;
  readonly placements: readonly Placement[];
}

/** A length, in millimetres, below which no lay of the problem can be. */
export interface LowerBound {
  readonly length: number;
  readonly reason: 'area' | 'widest piece' | 'bars' | 'dual feasible' | 'exact';
}

/** A better lay than any before, reached after `step` of `steps`. */
export interface Progress {
  readonly lay: Lay;
  readonly step: number;
  readonly steps: number;
}
