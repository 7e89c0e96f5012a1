import { describe, expect, it } from 'vitest';
import { cuttingTable } from '../../server/src/table/table.ts';
import { polygonArea } from '../../server/src/geometry/measure.ts';
import { pagesOf, templateSet } from '../../server/src/pages/pages.ts';
import { made, optionsFor } from '../support/pages.ts';
import { seen } from '../support/pdf.ts';
import { patternOf } from '../support/samples.ts';

/** Our own apron front, drawn as half, whose yoke is the part above a line; without `folded` the yoke has a template of its own. */
const front = (folded: string, more = ''): string => `pattern "Folded"
revision 1
unit mm
allowance 10
use "studio/materials.piece"
piece front "Front" {
  outline path from 0, 0 {
    line to 90, 0 as hem
    line to 90, 120 as side
    arc to 60, 200 through 70, 160 as hollow
    line to 0, 200 as top
    close as centre
  }
  on fold centre
  placement waist = level at 130
  grain up
  cut 1 canvas on fold
}
piece yoke "Yoke" from front above waist {
  ${folded}
  ${more}
  cut 2 poplin
}
`;

const codes = (text: string): readonly string[] => patternOf(text).problems.map(({ code }) => code);

describe('a part that is cut from a folded template', () => {
  const pattern = patternOf(front('template folded'));
  const { templates } = templateSet(pattern, new Map(), optionsFor());

  it('has no template of its own, and its whole says what is cut of it', () => {
    expect(templateSet(patternOf(front('')), new Map(), optionsFor()).templates.map(({ title }) => title)).toEqual(['Front', 'Yoke']);
    expect(codes(front('template folded'))).toEqual([]);
    expect(templates.map(({ title, cuts }) => [title, cuts])).toEqual([['Front', ['Cut 1 × Cotton canvas, on the fold', 'Folded, for Yoke: cut 2 × Cotton poplin']]]);
    expect(templates[0]!.variants[0]!.notes).toContain('Half: draw round it, flip it along the fold, draw round it again');
  });

  it('is cut as the folded template says: the whole above the line, the allowance below the seam included', () => {
    const { pieces } = pattern.resolve(new Map());
    const [whole, part] = pieces.map(({ cuts }) => cuts[0]!);
    const ys = part!.outline.map(({ y }) => y);
    // Seam at 130, as drawn to the stitching line or the cutting line alike: the front is drawn to cutting, so nothing is added above.
    expect([Math.min(...ys), Math.max(...ys)]).toEqual([expect.closeTo(120, 2), expect.closeTo(200, 2)]);
    expect(Math.abs(polygonArea(part!.outline))).toBeLessThan(Math.abs(polygonArea(whole!.outline)) * 0.45);
    const distanceToWhole = part!.outline.filter(({ y }) => y > 120.01).map((point) => Math.min(...whole!.outline.map(({ x, y }) => Math.hypot(point.x - x, point.y - y))));
    expect(Math.max(...distanceToWhole)).toBeLessThan(0.01);
  });

  it('is told in the table by the number of the other template', () => {
    const table = cuttingTable(pattern, new Map());
    expect(table.cuts.map(({ piece, template, templateFolded }) => [piece, template, templateFolded])).toEqual([['Front', 1, false], ['Yoke', 1, true]]);
    expect(table.cuts[1]!.size).toMatch(/^within /);
    expect(table.templates).toHaveLength(1);
  });

  it('is a line on the sheet, where pdf.js finds it, with words and a place in the legend', async () => {
    const { pages } = await seen(made(pattern, 'pdf'));
    const words = pages.flatMap(({ texts }) => texts.map(({ text }) => text));
    expect(words).toContain('fold here for Yoke');
    expect(words).toContain('Fold the template here for a part');
    const sheets = pagesOf(pattern, new Map(), optionsFor()).sheets;
    const at = sheets.findIndex(({ kind }) => kind === 'templates');
    const cutting = pages[at]!.paths.filter(({ width, how }) => how === 'stroke' && Math.abs(width - 0.5) < 0.01).flatMap(({ runs }) => runs.flat());
    const fold = pages[at]!.paths.filter(({ width, dashes }) => Math.abs(width - 0.35) < 0.01 && dashes.length === 6).map(({ runs: [run] }) => run!);
    const own = fold.find((run) => Math.abs(Math.hypot(run[1]![0] - run[0]![0], run[1]![1] - run[0]![1]) - 17) > 1)!;
    const side = Math.hypot(own[1]![0] - own[0]![0], own[1]![1] - own[0]![1]);
    // From the fold to the corner of the side and the hollow, ten below the line of the parting.
    expect(side).toBeCloseTo(90, 2);
    expect(own.some(([px, py]) => cutting.some(([x, y]) => Math.hypot(x - px, y - py) < 0.01))).toBe(true);
  });

  it('gets a template of its own where the folded one would be another, and is told why', () => {
    const other = front('template folded', 'allowance hollow 25');
    expect(codes(other)).toEqual(['no-folded-template']);
    expect(templateSet(patternOf(other), new Map(), optionsFor()).templates).toHaveLength(2);
    const alone = 'pattern "Alone"\nrevision 1\nunit mm\nallowance 10\nuse "studio/materials.piece"\npiece a {\n  outline rectangle 50 by 50\n  template folded\n  cut 1 canvas\n}\n';
    expect(codes(alone)).toEqual(['no-folded-template']);
    const uncut = front('template folded').replace('cut 1 canvas on fold', 'cut 1 canvas along stitching on fold');
    expect(codes(uncut)).toContain('no-folded-template');
  });
});
