import { expect, it } from 'vitest';
import { pattern } from '../../support/spec.ts';

const spec = (steps: string, folded = '  folded middle\n'): ReturnType<typeof pattern> => pattern(`piece pocket "Pocket" {
  outline rectangle 6 by 9
  foldline middle = level at 4 1/2
${folded}  edge all raw
  cut 1 cloth
}
piece panel {
  outline rectangle 9 by 9
  edge all raw
  cut 1 cloth
}
seam s = pocket.left with panel.left
${steps}`, 'unit in\nallowance none\ndrawn to stitching');

it('a step may fold a piece, before it is sewn, and once', () => {
  expect(spec('step "Fold." does pocket.folded\nstep "Sew." does s').faults).toEqual([]);
  expect(spec('step "Sew." does s').faults).toEqual([]);
  expect(spec('step "Sew." does s\nstep "Fold." does pocket.folded').faults).toEqual(['too-late: pocket.folded']);
  expect(spec('step "Fold." does pocket.folded\nstep "Again." does pocket.folded\nstep "Sew." does s').faults).toEqual(['done-twice: pocket.folded']);
});
it('only one that says how', () => {
  expect(spec('step "Fold." does pocket.folded\nstep "Sew." does s', '').faults).toEqual(['nothing-to-do: folded']);
});
it('the table calls it by its piece', () => {
  expect(spec('step "Fold." does pocket.folded\nstep "Sew." does s').table().steps[0]?.does).toEqual([{ kind: 'folded', name: 'pocket.folded', title: 'Pocket: folds' }]);
});
