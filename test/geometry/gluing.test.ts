import { describe, expect, test } from 'vitest';
import { glued, type Glued } from '../../server/src/geometry/gluing.ts';
import type { Face, Joint, Span } from '../../server/src/geometry/gluing-cells.ts';

/** A polygon with right or other angles between its straight sides; angles in degrees, each where its side begins. */
const face = (lengths: readonly number[], angles: readonly number[] = lengths.map(() => 90)): Face => ({
  sides: lengths.map((length, index) => ({ length, angle: ((angles[index] ?? 90) * Math.PI) / 180, turn: () => 0 })),
});
const span = (of: number, side: number, from: number, to: number, way: 1 | -1 = 1): Span => ({ face: of, side, from, to, way });
const lengths = ({ rims }: Glued): readonly number[] => rims.map(({ length }) => Math.round(length * 1e6) / 1e6).sort((a, b) => a - b);
const turns = ({ rims }: Glued): readonly number[] => rims.map(({ turn }) => Math.round((turn * 180) / Math.PI));

describe('articles whose openings anybody can tell', () => {
  test('a pouch of two rectangles, sewn on three sides, is open at its top, and that does not turn', () => {
    // Sides: below, right, top, left. Laid right sides together, what is the right of one meets the left of the other.
    const pouch = glued([face([9, 7, 9, 7]), face([9, 7, 9, 7])], [
      { first: [span(0, 3, 0, 7), span(0, 0, 0, 9), span(0, 1, 0, 7)], second: [span(1, 1, 0, 7, -1), span(1, 0, 0, 9, -1), span(1, 3, 0, 7, -1)] },
    ], []);
    expect(lengths(pouch)).toEqual([18]);
    expect(turns(pouch)).toEqual([0]);
    expect(pouch.rims[0]?.isClosed).toBe(true);
  });
  test('two sheets side by side are one sheet, whose edge turns once round', () => {
    const sheet = glued([face([9, 7, 9, 7]), face([5, 7, 5, 7])], [{ first: [span(0, 1, 0, 7)], second: [span(1, 3, 0, 7, -1)] }], []);
    expect(lengths(sheet)).toEqual([2 * (9 + 5 + 7)]);
    expect(turns(sheet)).toEqual([360]);
  });
  test('a tube has two ends', () => {
    const tube = glued([face([10, 4, 10, 4])], [{ first: [span(0, 1, 0, 4)], second: [span(0, 3, 0, 4, -1)] }], []);
    expect(lengths(tube)).toEqual([10, 10]);
    expect(turns(tube)).toEqual([0, 0]);
  });
  test('a loop with half a twist has one edge', () => {
    expect(lengths(glued([face([10, 4, 10, 4])], [{ first: [span(0, 1, 0, 4)], second: [span(0, 3, 0, 4)] }], []))).toEqual([20]);
  });
  test('a front and a back round one gusset are open at their tops, with the ends of the gusset between', () => {
    const side = face([26, 19, 26, 19]);
    const round = (panel: number, own: number, way: 1 | -1): Joint => ({
      first: [span(0, own, 0, 64, way)], second: [span(panel, 3, 0, 19), span(panel, 0, 0, 26), span(panel, 1, 0, 19)],
    });
    const bag = glued([face([6, 64, 6, 64]), side, side], [round(1, 3, -1), round(2, 1, 1)], []);
    expect(lengths(bag)).toEqual([2 * (26 + 6)]);
  });
  test('a patch that is laid on with three sides has a mouth from corner to corner', () => {
    const patch = glued([face([4, 3, 4, 3])], [], [span(0, 3, 0, 3), span(0, 0, 0, 4), span(0, 1, 0, 3)]);
    expect(patch.rims.map(({ length, isClosed }) => [length, isClosed])).toEqual([[4, false]]);
  });
  test('part of a side that is not sewn is an opening of its own', () => {
    const sides: Joint = { first: [span(0, 3, 0, 7), span(0, 0, 0, 9), span(0, 1, 0, 7)], second: [span(1, 1, 0, 7, -1), span(1, 0, 0, 9, -1), span(1, 3, 0, 7, -1)] };
    const gap = (own: number, from: number, to: number): Joint => ({ first: [span(0, 2, from, to)], second: [span(1, 2, 9 - to, 9 - from, -1)] });
    expect(lengths(glued([face([9, 7, 9, 7]), face([9, 7, 9, 7])], [sides, gap(0, 0, 3), gap(0, 7, 9)], []))).toEqual([8]);
  });
  test('where three layers lie in a seam nothing is told', () => {
    const three = glued([face([9, 7, 9, 7]), face([9, 7, 9, 7]), face([9, 7, 9, 7])], [
      { first: [span(0, 1, 0, 7)], second: [span(1, 3, 0, 7, -1)] }, { first: [span(0, 1, 0, 7)], second: [span(2, 3, 0, 7, -1)] },
    ], []);
    expect([...three.unclear]).toHaveLength(1);
  });
});

