import { describe, expect, it } from 'vitest';
import { escapeMarkup } from '../../server/src/formats/escape.ts';
import { renderTable } from '../../server/src/formats/format.ts';
import { laidText } from '../../server/src/table/buying-text.ts';
import { documentsOf } from '../../server/src/table/document.ts';
import { sizeText } from '../../server/src/table/figures.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import { usualDisplay } from '../../server/src/units/length.ts';
import { measured } from '../../server/src/units/rational.ts';
import { analyse, pattern, type Analysed } from '../support/spec.ts';

/* What a maker is told, worked out by hand. Each of these once went unnoticed when the core was spoilt on purpose. */

describe('cautions', () => {
  const cautions = (supply: string, cut = 'cut 1 cloth'): readonly string[] =>
    pattern(`piece a {\n  outline rectangle 8 by 6\n  ${cut}\n}\n${supply}`).table().cautions.map((text) => text.split(':')[0] ?? '');
  it('are those that the article calls for', () => {
    expect(cautions('')).toEqual(['Blades']);
    expect(cautions('', 'cut 1 cloth\n  cut 1 fuse')).toEqual(['Blades', 'Iron']);
    expect(cautions('supply zip {\n  kind zip\n  finished 6\n}')).toEqual(['Blades', 'Needles and pins', 'Iron', 'Small parts']);
    expect(cautions('supply snap {\n  kind snap\n  across 14 mm\n}')).toEqual(['Blades', 'Small parts']);
    expect(cautions('supply ring {\n  kind ring\n  across 25 mm\n}')).toEqual(['Blades', 'Small parts', 'Straps and rings']);
    expect(cautions('supply buckle {\n  kind buckle\n  across 25 mm\n}')).toEqual(['Blades', 'Small parts', 'Straps and rings']);
    expect(cautions('supply paste {\n  kind glue\n}')).toEqual(['Blades', 'Glue']);
    expect(cautions('supply strap {\n  kind webbing\n  across 25 mm\n  length 40\n}')).toEqual(['Blades', 'Needles and pins', 'Iron', 'Cords, tapes, ties and straps', 'Straps and rings']);
    expect(cautions('supply rivet {\n  kind other\n}')).toEqual(['Blades', 'Small parts']);
    expect(cautions('supply cord {\n  kind other\n  length 40\n}')).toEqual(['Blades', 'Cords, tapes, ties and straps']);
    // None of it is set.
    expect(cautions('supply zip {\n  kind zip\n  finished 6\n  count 0\n}')).toEqual(['Blades']);
  });
});

describe('sizes', () => {
  const size = (outline: string, facts = 'unit in\nallowance none'): string | undefined => pattern(`piece a {\n  outline ${outline}\n  cut 1 cloth\n}`, facts).rows()[0]?.size;
  it('of what needs a template go up to the next step, but not for what flattening adds', () => {
    expect(size('circle across 4 from 0 to 180')).toBe('within 4 in × 2 in');
    // A fortieth of a millimetre more than 4 in is more than 4 in.
    expect(size('circle across 4.001 from 0 to 180')).toBe('within 4 1/8 in × 2 1/8 in');
    expect(size('circle across 10 from 0 to 180', 'unit cm\nallowance none')).toBe('within 10 cm × 5 cm');
    // A circle is drawn by its size: that is told as that of a rectangle is.
    expect([size('circle across 4'), size('circle across 4.05')]).toEqual(['circle, 4 in across', 'circle, about 4 in (exactly 4 1/20 in) across']);
  });

  it('of plain rectangles go to the nearest step, and say so', () => {
    expect(size('rectangle 8 by 3 1/16')).toBe('8 in × about 3 1/8 in (exactly 3 1/16 in)');
    expect(size('rectangle 8 by 10 / 3')).toBe('8 in × about 3 3/8 in (exactly 3 1/3 in)');
    expect(size('rectangle 8 by 3.013')).toBe('8 in × about 3 in');
  });
});

