import { describe, expect, it } from 'vitest';
import { supplyPurchases } from '../../server/src/buying/supplies.ts';
import { pattern } from '../support/spec.ts';

/** A strap with two holes, so many of it cut, and what is set in them. */
const strap = (cut: string, supply: string): string => `piece strap "Strap" {
  outline rectangle 2 by 20
  drill low at 1, 2
  drill high at 1, 18
  grain up
  ${cut}
}
supply rivet "Rivet" {
  kind other
  at strap.low, strap.high
${supply}
}`;
const counted = (text: string, options: Readonly<Record<string, string>> = {}): number | undefined => pattern(text).table(options).supplies.find(({ supply }) => supply !== 'Thread')?.count;

describe('what is set at marks', () => {
  it('takes one for each mark on each piece: two marks on a piece cut twice are four', () => {
    expect(counted(strap('cut 2 cloth', ''))).toBe(4);
    expect(counted(strap('cut 1 cloth', ''))).toBe(2);
    const { pattern: four } = pattern(strap('cut 2 cloth', '  price 0.25 per each'));
    expect(supplyPurchases(four.resolve(new Map()).supplies, 3).map(({ count, cost }) => [count, cost?.valueOf()])).toEqual([[12, 3]]);
  });

  it('counts a piece once, however many layers it has', () => {
    expect(counted(strap('cut 2 cloth\n  cut 2 fuse\n  cut 2 lining', ''))).toBe(4);
    expect(counted(strap('cut 1 cloth\n  cut 1 cloth mirrored', ''))).toBe(4);
  });

  it('takes two for a mark beside the fold of a piece drawn as half, and one for a mark on it, as the marks are listed', () => {
    const half = (mark: string): string => strap('cut 1 cloth on fold', '').replace('drill low at 1, 2', `on fold left\n  drill low at ${mark}, 2`);
    for (const [mark, count] of [['1', 4], ['0', 3]] as const) {
      expect(counted(half(mark))).toBe(count);
      expect(pattern(strap('cut 1 cloth on fold', '  count 2').replace('drill low at 1, 2', `on fold left\n  drill low at ${mark}, 2`)).problems.find(({ code }) => code === 'count-differs')?.message ?? '').toContain(mark === '1' ? 'low on Strap, on both halves; high on Strap, on both halves' : 'low on Strap; high on Strap, on both halves');
      expect(pattern(half(mark)).table().marks.filter(({ kind }) => kind === 'drill hole')).toHaveLength(count);
    }
  });

  it('takes none of a piece that is not there, and is not bought then', () => {
    const text = `choice ends are is plain or riveted\n${strap('cut 2 cloth when ends is riveted\n  cut 0 cloth', '')}`.replace('ends are is', 'ends is');
    expect(counted(text, { ends: 'riveted' })).toBe(4);
    expect(counted(text, { ends: 'plain' })).toBeUndefined();
  });

  it('is checked against a count that is given, with the place and a way out', () => {
    expect(pattern(strap('cut 2 cloth', '  count 4')).codes).toEqual([]);
    const found = pattern(strap('cut 2 cloth', '  count 2')).only('count-differs');
    expect([found.severity, found.marked, found.message]).toEqual(['warning', '2', '“Rivet” counts 2, but its places take 4: low on Strap, cut 2 times; high on Strap, cut 2 times.']);
    const [problem] = pattern(strap('cut 2 cloth', '  count 2')).pattern.problems.filter(({ code }) => code === 'count-differs');
    expect(problem?.fixes.map(({ title, edits }) => [title, edits.map(({ newText }) => newText)])).toEqual([['Change to 4', ['4']]]);
    expect(pattern(strap('cut 1 cloth', '  count 4')).codes).toEqual(['count-differs']);
  });

  it('is told to be nowhere where no piece that it is set at is cut', () => {
    const found = pattern(`choice ends is plain or riveted\n${strap('cut 2 cloth when ends is riveted', '  count 4')}`).problems.filter(({ code }) => code === 'count-differs');
    expect(found.map(({ message, when }) => [message, when !== undefined])).toEqual([['“Rivet” counts 4, but nothing that it is set at is cut.', true]]);
  });
});

describe('snaps', () => {
  const piece = (name: string, count: number, marks = 1): string =>
    `piece ${name} {\n  outline rectangle 6 by 4\n${Array.from({ length: marks }, (_, k) => `  mark m${k} for snap 14 mm at ${1 + k}, 2\n`).join('')}  grain up\n  cut ${count} cloth\n}\n`;
  const snap = (at: string): string => `supply snap {\n  kind snap\n  across 14 mm\n  at ${at}\n}`;

  it('have two halves, each at a place of its own', () => {
    expect(counted(piece('flap', 1) + piece('front', 1) + snap('flap.m0, front.m0'))).toBe(1);
    expect(counted(piece('flap', 1, 2) + piece('front', 1, 2) + snap('flap.m0, flap.m1, front.m0, front.m1'))).toBe(2);
    expect(counted(piece('flap', 3) + piece('front', 3) + snap('flap.m0, front.m0'))).toBe(3);
    expect(counted(piece('left', 1) + piece('right', 1) + piece('back', 1, 2) + snap('left.m0, right.m0, back.m0, back.m1'))).toBe(2);
    expect(counted(piece('lining', 2) + snap('lining.m0'))).toBe(1);
    expect(counted(piece('roll', 1, 2) + snap('roll.m0, roll.m1'))).toBe(1);
  });

  it('are no more where one half goes on a piece that is cut twice to be sewn into one', () => {
    expect(counted(piece('cover', 1) + piece('tab', 2) + snap('cover.m0, tab.m0'))).toBe(1);
  });
});

it('a count that a piece asks for of what is set on that piece goes round in a circle, and is told', () => {
  expect(pattern('piece p {\n  outline rectangle 6 by 4\n  mark m at 1, 2\n  cut s.count cloth\n}\nsupply s {\n  at p.m\n}').codes.length).toBeGreaterThan(0);
  expect(pattern('piece p {\n  outline rectangle 6 by 4\n  mark m at 1, 2\n  cut s.count cloth\n}\nsupply s {\n  count 2\n  at p.m\n}').codes).toBeDefined();
});
