import type { Note } from '../notes.ts';
import type { Outline, Point, Polygon, Polyline } from '../../geometry/shape.ts';
import type { CornerStyle } from '../../geometry/offset-join.ts';
import type { Step } from '../../geometry/offset.ts';
import type { Place } from '../../problems/place.ts';
import type { Rational } from '../../units/rational.ts';
import type { NamedDeclaration } from '../names/world.ts';

/**
 * A piece's shape: everything but what it is cut from. Coordinates in millimetres, x to the right and y up, the drawn
 * outline's lower left corner where the designer put it. For a piece drawn as half on a fold, outlines and lines are of
 * the half; `whole` has it opened out.
 */
export interface PieceShape {
  readonly name: string;
  readonly title: string;
  readonly declaration: NamedDeclaration;
  readonly place: Place;
  readonly drawnTo: 'cutting' | 'stitching';
  readonly drawn: Outline;
  readonly cutting: Outline;
  readonly stitching: Outline;
  readonly whole: { readonly cutting: Outline; readonly stitching: Outline };
  /** The edge on the fold, where the piece is drawn as half. */
  readonly fold: string | undefined;
  /** Of a plain rectangle, exactly; of the whole piece. */
  readonly rectangle: { readonly cutting: ExactSize; readonly stitching: ExactSize } | undefined;
  /** What was made of the corners of a rectangle, for whoever cuts it without a template. */
  readonly corners: readonly CornerFact[];
  /** The edges between which the line that it is not drawn to steps from one allowance to another. */
  readonly steps: readonly Step[];
  readonly allowances: ReadonlyMap<string, EdgeAllowance>;
  /** What the piece, or else its parent, says for all its edges: an edge that a copy gains takes it. */
  readonly generalAllowance: EdgeAllowance | undefined;
  /** Titles of edges, where they have one. */
  readonly edgeTitles: ReadonlyMap<string, string>;
  readonly lines: readonly InnerLine[];
  /** Topstitching and quilting. */
  readonly stitchRows: readonly StitchRow[];
  readonly notches: readonly Notch[];
  readonly marks: readonly Mark[];
  readonly notes: readonly Note[];
  readonly grain: Grain;
  readonly thisWayUp: boolean;
  /** Where each edge's name is written in the spec, if anywhere. */
  readonly edgePlaces: ReadonlyMap<string, Place>;
}

/** The corners of a rectangle as written: `bottom`, boxed out, 2 by 1.5. Lengths in millimetres. */
export interface CornerFact {
  readonly which: string;
  readonly treatment: 'round' | 'chamfer' | 'box';
  readonly across: Rational;
  readonly up: Rational;
}

export interface ExactSize {
  readonly width: Rational;
  readonly height: Rational;
  readonly exact: boolean;
}

/** How an allowance is joined at its corners; `turned`, as it lies on its neighbours when it is turned back. */
export type AllowanceCorner = Exclude<CornerStyle, { readonly kind: 'turned' }> | { readonly kind: 'turned' };

export interface EdgeAllowance {
  /** In millimetres; never negative. */
  readonly size: Rational;
  readonly corner: AllowanceCorner;
}

export type LineUse = 'line' | 'placement' | 'foldline' | 'window';

/** A line drawn inside a piece. */
export interface InnerLine {
  readonly name: string;
  /** What exports call it. */
  readonly title: string;
  readonly use: LineUse;
  readonly place: Place;
  readonly points: Polyline | Polygon;
  readonly closed: boolean;
  /** Of a plain rectangle, exactly. */
  readonly rectangle: ExactSize | undefined;
  /** Whether it is the legs of a dart: from the stitching line to its tip and back. */
  readonly isDart?: true;
  /** Of a line that runs level or upright right across: at which height, or how far to the right, in millimetres. */
  readonly across?: { readonly way: 'level' | 'upright'; readonly at: number };
  /** Of a dart or a pleat: the edge that it is on. */
  readonly edge?: string;
  /** Of a pleat: from the stitching line along its fold, across to where that is laid, and back. Lengths in millimetres. */
  readonly pleat?: PleatFact;
}

export interface PleatFact {
  /** It takes twice as much from its edge. */
  readonly depth: number;
  /** How far from the edge it is sewn down; undefined where it is only laid. */
  readonly stitched: number | undefined;
}

/** Topstitching or quilting as it is said, whatever the piece that it is on. */
export interface StitchFact {
  readonly name: string;
  /** What exports call it. */
  readonly title: string;
  readonly kind: 'topstitch' | 'quilt';
  readonly place: Place;
  /** From the finished edge, which is the stitching line, or from one row to the next; in millimetres. None where it is sewn along lines. */
  readonly distance: Rational;
  /** The edges, fold lines and windows that it runs beside; of quilting the one line that is among its rows. */
  readonly from: readonly string[];
}

/** The same as it lies on a piece. */
export interface StitchRow extends StitchFact {
  /** Lines to sew along; of a piece on a fold, on the half that is drawn. */
  readonly runs: readonly { readonly points: Polyline; readonly closed: boolean }[];
  /** How long they are together on the whole piece, in millimetres; along an edge, with its darts closed. */
  readonly length: number;
}

export interface Notch {
  readonly edge: string;
  readonly place: Place;
  /** On the cutting line. */
  readonly point: Point;
  /** Unit direction into the piece. */
  readonly inward: Point;
}

export interface Mark {
  readonly name: string;
  /** What exports call it. */
  readonly title: string;
  readonly use: 'mark' | 'drill';
  readonly place: Place;
  readonly point: Point;
  /** Diameter of the snap that it is for, in millimetres. */
  readonly snap: Rational | undefined;
}

/** How a piece lies to the grain of its cloth. */
export interface Grain {
  /** Whether the spec says so, or this is only the usual way. */
  readonly given: boolean;
  /** Direction of the lengthwise grain on the piece, in degrees counter-clockwise from upright; undefined for any. */
  readonly angle: number | undefined;
  /** Whether the piece may also lie across. */
  readonly orAcross: boolean;
}