describe('two units', () => {
  it('stand beside each other where the pattern asks for both', () => {
    const { pattern: made, ...found } = pattern('piece a "A" {\n  outline rectangle 8 by 3 1/16\n  mark dot at 2, 1\n  cut 1 cloth\n}\npiece b "B" {\n  outline circle across 4\n  cut 1 cloth\n}', 'unit in and cm\nallowance 1/2');
    expect(made.display.unit).toBe('in');
    // 8 · 2.54 = 20.32 and 3.0625 · 2.54 = 7.77875.
    expect(found.rows().map((row) => row.size)).toEqual(['8 in (about 20.3 cm) × about 3 1/8 in (exactly 3 1/16 in; about 7.8 cm)', 'circle, 4 in (about 10.2 cm) across']);
    expect(found.table().marks.map((row) => [row.fromLeft?.text, row.fromLeft?.value, row.fromLeft?.unit])).toEqual([['2 in (about 5.1 cm)', 2, 'in']]);
    expect(pattern('piece a {\n  outline rectangle 25.4 by 2\n  cut 1 cloth\n}', 'unit cm and in\nallowance none').rows()[0]?.size).toBe('25.4 cm (10 in) × 2 cm (about 3/4 in)');
    expect(pattern('piece a {\n  outline rectangle 8 by 2\n  cut 1 cloth\n}', 'unit in and in\nallowance none').rows()[0]?.size).toBe('8 in × 2 in');
  });
});

describe('allowances', () => {
  const told = (allowances: string, facts = 'unit in\nallowance none\ndrawn to stitching'): readonly string[] => {
    const found = pattern(`piece a "A" {\n  outline rectangle 7 by 5\n  mark dot at 2, 3\n${allowances}\n  cut 1 cloth\n}`, facts).table();
    return [...found.cuts.map((row) => row.size), ...found.seams.map((row) => `${sizeText(row.finished)}: ${row.allowance}`), ...found.marks.map((row) => `${row.fromLeft?.text ?? ''}, ${row.fromBelow?.text ?? ''}`)];
  };
  it('of different widths make the size and the distances that they add up to, however their corners are joined', () => {
    for (const join of ['mitred', 'bevelled', 'rounded', 'turned back']) {
      // 1 in on three sides, none below: 7 + 2 wide, 5 + 1 high, the mark 1 in further from the left alone.
      expect(told(`  allowance 1 ${join}\n  allowance bottom none`), join).toEqual([expect.stringMatching(/^(?:within )?9 in × 6 in$/), '7 in × 5 in: 1 in, but none on bottom', '3 in, 3 in']);
      // A narrower one to the left: 7 + 1/4 + 1 wide.
      expect(told(`  allowance 1 ${join}\n  allowance left 1/4`), join).toEqual([expect.stringMatching(/^(?:within )?8 1\/4 in × 7 in$/), '7 in × 5 in: 1 in, but 1/4 in on left', '2 1/4 in, 4 in']);
    }
  });
});

describe('texts', () => {
  it('lose control signs, which no page may hold, and nothing else', () => {
    expect(escapeMarkup('\u0000a\u0008\u000B\u000C\u000E\u001Fb\tc\nd')).toBe('ab\tc\nd');
    expect(escapeMarkup('<a href="x">&\'')).toBe('&lt;a href=&quot;x&quot;&gt;&amp;&#39;');
  });
});

