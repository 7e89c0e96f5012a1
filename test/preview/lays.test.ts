import { describe, expect, it } from 'vitest';
import { listOf } from '../../server/src/buying/list.ts';
import { planMaterial, usualOptions, type MaterialPlan } from '../../server/src/buying/plan.ts';
import { needsOf } from '../../server/src/buying/requirements.ts';
import { cutKeys } from '../../server/src/preview/table.ts';
import { materialLays, purchasesOf } from '../../server/src/preview/lays.ts';
import type { MaterialLays } from '../../server/src/preview/lays-data.ts';
import { millimetresIn } from '../../server/src/units/length.ts';
import { rational } from '../../server/src/units/rational.ts';
import { expectRight, specOf } from '../buying/support.ts';
import { apron, Draft, wallet, laysTold, shapes } from './specs.ts';

const quick = { ...usualOptions, effort: 0.02 };

function drawn(facts: string, pieces: string, options: Partial<typeof quick> = {}, articles = 1): { readonly plan: MaterialPlan; readonly lays: MaterialLays; readonly rows: ReturnType<typeof purchasesOf> } {
  const pattern = specOf(facts, pieces);
  const resolved = pattern.resolve(new Map());
  const [need] = needsOf(resolved, articles);
  if (need === undefined) throw new Error('Nothing is cut');
  const plan = planMaterial(need, { ...quick, ...options });
  expectRight(plan);
  return { plan, lays: materialLays(plan, 'settled', pattern.display, cutKeys(resolved)), rows: purchasesOf(listOf(articles, [plan], [], quick), pattern.display, 'EUR') };
}

const cloth = 'width 44 in usable 42 in\nbought in lengths of 1/8 yd\nprice 8 per yd';
/** Two squares of 10 in side by side on 42 in: 10 in, which is 0.28 yd, so 3/8 yd at 8 a yard. */
const squares = 'piece tile "Tile" {\n  outline rectangle 10 by 10\n  grain up\n  cut 2 cloth\n}';

