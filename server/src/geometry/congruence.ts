import { cyclic } from './cyclic.ts';
import { itemAt } from './lists.ts';
import { distancePointToBoundary } from './distance.ts';
import { boundsOfPoints, polygonArea } from './measure.ts';
import type { Point, Polygon } from './shape.ts';
import { mirroring, movePolyline, rotation, translation } from './transform.ts';
import { between, cross, distance } from './vector.ts';

/** Which turns may bring one shape on to another: none, half a turn, or any angle. */
export type Turns = 'none' | 'half' | 'any';

/** How far apart, in mm, two boundaries may be and still be the same. */
const SAME_SHAPE = 0.05;

/**
 * Whether `a`, slid and turned as allowed but not mirrored, comes to lie on `b`
 * everywhere within `tolerance` mm. Where the corners are listed from, and how
 * curves were flattened, makes no difference.
 */
export function isCongruent(a: Polygon, b: Polygon, turns: Turns, tolerance: number = SAME_SHAPE): boolean {
  if (a.length < 3 || b.length < 3) return false;
  const centredA = centred(a);
  const centredB = centred(b);
  if (!centredA || !centredB) return false;
  return anglesFor(centredA, centredB, turns).some((angle) =>
    coincide(angle === 0 ? centredA : movePolyline(rotation(angle), centredA), centredB, tolerance),
  );
}

/** Whether the mirror image of `a`, slid and turned as allowed, comes to lie on `b` within `tolerance` mm. */
export const isMirrorImageOf = (a: Polygon, b: Polygon, turns: Turns, tolerance: number = SAME_SHAPE): boolean =>
  isCongruent([...movePolyline(mirroring(0), a)].reverse(), b, turns, tolerance);

/** Whether a shape is its own mirror image, so that turning it over changes nothing. */
export const isSymmetric = (polygon: Polygon, turns: Turns, tolerance: number = SAME_SHAPE): boolean =>
  flipsOnItself(polygon, tolerance) || isMirrorImageOf(polygon, polygon, turns, tolerance);

/** Whether flipping left to right brings each corner on to another, which most pieces show at a glance. */
function flipsOnItself(polygon: Polygon, tolerance: number): boolean {
  const first = polygon[0];
  const n = polygon.length;
  if (first === undefined) return false;
  const { minX, maxX } = boundsOfPoints(polygon);
  const lies = (p: Point, on: Point): boolean => Math.abs(minX + maxX - p.x - on.x) <= tolerance && Math.abs(p.y - on.y) <= tolerance;
  const start = polygon.findIndex((p) => lies(first, p));
  return start >= 0 && polygon.every((p, i) => lies(p, cyclic(polygon, start - i + n)));
}

/** The polygon moved so that the centre of its area is at the origin; undefined when it has no area. */
function centred(polygon: Polygon): Polygon | undefined {
  const origin = itemAt(polygon, 0);
  // Near the shape itself, so that large coordinates cost no digits.
  const near = movePolyline(translation(-origin.x, -origin.y), polygon);
  const area = polygonArea(near);
  if (area === 0) return undefined;
  const [centre] = moments(near, 1);
  return centre && movePolyline(translation(-centre.x / area, -centre.y / area), near);
}

/**
 * Every angle that could bring the first shape on to the second. Turning by α
 * multiplies the moment ∫zᵏ dA by e^{ikα}, so any moment that is not zero leaves
 * k angles. Only a disc has none; for it every angle is as good.
 */
function anglesFor(a: Polygon, b: Polygon, turns: Turns): readonly number[] {
  if (turns === 'none') return [0];
  if (turns === 'half') return [0, Math.PI];
  const radius = Math.max(...a.map((p) => distance(p, { x: 0, y: 0 })));
  const fromA = moments(a, HIGHEST_MOMENT);
  const fromB = moments(b, HIGHEST_MOMENT);
  let k = 0;
  let strongest = 0;
  fromA.forEach((moment, i) => {
    // The part of the size a boundary of this radius could give it at most.
    const strength = distance(moment, { x: 0, y: 0 }) / radius ** (i + 3);
    if (i > 0 && strength > strongest) {
      strongest = strength;
      k = i + 1;
    }
  });
  if (k === 0) return [0];
  const direction = (m: Point | undefined) => (m ? Math.atan2(m.y, m.x) : 0);
  const first = (direction(fromB[k - 1]) - direction(fromA[k - 1])) / k;
  return Array.from({ length: k }, (_, i) => first + (2 * Math.PI * i) / k);
}

const HIGHEST_MOMENT = 24;

/**
 * ∫z dA … ∫zⁿ dA over the polygon, z = x + iy. Each side p–q and the origin make
 * a triangle over which ∫zᵏ dA = (p×q)/((k+1)(k+2)) · Σ pⁱqᵏ⁻ⁱ, the integral of a
 * power over a simplex (Dirichlet).
 */
function moments(polygon: Polygon, highest: number): Point[] {
  const sums = Array.from({ length: highest }, () => ({ x: 0, y: 0 }));
  let p = cyclic(polygon, -1);
  for (const q of polygon) {
    const weight = cross(p, q);
    let power = { x: 1, y: 0 };
    let sum = { x: 1, y: 0 };
    sums.forEach((total, i) => {
      power = product(power, q);
      const carried = product(sum, p);
      sum = { x: carried.x + power.x, y: carried.y + power.y };
      const share = weight / ((i + 2) * (i + 3));
      total.x += share * sum.x;
      total.y += share * sum.y;
    });
    p = q;
  }
  return sums;
}

const product = (a: Point, b: Point): Point => ({ x: a.x * b.x - a.y * b.y, y: a.x * b.y + a.y * b.x });

/** Whether each boundary keeps to the other, looked at in its corners and the middles of its sides. */
function coincide(a: Polygon, b: Polygon, tolerance: number): boolean {
  if (sameCorners(a, b, tolerance)) return true;
  const keepsTo = (inner: Polygon, outer: Polygon) =>
    inner.every((p, i) => {
      const before = cyclic(inner, i - 1);
      return (
        distancePointToBoundary(p, outer) <= tolerance &&
        distancePointToBoundary(between(before, p, 0.5), outer) <= tolerance
      );
    });
  return keepsTo(a, b) && keepsTo(b, a);
}

/** Whether the corners are the same, one by one, wherever each list starts: the usual case, and a quick one. */
function sameCorners(a: Polygon, b: Polygon, tolerance: number): boolean {
  const first = a[0];
  const n = a.length;
  if (first === undefined || n !== b.length) return false;
  const start = b.findIndex((p) => distance(p, first) <= tolerance);
  return start >= 0 && a.every((p, i) => distance(p, cyclic(b, start + i)) <= tolerance);
}
