import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planPolygons, unplaceable } from '../../../server/src/lay/polygons/plan.ts';
import type { LayPiece, LayPoint, LayProblem, Progress } from '../../../server/src/lay/problem.ts';
import { seededRandom } from '../../../server/src/lay/random.ts';
import { verifyLay } from '../../../server/src/lay/verify/verify.ts';
import data from '../../bench/data/strip-polygons.json' with { type: 'json' };
import { starOf } from '../verify/spoilt.ts';

const none = { asDrawn: 0, mirrored: 0, either: 0 };
const rectangle = (width: number, height: number): LayPoint[] => [{ x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: height }, { x: 0, y: height }];
const piece = (outline: readonly LayPoint[], more: Partial<LayPiece> = {}): LayPiece => ({ id: 'piece', outline, count: { ...none, asDrawn: 1 }, turns: [0], onFold: false, ...more });

/** Invented problems: star-shaped outlines of 5 to 24 corners, any hands, a few sets of turns, with or without a gap. */
function anyProblem(seed: number): LayProblem {
  const random = seededRandom(seed);
  const size = 10 + 200 * random();
  const turns = [[0], [0, 180], [0, 90, 180, 270], [0, 33.3]][Math.floor(random() * 4)]!;
  const pieces = Array.from({ length: 1 + Math.floor(random() * 4) }, () => piece(starOf(random, size).outline, {
    turns,
    count: { asDrawn: Math.floor(random() * 3), mirrored: Math.floor(random() * 2), either: Math.floor(random() * 2) },
  }));
  return { width: size * (1.1 + 3 * random()), gap: random() < 0.5 ? 0 : 3 * random(), pieces };
}

