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
interface Case {
  readonly what: string;
  readonly pocket: string;
  readonly line?: string;
  readonly seam?: string;
  readonly more?: string;
}
const codes = (found: ReturnType<typeof pattern>): readonly string[] => found.problems.filter(({ severity }) => severity === 'error').map(({ code }) => code);

describe('a pocket on a closed line', () => {
  it.each<Case>([
    { what: 'as large as it', pocket: 'outline rectangle 14 by 12' },
    { what: 'less deep', pocket: 'outline rectangle 14 by 10' },
    { what: 'with the corners of the line rounded', pocket: 'outline rectangle 14 by 12\n  corner bottom round 2', seam: 'pocket.left, pocket.bottom_left, pocket.bottom, pocket.bottom_right, pocket.right' },
    { what: 'as wide once its pleat is laid', pocket: 'outline rectangle 16 by 12\n  pleat fold on bottom at 50% deep 1 towards start' },
    { what: 'as wide once its dart is closed', pocket: 'outline rectangle 15 by 12\n  dart fold on bottom at 50% wide 1 deep 2' },
    { what: 'by its lower edge alone', pocket: 'outline rectangle 14 by 4', seam: 'pocket.bottom' },
    { what: 'named the other way about', pocket: 'outline rectangle 14 by 12', seam: 'pocket.right, pocket.bottom, pocket.left' },
    { what: 'with round corners, named the other way about', pocket: 'outline rectangle 14 by 12\n  corner bottom round 2', seam: 'pocket.right, pocket.bottom_right, pocket.bottom, pocket.bottom_left, pocket.left' },
    { what: 'on a round line', pocket: 'outline circle across 12', line: 'circle across 12', seam: 'pocket.edge' },
    { what: 'that is larger, within what is said', pocket: 'outline rectangle 15 by 12', more: ' within 0.5' },
    { what: 'that is larger and eased in', pocket: 'outline rectangle 15 by 12', more: ' eased by 1' },
  ])('passes $what', ({ pocket, line, seam, more }) => expect(codes(spec(pocket, line, seam, more))).toEqual([]));

  it.each<Case>([
    { what: 'too wide by four centimetres', pocket: 'outline rectangle 18 by 12' },
    { what: 'too narrow', pocket: 'outline rectangle 13 by 12' },
    { what: 'too deep', pocket: 'outline rectangle 14 by 13' },
    { what: 'too wide since its pleat takes less', pocket: 'outline rectangle 16 by 12\n  pleat fold on bottom at 50% deep 0.5 towards start' },
    { what: 'with round corners and too wide', pocket: 'outline rectangle 16 by 12\n  corner bottom round 2', seam: 'pocket.left, pocket.bottom_left, pocket.bottom, pocket.bottom_right, pocket.right' },
    { what: 'by an edge that is longer than the side', pocket: 'outline rectangle 15 by 4', seam: 'pocket.bottom' },
    { what: 'round on a square line', pocket: 'outline circle across 12', line: 'rectangle 12 by 12', seam: 'pocket.edge' },
    { what: 'larger than said', pocket: 'outline rectangle 16.2 by 12', more: ' within 0.5' },
  ])('is told $what', ({ pocket, line, seam, more }) => expect(codes(spec(pocket, line, seam, more))).toEqual(['patch-misses-line']));

  it('with the sizes of both', () => {
    const told = spec('outline rectangle 18 by 12').only('patch-misses-line');
    expect(told.message).toBe('pocket.left, pocket.bottom and pocket.right can’t lie on front.pocket_at as that is drawn: between its seams “pocket” is 18 cm × 12 cm, and the line is 14 cm × 12 cm. Draw the line as what is laid on it, or say “eased by”, “gathered” or “within”.');
    expect(told.marked).toBe('pocket.left, pocket.bottom, pocket.right');
  });
});
