import { describe, expect, it } from 'vitest';
import { aboutName } from '../../server/src/language/completion-documentation.ts';
import { hover } from '../../server/src/language/hover.ts';
import { inlayHints } from '../../server/src/language/inlay-hints.ts';
import { sizeOfLine, sizeOfPiece } from '../../server/src/model/piece/size.ts';
import { drawPiece } from '../../server/src/preview/parts.ts';
import { sizeWords } from '../../server/src/preview/size-words.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { marked } from '../support/marked.ts';
import { pattern } from '../support/spec.ts';

const inches = (millimetres: { readonly valueOf: () => number }): number => Math.round((millimetres.valueOf() / 25.4) * 1e4) / 1e4;

/**
 * Pieces whose size was worked out by hand, in inches.
 * - tab: a half circle of 1 in radius stands out over the right end of 3 1/2 in.
 * - lens: two arcs of radius 2 1/2 over a chord of 4: their rise is 2 1/2 - sqrt(2 1/2² - 2²) = 1.
 * - wave: a cubic from 0 to 4 whose handles stand 2 above: it rises to 3/4 of that.
 * - dome: half a circle of radius 2 1/4 beside its fold, opened out.
 */
const shapes = {
  tab: { outline: 'path from 0, 0 {\n    line to 3 1/2, 0\n    arc to 3 1/2, 2 through 4 1/2, 1\n    line to 0, 2\n  }', width: 4.5, height: 2, words: ['4 1/2 in', '2 in'], more: '' },
  lens: { outline: 'path from 0, 0 {\n    arc to 4, 0 radius 2 1/2 left\n    arc to 0, 0 radius 2 1/2 left\n  }', width: 4, height: 2, words: ['4 in', '2 in'], more: '' },
  wave: { outline: 'path from 0, 0 {\n    line to 4, 0\n    curve to 0, 0 by 4, 2 and 0, 2\n  }', width: 4, height: 1.5, words: ['4 in', '1 1/2 in'], more: '' },
  dome: { outline: 'circle across 4 1/2 from -90 to 90', width: 4.5, height: 4.5, words: ['4 1/2 in', '4 1/2 in'], more: '  on fold chord\n' },
  plain: { outline: 'rectangle 3 1/3 by 2', width: 3.3333, height: 2, words: ['3 3/8 in', '2 in'], more: '' },
} as const;

const specOf = ({ outline, more }: (typeof shapes)[keyof typeof shapes]): string =>
  `pattern "Sizes"\nrevision 1\nunit in\nallowance none\nmaterial cloth "Cloth" {\n  width 58\n}\npiece |a {\n  outline ${outline}\n${more}  cut 1 cloth\n}\n`;

describe('the size of a piece', () => {
  it.each(Object.entries(shapes))('of the %s is the same wherever it is told', (name, expected) => {
    // Opened out it is a whole circle, and is told as one where it is cut.
    const isDome = name === 'dome';
    const { snapshot, offset } = marked(specOf(expected));
    const shape = snapshot.pattern.shape('a', new Map());
    if (shape === undefined) throw new Error('no shape');
    const [width, height] = expected.words;
    for (const of of ['cutting', 'stitching'] as const) {
      const size = sizeOfPiece(shape, of);
      expect([inches(size.width), inches(size.height)]).toEqual([expected.width, expected.height]);
      const words = sizeWords(shape, snapshot.pattern.display)[of];
      expect([words.width.text, words.height.text]).toEqual([width, height]);
    }
    const told = hover(snapshot, offset)?.markdown ?? '';
    const sides = isDome ? `circle, ${width} \\([^)]*\\) across` : `(within )?${width} \\([^)]*\\) × ${height}`;
    expect(told).toMatch(new RegExp(`cut size ${sides}`));
    expect(told).toMatch(new RegExp(`finished size ${sides}`));
    expect(aboutName(snapshot, 'a')).toContain(`${isDome ? `circle, ${width} across` : `${width} × ${height}`} as cut`);
    expect(inlayHints(snapshot, { start: 0, end: snapshot.file.text.length }, { sizes: true, totals: false }).map(({ text }) => text)).toContainEqual(expect.stringContaining(isDome ? `circle, ${width} across` : `${width} wide, ${height} high`));
    const [row] = cuttingTable(snapshot.pattern, new Map()).cuts;
    if (isDome) expect(row?.size).toBe(`circle, ${width} across`);
    else expect(row?.size).toMatch(new RegExp(`${width}[^×]*× ${height}`));
  });

  it('is what formulas and checks are given', () => {
    const told = pattern(`piece a {\n  outline ${shapes.tab.outline}\n  allowance none\n  cut 1 cloth\n}\nlength w = a.width\nlength h = a.cut_height\ncheck a holds 4 1/2 by 2\ncheck a holds 4 9/16 by 2`);
    expect([inches(told.value('w').amount), inches(told.value('h').amount)]).toEqual([4.5, 2]);
    expect(told.only('check-failed').marked).toBe('a holds 4 9/16 by 2');
  });

  it('is shown no smaller than the template, also by hover', () => {
    // Half a disc of 4.05 in doesn't fit into 2 by 4 in, the nearest that a step of 1/8 in can show. A whole disc is told by its diameter.
    const { snapshot, offset } = marked('unit in\nallowance none\npiece |a {\n  outline circle across 4.05 from -90 to 90\n}\n');
    expect(hover(snapshot, offset)?.markdown).toContain('cut size within 2 1/8 in (5.2 cm) × 4 1/8 in (10.3 cm)');
    expect(hover(snapshot, offset)?.markdown).toContain('finished size within 2 in (5.1 cm) × 4 in (10.3 cm)');
  });
});

describe('the size of a line', () => {
  // Half a placement drawn to the fold, 1 1/2 in wide: opened out it is 3 in wide.
  const half = 'piece a {\n  outline rectangle 5 by 6\n  on fold left\n  placement label = rectangle 1 1/2 by 1 at 0, 2\n  placement dot = circle across 1 at 2, 2\n  cut 1 cloth\n}\nlength w = a.label.width\nlength r = a.label';

  it('is that of the opened-out piece, in formulas and in the drawing', () => {
    const told = pattern(half);
    const shape = told.shape('a');
    const [label, dot] = shape.lines;
    if (label === undefined || dot === undefined) throw new Error('no lines');
    expect(sizeOfLine(shape, label)).toMatchObject({ exact: true, plain: true });
    expect([inches(sizeOfLine(shape, label).width), inches(sizeOfLine(shape, label).height)]).toEqual([3, 1]);
    expect([inches(sizeOfLine(shape, dot).width), inches(sizeOfLine(shape, dot).height)]).toEqual([1, 1]);
    expect([told.inches('w'), inches(told.value('r').amount)]).toEqual(['3', 8]);
    const parts = drawPiece(shape, told.pattern.display).drawing.parts;
    expect(parts.find(({ name }) => name === 'label')?.detail).toBe('3 in × 1 in');
  });
});
