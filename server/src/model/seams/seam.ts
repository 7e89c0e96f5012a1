import type { Place } from '../../problems/place.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { dartsOn } from '../piece/darts.ts';
import type { InnerLine, PieceShape } from '../piece/piece.ts';

/** Whether a run follows the outline, which has the piece on its left; undefined where the spec doesn't tell. */
export type Way = 1 | -1 | undefined;

/** An edge of a piece, or part of one, in a run that is sewn. */
export interface Stretch {
  readonly piece: PieceShape;
  /** Its name on the opened-out piece: those of the half that isn't drawn end in `_twin`. */
  readonly edge: string;
  readonly place: Place;
  /** What of the edge's stitching line it takes, in millimetres from where the outline reaches the edge; `from` < `to`. */
  readonly from: number;
  readonly to: number;
  readonly way: Way;
  /** How long it is as it lies once its piece is folded, in millimetres, where that is how it is sewn. */
  readonly folded?: number | undefined;
}

/** Edges one after the other that are sewn at once. */
export interface Run {
  readonly place: Place;
  readonly stretches: readonly Stretch[];
  /** In millimetres, along the stitching lines, or along the line that something is laid on. */
  readonly length: number;
  /** The line inside a piece that something is laid on, in place of edges. */
  readonly line?: { readonly piece: PieceShape; readonly line: InnerLine };
}

/** Two runs sewn together. Lengths in millimetres. */
export interface Seam {
  readonly name: string;
  /** What exports call it. */
  readonly title: string;
  readonly declaration: NamedDeclaration;
  /** Of its name in the spec. */
  readonly place: Place;
  /** `with`: once opened out they lie on opposite sides of it. `onto`: the first is laid on the second, right side up. */
  readonly way: 'with' | 'onto';
  /** The one that is eased in or gathered. */
  readonly first: Run;
  readonly second: Run;
  /** By how much the first is to be longer. */
  readonly eased: number;
  readonly gathered: boolean;
  readonly opening: Opening;
  /** By how much the lengths may differ. */
  readonly within: number;
  /** Where it is said that the outline runs on without a bend. */
  readonly smooth: Smooth | undefined;
}

/** What of a seam is left open, in millimetres. */
export interface Opening {
  readonly length: number;
  /** How far from where the second run begins, or the first where that is laid on a line; undefined where the spec doesn't tell. */
  readonly from: number | undefined;
}

export interface Smooth {
  readonly ends: readonly ('start' | 'end')[];
  /** How much of a bend there may be, in degrees. */
  readonly within: number;
  readonly place: Place;
}

/** How long a stretch is once darts in it are closed, in millimetres. */
export const stretchLength = (stretch: Stretch): number => stretch.folded ?? sewnAlong(stretch, stretch.to);

/** How far from the beginning of a stretch, as the outline runs, a place along its edge lies once darts are closed. */
export const sewnAlong = ({ piece, edge, from }: Pick<Stretch, 'piece' | 'edge' | 'from'>, along: number): number =>
  along - from - dartsOn(piece, edge).reduce((sum, dart) => sum + Math.max(0, Math.min(dart.to, along) - Math.max(dart.from, from)), 0);

/** How long a seam is sewn, in millimetres: what is laid on a closed line need not go all the way round it. */
export const sewnLength = ({ first, second }: Seam): number => (second.line === undefined ? second.length : Math.min(first.length, second.length));

/** Whether something that is folded flat is laid on by its edge: the end of a strap, which has neither hand nor notches there. */
export const laysFolded = ({ first }: Pick<Seam, 'first'>): boolean => first.stretches.some(({ folded }) => folded !== undefined);

/** The edge's name as it is drawn. */
export const drawnName = (edge: string): string => edge.replace(/_twin$/, '');

/** The pieces that a seam joins. */
export const piecesOf = ({ first, second }: Seam): ReadonlySet<PieceShape> =>
  new Set([first, second].flatMap(({ stretches, line }) => [...stretches.map(({ piece }) => piece), ...(line === undefined ? [] : [line.piece])]));
