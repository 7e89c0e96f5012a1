import { area as clipperArea, EndType, FillRule, inflatePaths, intersect, JoinType, xor } from 'clipper2-ts';
import type { Path64, Paths64 } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isCongruent } from '../../server/src/geometry/congruence.ts';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { flattenOutline } from '../../server/src/geometry/flatten.ts';
import { edgeLength, outlineArea, polygonArea } from '../../server/src/geometry/measure.ts';
import { leftOfAll } from '../../server/src/geometry/offset-convex.ts';
import type { CornerStyle } from '../../server/src/geometry/offset-join.ts';
import { offsetOutline } from '../../server/src/geometry/offset.ts';
import { polygon } from '../../server/src/geometry/path.ts';
import { rectangle } from '../../server/src/geometry/rectangle.ts';
import type { Outline, Polygon } from '../../server/src/geometry/shape.ts';
import { box, isClosed, convex, p, present, starShaped } from './shapes.ts';

const mitre = (limit = 1000) => (): CornerStyle => ({ kind: 'mitre', limit });

function offset(outline: Outline, by: number | Record<string, number>, style: () => CornerStyle = mitre()): Outline {
  const made = offsetOutline(outline, (name) => (typeof by === 'number' ? by : (by[name] ?? 0)), style);
  if (made.kind !== 'ok') throw new Error('vanished');
  return made.outline;
}

const corners = (outline: Outline): Polygon => flattenOutline(outline).polygon;
const names = (outline: Outline) => outline.edges.map(({ name }) => name);

/** To clipper's whole numbers, fine enough (10 nm) that its rounding does not matter. */
const GRID = 1e5;
const onGrid = (points: Polygon): Path64 => points.map(({ x, y }) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) }));
/** A difference all the way round is a ring, whose hole has negative area. */
const areaApart = (ours: Paths64, theirs: Paths64): number =>
  xor(ours, theirs, FillRule.NonZero).reduce((sum, path) => sum + clipperArea(path), 0) / GRID ** 2;

describe('uniform offsets against clipper2-ts inflatePaths', () => {
  const inflated = (points: Polygon, by: number) =>
    inflatePaths([onGrid(points)], by * GRID, JoinType.Miter, EndType.Polygon, 1000);
  /** Rounding to a micrometre all along a boundary of a metre or so. */
  const NOTHING = 2;

  it('agrees on convex shapes', () => {
    fc.assert(
      fc.property(convex, fc.integer({ min: -35, max: 40 }), (points, by) => {
        fc.pre(by !== 0);
        const made = offsetOutline(present(polygon(points)), () => by, mitre());
        const theirs = inflated(points, by);
        const ours = made.kind === 'ok' ? [onGrid(corners(made.outline))] : [];
        expect(areaApart(ours, theirs)).toBeLessThan(NOTHING);
      }),
      { numRuns: 300 },
    );
  });

  it('agrees on shapes with hollows, outward and inward', () => {
    fc.assert(
      fc.property(starShaped, fc.integer({ min: -20, max: 20 }), (points, by) => {
        fc.pre(by !== 0);
        const made = offsetOutline(present(polygon(points)), () => by, mitre());
        const theirs = inflated(points, by);
        // Of several parts we keep the largest, and we fill holes.
        const largest = theirs.reduce<Path64>((best, path) => (clipperArea(path) > clipperArea(best) ? path : best), []);
        if (made.kind === 'vanished') expect(clipperArea(largest) / GRID ** 2).toBeLessThan(NOTHING);
        else expect(areaApart([onGrid(corners(made.outline))], [largest])).toBeLessThan(NOTHING);
      }),
      { numRuns: 300 },
    );
  });

  it('agrees on curved pieces, within the flatness', () => {
    const pieces = [
      present(ellipse(100, 60, 0, 180)),
      present(ellipse(90, 90)),
      box(100, 60, { top_left: { kind: 'round', radius: 12 }, bottom_right: { kind: 'box', across: 20, up: 10 } }),
      box(80, 50, { top_left: { kind: 'round', radius: 8 }, top_right: { kind: 'round', radius: 8 }, bottom_left: { kind: 'round', radius: 3 } }),
    ];
    for (const piece of pieces) {
      for (const by of [7, 3, -2, -5, -9, -14]) {
        const fine = flattenOutline(piece, 0.0005).polygon;
        const ours = offset(piece, by);
        // 0.01 mm all along the boundary.
        expect(areaApart([onGrid(corners(ours))], inflated(fine, by))).toBeLessThan(0.01 * 450);
      }
    }
  });

  it('rounds corners as the round join does', () => {
    const points = [p(0, 0), p(90, 10), p(60, 70), p(20, 40)];
    const theirs = inflatePaths([onGrid(points)], 12 * GRID, JoinType.Round, EndType.Polygon, 2, 0.001 * GRID);
    const ours = offset(present(polygon(points)), 12, () => ({ kind: 'round' }));
    expect(areaApart([onGrid(corners(ours))], theirs)).toBeLessThan(1);
  });
});

