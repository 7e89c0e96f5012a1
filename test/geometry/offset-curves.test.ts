import { describe, expect, it } from 'vitest';
import { EndType, inflatePaths, JoinType } from 'clipper2-ts';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { flattenOutline } from '../../server/src/geometry/flatten.ts';
import { offsetOutline } from '../../server/src/geometry/offset.ts';
import { stretches } from '../../server/src/geometry/edge.ts';
import { path } from '../../server/src/geometry/path.ts';
import { pointOn } from '../../server/src/geometry/segment.ts';
import type { Outline, Segment } from '../../server/src/geometry/shape.ts';
import { areaOf, inward, outward, sameRegion, type Side } from './reference-offset.ts';
import { p, present } from './shapes.ts';

/** Points along a curve, two of them right at its ends, so that its first and last chord run as it does there. */
const places = [0, 0.0005, ...Array.from({ length: 149 }, (_, i) => (i + 1) / 150), 0.9995];

/** The outline as chords, each of which moves as its edge does. */
const sidesOf = (outline: Outline, by: (edge: string) => number): readonly Side[] =>
  outline.edges.flatMap((edge, index) => stretches(edge).flatMap(({ start, segment }) =>
    (segment.kind === 'line' ? [0] : places).map((t) => ({ from: pointOn(start, segment, t), edge: index, by: by(edge.name), style: 'mitre' as const }))));

describe('one distance, near the radius of curvature', () => {
  const GRID = 1e5;
  const cubic = (control1: readonly [number, number], control2: readonly [number, number], to: readonly [number, number]): Segment => ({ kind: 'cubic', control1: p(...control1), control2: p(...control2), to: p(...to) });
  const curves: Readonly<Record<string, Outline>> = {
    // At its ends an ellipse of 100 by 40 has a radius of curvature of 20² / 50 = 8 mm.
    ellipse: present(ellipse(100, 40)),
    // A parabola's apex: handles 40 high over 60 make a radius of 60² / (4 · 40 · 3/2) = 15 mm or so.
    dome: present(path(p(0, 0), [{ segment: { kind: 'line', to: p(60, 0) } }, { segment: cubic([60, 60], [0, 60], [0, 0]) }])),
    hollow: present(path(p(0, 0), [{ segment: { kind: 'line', to: p(120, 0) } }, { segment: { kind: 'line', to: p(120, 80) } }, { segment: cubic([70, 10], [50, 10], [0, 80]) }])),
    wave: present(path(p(0, 0), [{ segment: cubic([40, -30], [60, 30], [100, 0]) }, { segment: { kind: 'line', to: p(100, 60) } }, { segment: { kind: 'line', to: p(0, 60) } }])),
  };
  const grid = Object.keys(curves).flatMap((shape) => [-18, -15, -12, -8.2, -8, -7.8, 8, 15, 24, 26, 30].map((by) => ({ shape, by })));
  it.each(grid)('$shape by $by mm is right to 0.05 mm', ({ shape, by }) => {
    const outline = present(curves[shape]);
    const fine = sidesOf(outline, () => by).map(({ from: { x, y } }) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) }));
    const parts = inflatePaths([fine], by * GRID, JoinType.Miter, EndType.Polygon, 4);
    const largest = Math.max(0, ...parts.map(areaOf));
    const made = offsetOutline(outline, () => by, () => ({ kind: 'mitre', limit: 4 }));
    if (largest === 0) expect(made.kind).toBe('vanished');
    // Of two parts as large as each other either may be the one.
    else expect(made.kind === 'ok' && parts.some((part) => areaOf(part) > largest - 0.1 && sameRegion(flattenOutline(made.outline).polygon, part, 0.05))).toBe(true);
  });
});

describe('two distances beside a curve', () => {
  /** A hem and a side that leaves it at a slight turn and then bends away: where they have cut off a sliver before. */
  const skirt = (lean: number, bend: number): Outline => {
    const [c, s] = [Math.cos((lean * Math.PI) / 180), Math.sin((lean * Math.PI) / 180)];
    return present(path(p(0, 0), [
      { segment: { kind: 'line', to: p(100, 0) }, name: 'hem' },
      { segment: { kind: 'cubic', control1: p(100 + 40 * c, 40 * s), control2: p(178, bend), to: p(199, 45) }, name: 'side' },
      { segment: { kind: 'line', to: p(199, 150) } },
      { segment: { kind: 'line', to: p(0, 150) } },
    ]));
  };
  const grid = [-25, -15, -10, -5, 2, 10, 20].flatMap((lean) => [-10, 7].flatMap((bend) => [[10, 5], [5, 10], [25, 6], [12, 0], [0, 12]].map(([hem = 0, side = 0]) => ({ lean, bend, hem, side }))));
  it.each(grid)('turning $lean°, handle at $bend, $hem mm beside $side mm', ({ lean, bend, hem, side }) => {
    const outline = skirt(lean, bend);
    const by = (edge: string): number => (edge === 'hem' ? hem : edge === 'side' ? side : 5);
    for (const sign of [1, -1]) {
      const expected = (sign === 1 ? outward : inward)(sidesOf(outline, by));
      if (expected === undefined) continue;
      const made = offsetOutline(outline, (edge) => sign * by(edge), () => ({ kind: 'mitre', limit: 4 }));
      expect(made.kind === 'ok' && sameRegion(flattenOutline(made.outline).polygon, present(expected[0]), 0.05), `sign ${sign}`).toBe(true);
    }
  });
});
