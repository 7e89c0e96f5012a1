import { expect, it } from 'vitest';
import { nestedPen, pens, type Pen } from '../../server/src/pages/pens.ts';

/** What a line's dashes look like, however thick it is: `– ·` for long and short. Less than 2 mm is taken for a dot. */
const looks = ({ dashes }: Pen): string => dashes.filter((_, index) => index % 2 === 0).map((dash) => (dash < 2 ? '·' : '–')).join(' ');

it('no cutting line of a size is dashed as a fold is, so that black and white tell them apart', () => {
  const folds = [pens.fold, pens.foldline, pens.partfold].map(looks);
  expect(folds.every((one) => one.includes('–') && one.includes('·'))).toBe(true);
  for (let size = 0; size < 8; size++) expect(folds).not.toContain(looks(nestedPen(size)));
});

it('a join has no dashes that could fill those of a size, and is finer and lighter than any of them', () => {
  expect(pens.join.dashes).toEqual([]);
  expect(pens.join.width).toBeLessThan(nestedPen(0).width / 2);
  expect(pens.join.tone).toBeGreaterThanOrEqual(0.5);
});