/** How far each corner turns, in radians. Sides that move unequally step at a corner that turns too little. */
const turnsOf = (points: Polygon): readonly number[] =>
  points.map((b, i) => {
    const a = present(points.at(i - 1));
    const c = present(points[(i + 1) % points.length]);
    return Math.atan2((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x), (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y));
  });

describe('different distances against clipper2-ts intersections', () => {
  it('is what lies inside every side moved by its own distance, on convex shapes without steps', () => {
    let compared = 0;
    fc.assert(
      fc.property(convex, fc.array(fc.integer({ min: 10, max: 14 }), { minLength: 12, maxLength: 12 }), fc.boolean(), (points, sizes, inward) => {
        const by = (i: number) => (inward ? -1 : 1) * present(sizes[i]);
        const made = offsetOutline(present(polygon(points)), (name) => by(Number(name.slice(4)) - 1), mitre());
        if (turnsOf(points).some((turn) => turn < 0.35)) return;
        // Each side as a huge rectangle to the left of its moved line.
        const expected = points.reduce<Paths64>((left, a, i) => {
          const b = present(points[(i + 1) % points.length]);
          const size = Math.hypot(b.x - a.x, b.y - a.y);
          const [ux, uy] = [(b.x - a.x) / size, (b.y - a.y) / size];
          const at = (along: number, inside: number) =>
            p(a.x + ux * along - uy * (inside - by(i)), a.y + uy * along + ux * (inside - by(i)));
          const half = [onGrid([at(-3000, 0), at(3000, 0), at(3000, 6000), at(-3000, 6000)])];
          return i === 0 ? half : intersect(left, half, FillRule.NonZero);
        }, []);
        const ours = made.kind === 'ok' ? [onGrid(corners(made.outline))] : [];
        expect(areaApart(ours, expected)).toBeLessThan(2);
        compared++;
      }),
      { numRuns: 400 },
    );
    expect(compared).toBeGreaterThan(20);
  });
});

