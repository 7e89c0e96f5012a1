import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';

/** A tab of 2 in, folded in four to 1/2 in, between two panels. */
const spec = (seam: string, steps = ''): string => `piece front "Front" {
  outline rectangle 6 by 8
  cut 1 cloth
}
piece back "Back" {
  outline rectangle 6 by 8
  cut 1 cloth
}
piece tab "Tab" {
  outline rectangle 2 by 3
  foldline left_quarter = upright at 1/2
  foldline right_quarter = upright at 1 1/2
  foldline middle = upright at 1
  folded left_quarter, right_quarter, middle
  edge left raw
  edge right raw
  edge bottom raw
  cut 1 cloth
}
seam side "Side" = front.right with back.left
${seam}
${steps}`;
const told = (seam: string, steps?: string): readonly string[] =>
  pattern(spec(seam, steps)).problems.filter(({ severity }) => severity !== 'note').map(({ code, marked }) => `${code}: ${marked}`);

describe('the end of what is folded flat', () => {
  test('is sewn as wide as it lies', () => {
    expect(told('seam tab_end "Tab" = tab.top folded onto front.right from 3 to 3 1/2')).toEqual([]);
    const { pattern: found } = pattern(spec('seam tab_end "Tab" = tab.top folded onto front.right from 3 to 3 1/2'));
    expect(found.resolve(new Map()).seams.find(({ name }) => name === 'tab_end')?.first.length).toBeCloseTo(12.7, 6);
    expect(told('seam tab_end = tab.top folded onto front.right from 3 to 4')).toEqual(['seam-lengths: tab.top folded']);
  });

  test('folded otherwise it is as wide as that', () => {
    // A third turned in from each side leaves 2/3 in; folds one after the other over unequal parts.
    const thirds = spec('seam tab_end = tab.top folded onto front.right from 3 to 3 + 3/4').replace('upright at 1/2', 'upright at 3/4').replace('upright at 1 1/2', 'upright at 1 1/2').replace('folded left_quarter, right_quarter, middle', 'folded left_quarter, right_quarter').replace('  foldline middle = upright at 1\n', '');
    expect(pattern(thirds).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('where it is measured unfolded, the way out is told', () => {
    expect(pattern(spec('seam tab_end = tab.top onto front.right from 3 to 3 1/2')).only('seam-lengths').message).toMatch(/too long\. As it is folded it fits: write “tab\.top folded”\.$/);
    expect(pattern(spec('seam tab_end = tab.top onto front.right from 3 to 4')).only('seam-lengths').message).toMatch(/too long\.$/);
  });

  test('is laid on something, and of a piece that is folded', () => {
    expect(told('seam tab_end = tab.top folded with front.right from 3 to 3 1/2')).toEqual(['wrong-thing: tab.top folded']);
    expect(told('seam tab_end = front.left folded onto back.right')).toEqual(['wrong-thing: front.left folded']);
  });

  test('is caught before the edge that it lies on is closed', () => {
    const seam = 'seam tab_end "Tab" = tab.top folded onto front.right from 3 to 3 1/2';
    const done = 'step "Rest." does front, back, tab';
    expect(told(seam, `step "Baste the tab." does tab_end\nstep "Sew the side." does side\n${done}`)).toEqual([]);
    expect(told(seam, `step "Sew the side." does side\nstep "Baste the tab." does tab_end\n${done}`)).toEqual(['too-late: tab_end']);
    expect(told(seam, `step "Sew the side." does side\n${done}`)).toEqual(['left-out: tab_end']);
  });

  test('is told so to whoever sews it', () => {
    const row = pattern(spec('seam tab_end "Tab" = tab.top folded onto front.right from 3 to 3 1/2')).table().sewing.find(({ seam }) => seam === 'Tab');
    expect([row?.first, row?.how, row?.second, row?.length.text, row?.allowance]).toEqual(['Tab: top, folded', 'laid on', 'Front: right (3 in to 3 1/2 in from its lower end)', '1/2 in', 'none']);
  });
});
