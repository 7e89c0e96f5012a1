import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangeBoard, boardBox, rememberSpots, sameSpots, type BoardPiece, type Spots } from '../../server/src/preview/board.ts';

const size = fc.integer({ min: 5, max: 900 });
const pieces: fc.Arbitrary<readonly BoardPiece[]> = fc
  .array(fc.record({ width: size, height: size, from: fc.option(fc.nat(30), { nil: null }) }), { maxLength: 30 })
  .map((all) => all.map(({ from, ...rest }, index) => ({ ...rest, name: `piece${index}`, from: from === null ? null : `piece${from}` })));

/** Every pair of pieces, by brute force. */
function overlaps(all: readonly BoardPiece[], spots: Spots): readonly string[] {
  const at = (name: string) => spots.get(name) ?? { x: NaN, y: NaN };
  return all.flatMap((a, index) => all.slice(index + 1).flatMap((b) => {
    const [one, other] = [at(a.name), at(b.name)];
    const isApart = one.x >= other.x + b.width || other.x >= one.x + a.width || one.y >= other.y + b.height || other.y >= one.y + a.height;
    return isApart ? [] : [`${a.name} ${b.name}`];
  }));
}

const none: Spots = new Map();

describe('places on the board', () => {
  it('never lays one piece over another, and says the same twice', () => {
    fc.assert(fc.property(pieces, fc.double({ min: 0.3, max: 4, noNaN: true }), (all, ratio) => {
      const spots = arrangeBoard(all, none, ratio);
      expect(spots.size).toBe(all.length);
      expect(overlaps(all, spots)).toEqual([]);
      expect([...arrangeBoard(all, none, ratio)]).toEqual([...spots]);
    }));
  });

  it('moves nothing when nothing is larger, whatever goes or comes', () => {
    fc.assert(fc.property(pieces, fc.nat(30), (all, gone) => {
      const before = arrangeBoard(all, none, 1.3);
      const left = all.filter((_, index) => index !== gone).map((piece) => ({ ...piece, width: piece.width - 1 }));
      const after = arrangeBoard([...left, { name: 'new', from: 'piece0', width: 50, height: 50 }], before, 1.3);
      if (left.length === 0) return;
      for (const { name } of left) expect(after.get(name)).toEqual(before.get(name));
      expect(after.has('new')).toBe(true);
    }));
  });

  it('moves, when one piece grows, only those that it grew into or those before it that it would cover', () => {
    fc.assert(fc.property(pieces, fc.nat(30), fc.integer({ min: 1, max: 400 }), (all, which, more) => {
      const before = arrangeBoard(all, none, 1.3);
      const grown = all.map((piece, index) => (index === which ? { ...piece, width: piece.width + more } : piece));
      const after = arrangeBoard(grown, before, 1.3);
      expect(overlaps(grown, after)).toEqual([]);
      const mine = all[which];
      for (const piece of grown) {
        if (mine === undefined || piece.name === mine.name) continue;
        const [a, b] = [before.get(mine.name), before.get(piece.name)];
        if (a === undefined || b === undefined) continue;
        const isReached = b.x < a.x + mine.width + more + 4 && b.x + piece.width > a.x - 4 && b.y < a.y + mine.height + 4 && b.y + piece.height > a.y - 4;
        if (!isReached) expect(after.get(piece.name)).toEqual(b);
      }
    }));
  });

  it('keeps in their places just those that lie clear of all that stay before them', () => {
    const long = fc.integer({ min: 5, max: 60 }).chain((most) => fc.array(fc.record({ width: fc.integer({ min: 1, max: most }), height: fc.integer({ min: 1, max: most }), x: fc.integer({ min: -90, max: 90 }), y: fc.integer({ min: -90, max: 90 }) }), { maxLength: 30 }));
    // One so long that it lies in the way of many that are otherwise far from one another.
    fc.assert(fc.property(long, fc.integer({ min: 1, max: 400 }), (all, height) => {
      const placed = [...all.slice(0, 3), { width: 3, height, x: 0, y: -100 }, ...all.slice(3)];
      const given = placed.map((one, index): BoardPiece => ({ name: `piece${index}`, from: null, width: one.width, height: one.height }));
      const after = arrangeBoard(given, new Map(placed.map(({ x, y }, index) => [`piece${index}`, { x, y }])), 1.3);
      const staying: typeof placed = [];
      for (const [index, one] of placed.entries()) {
        const isClear = staying.every((other) => one.x >= other.x + other.width + 4 || other.x >= one.x + one.width + 4 || one.y >= other.y + other.height + 4 || other.y >= one.y + one.height + 4);
        const home = { x: one.x, y: one.y };
        if (isClear) expect(after.get(`piece${index}`)).toEqual(home);
        else expect(after.get(`piece${index}`)).not.toEqual(home);
        if (isClear) staying.push(one);
      }
      expect(overlaps(given, after)).toEqual([]);
    }), { numRuns: 300 });
  });

  it('lays pieces made from one another together', () => {
    const family = ['a', 'b', 'c'].map((name, index): BoardPiece => ({ name, from: index === 0 ? null : 'a', width: 40, height: 40 + 60 * index }));
    // Of every height between, so that by height alone they would lie between the family's.
    const others = Array.from({ length: 40 }, (_, index): BoardPiece => ({ name: `other${index}`, from: null, width: 40, height: 35 + 4 * index }));
    const all = others.flatMap((one, index) => (index % 15 === 0 ? [one, family[index / 15] ?? one] : [one]));
    const spots = arrangeBoard(all, none, 1.5);
    const { width, height } = boardBox(family, spots);
    expect(width).toBeLessThanOrEqual(3 * 40 + 2 * 14);
    expect(height).toBeLessThanOrEqual(160 + 14 + 100);
  });

  it('come back with a piece that was away for a while, and those of names typed in passing are forgotten', () => {
    const one = (name: string): BoardPiece => ({ name, from: null, width: 40, height: 40 });
    let spots = arrangeBoard([one('a'), one('b')], none, 1.3);
    const home = spots.get('b');
    for (let edit = 0; edit < 400; edit++) spots = rememberSpots(spots, arrangeBoard([one('a'), one(`b${edit}`)], spots, 1.3));
    expect(rememberSpots(spots, arrangeBoard([one('a'), one('b')], spots, 1.3)).get('b')).toEqual(home);
    for (let edit = 400; edit < 10_000; edit++) spots = rememberSpots(spots, arrangeBoard([one('a'), one(`b${edit}`)], spots, 1.3));
    expect(spots.size).toBeLessThan(600);
  });

  it('are the same where every piece lies as it did, and none came or went', () => {
    const spots: Spots = new Map([['a', { x: 1, y: 2 }], ['b', { x: 3, y: 4 }]]);
    expect(sameSpots(spots, new Map([...spots].reverse().map(([name, spot]) => [name, { ...spot }])))).toBe(true);
    const others: readonly (readonly [string, number, number])[][] = [[['a', 1, 2]], [['a', 1, 2], ['b', 3, 5]], [['a', 1, 2], ['b', 5, 4]], [['a', 1, 2], ['c', 3, 4]], [['a', 1, 2], ['b', 3, 4], ['c', 3, 4]]];
    for (const other of others) {
      const moved: Spots = new Map(other.map(([name, x, y]) => [name, { x, y }]));
      expect([sameSpots(spots, moved), sameSpots(moved, spots)]).toEqual([false, false]);
    }
  });

  it('of many that grow at once are found below the rest, none over another', () => {
    const all = Array.from({ length: 150 }, (_, index): BoardPiece => ({ name: `p${index}`, from: null, width: 50, height: 50 }));
    const before = arrangeBoard(all, none, 1.3);
    const grown = all.map((piece) => ({ ...piece, width: 90 }));
    const after = arrangeBoard(grown, before, 1.3);
    expect(after.size).toBe(150);
    expect(overlaps(grown, after)).toEqual([]);
    expect(after.get('p0')).toEqual(before.get('p0'));
  });

  it('is compact: a board of like pieces is filled by more than half, at about the ratio asked for', () => {
    const all = Array.from({ length: 200 }, (_, index): BoardPiece => ({ name: `p${index}`, from: null, width: 100 + (index % 17) * 10, height: 80 + (index % 11) * 20 }));
    for (const ratio of [0.5, 1, 2]) {
      const { width, height } = boardBox(all, arrangeBoard(all, none, ratio));
      expect(all.reduce((sum, one) => sum + one.width * one.height, 0) / (width * height)).toBeGreaterThan(0.6);
      expect(width / height / ratio).toBeGreaterThan(0.7);
      expect(width / height / ratio).toBeLessThan(1.4);
    }
  });
});
