import { area, booleanOp, ClipType, FillRule, inflatePaths, EndType, JoinType, pointInPolygon, PointInPolygonResult } from 'clipper2-ts';
import type { Path64, Paths64 } from 'clipper2-ts';

/*
 * The offset of a ring whose sides move by distances of their own, made from areas alone with clipper2-ts: what lies
 * inside, a band along every side, and a piece at every corner. It shares no code and no construction with
 * server/src/geometry/offset.ts, which follows the boundary.
 */

interface At {
  readonly x: number;
  readonly y: number;
}

export type Style = 'mitre' | 'bevel' | 'round';

/** A side of the ring, from its point to the next: how far it moves outward, in mm, and which edge it is part of. */
export interface Side {
  readonly from: At;
  readonly edge: number;
  readonly by: number;
  readonly style: Style;
}

/** Whole numbers of 10 nm. */
const GRID = 1e5;
export const onGrid = (points: readonly At[]): Path64 => {
  const made = points.map(({ x, y }) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) }));
  return area(made) < 0 ? made.reverse() : made;
};
const combine = (type: ClipType, subject: Paths64, clip: Paths64): Paths64 => booleanOp(type, subject, clip, FillRule.NonZero);
const union = (paths: Paths64): Paths64 => combine(ClipType.Union, paths, []);
const minus = (a: Paths64, b: Paths64): Paths64 => combine(ClipType.Difference, a, b);
const both = (a: Paths64, b: Paths64): Paths64 => combine(ClipType.Intersection, a, b);

/** Larger by two micrometres, so that rounding leaves no hair's breadth between neighbours. */
const grown = (paths: Paths64): Paths64 => inflatePaths(paths, 0.002 * GRID, JoinType.Miter, EndType.Polygon, 2);

const FAR = 5000;
const LIMIT = 4;

/** How far off, in greater distances, sides that move unequally still meet. */
const REACH = 4;

interface Frame {
  readonly at: (along: number, out: number) => At;
  readonly u: At;
  readonly n: At;
  readonly size: number;
}

function frame(a: At, b: At): Frame {
  const size = Math.hypot(b.x - a.x, b.y - a.y);
  const u = { x: (b.x - a.x) / size, y: (b.y - a.y) / size };
  const n = { x: u.y, y: -u.x };
  return { u, n, size, at: (along, out) => ({ x: a.x + u.x * along + n.x * out, y: a.y + u.y * along + n.y * out }) };
}

const touches = (paths: Path64, p: At): boolean => {
  const there = { x: Math.round(p.x * GRID), y: Math.round(p.y * GRID) };
  return pointInPolygon(there, paths) !== PointInPolygonResult.IsOutside || paths.some(({ x, y }) => Math.hypot(x - there.x, y - there.y) < 0.002 * GRID);
};

