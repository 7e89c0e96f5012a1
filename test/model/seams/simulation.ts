/**
 * Cloth as polygons in space, for outside truth about seams. Nothing here is the program's: pieces are lists of points
 * that are carried by motions of solid space (turns and shifts, never a mirroring), as hands would carry them.
 *
 * The right side of a piece is the side from which it is drawn. A piece cut mirrored is another solid shape.
 */
export type Vector = readonly [number, number, number];
export interface Cloth {
  /** Corner after corner, in the order of the names of its sides; side `i` runs from corner `i` to the next. */
  readonly corners: readonly Vector[];
  /** Which way its right side looks. */
  readonly rightSide: Vector;
}
export type Hand = 1 | -1;

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const unit = (a: Vector): Vector => times(a, 1 / Math.sqrt(dot(a, a)));

/** A polygon drawn counter-clockwise, cut as drawn or mirrored, lying on a table right side up. */
export const cut = (points: readonly (readonly [number, number])[], hand: Hand): Cloth => ({ corners: points.map(([x, y]) => [hand * x, y, 0]), rightSide: [0, 0, 1] });

export function side({ corners }: Cloth, index: number): readonly [Vector, Vector] {
  const [from, to] = [corners[index % corners.length], corners[(index + 1) % corners.length]];
  if (from === undefined || to === undefined) throw new Error('No such side');
  return [from, to];
}

const middleOf = ({ corners }: Cloth): Vector => times(corners.reduce(plus, [0, 0, 0]), 1 / corners.length);

/** On which side of a line in the plane of the table some cloth lies; the line has a way. */
export function lies(cloth: Cloth, [from, to]: readonly [Vector, Vector]): 'left' | 'right' {
  return dot(cross(minus(to, from), minus(middleOf(cloth), from)), [0, 0, 1]) > 0 ? 'left' : 'right';
}

/** The only motion of solid space that brings a side on to a line and makes the right side look so: cloth is not stretched. */
export function laid(cloth: Cloth, index: number, [from, to]: readonly [Vector, Vector], rightSide: Vector): Cloth {
  const [a, b] = side(cloth, index);
  const frameBefore = frame(minus(b, a), cloth.rightSide);
  const frameAfter = frame(minus(to, from), rightSide);
  const carried = (v: Vector): Vector => frameBefore.reduce<Vector>((sum, axis, i) => plus(sum, times(frameAfter[i] ?? [0, 0, 0], dot(v, axis))), [0, 0, 0]);
  return { corners: cloth.corners.map((corner) => plus(from, carried(minus(corner, a)))), rightSide: carried(cloth.rightSide) };
}

/** A right-handed frame, so that what leads from one to another is never a mirroring. */
function frame(along: Vector, up: Vector): readonly Vector[] {
  const [u, n] = [unit(along), unit(up)];
  return [u, n, cross(u, n)];
}

/** Half a turn about a line: what opening a seam out does to the upper piece. */
export function opened(cloth: Cloth, [from, to]: readonly [Vector, Vector]): Cloth {
  const axis = unit(minus(to, from));
  const half = (v: Vector): Vector => minus(times(axis, 2 * dot(v, axis)), v);
  return { corners: cloth.corners.map((corner) => plus(from, half(minus(corner, from)))), rightSide: half(cloth.rightSide) };
}