describe('offset', () => {
  it('gives back the very outline when nothing moves', () => {
    const outline = present(ellipse(100, 60));
    expect(offset(outline, 0)).toBe(outline);
  });

  it('comes back after going out and in, on convex shapes', () => {
    fc.assert(
      fc.property(convex, fc.integer({ min: 1, max: 50 }), (points, by) => {
        const outline = present(polygon(points));
        const back = offset(offset(outline, by), -by);
        expect(isCongruent(corners(back), corners(outline), 'none', 1e-6)).toBe(true);
        expect(names(back)).toEqual(names(outline));
      }),
    );
  });

  it('moves each edge by its own distance, keeping names and ends to measure from', () => {
    const made = offset(box(200, 120), { bottom: 10, right: 7, top: 25, left: 0 });
    expect(corners(made)).toEqual([p(0, -10), p(207, -10), p(207, 145), p(0, 145)]);
    expect(names(made)).toEqual(['bottom', 'right', 'top', 'left']);
    expect(made.edges.map(({ measuredFrom }) => measuredFrom)).toEqual(['start', 'start', 'end', 'end']);
  });

  it('mitres up to the limit and bevels beyond, the bevel belonging to the edge before', () => {
    const square = box(100, 100);
    // A right-angled mitre reaches √2 times the distance.
    expect(outlineArea(offset(square, 10, mitre(1.42)))).toBe(14_400);
    const bevelled = offset(square, 10, mitre(1.41));
    expect(outlineArea(bevelled)).toBeCloseTo(14_400 - 4 * 50, 9);
    expect(bevelled.edges.map(({ segments }) => segments.length)).toEqual([2, 2, 2, 2]);
    expect(corners(offset(square, 10, () => ({ kind: 'bevel' })))).toEqual(corners(bevelled));
  });

  it('asks for the style only where edges draw apart', () => {
    const asked: string[] = [];
    const hollow = present(polygon([p(0, 0), p(100, 0), p(100, 100), p(50, 30), p(0, 100)]));
    offsetOutline(hollow, () => 5, (before, after) => {
      asked.push(`${before} ${after}`);
      return { kind: 'mitre', limit: 10 };
    });
    expect(asked).toEqual(['side5 side1', 'side1 side2', 'side2 side3', 'side4 side5']);
  });

  it('steps between edges in line that move differently', () => {
    const outline = present(polygon([p(0, 0), p(50, 0), p(100, 0), p(100, 40), p(0, 40)]));
    const made = offset(outline, { side1: 10, side2: 4 });
    expect(outlineArea(made)).toBe(4000 + 500 + 200);
    expect(names(made)).toEqual(['side1', 'side2', 'side3', 'side4', 'side5']);
    expect(made.edges[0]?.segments.map(({ to }) => to)).toEqual([p(50, -10), p(50, -4)]);
  });

  it('keeps straight edges their exact length beside curves', () => {
    const made = offset(box(100, 60, { top_right: { kind: 'round', radius: 10 } }), 8);
    expect(edgeLength(present(made.edges.find(({ name }) => name === 'top')))).toBeCloseTo(98, 9);
    expect(edgeLength(present(made.edges.find(({ name }) => name === 'top_right')))).toBeCloseTo(18 * (Math.PI / 2), 1);
  });

  it('drops edges that lose all their length', () => {
    const round = { kind: 'round', radius: 5 } as const;
    const piece = box(100, 60, { top_left: round, top_right: round, bottom_left: round, bottom_right: round });
    for (const by of [-5, -8, -29]) {
      const made = offset(piece, by);
      expect(names(made)).toEqual(['bottom', 'right', 'top', 'left']);
      expect(outlineArea(made)).toBeCloseTo((100 + 2 * by) * (60 + 2 * by), 6);
    }
    expect(offsetOutline(piece, () => -30, mitre())).toEqual({ kind: 'vanished' });
    expect(offsetOutline(present(ellipse(60, 60)), () => -31, mitre())).toEqual({ kind: 'vanished' });
  });

  it('leaves no speck where a curve shrinks to a point beside a hollow corner', () => {
    const piece = box(100, 60, { top_left: { kind: 'round', radius: 5 }, bottom_right: { kind: 'box', across: 20, up: 10 } });
    const made = offset(piece, -5);
    expect(names(made)).toEqual(['bottom', 'bottom_right_upright', 'bottom_right_level', 'right', 'top', 'left']);
    expect(isClosed(made)).toBe(true);
    expect(outlineArea(made)).toBeCloseTo(90 * 50 - 20 * 10, 6);
  });

  it('fills narrow hollows, edges on either side keeping their names', () => {
    const notched = present(polygon([p(0, 0), p(100, 0), p(100, 50), p(52, 50), p(50, 40), p(48, 50), p(0, 50)]));
    const made = offset(notched, 10, mitre(4));
    expect(outlineArea(made)).toBe(120 * 70);
    expect(names(made)).toEqual(['side1', 'side2', 'side3', 'side6', 'side7']);
    expect(isClosed(made)).toBe(true);
  });

  it('keeps the largest part when an inward offset falls apart', () => {
    const dumbbell = present(
      polygon([p(0, 0), p(40, 0), p(40, 18), p(80, 18), p(80, 0), p(140, 0), p(140, 40), p(80, 40), p(80, 22), p(40, 22), p(40, 40), p(0, 40)]),
    );
    const made = offsetOutline(dumbbell, () => -5, mitre());
    expect(made.kind === 'ok' && made.others.map((part) => Math.round(polygonArea(part)))).toEqual([30 * 30]);
    expect(made.kind === 'ok' && outlineArea(made.outline)).toBeCloseTo(50 * 30, 6);
  });

  it('stays closed and finite whatever the distances', () => {
    fc.assert(
      fc.property(starShaped, fc.array(fc.integer({ min: -25, max: 25 }), { minLength: 14, maxLength: 14 }), (points, by) => {
        const outline = present(polygon(points));
        const made = offsetOutline(outline, (name) => present(by[Number(name.slice(4)) - 1]), mitre(4));
        if (made.kind !== 'ok') return;
        expect(isClosed(made.outline)).toBe(true);
        expect(outlineArea(made.outline)).toBeGreaterThan(0);
      }),
    );
  });
});

