import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

/* What is just within a limit, and just beyond it: worked out by hand. */

const codes = (lines: string, outline = 'rectangle 8 by 6', facts = 'unit in\nallowance none'): readonly string[] =>
  pattern(`piece a "A" {\n  outline ${outline}\n  grain up\n  ${lines}\n}`, facts).codes.filter((code) => code !== 'rounded-size');

describe('widths', () => {
  it('fit to a hundredth of a millimetre', () => {
    // Of 60 in 58 in are usable; a thousandth of an inch is 0.0254 mm.
    expect(codes('cut 1 cloth', 'rectangle 58 by 6')).toEqual([]);
    expect(codes('cut 1 cloth', 'rectangle 58.0003 by 6')).toEqual([]);
    expect(codes('cut 1 cloth', 'rectangle 58.001 by 6')).toEqual(['too-wide']);
  });
});

describe('layers', () => {
  it('lie within their shell to two hundredths of a millimetre', () => {
    // Centred, half of what is more stands out on either side: 0.0127 mm, and 0.0381 mm.
    expect(codes('cut 1 cloth\n  cut 1 board sized 8 by 6')).toEqual([]);
    expect(codes('cut 1 cloth\n  cut 1 board sized 8.001 by 6')).toEqual([]);
    expect(codes('cut 1 cloth\n  cut 1 board sized 8.003 by 6')).toEqual(['pokes-out']);
  });

  it('that are stiff stay out of a seam, where there is one', () => {
    const seam = 'unit in\nallowance 1/2';
    expect(codes('cut 1 cloth\n  cut 1 foam', undefined, seam)).toEqual(['fused-into-seam']);
    expect(codes('cut 1 cloth\n  cut 1 foam along stitching', undefined, seam)).toEqual([]);
    expect(codes('cut 1 cloth\n  cut 1 fuse', undefined, seam)).toEqual([]);
    expect(codes('cut 1 cloth\n  cut 1 foam')).toEqual([]);
  });

  it('that are fused come before what is stiff, on the same side', () => {
    expect(codes('cut 1 cloth\n  cut 1 foam\n  cut 1 fuse')).toEqual(['stack-order']);
    expect(codes('cut 1 cloth\n  cut 1 fuse\n  cut 1 foam')).toEqual([]);
    expect(codes('cut 1 cloth\n  cut 1 foam on wrong side\n  cut 1 fuse on right side')).toEqual([]);
  });
});
