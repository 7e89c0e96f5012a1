import { expect, it } from 'vitest';
import type { Value } from '../../server/src/model/formulas/value.ts';
import type { PieceShape } from '../../server/src/model/piece/piece.ts';
import { Kept } from '../../server/src/preview/kept.ts';
import type { Chunk } from '../../server/src/problems/place.ts';
import { apron, Draft, shapes, wallet } from './specs.ts';

// What is kept from text to text says at every text what is made anew would say.

/** Each text in turn by a draft that keeps what it made, and by one that doesn't. */
function inTurn(texts: readonly (readonly [text: string, combination?: Readonly<Record<string, string>>])[]): void {
  const [keeping, anew] = [new Draft('draft.piece'), new Draft('draft.piece', false)];
  texts.forEach(([text, combination], at) => expect(keeping.data(text, combination), `text ${at}`).toEqual(anew.data(text, combination)));
}

it('of a value, its formula, a count, a title, a line above and a piece that moved', () => {
  const piece = /piece marker_pocket[^]*?\n}\n/.exec(wallet)?.[0] ?? '';
  expect(piece).not.toBe('');
  const texts = [
    wallet,
    wallet.replace('panel_w = 4 1/2', 'panel_w = 5'),
    // As long by another way: only how it came about is otherwise.
    wallet.replace('panel_w = 4 1/2', 'panel_w = 4 + 1/2'),
    wallet.replace('panel_w = 4 1/2', 'panel_w = 9 / 2'),
    wallet.replace(/\n {2}cut 1 /, '\n  cut 3 '),
    wallet.replace('"Wrap"', '"Cover"'),
    wallet.replace('\nlength panel_w', '\n# above\n\nlength panel_w'),
    `${wallet.replace(piece, '')}\n${piece}`,
    wallet.replace('unit in', 'unit cm'),
    wallet.replace('outline rectangle wrap_w', 'outline rectangle *'),
    wallet,
  ];
  for (const [at, text] of texts.entries()) if (at > 0 && at < texts.length - 1) expect(text, `text ${at}`).not.toBe(wallet);
  inTurn(texts.map((text) => [text]));
});

it('of sizes that are chosen in turn', () => {
  const grown = shapes.replace('body = 24 for S', 'body = 25 for S');
  expect(grown).not.toBe(shapes);
  inTurn([[shapes, { size: 'S' }], [shapes, { size: 'L' }], [shapes, { size: 'S' }], [grown, { size: 'S' }], [grown, { size: 'L' }], [shapes, { size: 'S' }]]);
  inTurn([[apron, { size: 'S' }], [apron, { size: 'XL' }], [apron.replace('unit in', 'unit in\nstep 1/4'), { size: 'XL' }], [apron, { size: 'S' }]]);
});

it('is the very same, so that nobody need compare it', () => {
  const draft = new Draft();
  const before = draft.data(shapes);
  const after = draft.data(shapes.replace('outline circle across 16', 'outline circle across 17').replace('revision 1', 'revision 12'));
  const same = (name: string): boolean => before.pieces.find((one) => one.name === name) === after.pieces.find((one) => one.name === name);
  expect(['flap', 'base', 'gusset', 'panel'].map(same)).toEqual([true, false, true, true]);
  expect(after.table.cuts.filter((row) => before.table.cuts.includes(row)).length).toBe(after.table.cuts.length - 1);
  expect(after.table.marks.filter((row) => before.table.marks.includes(row)).length).toBeGreaterThan(5);
});

it('is made anew once anything that it was made of is another, and tells where its text stands each time', () => {
  const kept = new Kept();
  const thing = {};
  const chunk = { text: 'piece' } as unknown as Chunk;
  const [one, other] = [{}, {}] as unknown as readonly [Value, Value];
  const [shape, another] = [{}, {}] as unknown as readonly [PieceShape, PieceShape];
  let referred = 0;
  const made = (from: number, value: Value, named: PieceShape, isThere = true): object => kept.of(thing, [from], {
    value: () => value, shape: () => named,
    ref: () => { referred++; return isThere ? [1, 0, 1] : null; },
  }, ({ value: ask, shape: find, ref }) => ({ value: ask('w'), shape: find('front'), place: ref({ chunk, start: 0, end: 1 }) }));
  const first = made(1, one, shape);
  expect(made(1, one, shape)).toBe(first);
  expect(referred).toBe(2);
  const second = made(1, other, shape);
  const third = made(1, other, another);
  const fourth = made(2, other, another);
  expect(new Set([first, second, third, fourth, made(2, other, another, false)]).size).toBe(5);
});