/** The band beside the ring that moving it to its right sweeps over; `undefined` where two corners vie for one side. */
function swept(sides: readonly Side[], inside: Paths64): Paths64 | undefined {
  const count = sides.length;
  const side = (i: number): Side => sides[((i % count) + count) % count] as Side;
  const frames = sides.map((one, i) => frame(one.from, side(i + 1).from));
  const frameOf = (i: number): Frame => frames[((i % count) + count) % count] as Frame;
  // A run is all neighbours that move alike; at its ends it meets runs that don't.
  const runOf: number[] = [];
  for (let i = 0; i < count; i++) runOf.push(i > 0 && side(i).by === side(i - 1).by ? (runOf[i - 1] as number) : i);
  const firstRun = side(0).by === side(-1).by ? (runOf[count - 1] as number) : 0;
  const run = (i: number): number => { const r = runOf[((i % count) + count) % count] as number; return r === 0 ? firstRun : r; };
  const bands = new Map<number, Paths64>();
  const addTo = (i: number, ...paths: Paths64): void => { bands.set(run(i), [...(bands.get(run(i)) ?? []), ...paths]); };
  sides.forEach((one, i) => {
    const f = frameOf(i);
    if (one.by > 0) addTo(i, onGrid([f.at(0, 0), f.at(f.size, 0), f.at(f.size, one.by), f.at(0, one.by)]));
  });
  const extra: Paths64 = [];
  const unequal: { corner: number; narrow: number; wide: number; convex: boolean; wideFirst: boolean; theta: number }[] = [];
  for (let i = 0; i < count; i++) {
    const [a, b] = [side(i - 1), side(i)];
    const [fa, fb] = [frameOf(i - 1), frameOf(i)];
    const theta = Math.atan2(fa.u.x * fb.u.y - fa.u.y * fb.u.x, fa.u.x * fb.u.x + fa.u.y * fb.u.y);
    const widest = Math.max(a.by, b.by);
    if (widest === 0) continue;
    const c = Math.cos(theta);
    const mixed = Math.abs(theta) < 1e-9 ? a.by !== b.by : a.by < b.by * c - 1e-12 || b.by < a.by * c - 1e-12;
    if (mixed) {
      const wideFirst = a.by > b.by;
      unequal.push({ corner: i, narrow: wideFirst ? i : i - 1, wide: wideFirst ? i - 1 : i, convex: theta > 0, wideFirst, theta });
      continue;
    }
    if (theta <= 0) continue;
    const corner = b.from;
    const [end, start] = [fa.at(fa.size, a.by), fb.at(0, b.by)];
    const beyond = (b.by - a.by * c) / Math.sin(theta);
    const meeting = fa.at(fa.size + beyond, a.by);
    const mitre = onGrid([corner, end, meeting, start]);
    const style = a.by === b.by && theta < 0.2 ? 'mitre' : (a.by > b.by || (a.by === b.by && a.edge < b.edge) ? a : b).style;
    const reach = Math.hypot(meeting.x - corner.x, meeting.y - corner.y);
    const into = a.by === b.by ? i : -1;
    const add = (one: Path64): void => { if (into >= 0) addTo(i, one); else extra.push(one); };
    if (style === 'round') {
      const disc = onGrid(Array.from({ length: 2000 }, (_, k) => ({ x: corner.x + widest * Math.cos((k * Math.PI) / 1000), y: corner.y + widest * Math.sin((k * Math.PI) / 1000) })));
      // A needle's mitre reaches too far for whole numbers; nothing of it matters beyond the disc.
      const near = reach > FAR ? onGrid([corner, end, fa.at(fa.size + FAR / 10, a.by), fb.at(-FAR / 10, b.by), start]) : mitre;
      for (const one of both([near], [disc])) add(one);
    } else if (style === 'mitre' && reach <= LIMIT * widest + 1e-9) add(mitre);
    else add(onGrid([corner, end, start]));
  }
  // All are found before any is taken away, so that their order makes no difference.
  const cutOff = new Map<number, Paths64>();
  const filled: Paths64 = [];
  for (const { corner, narrow, wide, convex, wideFirst, theta } of unequal) {
    const shortened = convex ? wide : narrow;
    const way = (shortened === corner) ? 1 : -1;
    const [w, n] = [side(wide).by, side(narrow).by];
    const reach = REACH * w;
    const at = side(corner).from;
    const lengthened = frameOf(convex ? narrow : wide);
    const out = convex ? n : w;
    const forward = (convex ? narrow : wide) === corner - 1;
    /** Along the line that is lengthened, from the corner on. */
    const on = (along: number, off: number): At => ({
      x: at.x + lengthened.u.x * along * (forward ? 1 : -1) + lengthened.n.x * off,
      y: at.y + lengthened.u.y * along * (forward ? 1 : -1) + lengthened.n.y * off,
    });
    const band = bands.get(run(shortened)) ?? [];
    const straightOn = Math.abs(theta) < 1e-9;
    const foot = frameOf(wide).at(wideFirst ? frameOf(wide).size : 0, w);
    // What may be cut off beyond the narrow side's line, or filled in below the wide one's.
    const zone = convex ? onGrid([on(0, out), on(reach, out), on(reach, FAR), on(0, FAR)]) : onGrid([on(0, 0), on(reach, 0), on(reach, out), on(0, out)]);
    const pieces = straightOn ? [] : convex ? both(grown(band), [zone]) : minus(minus([zone], grown(band)), inside);
    const start = convex ? frameOf(shortened).at(way === 1 ? 0.001 : frameOf(shortened).size - 0.001, w - 0.001) : on(0.001, out - 0.001);
    const piece = pieces.find((one) => touches(one, start));
    // Where something else lies before the end of the wide band, it hangs on what that is.
    const face = convex ? [] : [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.01].map((share) => on(0.001, out * share));
    if (piece === undefined && pieces.some((one) => face.some((p) => touches(one, p)))) return undefined;
    // The narrow side's line runs on to the wide one's end.
    if (convex && !straightOn) {
      const x = { x: at.x + ((foot.x - at.x) / w) * (n / Math.cos(theta)), y: at.y + ((foot.y - at.y) / w) * (n / Math.cos(theta)) };
      const f = frameOf(narrow);
      if (n > 0) extra.push(onGrid([at, f.at(wideFirst ? 0 : f.size, n), x]));
    }
    if (piece !== undefined && !straightOn) {
      const furthest = Math.max(...piece.map(({ x, y }) => ((x / GRID - at.x) * lengthened.u.x + (y / GRID - at.y) * lengthened.u.y) * (forward ? 1 : -1)));
      const last = lastOf(sides, run, shortened, way);
      const lastFrame = frameOf(last);
      const end = lastFrame.at(way === 1 ? lastFrame.size : 0, 0);
      const reachesEnd = piece.some(({ x, y }) => {
        const off = { x: x / GRID - end.x, y: y / GRID - end.y };
        return Math.abs(off.x * lastFrame.u.x + off.y * lastFrame.u.y) < 0.01 && Math.hypot(off.x, off.y) < side(last).by + 0.01;
      });
      // Right at the limit, or where another corner takes part in it, rounding or order decides.
      if (furthest > 0.8 * reach && furthest < reach - 0.001 || reachesEnd) return undefined;
      // Straight sides whose own lines meet further off than that step, whatever else stands in the way.
      const local = Math.max(...[w - n * Math.cos(theta), w * Math.cos(theta) - n].map((one) => Math.abs(one / Math.sin(theta))));
      const curved = sides.filter(({ edge }) => edge === side(shortened).edge).length > 1;
      if (local > reach && furthest < reach && !curved) return undefined;
      // What other bands have in the same place may be cut off with it or not.
      const others = [...bands].flatMap(([at, paths]) => (at === run(shortened) || at === run(convex ? narrow : wide) ? [] : paths));
      if (convex && both(grown(others), grown([piece])).length > 0) return undefined;
      if (furthest < 0.8 * reach) {
        if (convex) cutOff.set(run(shortened), [...(cutOff.get(run(shortened)) ?? []), piece]);
        else filled.push(piece);
        continue;
      }
    }
  }
  // What one corner fills in and another takes away is for neither to say, nor what lies on two bands at once.
  const runs = [...cutOff.values()];
  if (both(runs.flat(), grown(filled)).length > 0 || runs.some((one, i) => both(one, runs.slice(i + 1).flat()).length > 0)) return undefined;
  for (const [at, pieces] of cutOff) bands.set(at, minus(grown(bands.get(at) ?? []), grown(pieces)));
  return grown([...[...bands.values()].flat(), ...extra, ...filled]);
}

