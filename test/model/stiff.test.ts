import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

const told = (layer: string, more = '', seams = 'seam side = front.right with back.left'): readonly string[] => pattern(`piece front {
  outline rectangle 8 by 6
  edge all raw
  line core = inset 1/2
  line high = inset 1/2 except top 0
  line wide = inset 1/2 except right 1/8
  cut 1 cloth
  ${layer}
${more}}
piece back {
  outline rectangle 8 by 6
  edge all raw
  cut 1 cloth
}
${seams}`, 'unit in\nallowance 1/4').problems.filter(({ code }) => code === 'stiff-in-seam' || code === 'fused-into-seam').map(({ code, message }) => `${code}: ${/at (.*?)\. Cut/.exec(message)?.[1] ?? ''}`);

describe('a stiff layer that a seam catches', () => {
  it.each([
    ['reaches to the cutting line', 'cut 1 board', ['stiff-in-seam: front.right']],
    ['ends between the stitching and the cutting line', 'cut 1 board along wide', ['stiff-in-seam: front.right']],
    ['ends at the stitching line', 'cut 1 board along stitching', []],
    ['ends within', 'cut 1 board along core', []],
    ['reaches only over an edge that nothing is sewn to', 'cut 1 board along high', []],
    ['is meant to', 'cut 1 board into the seam', []],
    ['is trimmed later', 'cut 1 board along stitching large by 1/8', []],
    ['is not stiff', 'cut 1 fuse', []],
  ])('is told, or not, where it %s', (_, layer, wanted) => {
    expect(told(layer)).toEqual(wanted);
  });
  it('is told of what is laid on, too, and once', () => {
    expect(told('cut 1 board', '', 'seam a = front.right with back.left\nseam b = front.left onto back.right')).toEqual(['stiff-in-seam: front.right']);
    expect(told('cut 1 board', '', 'seam b = front.left onto back.right')).toEqual(['stiff-in-seam: front.left']);
  });
  it('is told by its cutting line where the pattern says no seams', () => {
    expect(told('cut 1 board', '', '')).toEqual(['fused-into-seam: ']);
    expect(told('cut 1 board into the seam', '', '')).toEqual([]);
  });
});
