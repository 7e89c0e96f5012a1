import { describe, expect, it } from 'vitest';
import { combinationText, sectionsOf, stampText } from '../../server/src/exports/sections.ts';
import { materialsCut } from '../../server/src/exports/table.ts';
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

describe('the cutting table', () => {
  it('says which combination it is for', () => {
    expect(combinationText(bag.table({ size: 'L', lid: 'zip' }))).toBe('size: L, lid: zip');
    expect(combinationText(pattern('').table())).toBe('');
    expect(stampText(bag.table())).toBe(`Revision 1, inputs ${bag.pattern.digest}`);
  });

  it('leaves out sections without rows', () => {
    expect(sectionsOf(bag.table({ lid: 'flap' }), 'piece').map((section) => section.key)).toEqual(['cuts', 'layers', 'templates']);
    expect(sectionsOf(bag.table({ lid: 'zip' }), 'piece').map((section) => section.key)).toEqual(['cuts', 'layers', 'supplies', 'templates']);
    expect(sectionsOf(pattern('').table(), 'piece')).toEqual([]);
  });

  it('has a row of as many cells as columns', () => {
    for (const by of ['piece', 'material'] as const) {
      for (const section of sectionsOf(bag.table(), by)) for (const row of section.rows) expect(row).toHaveLength(section.columns.length);
    }
  });

  it('prints one template for what is cut along the same line', () => {
    expect(bag.table({ size: 'L' }).templates.map((row) => [row.piece, row.line, row.size, row.note, row.forMaterials.join(', '), row.copies])).toEqual([
      ['Front', 'cutting line', '8 in × 6 in', '', 'Cloth, Fusible', 1],
      ['Front', 'core', '7 in × 5 in', '', 'Board', 1],
      ['Flap', 'cutting line', '8 in × 3 in', 'half, on the fold', 'Cloth, Lining', 1],
    ]);
  });

  it('has sizes for the size asked for', () => {
    expect(bag.rows({ size: 'S' })[0]?.notes).toContain('fits within 6 in × 6 in');
    expect(bag.rows({ size: 'L' })[0]?.notes).toContain('fits within 8 in × 6 in');
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
