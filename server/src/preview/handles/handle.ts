import type { Edge, Point } from '../../geometry/shape.ts';
import type { Declaration, Expression } from '../../syntax/tree.ts';
import type { Bulge } from './bulge.ts';

/** Something of a piece that can be taken hold of: a point, a notch, a mark or a size, with the numbers that put it where it is. */
export interface Handle {
  /** Unique in its piece; stays the same while numbers are edited. */
  readonly id: string;
  /** `corner 2 of the outline`. */
  readonly title: string;
  /** Millimetres, in the piece's own frame, y upwards. */
  readonly at: Point;
  /** Empty where something else than a number puts it there. */
  readonly numbers: readonly HandleNumber[];
  /** Why no number can be changed, where there is none. */
  readonly fixed?: string;
}

/** A formula of the text that has a say in where a handle is. */
export interface HandleNumber {
  /** `x`, `width`, `from the start`. */
  readonly says: string;
  readonly declaration: Declaration;
  readonly formula: Expression;
  /** What it comes to now: millimetres, or a share of the edge. */
  readonly now: number;
  readonly runs: Run;
  /** A size is more than nothing. */
  readonly isSize: boolean;
}

/** How a number changes as its handle moves. */
export type Run =
  /** For each millimetre more, the handle goes so far. */
  | { readonly kind: 'straight'; readonly goes: Point }
  /** As far along an edge as it comes nearest, from the end that is counted from; of a share, as a part of the edge. */
  | { readonly kind: 'along'; readonly edge: Edge; readonly from: 'start' | 'end'; readonly isShare: boolean }
  /** The radius of an arc, whose middle the handle is. */
  | ({ readonly kind: 'bulge' } & Bulge);
