import { describe, expect, it } from 'vitest';
import { cutColumns } from '../../server/src/table/columns.ts';
import { combinationText, documentsOf, stampText, type Section } from '../../server/src/table/document.ts';
import { materialsCut } from '../../server/src/table/material-rows.ts';
import { sizeText } from '../../server/src/table/figures.ts';
import type { Grouping } from '../../server/src/table/sections.ts';
import type { CuttingTable } from '../../server/src/table/table.ts';
import { pattern } from '../support/spec.ts';

const bag = pattern(`sizes S, L
choice lid is flap or zip
length w = 6 for S, 8 for L
note "Press first."
piece front "Front" {
  outline rectangle w by 6
  corner all round 1
  line core = inset 1/2
  grain up
  cut 2 cloth
  cut 2 fuse
  cut 1 board along core
}
piece flap "Flap" when lid is flap {
  outline rectangle w / 2 by 3
  on fold left
  corner right chamfer 1/2
  cut 2 cloth on fold twins
  cut 1 lining on fold
}
supply zip "Zip" when lid is zip {
  kind zip
  finished w
}`);

const sectionsOf = (table: CuttingTable, by: Grouping): readonly Section[] => documentsOf([table], by)[0]?.sections ?? [];

describe('the cutting table', () => {
  it('says which combination it is for', () => {
    expect(combinationText(bag.table({ size: 'L', lid: 'zip' }))).toBe('size: L, lid: zip');
    expect(combinationText(pattern('').table())).toBe('');
    expect(stampText(bag.table())).toBe(`Revision 1, fingerprint ${bag.pattern.digest}`);
  });

  it('says what to sew by: sizes without the allowances, and those that are unlike the rest', () => {
    const found = pattern('piece a "A" {\n  outline rectangle 8 by 6\n  allowance top 1\n  allowance left none\n  cut 1 cloth\n}\npiece b "B" {\n  outline rectangle 8 by 6\n  on fold left\n  cut 1 cloth\n}\npiece c "C" {\n  outline circle across 4\n  allowance none\n  cut 1 cloth\n}', 'unit in\nallowance 1/2');
    expect(found.table().seams.map(({ piece, finished, allowance }) => [piece, sizeText(finished), allowance])).toEqual([
      // 8 − 1/2 wide and 6 − 1 − 1/2 high.
      ['A', '7 1/2 in × 4 1/2 in', '1/2 in on bottom and right, 1 in on top and none on left'],
      // Opened out: 2 · 8 − 2 · 1/2.
      ['B', '15 in × 5 in', '1/2 in all round'],
      ['C', 'circle, 4 in across', 'none'],
    ]);
  });

  it('says where a mark is exactly where that is rounded, and what begins at a fold as one', () => {
    const found = pattern('piece a "A" {\n  outline rectangle 8 by 6\n  on fold left\n  mark dot at 3 1/16, 2\n  placement pocket = rectangle 2 by 3 at 0, 1\n  cut 1 cloth\n}', 'unit in\nallowance 1/2');
    expect(found.table().marks.map(({ mark, kind, fromLeft, fromBelow }) => [mark, kind, fromLeft?.text, fromBelow?.text])).toEqual([
      ['dot', 'mark', 'about 11 1/8 in (exactly 11 1/16 in)', '2 in'],
      ['dot, other half', 'mark', 'about 5 in (exactly 4 15/16 in)', '2 in'],
      ['pocket', 'placement, 4 in × 3 in', '6 in', '1 in'],
    ]);
  });

  it('says which side of a piece faces whoever marks it', () => {
    const facing = (cut: string, lines = 'cut 2 cloth'): readonly string[] => pattern(`piece a "A" {\n  outline polygon from 0, 0 to 8, 0 to 5, 6 to 0, 6\n  mark dot at 2, 2\n  ${lines}${cut}\n}`, 'unit in\nallowance 1/2').table().marks.map((row) => row.facing);
    expect(facing('')).toEqual(['right side']);
    expect(facing(' mirrored')).toEqual(['wrong side']);
    expect(facing(' twins')).toEqual(['right side, of the flipped ones the wrong side']);
    expect(facing('', 'cut 1 cloth\n  cut 1 lining mirrored')).toEqual(['Cloth: right side; Lining: wrong side']);
  });

  it('says once that there are no seam allowances, in place of sizes that are those that are cut', () => {
    const found = (allowance: string): readonly [boolean, boolean] => {
      const sections = sectionsOf(pattern('piece a "A" {\n  outline rectangle 8 by 6\n  cut 1 cloth\n}\npiece b "B" {\n  outline rectangle 8 by 6\n  allowance none\n  cut 1 cloth\n}', `unit in\nallowance ${allowance}`).table(), 'piece');
      return [sections.some(({ key }) => key === 'seams'), sections.find(({ key }) => key === 'cuts')?.below.includes('No seam allowances: all is cut at its finished size.') === true];
    };
    expect(found('none')).toEqual([false, true]);
    expect(found('1/2')).toEqual([true, false]);
  });

  it('leaves out sections without rows', () => {
    expect(sectionsOf(bag.table({ lid: 'flap' }), 'piece').map((section) => section.key)).toEqual(['cuts', 'layers', 'templates']);
    expect(sectionsOf(bag.table({ lid: 'zip' }), 'piece').map((section) => section.key)).toEqual(['supplies', 'cuts', 'layers', 'templates']);
    expect(sectionsOf(pattern('').table(), 'piece')).toEqual([]);
  });

  it('has a row of as many cells as columns', () => {
    for (const by of ['piece', 'material'] as const) {
      for (const section of sectionsOf(bag.table(), by)) for (const row of section.rows) expect(row).toHaveLength(section.columns.length);
    }
  });

  it('prints one template for what is cut along the same line', () => {
    expect(bag.table({ size: 'L' }).templates.map((row) => [row.number, row.piece, row.line, sizeText(row.size), row.note, row.forMaterials.join(', ')])).toEqual([
      [1, 'Front', 'cutting line', '8 in × 6 in', '', 'Cloth, Fusible'],
      [2, 'Front', 'core', '7 in × 5 in', '', 'Board'],
      [3, 'Flap', 'cutting line', '4 in × 3 in', 'half, on the fold', 'Cloth, Lining'],
    ]);
  });

  it('has sizes for the size asked for', () => {
    expect(bag.rows({ size: 'S' })[0]?.size).toBe('within 6 in × 6 in');
    expect(bag.rows({ size: 'L' })[0]?.size).toBe('within 8 in × 6 in');
    expect(bag.table({ size: 'S', lid: 'zip' }).supplies[0]?.size).toBe('finished 6 in');
  });

  it('knows the materials that are cut, in the order of the text', () => {
    const names = (lid: string): readonly string[] => materialsCut(bag.pattern.resolve(new Map([['lid', lid]]))).map((material) => material.name);
    expect(names('flap')).toEqual(['cloth', 'lining', 'fuse', 'board']);
    expect(names('zip')).toEqual(['cloth', 'fuse', 'board']);
  });

  it('is named after its file where it has no title', async () => {
    const { analyse } = await import('../support/spec.ts');
    expect(analyse('', {}, 'bags/small.piece').table()).toMatchObject({ title: 'bags/small.piece', revision: undefined });
  });
});

