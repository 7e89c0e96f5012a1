/**
 * The plain data every shape is made of. Coordinates are millimetres in double
 * precision, x to the right and y up; outlines run counter-clockwise, so the
 * material is always on the left.
 */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * One stretch of an edge, from wherever the previous stretch ended to `to`.
 * An `arc` is circular, `left` meaning counter-clockwise; its radius is the
 * distance from its start to `centre`. An `elliptical` arc has axes parallel to
 * x and y and runs over parametric angles in radians; an end angle greater than
 * the start angle means it turns left.
 */
export type Segment =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'arc'; readonly to: Point; readonly centre: Point; readonly turn: Turn }
  | {
      readonly kind: 'elliptical';
      readonly to: Point;
      readonly centre: Point;
      readonly radiusX: number;
      readonly radiusY: number;
      readonly startAngle: number;
      readonly endAngle: number;
    }
  | { readonly kind: 'cubic'; readonly control1: Point; readonly control2: Point; readonly to: Point };

export type Turn = 'left' | 'right';

/** A named run of the outline. `measuredFrom` says from which end a designer measures along it. */
export interface Edge {
  readonly name: string;
  readonly start: Point;
  readonly segments: readonly Segment[];
  readonly measuredFrom: 'start' | 'end';
}

/** A closed outline: each edge starts where the previous one ends. */
export interface Outline {
  readonly edges: readonly Edge[];
}

/** An open run of straight lines. */
export type Polyline = readonly Point[];

/** A closed run of straight lines; the first point is not repeated. */
export type Polygon = readonly Point[];
