import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applied, difference, isSame, type Delta } from '../../server/src/preview/difference.ts';
import { Draft, apron, wallet, manyPieces } from './specs.ts';

/** As it arrives. */
const sent = (delta: Delta | undefined): Delta | undefined => (delta === undefined ? undefined : (JSON.parse(JSON.stringify(delta)) as Delta));
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/** Two values that are alike here and there. */
const pairs = fc.letrec<{ pair: readonly [unknown, unknown] }>((tie) => ({
  pair: fc.oneof(
    { depthSize: 'medium', withCrossShrink: true },
    fc.jsonValue().map((one) => [one, asJson(one)] as const),
    fc.tuple(fc.jsonValue(), fc.jsonValue()),
    fc.array(tie('pair')).map((all) => [all.map(([one]) => one), all.map(([, other]) => other)] as const),
    fc.tuple(fc.array(fc.jsonValue()), fc.array(fc.jsonValue()), fc.array(fc.jsonValue()), fc.array(fc.jsonValue())).map(([head, cut, put, tail]) => [[...head, ...cut, ...tail], asJson([...head, ...put, ...tail])] as const),
    fc.dictionary(fc.oneof(fc.string(), fc.constantFrom('__proto__', 'to', 'at', 'keys', '0')), tie('pair')).map((all) => [
      Object.fromEntries(Object.entries(all).map(([key, [one]]) => [key, one])),
      Object.fromEntries(Object.entries(all).map(([key, [, other]]) => [key, other])),
    ] as const),
  ),
})).pair;

describe('what is different', () => {
  it('turns the earlier into the later, whatever they are', () => {
    fc.assert(fc.property(pairs, ([before, after]) => {
      const untouched = JSON.stringify(before);
      const delta = sent(difference(before, after));
      expect(JSON.stringify(before)).toBe(untouched);
      if (delta === undefined) expect(asJson(before)).toEqual(asJson(after));
      else {
        expect(asJson(applied(before, delta))).toEqual(asJson(after));
        expect(asJson(before)).not.toEqual(asJson(after));
      }
    }), { numRuns: 500 });
  });

  it('counts what is undefined as not there', () => {
    expect(isSame({ a: 1, b: undefined }, { a: 1 })).toBe(true);
    const gone = sent(difference({ a: 1, b: 2 }, { a: 1, b: undefined }));
    expect(gone && applied({ a: 1, b: 2 }, gone)).toEqual({ a: 1 });
    const come = sent(difference({ b: undefined }, { b: 2 }));
    expect(come && applied({}, come)).toEqual({ b: 2 });
  });

  it('leaves the very same objects where nothing has changed', () => {
    const before = { list: [{ a: [1] }, { a: [2] }, { a: [3] }], kept: { deep: [1, 2] } };
    const delta = sent(difference(before, { list: [{ a: [1] }, { a: [3] }], kept: { deep: [1, 2] } }));
    const after = delta && (applied(before, delta) as typeof before);
    expect(after?.list[0]).toBe(before.list[0]);
    expect(after?.list[1]).toBe(before.list[2]);
    expect(after?.kept).toBe(before.kept);
  });
});

describe('what is sent of an edit', () => {
  const many = manyPieces(60);
  const size = (from: string, to: string): { readonly whole: number; readonly part: number } => {
    const draft = new Draft();
    const before = draft.data(from);
    const after = draft.data(to);
    expect(to).not.toBe(from);
    return { whole: JSON.stringify(after).length, part: JSON.stringify(difference(before, after)).length };
  };

  it.each([
    ['a size of one piece', (text: string) => text.replace('rectangle unit_w + 5 / 2 by 8', 'rectangle unit_w + 5 / 2 by 9')],
    ['a piece that is new, in the middle', (text: string) => text.replace('piece part_30', 'piece new {\n  outline rectangle 3 by 2\n  cut 1 canvas\n}\n\npiece part_30')],
    ['a line of words above all pieces', (text: string) => text.replace('length unit_w', '# More to say.\nlength unit_w')],
    ['a fault in one piece', (text: string) => text.replace('rectangle unit_w + 5 / 2 by 8', 'rectangle unit_x + 5 / 2 by 8')],
  ])('is small: %s', (_, edit) => {
    const { whole, part } = size(many, edit(many));
    expect(part).toBeLessThan(whole / 15);
  });

  it('is all that hangs on it', () => {
    const { whole, part } = size(many, many.replace('unit_w = 5', 'unit_w = 6'));
    expect(part).toBeGreaterThan(whole / 3);
  });

  it('and makes the same data, edit after edit', () => {
    const samples = [wallet, apron];
    fc.assert(fc.property(fc.constantFrom(...samples), fc.array(fc.tuple(fc.nat(), fc.nat(12), fc.constantFrom('', '1', ' ', '\n', '# x\n', '}', 'cut 1 canvas\n')), { minLength: 1, maxLength: 6 }), (sample, edits) => {
      const draft = new Draft();
      let text = sample;
      let shown: unknown = asJson(draft.data(text));
      let before = draft.data(text);
      for (const [at, gone, put] of edits) {
        const index = at % text.length;
        text = text.slice(0, index) + put + text.slice(index + gone);
        const after = draft.data(text);
        const delta = sent(difference(before, after));
        if (delta !== undefined) shown = applied(shown, delta);
        expect(shown).toEqual(asJson(after));
        before = after;
      }
    }), { numRuns: 25 });
  });
});