describe('templates of halves', () => {
  const spec = `piece skirt "Skirt" {
  outline polygon from 0, 0 to 10, 0 to 6, 20 to 0, 20
  on fold side4
  line waist = level at 12
  grain up
  cut 1 cloth on fold
  cut 1 foam large by 1/2
}
piece cover "Lining" from skirt above waist {
  template folded
  cut 1 lining
}
`;

  it('are drawn as they are printed', () => {
    const [whole, large] = pattern(spec).table().templates;
    const widest = (points: readonly { readonly x: number }[] = []): number => Math.max(...points.map(({ x }) => x)) - Math.min(...points.map(({ x }) => x));
    expect([whole?.size.width.text, whole?.note, widest(whole?.outline) / 25.4]).toEqual(['10 in', 'half, on the fold', expect.closeTo(10, 6)]);
    // What is cut large is drawn whole: twice 10 in, and more at both sides.
    expect(large?.line).toBe('cutting line, 1/2 in more all round');
    expect(widest(large?.outline) / 25.4).toBeGreaterThan(21);
  });

  it('say what is cut from them folded, and that says where they are folded and that they are halves', () => {
    const table = pattern(spec).table();
    expect(table.templates[0]?.forMaterials).toEqual([expect.any(String), expect.stringMatching(/ \(folded, for Lining\)$/)]);
    expect(table.cuts.find(({ piece }) => piece === 'Lining')?.notes).toEqual(['its template is a half: draw round it, flip it along the fold, draw round it again']);
    expect(cutColumns.find(({ key }) => key === 'template')?.text(table.cuts.find(({ piece }) => piece === 'Lining')!)).toBe('template 1, folded where it says “fold here for Lining”');
  });
});