describe('leftOfAll', () => {
  it('finds nothing between lines that face away from each other', () => {
    const border = (x: number, y: number, dx: number, dy: number) => ({ edge: 0, point: p(x, y), direction: p(dx, dy) });
    const square = [border(0, 0, 1, 0), border(10, 0, 0, 1), border(0, 10, -1, 0), border(0, 0, 0, -1)];
    expect(leftOfAll(square)?.map(({ from }) => from)).toEqual([p(0, 0), p(10, 0), p(10, 10), p(0, 10)]);
    expect(leftOfAll([border(0, 11, 1, 0), ...square.slice(1)])).toEqual([]);
  });
});

describe('arcs', () => {
  it('stay arcs, so that an offset of an offset is exact', () => {
    const drawn = rectangle(150, 100, { bottom_left: { kind: 'round', radius: 25 }, top_left: { kind: 'round', radius: 25 } });
    if (drawn.kind !== 'ok') throw new Error(drawn.kind);
    const mitre = () => ({ kind: 'mitre', limit: 4 }) as const;
    const once = offsetOutline(drawn.outline, () => -10, mitre);
    if (once.kind !== 'ok') throw new Error(once.kind);
    const twice = offsetOutline(once.outline, () => -5, mitre);
    if (twice.kind !== 'ok') throw new Error(twice.kind);
    const length = (name: string) => edgeLength(twice.outline.edges.find((edge) => edge.name === name) ?? { name, start: { x: 0, y: 0 }, segments: [], measuredFrom: 'start' });
    expect(length('left')).toBeCloseTo(50, 9);
    // A quarter of a circle whose radius lost both distances.
    expect(length('top_left')).toBeCloseTo((Math.PI / 2) * 10, 9);
  });

  it('that shrink to nothing leave a mitred corner', () => {
    const drawn = rectangle(150, 100, { bottom_left: { kind: 'round', radius: 5 } });
    if (drawn.kind !== 'ok') throw new Error(drawn.kind);
    const inset = offsetOutline(drawn.outline, () => -10, () => ({ kind: 'mitre', limit: 4 }));
    if (inset.kind !== 'ok') throw new Error(inset.kind);
    expect(Math.abs(outlineArea(inset.outline) - 130 * 80)).toBeLessThan(0.5);
  });
});
