import { describe, expect, it } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare, type Comparison } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { pointsOf } from '../../server/src/compare/summary.ts';
import { analyse } from '../support/spec.ts';

/** An invented key pouch with a window, rivets and checks; its list of materials. */
const spec = `pattern "Key pouch"
revision 1
unit in
allowance 1/4
use "list.piece"
thing key "Key" = 2 by 1
piece pouch "Pouch" {
  outline rectangle 4 by 5
  corner bottom round 1
  window view = rectangle 1 by 1
  drill low at 2, 1
  drill high at 2, 4
  edge all raw
  grain up
  cut 2 cork without view
}
seam side "Side" = pouch.left with pouch.left
seam side_too "Other side" = pouch.right with pouch.right
supply rivet "Brass rivet" {
  kind other
  at pouch.low, pouch.high
}
check pouch holds key with ease 1/2
`;
const list = `unit in
material cork "Cork fabric" {
  role non-fray
  width 27 in
}
material felt "Wool felt" {
  role non-fray
  width 27 in
}
`;
const to = (change: (text: string) => string, stock = (text: string): string => text): Comparison => {
  expect([change(spec), stock(list)]).not.toEqual([spec, list]);
  const [was, now] = [[spec, list], [change(spec), stock(list)]].map(([text = '', materials = '']) => analyse(text, { 'list.piece': materials }).pattern);
  if (was === undefined || now === undefined) throw new Error('There is no pattern.');
  return compare(was, now, { ...usualOptions, effort: 0 });
};
const told = ({ changes }: Comparison): readonly string[] => changes.map(({ subject, what, was, now, causes }) => `${subject}, ${what}: ${was} → ${now} < ${causes.map(({ text }) => text).join('; ')}`);
const as = (text: string): string => text;

describe('another title', () => {
  it('of a material is something else to buy, and so it is of a supply', () => {
    const material = to(as, (text) => text.replace('"Cork fabric"', '"Washable paper"'));
    expect(told(material)).toContain('Washable paper, title: called “Cork fabric” → called “Washable paper” < material cork "Washable paper"');
    expect(pointsOf(material)[0]).toEqual({ what: 'Buy otherwise', items: ['Washable paper: called “Cork fabric” → called “Washable paper”'] });
    expect(material.discipline?.code).toBe('revision-not-raised');
    const supply = to((text) => text.replace('"Brass rivet"', '"Steel rivet"'));
    expect(errataOf(supply)?.tasks).toEqual([{ heading: 'Buy these amounts in place of the earlier ones', items: ['Steel rivet: called “Steel rivet”, in place of called “Brass rivet”'] }]);
  });

  it('of a material under another name that is like it in all else is told, too', () => {
    expect(told(to((text) => text.replace('cut 2 cork', 'cut 2 felt')))).toContainEqual(expect.stringMatching(/^Wool felt, title: called “Cork fabric” → called “Wool felt”/));
  });
});

describe('another name', () => {
  it('of a mark that a supply is set at is nothing', () => {
    expect(to((text) => text.replace(/\blow\b/g, 'lower').replace(/\bhigh\b/g, 'upper'))).toMatchObject({ same: true, changes: [] });
    expect(told(to((text) => text.replace('at pouch.low, pouch.high', 'at pouch.low')))).toContainEqual(expect.stringMatching(/^Brass rivet, set at: /));
  });

  it('of the piece of such a mark is nothing', () => {
    expect(to((text) => text.replaceAll('pouch', 'purse').replace('"Pouch"', '"Purse"')).changes.filter(({ subject }) => subject === 'Brass rivet')).toEqual([]);
  });
});

describe('the line that it comes from', () => {
  it('is told of an opening that there are more of', () => {
    expect(told(to((text) => text.replace('cut 2 cork', 'cut 4 cork')))).toContainEqual(expect.stringMatching(/opening .* < cut 4 cork without view$/));
  });

  it('is told of a check: what it names, where its own words are as they were', () => {
    expect(told(to((text) => text.replace('= 2 by 1', '= 6 by 1')))).toEqual(['check pouch holds key with ease 1/2, check: passed → failed < thing key "Key" = 6 by 1']);
    expect(told(to((text) => text.replace('4 by 5', '1 3/4 by 5').replace('ease 1/2', 'ease 1/3').replace('round 1', 'round 3/4')))).toContainEqual(expect.stringMatching(/^check .* < check pouch holds key with ease 1\/3; outline rectangle /));
    expect(told(to((text) => text.replace('4 by 5', '1 3/4 by 5').replace('round 1', 'round 3/4')))).toContainEqual(expect.stringMatching(/^check .* < outline rectangle 1 3\/4 by 5; corner bottom round 3\/4$/));
  });

  it('is that of a material as a whole, where it is now written in a file of another unit', () => {
    const found = told(to((text) => text.replace('use "list.piece"\n', list.replace('unit in\n', '')).replace('unit in', 'unit cm'), as)).filter((text) => text.startsWith('Cork fabric, spare'));
    expect(found).toEqual(['Cork fabric, spare: 2.54 cm (1 in) → 3 cm (about 1 1/8 in) < material cork "Cork fabric"']);
  });
});

it('a window that is gone is no other outline', () => {
  expect(told(to((text) => text.replace(' without view', '')))).toContainEqual(expect.stringMatching(/^Pouch, Cork fabric: shape: .* → the same, without a window < cut 2 cork$/));
});
