import type { Point } from '../../geometry/shape.ts';
import { ahead, dot, minus } from '../../geometry/vector.ts';

/** An arc of at most half a turn, by what it spans: millimetres. */
export interface Bulge {
  /** Between its ends. */
  readonly middle: Point;
  /** Of length one, to the side on which it bulges. */
  readonly outwards: Point;
  /** Half of how far its ends are apart: no radius is less. */
  readonly half: number;
}

/** The middle of the arc of a radius. */
export const bulgeOf = ({ middle, outwards, half }: Bulge, radius: number): Point => ahead(middle, outwards, radius - Math.sqrt(Math.max(0, radius * radius - half * half)));

/** Millimetres: an arc that bulges less is as good as straight, and its radius no size that anyone means (invented). */
const flattest = 0.5;

/** The radius of the arc whose middle comes nearest to a point. */
export function radiusAt({ middle, outwards, half }: Bulge, to: Point): number {
  const high = Math.min(half, Math.max(flattest, dot(minus(to, middle), outwards)));
  return (high * high + half * half) / (2 * high);
}
