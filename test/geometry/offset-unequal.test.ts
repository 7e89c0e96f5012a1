import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distancePointToBoundary } from '../../server/src/geometry/distance.ts';
import { flattenOutline } from '../../server/src/geometry/flatten.ts';
import { contains } from '../../server/src/geometry/inside.ts';
import type { CornerStyle } from '../../server/src/geometry/offset-join.ts';
import { offsetOutline } from '../../server/src/geometry/offset.ts';
import { polygon } from '../../server/src/geometry/path.ts';
import type { Outline, Point, Polygon } from '../../server/src/geometry/shape.ts';
import { areaOf, inward, onGrid, outward, sameRegion, type Side, type Style } from './reference-offset.ts';
import { convex, isClosed, p, present, starShaped } from './shapes.ts';

/** What each edge is given: how far it moves and how its corners are made. */
interface Given {
  readonly by: number;
  readonly style: Style;
}

const styleOf = (style: Style): CornerStyle => (style === 'mitre' ? { kind: 'mitre', limit: 4 } : { kind: style });

/** The wider of two edges says how their corner is made, as for allowances; of two alike, the first. */
function moved(outline: Outline, given: readonly Given[], sign: 1 | -1): ReturnType<typeof offsetOutline> {
  const index = (name: string): number => outline.edges.findIndex((edge) => edge.name === name);
  const of = (name: string): Given => present(given[index(name)]);
  const decides = (a: string, b: string): Given => (of(a).by > of(b).by || (of(a).by === of(b).by && index(a) < index(b)) ? of(a) : of(b));
  return offsetOutline(outline, (name) => sign * of(name).by, (before, after) => styleOf(decides(before, after).style));
}

/** Far finer than the product's own lines: chords within half a micrometre. */
const sidesOf = (outline: Outline, given: readonly Given[]): readonly Side[] => {
  const { polygon: ring, ranges } = flattenOutline(outline, 0.0005);
  return ring.map((from, i) => {
    const edge = ranges.findIndex((range) => i >= range.from && i < range.to);
    return { from, edge, ...present(given[edge]) };
  });
};

/** Compares an offset with the one made of areas: `same`, `vanished`, `open question`, or what is different. */
function compare(outline: Outline, given: readonly Given[], sign: 1 | -1, within = 0.05): string {
  const expected = (sign === 1 ? outward : inward)(sidesOf(outline, given));
  if (expected === undefined) return 'open question';
  const made = moved(outline, given, sign);
  const [largest, second] = expected;
  if (made.kind === 'vanished') return largest === undefined || areaOf(largest) < 1 ? 'vanished' : `vanished, with ${areaOf(largest)} mm² left`;
  const ring = flattenOutline(made.outline).polygon;
  if (!isClosed(made.outline)) return 'not closed';
  if (!isSimple(ring)) return 'crosses itself';
  if (largest === undefined) return 'should have vanished';
  // Of two parts as large as each other either may be the one.
  const fits = sameRegion(ring, largest, within) || (second !== undefined && areaOf(second) > areaOf(largest) - 1 && sameRegion(ring, second, within));
  return fits ? 'same' : `differs: ${JSON.stringify({ given, sign, ring: ring.slice(0, 40) })}`;
}

/** Every side against every other that is no neighbour, by the signs of four turns; touching is allowed. */
function isSimple(ring: Polygon): boolean {
  const turn = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  const next = (i: number): Point => present(ring[(i + 1) % ring.length]);
  return ring.every((a, i) => ring.every((c, j) => {
    if (j <= i + 1 || (i === 0 && j === ring.length - 1)) return true;
    const [b, d] = [next(i), next(j)];
    return !(turn(a, b, c) * turn(a, b, d) < -1e-9 && turn(c, d, a) * turn(c, d, b) < -1e-9);
  }));
}

const styles: readonly Style[] = ['mitre', 'bevel', 'round'];

