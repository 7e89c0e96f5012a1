import { cyclic } from '../../geometry/cyclic.ts';
import { doubleArea, pointsOf, turnOf, type Ring } from './ring.ts';

interface Removal {
  readonly deviation: number;
  /** The corner that takes the place of a corner and the next, or none when the corner just goes. */
  readonly corner: readonly [number, number] | undefined;
}

/**
 * A ring with fewer corners that covers the given one and reaches at most about `tolerance` millimetres beyond it: a
 * hollow corner is bridged, and a short outer side is replaced by running its neighbours on until they meet, the least
 * change first, until `corners` are left or the next change would be too great. Our own construction.
 */
export function simplified(ring: Ring, corners: number, tolerance: number): Ring {
  const points = pointsOf(ring);
  const removals = points.map((_, at) => removalAt(points, at));
  while (points.length > Math.max(4, corners)) {
    const at = leastRemoval(points, removals, tolerance);
    const least = at === undefined ? undefined : removals[at];
    if (at === undefined || least === undefined) break;
    if (least.corner) points[at] = [least.corner[0], least.corner[1]];
    const gone = least.corner ? (at + 1) % points.length : at;
    points.splice(gone, 1);
    removals.splice(gone, 1);
    // A removal is known by a corner, the one before and the two after it.
    for (let near = gone - 4; near <= gone + 3; near++) {
      const beside = (near + points.length) % points.length;
      removals[beside] = removalAt(points, beside);
    }
  }
  const result = new Float64Array(points.flat());
  return doubleArea(result) >= doubleArea(ring) ? result : ring;
}

/** Where the removal is that changes least within a tolerance and keeps the ring from crossing itself; the first of those alike. */
function leastRemoval(points: readonly [number, number][], removals: readonly (Removal | undefined)[], tolerance: number): number | undefined {
  const refused = new Set<number>();
  for (;;) {
    let found: number | undefined;
    let least: Removal | undefined;
    for (let at = 0; at < removals.length; at++) {
      const removal = removals[at];
      if (removal === undefined || removal.deviation > tolerance || (least !== undefined && removal.deviation >= least.deviation) || refused.has(at)) continue;
      found = at;
      least = removal;
    }
    if (found === undefined || least === undefined || staysSimple(points, least, found)) return found;
    refused.add(found);
  }
}

function removalAt(points: readonly [number, number][], at: number): Removal | undefined {
  const [a, b, c, d] = [cyclic(points, at - 1), cyclic(points, at), cyclic(points, at + 1), cyclic(points, at + 2)];
  const hereTurn = turn(a, b, c);
  if (hereTurn <= 0) return { deviation: -hereTurn / distance(a, c), corner: undefined };
  if (turn(b, c, d) <= 0) return undefined;
  // Both ends of side b–c turn left: run a→b and d→c on until they meet.
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - d[0], c[1] - d[1]];
  const det = ux * vy - uy * vx;
  if (Math.abs(det) < 1e-12 * (Math.abs(ux) + Math.abs(uy)) * (Math.abs(vx) + Math.abs(vy))) return undefined;
  const along = ((c[0] - b[0]) * vy - (c[1] - b[1]) * vx) / det;
  const back = ((c[0] - b[0]) * uy - (c[1] - b[1]) * ux) / det;
  if (along <= 0 || back <= 0) return undefined;
  const meet: [number, number] = [b[0] + along * ux, b[1] + along * uy];
  return { deviation: Math.abs(turn(b, c, meet)) / distance(b, c), corner: meet };
}

function distance(a: readonly [number, number], b: readonly [number, number]): number {
  return Math.max(1e-12, Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2));
}

/** Whether the sides a removal makes stay clear of all sides that do not meet them. */
function staysSimple(points: readonly [number, number][], removal: Removal, at: number): boolean {
  const count = points.length;
  const made: [readonly [number, number], readonly [number, number]][] = removal.corner
    ? [[cyclic(points, at), removal.corner], [removal.corner, cyclic(points, at + 1)]]
    : [[cyclic(points, at - 1), cyclic(points, at + 1)]];
  // Sides that meet those made: from one or two before to one after.
  const before = removal.corner ? 1 : 2;
  let from = cyclic(points, at + 2);
  for (let i = at + 2; i < at - before + count; i++) {
    const to = cyclic(points, i + 1);
    for (const [p, q] of made) if (meets(p, q, from, to)) return false;
    from = to;
  }
  return true;
}

/** As `turnOf`, of points. */
function turn(a: readonly [number, number], b: readonly [number, number], c: readonly [number, number]): number {
  return turnOf(a[0], a[1], b[0], b[1], c[0], c[1]);
}

function meets(a: readonly [number, number], b: readonly [number, number], c: readonly [number, number], d: readonly [number, number]): boolean {
  return turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0;
}