describe('a lay as the preview draws it', () => {
  it('has every piece in its place, in millimetres, and what is left', () => {
    const { lays } = drawn(cloth, squares, { lay: 'open' });
    const [width] = lays.widths;
    expect(width).toMatchObject({ key: 'cloth', width: '44 in wide, 42 in usable', sentence: 'found 0.28 yd, none shorter, buy 3/8 yd, certain', leftOut: '' });
    const [lay] = width?.lays ?? [];
    expect(lay).toMatchObject({ near: 'selvedge', far: 'selvedge', laid: { length: 254, text: '10 in laid' } });
    expect(lay?.cloth.length).toBeCloseTo(0.375 * 914.4 - 25.4, 6);
    expect(lay?.pieces.map(({ cut, piece, number, note, at }) => ({ cut, piece, number, note, at }))).toEqual([
      { cut: 'tile cloth cutting', piece: 'tile', number: 1, note: '', at: 'at 0 in along and 0 in across' },
      { cut: 'tile cloth cutting', piece: 'tile', number: 1, note: '', at: 'at 0 in along and 32 in across' },
    ]);
    // One along either selvedge: 42 in less two squares leave 22 in across, along 12 1/2 in of the 13 1/2 in bought: 1 in is spare.
    expect(lay?.leftovers[0]?.text).toBe('22 in × 12 1/2 in');
    expect(lay?.description).toContain('2 pieces, 10 in laid; left over 22 in × 12 1/2 in');
  });

  it('says where a fold in part and one across the cloth are, and what is flipped in the single layer', () => {
    const pieces = 'piece half "Half" {\n  outline rectangle 9 by 12\n  on fold left\n  grain up\n  cut 1 cloth on fold\n}\npiece flap "Flap" {\n  outline polygon from 0, 0 to 20, 0 to 20, 6 to 4, 12 to 0, 12\n  grain up\n  cut 1 cloth mirrored\n}';
    const [partial] = drawn(`${cloth}\nfold partial 10`, pieces).lays.widths[0]?.lays ?? [];
    expect(partial).toMatchObject({ near: 'fold', far: 'selvedge', farWords: 'selvedge; the other lies at the dashed line', isFoldedAcross: false, foldedIn: expect.closeTo(254, 1), title: 'Lay: folded in part, 10 in of it double, right sides together' });
    expect(partial?.pieces.map(({ title, note }) => `${title} ${note}`)).toEqual(['Half on fold', 'Flap flipped']);
    const [across] = drawn(`${cloth}\nfold crosswise`, pieces.replace('fold left', 'fold top')).lays.widths[0]?.lays ?? [];
    expect(across).toMatchObject({ near: 'selvedges', far: 'selvedges', farWords: 'fold at this end; selvedges', isFoldedAcross: true, foldedIn: null });
    // What is cut through both layers gives one of either hand, so none is called flipped.
    expect(across?.pieces.map(({ title, note }) => `${title} ${note}`)).toEqual(['Half on fold', 'Flap ']);
  });

  it('says what lies on the fold', () => {
    const { lays } = drawn(cloth, 'piece half "Half" {\n  outline rectangle 10 by 12\n  on fold left\n  grain up\n  cut 1 cloth on fold\n}', { lay: 'folded' });
    expect(lays.widths[0]?.lays[0]).toMatchObject({ near: 'fold', far: 'selvedges' });
    expect(lays.widths[0]?.lays[0]?.pieces[0]?.note).toBe('on fold');
  });

  it('tells which pieces are flipped', () => {
    const { lays } = drawn(`${cloth}\nfaces differ`, 'piece flap {\n  outline polygon from 0, 0 to 9, 0 to 3, 7\n  grain up\n  cut 2 cloth twins\n}', { lay: 'open' });
    expect(lays.widths[0]?.lays[0]?.pieces.map(({ note }) => note).sort()).toEqual(['', 'flipped']);
  });

  it('says what does not fit', () => {
    const { lays, rows } = drawn(cloth, 'piece vast "Vast" {\n  outline rectangle 50 by 60\n  grain up\n  cut 1 cloth\n}');
    expect(lays.widths[0]?.leftOut).toBe('does not fit and is left out: Vast');
    expect(rows[0]?.notes[0]).toBe('does not fit and is left out: Vast');
  });

  it('is plain JSON, with the keys of the cutting table’s rows', () => {
    for (const text of [wallet, shapes, apron]) {
      const told = laysTold(text, { effort: 0 });
      const last = told.at(-1);
      expect(JSON.parse(JSON.stringify(told))).toEqual(told);
      const keys = new Set(new Draft().data(text).table.cuts.map(({ key }) => key));
      const used = last?.materials.flatMap(({ widths }) => widths.flatMap(({ lays }) => lays.flatMap(({ pieces }) => pieces.map(({ cut }) => cut)))) ?? [];
      expect(used.length).toBeGreaterThan(3);
      expect(used.filter((key) => !keys.has(key))).toEqual([]);
    }
  });

  it('stays the very same when the text around only moves', () => {
    const [before, after] = [wallet, `# Moved down.\n\n${wallet}`].map((text) => laysTold(text).at(-1));
    expect(after).toEqual(before);
  });
});

describe('the buying list', () => {
  it('has a row for each width side by side, and the cheapest told', () => {
    const widths = [{ nominal: millimetresIn.in.mul(60), price: rational(20) }, { nominal: millimetresIn.in.mul(30), price: undefined }];
    const { rows } = drawn(cloth, squares, { widths });
    expect(rows.map(({ item, width, buy, cost, isCheapest }) => [item, width, buy, cost, isCheapest])).toEqual([
      ['Cloth', '44 in wide, 42 in usable', '3/8 yd', '3.00 EUR', false],
      ['Cloth', '60 in wide, 58 in usable', '3/8 yd', '7.50 EUR', false],
      ['Cloth', '30 in wide, 28 in usable', '3/8 yd', '3.00 EUR', false],
      ['Everything', '', '', '3.00 EUR', false],
    ].map((row, index) => (index === 0 || index === 2 ? [...row.slice(0, 4), true] : row)));
    expect(new Set(rows.map(({ key }) => key)).size).toBe(rows.length);
  });

  it('goes up with the articles', () => {
    const texts = [1, 10].map((articles) => drawn(cloth, squares, {}, articles).rows[0]?.buy);
    // Ten articles: twenty squares, four across 42 in, so five rows of 10 in: 50 in, 1.39 yd.
    expect(texts).toEqual(['3/8 yd', '1 1/2 yd']);
  });

  it('gives a material without a width a row that says so', () => {
    const { rows, lays } = drawn('role main', squares);
    expect(lays.widths).toEqual([]);
    expect(rows[0]).toMatchObject({ item: 'Cloth', buy: '', notes: ['no width is given'] });
  });
});
