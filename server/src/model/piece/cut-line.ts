import type { Note } from '../notes.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import type { Place } from '../../problems/place.ts';
import type { CutStatement } from '../../syntax/tree.ts';
import type { Rational } from '../../units/rational.ts';
import type { Material } from '../stock/material.ts';
import type { Folding } from './folded-template.ts';
import type { ExactSize, PieceShape } from './piece.ts';

export type Hand = 'as drawn' | 'mirrored' | 'twins';

/**
 * How a layer must lie to be cut the right way round. `either` where flipping it changes nothing.
 *
 * A piece is drawn as seen on the right side of its cloth. A layer on the wrong side lies behind it, so its glue, which
 * faces the cloth, faces the viewer.
 */
export type WayUp = 'either' | 'right side up' | 'wrong side up' | 'half each way' | 'glue up' | 'glue down';

/** One line of the cutting table: so many of a piece from a material. Lengths in millimetres. */
export interface CutLine {
  readonly statement: CutStatement;
  readonly place: Place;
  readonly piece: PieceShape;
  readonly material: Material;
  readonly count: Rational;
  /** `cutting`, `stitching` or the name of an inner line; undefined for a size of its own. */
  readonly along: string | undefined;
  readonly hand: Hand;
  readonly onFold: boolean;
  readonly windows: readonly string[];
  /** How much larger than its line it is cut on every side, to be trimmed later. */
  readonly large: Rational | undefined;
  /** The outline that is cut, opened out where the piece is drawn as half, and what is cut out of it. */
  readonly outline: Polygon;
  readonly holes: readonly Polygon[];
  readonly fold: readonly [Point, Point] | undefined;
  /** The exact cut size of a plain rectangle; undefined where a template is needed. */
  readonly rectangle: ExactSize | undefined;
  /** Measured size of what is cut, opened out. */
  readonly bounds: { readonly width: number; readonly height: number };
  /** Whether the outline, windows and all, is the same when flipped. */
  readonly symmetric: boolean;
  readonly wayUp: WayUp;
  /** Whether it may not be turned upside down, since it or its piece says so; of what has no direction, or glue in place of a face that is seen, only as far as that matters. */
  readonly thisWayUp: boolean;
  /** What it goes on, where it is a layer: the index of the shell among the piece's cut lines, and which side of it. */
  readonly layer: { readonly shell: number; readonly side: 'wrong' | 'right' } | undefined;
  readonly notes: readonly Note[];
  /** Where it is cut from its parent’s template, folded; undefined where it has a template of its own or needs none. */
  readonly foldedFrom: Folding | undefined;
}
