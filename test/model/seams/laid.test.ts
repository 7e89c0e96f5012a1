import { describe, expect, it } from 'vitest';
import { pattern } from '../../support/spec.ts';

/** An invented pocket on the front of a bag, laid on the line that marks where it goes. */
const spec = (pocket: string, line = 'rectangle 14 by 12', seam = 'pocket.left, pocket.bottom, pocket.right', more = ''): ReturnType<typeof pattern> => pattern(`piece front {
  outline rectangle 30 by 25
  drawn to stitching
  placement pocket_at = ${line}
  edge all raw
  cut 1 cloth
}
piece pocket {
  drawn to stitching
  ${pocket}
  edge all raw
  cut 1 cloth
}
seam patch = ${seam} onto front.pocket_at${more}`, 'unit cm\nallowance none');
type Case = readonly [what: string, pocket: string, line?: string | undefined, seam?: string | undefined, more?: string];
const codes = (found: ReturnType<typeof pattern>): readonly string[] => found.problems.filter(({ severity }) => severity === 'error').map(({ code }) => code);

describe('a pocket on a closed line', () => {
  it.each<Case>([
    ['as large as it', 'outline rectangle 14 by 12'],
    ['less deep', 'outline rectangle 14 by 10'],
    ['with the corners of the line rounded', 'outline rectangle 14 by 12\n  corner bottom round 2', undefined, 'pocket.left, pocket.bottom_left, pocket.bottom, pocket.bottom_right, pocket.right'],
    ['as wide once its pleat is laid', 'outline rectangle 16 by 12\n  pleat fold on bottom at 50% deep 1 towards start'],
    ['as wide once its dart is closed', 'outline rectangle 15 by 12\n  dart fold on bottom at 50% wide 1 deep 2'],
    ['by its lower edge alone', 'outline rectangle 14 by 4', undefined, 'pocket.bottom'],
    ['named the other way about', 'outline rectangle 14 by 12', undefined, 'pocket.right, pocket.bottom, pocket.left'],
    ['uneven, and named the other way about', 'outline polygon from 0, 0 to 14, 0 to 14, 12 to 0, 8', 'polygon from 0, 0 to 14, 0 to 14, 12 to 0, 8', 'pocket.side3, pocket.side2, pocket.side1'],
    ['on a round line', 'outline circle across 12', 'circle across 12', 'pocket.edge'],
    ['that is larger, within what is said', 'outline rectangle 15 by 12', undefined, undefined, ' within 0.5'],
    ['that is larger and eased in', 'outline rectangle 15 by 12', undefined, undefined, ' eased by 1'],
  ])('passes %s', (_, ...words) => expect(codes(spec(...words))).toEqual([]));

  it.each<Case>([
    ['too wide by four centimetres', 'outline rectangle 18 by 12'],
    ['too narrow', 'outline rectangle 13 by 12'],
    ['too deep', 'outline rectangle 14 by 13'],
    ['too wide since its pleat takes less', 'outline rectangle 16 by 12\n  pleat fold on bottom at 50% deep 0.5 towards start'],
    ['with round corners and too wide', 'outline rectangle 16 by 12\n  corner bottom round 2', undefined, 'pocket.left, pocket.bottom_left, pocket.bottom, pocket.bottom_right, pocket.right'],
    ['by an edge that is longer than the side', 'outline rectangle 15 by 4', undefined, 'pocket.bottom'],
    ['round on a square line', 'outline circle across 12', 'rectangle 12 by 12', 'pocket.edge'],
    ['larger than said', 'outline rectangle 16.2 by 12', undefined, undefined, ' within 0.5'],
  ])('is told %s', (_, ...words) => expect(codes(spec(...words))).toEqual(['patch-misses-line']));

  it('with the sizes of both', () => {
    const told = spec('outline rectangle 18 by 12').only('patch-misses-line');
    expect(told.message).toBe('pocket.left, pocket.bottom and pocket.right can’t lie on front.pocket_at as that is drawn: between its seams “pocket” is 18 cm × 12 cm, and the line is 14 cm × 12 cm. Draw the line as what is laid on it, or say “eased by”, “gathered” or “within”.');
    expect(told.marked).toBe('pocket.left, pocket.bottom, pocket.right');
  });
});