describe('planPolygons', () => {
  it('gives lays the verifier accepts, for problems of every sort', () => {
    fc.assert(fc.property(fc.integer(), (seed) => {
      const problem = anyProblem(seed);
      expect(verifyLay(problem, planPolygons(problem, { steps: 30 }))).toEqual([]);
    }), { numRuns: 25 });
  }, 30_000);

  it('gives the same lay for the same seed, and every reported lay is right and shorter than the one before', () => {
    const problem = anyProblem(7);
    const seen: Progress[] = [];
    const one = planPolygons(problem, { steps: 200, seed: 3 }, (progress) => void seen.push(progress));
    expect(planPolygons(problem, { steps: 200, seed: 3 })).toEqual(one);
    expect(seen.length).toBeGreaterThan(1);
    for (const { lay } of seen) expect(verifyLay(problem, lay)).toEqual([]);
    seen.slice(1).forEach(({ lay }, i) => expect(lay.length).toBeLessThan(seen[i]!.lay.length));
  });

  it('gives the same lay whatever the same question was searched with before', () => {
    const many = Array.from({ length: 12 }, (_, seed) => seed);
    for (const seed of many) {
      const problem = anyProblem(seed);
      planPolygons(problem, { steps: 120 });
      // A copy is another question to whatever is kept.
      expect([seed, planPolygons(problem, { steps: 40 })]).toEqual([seed, planPolygons(structuredClone(problem), { steps: 40 })]);
    }
  });

  it('stops when told to', () => {
    let calls = 0;
    planPolygons(anyProblem(7), { steps: 1e9 }, () => ++calls === 2);
    expect(calls).toBe(2);
  });

  it('fits two pieces that fill the width exactly side by side', () => {
    const problem: LayProblem = { width: 1400, gap: 0, pieces: [piece(rectangle(500, 700), { count: { ...none, asDrawn: 2 } })] };
    const lay = planPolygons(problem, { steps: 50 });
    expect(lay.length).toBe(500);
    expect(verifyLay(problem, lay)).toEqual([]);
  });

  it('is done at once when no shorter lay can be', () => {
    const problem: LayProblem = { width: 100, gap: 0, pieces: [piece(rectangle(30, 90), { turns: [0, 90] })] };
    expect(planPolygons(problem, { steps: 1e12 }).length).toBe(30);
  });

  it('lays small pieces in the hollow of a large one', () => {
    const frame = [{ x: 0, y: 0 }, { x: 100, y: 0 }, { x: 100, y: 100 }, { x: 0, y: 100 }, { x: 0, y: 80 }, { x: 80, y: 80 }, { x: 80, y: 20 }, { x: 0, y: 20 }];
    const problem: LayProblem = { width: 100, gap: 0, pieces: [piece(frame), piece(rectangle(60, 50))] };
    const lay = planPolygons(problem, { steps: 200 });
    expect(lay.length).toBeCloseTo(100, 3);
    expect(verifyLay(problem, lay)).toEqual([]);
  });

  it('keeps halves on the fold', () => {
    const half = [{ x: 0, y: 0 }, { x: 80, y: 0 }, { x: 60, y: 50 }, { x: 10, y: 50 }];
    const problem: LayProblem = {
      width: 120, gap: 1,
      pieces: [piece(half, { onFold: true, turns: [0, 180], count: { asDrawn: 2, mirrored: 1, either: 1 } }), piece(rectangle(30, 60), { count: { ...none, either: 4 } })],
    };
    const lay = planPolygons(problem, { steps: 300 });
    expect(verifyLay(problem, lay)).toEqual([]);
    expect(lay.placements.filter((placement) => placement.piece === 0).map((placement) => placement.y)).toEqual([0, 0, 0, 0]);
  });

  it('plans curved outlines of many corners with the outline as given', () => {
    const curved = Array.from({ length: 80 }, (_, k) => {
      const angle = (2 * Math.PI * k) / 80;
      const radius = 100 * (1 + 0.3 * Math.sin(3 * angle));
      return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
    });
    const problem: LayProblem = { width: 500, gap: 2, pieces: [piece(curved, { turns: [0, 180], count: { asDrawn: 3, mirrored: 3, either: 0 } })] };
    for (const steps of [0, 20, 200, 2000]) {
      const lay = planPolygons(problem, { steps }, (progress) => {
        expect(verifyLay(problem, progress.lay)).toEqual([]);
      });
      expect(verifyLay(problem, lay)).toEqual([]);
    }
  });

  it('bears repeated points, points in the middle of an edge, and clockwise outlines', () => {
    const messy = [{ x: 0, y: 0 }, { x: 0, y: 0 }, { x: 5, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 10 }, { x: 10, y: 10 }, { x: 5, y: 10 }, { x: 0, y: 10 }];
    const problem: LayProblem = { width: 20, gap: 0, pieces: [piece(messy), piece([...messy].reverse()), piece(messy, { turns: [0, 45] })] };
    expect(verifyLay(problem, planPolygons(problem, { steps: 100 }))).toEqual([]);
  });

  it('says which pieces fit in no way, and plans the rest', () => {
    const problem: LayProblem = {
      width: 100, gap: 0,
      pieces: [piece(rectangle(50, 200)), piece(rectangle(50, 200), { turns: [0, 90] }), piece([{ x: 0, y: 0 }]), piece(rectangle(10, 10), { onFold: true, turns: [90] })],
    };
    expect(unplaceable(problem)).toEqual([0, 2, 3]);
    const lay = planPolygons(problem, { steps: 10 });
    expect(lay.placements.map((placement) => placement.piece)).toEqual([1]);
    expect(lay.length).toBe(200);
  });

  it('has nothing to lay when nothing is asked', () => {
    expect(planPolygons({ width: 100, gap: 0, pieces: [] }, { steps: 10 })).toEqual({ length: 0, placements: [] });
    expect(planPolygons({ width: 100, gap: 0, pieces: [piece(rectangle(1, 1), { count: none })] }, { steps: 10 })).toEqual({ length: 0, placements: [] });
  });

  it('lays published sets within 10 points of the published use with little effort, whatever their scale', () => {
    for (const [name, scale] of [['dagli', 1], ['marques', 1000], ['fu', 0.01]] as const) {
      const set = data.instances.find((instance) => instance.name === name)!;
      const problem: LayProblem = {
        width: set.width * scale, gap: 0,
        pieces: set.items.map((item, i) => piece(item.points.map(([x, y]) => ({ x: x! * scale, y: y! * scale })), { id: String(i), turns: item.rotations, count: { ...none, asDrawn: item.count } })),
      };
      const lay = planPolygons(problem, { steps: 3000 });
      expect(verifyLay(problem, lay, 0.001 * Math.min(1, scale))).toEqual([]);
      const area = problem.pieces.reduce((sum, { outline, count }) => sum + count.asDrawn * areaOf(outline), 0);
      expect((100 * area) / (lay.length * problem.width)).toBeGreaterThan(set.published_use_percent.median - 10);
    }
  });
});

function areaOf(outline: readonly LayPoint[]): number {
  const twice = outline.reduce((sum, a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    return sum + a.x * b.y - b.x * a.y;
  }, 0);
  return Math.abs(twice) / 2;
}
