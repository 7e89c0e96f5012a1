import type { Point } from './shape.ts';
import { ahead, cross, dot, minus } from './vector.ts';

/** A line the result must stay to the left of, the edge it belongs to, and a point on it. */
export interface Border {
  readonly edge: number;
  readonly point: Point;
  readonly direction: Point;
}

/** The corner at which a border takes over from the one before it. */
export interface ConvexCorner {
  readonly edge: number;
  readonly from: Point;
}

/**
 * What lies to the left of every border, as the corners at which each takes
 * over, counter-clockwise; empty when nothing does. The borders' directions must
 * turn left once round, as they do along a convex outline; where neighbours lie
 * on one line, the second takes over at its own point. Undefined when that does
 * not settle it. Each border enters and leaves a double-ended queue once (M. de
 * Berg et al., Computational Geometry, section 4.2, for the sorted case).
 */
export function leftOfAll(borders: readonly Border[]): readonly ConvexCorner[] | undefined {
  const kept: Border[] = [];
  // corners[i] is where kept[i] hands over to kept[i + 1]; everything before `head` has been dropped.
  const corners: Point[] = [];
  let head = 0;
  const last = () => (corners.length > head ? corners.at(-1) : undefined);
  const dropLast = () => {
    corners.pop();
    kept.pop();
  };
  /** Drops borders the new one cuts off or, being on its line, makes run backwards. */
  const dropBefore = (border: Border) => {
    for (let corner = last(); corner; corner = last()) {
      const before = kept.at(-1) as Border;
      const backwards = areInLine(before, border) && dot(before.direction, minus(border.point, corner)) <= SLACK;
      if (!backwards && !isOutside(border, corner)) break;
      dropLast();
    }
  };
  for (const border of borders) {
    dropBefore(border);
    while (corners.length > head && isOutside(border, corners[head] as Point)) head++;
    const before = kept.at(-1);
    if (before) {
      const corner = handOver(before, border);
      if (corner === 'nowhere') return [];
      if (!corner) return undefined;
      corners.push(corner);
    }
    kept.push(border);
  }
  dropBefore(kept[head] as Border);
  while (corners.length > head && isOutside(kept.at(-1) as Border, corners[head] as Point)) head++;
  const round = kept.slice(head);
  if (round.length < 3) return [];
  const closing = handOver(round.at(-1) as Border, round[0] as Border);
  if (closing === 'nowhere') return [];
  if (!closing) return undefined;
  const starts = [closing, ...corners.slice(head)];
  const lengths = round.map(({ direction }, i) => dot(direction, minus(starts[i + 1] ?? closing, starts[i] as Point)));
  if (lengths.some((length) => length < -NO_LENGTH)) return undefined;
  return round.flatMap(({ edge }, i) => ((lengths[i] as number) > NO_LENGTH ? [{ edge, from: starts[i] as Point }] : []));
}

/** Rounding errors, in mm, that put a corner neither outside a border nor past another corner. */
const SLACK = 1e-9;
const NO_LENGTH = 1e-6;

const isOutside = (border: Border, p: Point): boolean => cross(border.direction, minus(p, border.point)) < -SLACK;

const areInLine = (a: Border, b: Border): boolean =>
  Math.abs(cross(a.direction, b.direction)) <= 1e-9 &&
  dot(a.direction, b.direction) > 0 &&
  Math.abs(cross(a.direction, minus(b.point, a.point))) < 1e-6;

function handOver(a: Border, b: Border): Point | 'nowhere' | undefined {
  if (areInLine(a, b)) return b.point;
  const sin = cross(a.direction, b.direction);
  // Facing borders become neighbours only when one cuts off all that the other leaves.
  if (Math.abs(sin) <= 1e-9) return dot(a.direction, b.direction) < 0 ? 'nowhere' : undefined;
  return sin < 0 ? 'nowhere' : ahead(a.point, a.direction, cross(minus(b.point, a.point), b.direction) / sin);
}