describe('sizes side by side', () => {
  const bag: Analysed = pattern(`sizes S, M, L
choice lid is flap or none
length w = 6 for S, 7 for M, 9 for L
piece front "Front" {
  outline rectangle w by 6
  cut 2 cloth note "All."
  cut 1 lining when size is L note "Large."
}
piece band "Band" {
  outline rectangle 10 by 2
  cut 1 cloth
}
piece flap "Flap" when lid is flap {
  outline rectangle 4 by 3
  cut 1 cloth
}`);
  const documents = documentsOf([...wholeTables(bag.pattern, bag.pattern.combinations())], 'piece');

  it('make one document for each other choice', () => {
    expect(documents.map((one) => one.combination)).toEqual(['lid: flap, sizes: S, M, L', 'lid: none, sizes: S, M, L']);
  });

  it('part only the columns that differ, and say where a row is missing', () => {
    const cuts = documents[1]?.sections.find((one) => one.key === 'cuts');
    expect(cuts?.columns.map(({ heading }) => heading)).toEqual(['Piece', 'Material', 'How many', 'Width × height, S', 'Width × height, M', 'Width × height, L', 'Grain runs along, S', 'Grain runs along, M', 'Grain runs along, L', 'Notes', 'Only in']);
    expect(cuts?.rows.map((row) => row.map(({ text }) => text))).toEqual([
      ['Front', 'Cloth', '2', '6 in × 6 in', '7 in × 6 in', '9 in × 6 in', 'its height, as is usual', 'its 6 in side, as is usual', 'its 6 in side, as is usual', 'All.', ''],
      ['Front', 'Lining', '1', '–', '–', '9 in × 6 in', '–', '–', 'its 6 in side, as is usual', 'Large.', 'L'],
      ['Band', 'Cloth', '1', '10 in × 2 in', '10 in × 2 in', '10 in × 2 in', 'its 2 in side, as is usual', 'its 2 in side, as is usual', 'its 2 in side, as is usual', '', ''],
    ]);
    // Along the cutting line and same both ways: said once.
    expect(cuts?.said).toEqual(['Sizes are width × height, with the piece as it is drawn.', 'Cut along the cutting line.', 'Same both ways: either side of the cloth may be up.']);
  });

  it('explain words of a column wherever it stands, once, and nowhere else', () => {
    const said = (lines: string): readonly string[] => documentsOf([pattern(`piece a "A" {\n  outline polygon from 0, 0 to 6, 0 to 0, 4\n  grain up\n${lines}\n}`).table()], 'piece')[0]?.sections.find((one) => one.key === 'cuts')?.said ?? [];
    const either = 'Same both ways: either side of the cloth may be up.';
    expect(said('  cut 1 cloth\n  cut 1 foam\n  cut 1 foam').filter((one) => one === either)).toEqual([either]);
    expect(said('  cut 1 foam\n  cut 1 foam').filter((one) => one === either)).toEqual([either]);
    expect(said('  cut 1 cloth\n  cut 1 board').filter((one) => one === either)).toEqual([]);
  });

  it('have edges and ease of a seam in one column, with the figures of each', () => {
    const sleeve = pattern(`sizes S, L
length w = 6 for S, 8 for L
length ease = 1/2 for S, 3/4 for L
piece front "Front" {
  outline rectangle w by 6
  cut 1 cloth
}
piece back "Back" {
  outline rectangle 12 by 6
  cut 1 cloth
}
seam base "Base" = back.bottom with front.bottom gathered open w / 4
seam tag "Tag" = front.top from 0 to w / 2 with back.top from 0 to w / 2 - ease eased by ease
`);
    expect(sleeve.codes.filter((code) => code !== 'edges-left')).toEqual([]);
    const [document] = documentsOf([...wholeTables(sleeve.pattern, sleeve.pattern.combinations())], 'piece');
    const sewing = document!.sections.find(({ key }) => key === 'sewing')!;
    expect(sewing.columns.map(({ heading }) => heading)).toEqual(['Seam', 'Edges', 'How', 'Other edges', 'Length, S', 'Length, L', 'Ease', 'Opening']);
    expect(sewing.rows.map((row) => row.map(({ text }) => text))).toEqual([
      ['Base', 'Back: bottom', 'sewn to', 'Front: bottom', '6 in', '8 in', 'gathered, (S) 2, (L) 1.5 times as long', 'of it (S) 1 1/2 in, (L) 2 in left open'],
      ['Tag', 'Front: top (its left (S) 3 in, (L) 4 in)', 'sewn to', 'Back: top (its left (S) 2 1/2 in, (L) 3 1/4 in)', '2 1/2 in', '3 1/4 in', '(S) 1/2 in, (L) 3/4 in eased in', ''],
    ]);
  });

  it('share a column where they are alike', () => {
    const buying = documents[0]?.sections.find((one) => one.key === 'buying');
    expect(buying?.columns.map(({ heading }) => heading).filter((heading) => heading.startsWith('Buy'))).toEqual(['Buy']);
  });
});

describe('numbers', () => {
  it('of pieces, layers and supplies are for as many articles as are made', () => {
    const found = pattern('piece a "A" {\n  outline rectangle 8 by 6\n  cut 2 cloth\n  cut 2 fuse\n}\nsupply ring "Ring" {\n  kind ring\n  across 25 mm\n  count 3\n}\nsupply strap "Strap" {\n  kind webbing\n  across 25 mm\n  length 20\n}');
    const [table] = [...wholeTables(found.pattern, [new Map()], 4)];
    expect(table?.cuts.map((row) => row.count)).toEqual([8, 8]);
    expect(table?.fusing.map((row) => row.count)).toEqual([8]);
    expect(table?.supplies.map((row) => [row.count, row.size])).toEqual([[12, '25 mm (about 1 in) inside'], [4, '25 mm (about 1 in) wide, 20 in long, 80 in in all']]);
    expect(documentsOf([table!], 'piece')[0]?.notes[0]).toBe('For 4 articles: numbers of pieces, layers and supplies are for all of them.');
  });
});