function lastOf(sides: readonly Side[], run: (i: number) => number, from: number, way: 1 | -1): number {
  let i = from;
  for (let k = 0; k < sides.length && run(i + way) === run(from); k++) i += way;
  return ((i % sides.length) + sides.length) % sides.length;
}

/** What the ring encloses once its sides have moved outward, hollows that close filled; largest part first. */
export function outward(sides: readonly Side[]): Paths64 | undefined {
  const inside = [onGrid(sides.map(({ from }) => from))];
  const band = swept(sides, inside);
  return band && largestFirst(union([...inside, ...band]).filter((one) => area(one) > 0));
}

/** The same, sides moving inward; holes don't arise but for rounding. */
export function inward(sides: readonly Side[]): Paths64 | undefined {
  const inside = [onGrid(sides.map(({ from }) => from))];
  const reversed = sides.map((_, i) => {
    const own = sides[(2 * sides.length - 2 - i) % sides.length] as Side;
    return { ...own, from: (sides[(sides.length - 1 - i) % sides.length] as Side).from };
  });
  const outside = minus([onGrid([{ x: -FAR, y: -FAR }, { x: FAR, y: -FAR }, { x: FAR, y: FAR }, { x: -FAR, y: FAR }])], inside);
  const band = swept(reversed, outside);
  return band && largestFirst(minus(inside, band).filter((one) => area(one) > 0));
}

const largestFirst = (paths: Paths64): Paths64 => [...paths].sort((a, b) => area(b) - area(a));

/** Whether two regions differ nowhere by more than `within` mm: what differs is gone once it is made narrower by as much. */
export function sameRegion(ours: readonly At[], theirs: Path64, within: number): boolean {
  const apart = combine(ClipType.Xor, [onGrid(ours)], [theirs]);
  return inflatePaths(apart, (-within / 2) * GRID, JoinType.Miter, EndType.Polygon, 2).length === 0;
}

export const areaOf = (one: Path64): number => area(one) / GRID ** 2;