/**
 * By brute force: every side is cut into lengths of one millimetre, whose ends are numbered points; gluing makes points the
 * same. What is left of the millimetres that are not glued hangs together in rings, each as long as it has millimetres.
 */
function bruteForce(faces: readonly Face[], joints: readonly Joint[]): readonly number[] {
  const points: number[] = [];
  const of = (point: number): number => (points[point] === point ? point : of(points[point] ?? point));
  const millimetres: { readonly from: number; readonly to: number; isGlued: boolean }[][][] = [];
  for (const { sides } of faces) {
    const first = points.length;
    const total = sides.reduce((sum, { length }) => sum + length, 0);
    for (let index = 0; index < total; index++) points.push(first + index);
    let at = 0;
    millimetres.push(sides.map(({ length }) => Array.from({ length }, () => ({ from: first + at, to: first + (++at % total), isGlued: false }))));
  }
  const along = (run: readonly Span[]) => run.flatMap(({ face: one, side, from, to, way }) => {
    const own = (millimetres[one]?.[side] ?? []).slice(from, to).map((part) => ({ part, ends: way === 1 ? [part.from, part.to] : [part.to, part.from] }));
    return way === 1 ? own : own.reverse();
  });
  for (const { first, second } of joints) {
    const theirs = along(second);
    for (const [index, { part, ends }] of along(first).entries()) {
      const mate = theirs[index];
      if (mate === undefined) throw new Error('Uneven');
      part.isGlued = mate.part.isGlued = true;
      for (const end of [0, 1]) points[of(ends[end] ?? 0)] = of(mate.ends[end] ?? 0);
    }
  }
  const free = millimetres.flat(2).filter(({ isGlued }) => !isGlued);
  const rings: number[] = [];
  const left = new Set(free);
  for (const start of free) {
    if (!left.has(start)) continue;
    const ring = [start];
    left.delete(start);
    for (const here of ring) {
      for (const next of left) {
        if ([here.from, here.to].map(of).some((point) => [next.from, next.to].map(of).includes(point))) {
          left.delete(next);
          ring.push(next);
        }
      }
    }
    rings.push(ring.length);
  }
  return rings.sort((a, b) => a - b);
}

/** Numbers that only look like chance (a linear congruence with the constants of Numerical Recipes). */
function chance(seed: number): (below: number) => number {
  let state = seed;
  return (below) => Math.floor(((state = (state * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32) * below);
}

test('rims are those of brute force, whatever is glued to what', () => {
  const tried = { rings: 0, joints: 0, several: 0 };
  for (let seed = 1; seed <= 400; seed++) {
    const below = chance(seed);
    const faces = Array.from({ length: 1 + below(4) }, () => face(Array.from({ length: 3 + below(3) }, () => 2 + below(9))));
    const free = faces.map(({ sides }) => sides.map(({ length }) => Array.from({ length }, () => true)));
    const take = (length: number): Span | undefined => {
      for (let attempt = 0; attempt < 20; attempt++) {
        const one = below(faces.length);
        const side = below(faces[one]?.sides.length ?? 1);
        const own = free[one]?.[side] ?? [];
        const from = below(own.length - length + 1);
        if (from < 0 || own.length < length || own.slice(from, from + length).includes(false)) continue;
        own.fill(false, from, from + length);
        return span(one, side, from, from + length, below(2) === 0 ? 1 : -1);
      }
      return undefined;
    };
    const joints: Joint[] = [];
    for (let wanted = 1 + below(6); wanted > 0; wanted--) {
      // A run of one or two parts against one of one or two others, as long together.
      const [a, b] = [1 + below(6), 1 + below(6)];
      const first = below(2) === 0 ? [take(a + b)] : [take(a), take(b)];
      const second = below(2) === 0 ? [take(a + b)] : [take(b), take(a)];
      if (first.includes(undefined) || second.includes(undefined)) continue;
      joints.push({ first: first.filter((one) => one !== undefined), second: second.filter((one) => one !== undefined) });
    }
    const brute = bruteForce(faces, joints);
    const found = glued(faces, joints, []);
    expect([seed, ...lengths(found)]).toEqual([seed, ...brute]);
    expect(found.rims.every(({ isClosed }) => isClosed)).toBe(true);
    tried.rings += brute.length;
    tried.joints += joints.length;
    tried.several += joints.filter(({ first, second }) => first.length + second.length > 2).length;
  }
  // So that chance can't leave out what matters.
  expect(tried.rings).toBeGreaterThan(500);
  expect(tried.joints).toBeGreaterThan(400);
  expect(tried.several).toBeGreaterThan(200);
});