describe('darts and pleats', () => {
  const rows = (shaping: string, cut = 'cut 1 cloth'): readonly string[] => {
    const { pattern: spec } = analyse(`pattern "T"\nrevision 1\nunit in\ndrawn to stitching\nallowance 1/2\nmaterial cloth "C" {\n  width 42\n}\npiece p "P" {\n  outline rectangle 10 by 6\n  ${shaping}\n  grain up\n  ${cut}\n}\n`);
    return cuttingTable(spec, new Map()).marks.map(({ mark, kind, fromLeft, fromBelow }) => `${mark} (${kind}): ${fromLeft?.text ?? ''}, ${fromBelow?.text ?? ''}`);
  };
  // On paper: the seam's top is 6 1/2 in above the cut edge below, its middle 5 1/2 in from the cut edge on the left.
  it('are marked where their legs and points lie on what is cut', () => {
    expect(rows('dart d "Dart" on top at 50% wide 1 deep 2')).toEqual([
      'Dart, left leg (dart, on the seam line): 5 in, 6 1/2 in', 'Dart, point (dart, inside): 5 1/2 in, 4 1/2 in', 'Dart, right leg (dart, on the seam line): 6 in, 6 1/2 in',
    ]);
  });
  it('by where the legs stand, whichever way the edge is drawn: side by side, or the one over the other', () => {
    const legs = (edge: string, along: RegExp): readonly string[] => rows(`dart d "Dart" on ${edge} at 50% wide 1 deep 2`).map((row) => row.replace(/ \(.*\)/, '').replace(along, ''));
    expect(legs('bottom', /, [^,]*$/)).toEqual(['Dart, left leg: 5 in', 'Dart, point: 5 1/2 in', 'Dart, right leg: 6 in']);
    for (const edge of ['left', 'right']) expect(legs(edge, /: .*,/)).toEqual(['Dart, lower leg 3 in', 'Dart, point 3 1/2 in', 'Dart, upper leg 4 in']);
  });
  it('of both halves on a fold, each by its own left', () => {
    // Opened out the piece is 21 in wide, with its allowances.
    expect(rows('on fold right\n  dart d "Dart" on top at 3 wide 1 deep 2', 'cut 1 cloth on fold').map((row) => row.replace(/ \(.*\)/, ''))).toEqual([
      'Dart, left leg: 3 in, 6 1/2 in', 'Dart, point: 3 1/2 in, 4 1/2 in', 'Dart, right leg: 4 in, 6 1/2 in',
      'Dart, left leg, other half: 17 in, 6 1/2 in', 'Dart, point, other half: 17 1/2 in, 4 1/2 in', 'Dart, right leg, other half: 18 in, 6 1/2 in',
    ]);
  });
  it('of pleats, where the fold and the line that it is laid on meet the seam', () => {
    expect(rows('pleat w "Pleat" on bottom at 5 deep 1 towards end').map((row) => row.replace(/\(.*\)/, ''))).toEqual(['Pleat, fold : 4 1/2 in, 1/2 in', 'Pleat, laid on : 6 1/2 in, 1/2 in']);
  });
});

describe('cloth', () => {
  const exported = (facts: string): { readonly page: string; readonly below: readonly string[] } => {
    const { pattern: spec } = analyse(`pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial cloth "Cloth" {\n  width 42\n${facts}}\npiece p "P" {\n  outline rectangle 10 by 6\n  grain up\n  cut 1 cloth\n}\n`);
    const tables = [...wholeTables(spec, [new Map()])];
    return { page: renderTable(tables, 'html', 'piece'), below: documentsOf(tables, 'piece')[0]?.sections.find(({ key }) => key === 'buying')?.below ?? [] };
  };
  it('that runs one way says where the top of its print is, and no other', () => {
    expect(exported('  direction one way\n').page).toContain('The top of the print lies to the right.');
    expect(exported('').page).not.toContain('top of the print');
  });
  it('of which none could be less is told with the steps that it is sold in', () => {
    expect(exported('  bought in lengths of 1/2 yd\n').below).toEqual(['No lay of these pieces lets you buy less: Cloth, sold by the 1/2 yd.']);
  });
  it('that is laid is never understated', () => {
    // Eighths of an inch: 8.64 in lie between 8 5/8 and 8 3/4.
    expect([8.64, 8.625, 12.5].map((inches) => laidText(inches * 25.4, { ...usualDisplay('in'), step: measured(25.4 / 8) }))).toEqual(['8 3/4 in', '8 5/8 in', '12 1/2 in']);
  });
});