describe('a grid of joins, distances and both ways of drawing', () => {
  const shapes: Readonly<Record<string, readonly Point[]>> = {
    rectangle: [p(0, 0), p(177.8, 0), p(177.8, 127), p(0, 127)],
    'an L': [p(0, 0), p(180, 0), p(180, 60), p(90, 60), p(90, 130), p(0, 130)],
    'a slanting bib': [p(0, 0), p(250, 0), p(250, 500), p(100, 650), p(0, 650)],
    'a wedge': [p(0, 0), p(200, 0), p(190, 40), p(0, 120)],
  };
  // None, 3/8 in and 1 in, of one edge beside all the others.
  const sizes = [0, 9.525, 25.4];
  const grid = Object.keys(shapes).flatMap((shape) => styles.flatMap((style) => sizes.flatMap((one) => sizes.flatMap((rest) => ([1, -1] as const).map((sign) => ({ shape, style, one, rest, sign }))))));
  it.each(grid)('$shape, $style, $one mm beside $rest mm, $sign', ({ shape, style, one, rest, sign }) => {
    const outline = present(polygon(present(shapes[shape])));
    for (const at of outline.edges.keys()) {
      expect(compare(outline, outline.edges.map((_, i) => ({ by: i === at ? one : rest, style })), sign)).toBe('same');
    }
  });
});

describe('an edge that the lines of both its neighbours cut off', () => {
  it('is gone, and they meet', () => {
    // A corner cut off by a side 28 mm long that moves 40 mm, between sides that don't move: their lines make the corner anew.
    const outline = present(polygon([p(0, 0), p(200, 0), p(200, 80), p(180, 100), p(0, 100)]));
    const made = offsetOutline(outline, (name) => (name === 'side3' ? 40 : 0), () => ({ kind: 'mitre', limit: 4 }));
    expect(made).toMatchObject({ kind: 'ok', steps: [] });
    expect(made.kind === 'ok' && sameRegion(flattenOutline(made.outline).polygon, onGrid([p(0, 0), p(200, 0), p(200, 100), p(0, 100)]), 0.01)).toBe(true);
  });
});

describe('random outlines, distances and joins', () => {
  const given = fc.record({ by: fc.constantFrom(0, 3, 5, 6, 9.525, 12), style: fc.constantFrom(...styles) });
  const sizes = fc.array(given, { minLength: 14, maxLength: 14 });
  const sign = fc.constantFrom(1 as const, -1 as const);
  // Always the same ones: where several corners vie for one side, which of them has it is for no area to say.
  const runs = { numRuns: 300, seed: 1995, endOnFailure: true };

  it.each([['convex', convex], ['hollow', starShaped]] as const)('%s outlines, against an offset made of areas', (_, shapes) => {
    const met: Record<string, number> = {};
    fc.assert(
      fc.property(shapes, sizes, sign, (points, by, way) => {
        const outline = present(polygon(points));
        const outcome = compare(outline, by.slice(0, points.length), way);
        met[outcome] = (met[outcome] ?? 0) + 1;
        expect(['same', 'vanished', 'open question']).toContain(outcome);
      }),
      runs,
    );
    expect(met['same']).toBeGreaterThan(150);
  });

  it('never crosses itself, and lies within its allowance but for the points of corners', () => {
    fc.assert(
      fc.property(fc.oneof(convex, starShaped), sizes, sign, (points, by, way) => {
        const outline = present(polygon(points));
        const made = moved(outline, by, way);
        if (made.kind !== 'ok') return;
        const ring = flattenOutline(made.outline).polygon;
        expect(isSimple(ring)).toBe(true);
        const [inner, outer] = way === 1 ? [points, ring] : [ring, points];
        expect(contains(outer, inner, 0.01)).toBe(true);
        const furthest = Math.max(...ring.map((point) => distancePointToBoundary(point, points)));
        // A mitre or two sides that meet reach as far as four allowances.
        expect(furthest).toBeLessThanOrEqual(4 * Math.max(...by.map((one) => one.by)) + 0.01);
      }),
      { numRuns: 300, seed: 2005, endOnFailure: true },
    );
  });
});
