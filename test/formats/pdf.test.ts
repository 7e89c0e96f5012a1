import { describe, expect, it } from 'vitest';
import { handOver } from '../../server/src/formats/pages.ts';
import { paperNamed } from '../../server/src/pages/paper.ts';
import type { PageOptions } from '../../server/src/pages/options.ts';
import { boxOf, seen } from '../support/pdf.ts';
import { patternOf } from '../support/samples.ts';

/** Our own small pouch: one rounded piece that fits a sheet. */
const pouch = `pattern "Cable pouch"
revision 4
unit mm
allowance 10
use "studio/materials.piece"
piece front "Front" {
  outline rectangle 160 by 120
  corner bottom round 30
  notch top at 50%
  mark left_hole at 40, 60
  mark right_hole at 120, 60
  grain up
  cut 2 canvas
}
`;

export const optionsFor = (paper: string, more: Partial<PageOptions> = {}): PageOptions =>
  ({ paper: paperNamed(paper)!, orientation: 'auto', margin: 10, templates: 'all', ...more });

describe('a booklet as PDF', () => {
  it('has its test squares and its marks at true scale, as another reader measures them', async () => {
    const { pages } = await seen(handOver({ pattern: patternOf(pouch), combination: new Map(), options: optionsFor('a4') }, 'pdf').files[0]!.content);
    const strokes = pages.flatMap((page) => page.paths.filter(({ how }) => how === 'stroke').map(boxOf));
    for (const side of [25.4, 50]) expect(strokes.filter(({ width, height }) => Math.abs(width - side) < 0.01 && Math.abs(height - side) < 0.01)).toHaveLength(1);
    // The cutting line, drawn to its cutting size, and the distance between the two marks.
    expect(strokes.filter(({ width, height }) => Math.abs(width - 160) < 0.01 && Math.abs(height - 120) < 0.01 || Math.abs(width - 120) < 0.01 && Math.abs(height - 160) < 0.01)).not.toHaveLength(0);
  });

  it('is the same, byte for byte, every time', () => {
    const make = (): Uint8Array => handOver({ pattern: patternOf(pouch), combination: new Map(), options: optionsFor('letter') }, 'pdf').files[0]!.content;
    expect(Buffer.from(make()).equals(Buffer.from(make()))).toBe(true);
  });
});
