import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cross, cut, dot, laid, lies, opened, side, type Cloth, type Hand, type Vector } from './simulation.ts';

/**
 * What a seam does to two pieces, by laying polygons in space: no formula of the program is used. Each claim that the
 * proof of handedness rests on is tried on every side of uneven shapes in both hands.
 */
const up: Vector = [0, 0, 1];
const down: Vector = [0, 0, -1];
const hands: readonly Hand[] = [1, -1];
/** No two sides alike, no mirror image of itself. */
const shapes = [[[0, 0], [7, 0], [5, 3], [0, 4]], [[0, 0], [3, -1], [4, 2]], [[0, 0], [5, 1], [6, 4], [2, 6], [-1, 3]]] as const;

type Way = 'start to start' | 'start to end';
const onTo = (line: readonly [Vector, Vector], way: Way): readonly [Vector, Vector] => (way === 'start to start' ? line : [line[1], line[0]]);

/** The ways in which a side can be laid on another so that the cloth comes to lie as is wanted. */
function waysThatLie(under: Cloth, at: number, over: Cloth, its: number, rightSide: Vector, where: 'on it' | 'beside it'): readonly Way[] {
  const line = side(under, at);
  return (['start to start', 'start to end'] as const).filter((way) => {
    const placed = laid(over, its, onTo(line, way), rightSide);
    return (lies(placed, line) === lies(under, line)) === (where === 'on it');
  });
}

/** Every pair of sides of every two shapes, in every pair of hands. */
const pairs = shapes.flatMap((a) => shapes.flatMap((b) => hands.flatMap((handA) => hands.flatMap((handB) => a.flatMap((_, at) => b.map((__, its) => ({ a: cut(a, handA), b: cut(b, handB), at, its, same: handA === handB })))))));

describe('two pieces at one seam', () => {
  test('there are enough of them, and a motion never mirrors', () => {
    expect(pairs.length).toBe(4 * 12 * 12);
    const area = ({ corners, rightSide }: Cloth): number => corners.reduce((sum, corner, i) => sum + dot(rightSide, cross(corner, corners[(i + 1) % corners.length] ?? corner)), 0);
    const before = cut(shapes[0], 1);
    expect(area(laid(before, 1, side(cut(shapes[1], 1), 0), down))).toBeCloseTo(area(before), 9);
  });
  test.each([
    ['right sides together', down, 'on it'],
    ['lapped, or butted: both right sides up, one beside the other', up, 'beside it'],
  ] as const)('%s: opposite ways in the same hands, the same way in different ones', (_, rightSide, where) => {
    for (const { a, b, at, its, same } of pairs) expect(waysThatLie(a, at, b, its, rightSide, where)).toEqual([same ? 'start to end' : 'start to start']);
  });
  test('wrong sides together: opposite ways, too', () => {
    for (const { a, b, at, its, same } of pairs) {
      const turned: Cloth = { ...laid(a, at, onTo(side(a, at), 'start to start'), down) };
      expect(waysThatLie(turned, at, b, its, up, 'on it')).toEqual([same ? 'start to end' : 'start to start']);
    }
  });
  test('laid on with its right side up, as a patch is: the same way in the same hands', () => {
    for (const { a, b, at, its, same } of pairs) expect(waysThatLie(a, at, b, its, up, 'on it')).toEqual([same ? 'start to start' : 'start to end']);
  });
  test('opened out after it is sewn right sides together, both right sides look up and the pieces lie on opposite sides', () => {
    for (const { a, b, at, its, same } of pairs) {
      const line = side(a, at);
      const flat = opened(laid(b, its, onTo(line, same ? 'start to end' : 'start to start'), down), line);
      expect(dot(flat.rightSide, up)).toBeCloseTo(1, 9);
      expect(lies(flat, line)).not.toBe(lies(a, line));
    }
  });
});

describe('several seams at once', () => {
  interface Join {
    readonly a: number;
    readonly at: number;
    readonly b: number;
    readonly its: number;
    readonly way: Way;
  }
  const pieces = 4;
  const joins = fc.array(fc.record({ a: fc.nat(pieces - 1), at: fc.nat(2), b: fc.nat(pieces - 1), its: fc.nat(2), way: fc.constantFrom<Way>('start to start', 'start to end') }), { minLength: 1, maxLength: 6 });
  const shape = shapes[1];

  /** Whether every seam can be sewn with these hands, tried in space. */
  const canBeSewn = (all: readonly Join[], given: readonly Hand[]): boolean =>
    all.every(({ a, at, b, its, way }) => waysThatLie(cut(shape, given[a] ?? 1), at, cut(shape, given[b] ?? 1), its, down, 'on it').includes(way));
  const everyHand = Array.from({ length: 2 ** pieces }, (_, bits) => Array.from({ length: pieces }, (__, i): Hand => ((bits >> i) & 1) === 0 ? 1 : -1));

  test('hands can be found exactly where no ring of seams has an odd number of starts that meet starts', () => {
    let found = 0;
    let refused = 0;
    fc.assert(fc.property(joins, (all) => {
      const solutions = everyHand.filter((given) => canBeSewn(all, given));
      // Walking from piece to piece, each seam start to start changes the hand: rings must come back to where they began.
      const known = new Map<number, number>();
      let consistent = true;
      for (let first = 0; first < pieces; first++) {
        if (known.has(first)) continue;
        known.set(first, 0);
        for (const [piece] of known) for (const { a, b, way } of all) for (const [from, to] of [[a, b], [b, a]]) {
          if (from !== piece || to === undefined) continue;
          const there = ((known.get(piece) ?? 0) + (way === 'start to start' ? 1 : 0)) % 2;
          if (!known.has(to)) known.set(to, there);
          else if (known.get(to) !== there) consistent = false;
        }
      }
      if (solutions.length > 0) found++;
      else refused++;
      expect(solutions.length > 0).toBe(consistent);
    }), { seed: 14, numRuns: 400 });
    expect(Math.min(found, refused)).toBeGreaterThan(40);
  });
  test('a piece sewn to itself into a tube needs its start at its end; the other way it is twisted in either hand', () => {
    const tube = (way: Way): Join => ({ a: 0, at: 0, b: 0, its: 2, way });
    expect(hands.map((hand) => canBeSewn([tube('start to end')], [hand]))).toEqual([true, true]);
    expect(hands.map((hand) => canBeSewn([tube('start to start')], [hand]))).toEqual([false, false]);
  });
  test('a corner that two seams share on both pieces does not yet say which ends meet: both seams can be sewn either way', () => {
    // So the program takes a shared corner for what is meant only where the spec writes both sides in one run.
    const both = (way: Way): readonly Join[] => [{ a: 0, at: 0, b: 1, its: 0, way }, { a: 0, at: 1, b: 1, its: 1, way }];
    expect(everyHand.some((given) => canBeSewn(both('start to start'), given))).toBe(true);
    expect(everyHand.some((given) => canBeSewn(both('start to end'), given))).toBe(true);
  });
});
