import { describe, expect, it } from 'vitest';
import { pointInside } from '../../server/src/geometry/inside.ts';
import { pagesOf, templateSet } from '../../server/src/pages/pages.ts';
import { outOf, textExtent } from '../../server/src/pages/extent.ts';
import type { Box, GroupItem, Item, Sheet, TextItem } from '../../server/src/pages/sheet.ts';
import { linesOf, widthOf } from '../../server/src/pages/letters/letters.ts';
import { inStep, pens } from '../../server/src/pages/pens.ts';
import { sheetMap } from '../../server/src/pages/booklet/sheet-map.ts';
import { drawTemplate } from '../../server/src/pages/template-item.ts';
import { isTemplate } from '../../server/src/pages/sparing.ts';
import { templateSheets, type TemplateSheet } from '../../server/src/pages/template-sheets.ts';
import { overlap, plateItems, tileItems } from '../../server/src/pages/tiles.ts';
import { handedOver, optionsFor, samplePattern, samplePatterns } from '../support/pages.ts';
import { seen } from '../support/pdf.ts';

const all = (items: readonly Item[]): readonly Item[] => items.flatMap((item) => (item.kind === 'group' ? all(item.items) : [item]));
const texts = (sheet: Sheet): readonly TextItem[] => all(sheet.items).filter((item) => item.kind === 'text');

describe.each(samplePatterns)('the sheets of %s', (name) => {
  const { sheets } = pagesOf(samplePattern(name), new Map(), optionsFor());

  it('have no letters under six points where a maker reads what to cut', () => {
    const small = sheets.filter(({ kind }) => kind !== 'booklet').flatMap(texts).filter(({ size }) => size < 6 * 25.4 / 72 - 1e-9);
    expect(small.map(({ words }) => words)).toEqual([]);
  });

  it('show the outermost lines of what is in tiles whole, beside the frame', () => {
    const options = optionsFor();
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    const tiles = templateSheets(templates, headline, options).flatMap(({ tile }) => tile ?? []);
    for (const { plate } of tiles) {
      const windows = tiles.filter((one) => one.plate === plate).map(({ window }) => window);
      const points = plate.hulls.flat();
      expect(Math.min(...points.map(({ x }) => x)) - Math.min(...windows.map(({ x }) => x))).toBeGreaterThan(0.9);
      expect(Math.min(...points.map(({ y }) => y)) - Math.min(...windows.map(({ y }) => y))).toBeGreaterThan(0.9);
      expect(Math.max(...windows.map(({ x, width }) => x + width)) - Math.max(...points.map(({ x }) => x))).toBeGreaterThan(0.9);
      expect(Math.max(...windows.map(({ y, height }) => y + height)) - Math.max(...points.map(({ y }) => y))).toBeGreaterThan(0.9);
    }
  });

  it('keep the names of join marks in the strip that two sheets share', () => {
    for (const sheet of sheets.filter(({ kind }) => kind === 'tile')) {
      const frame = sheet.items.find((item) => item.kind === 'line' && item.name === 'frame');
      const xs = frame?.kind === 'line' ? frame.path.flatMap((step) => ('to' in step ? [step.to.x] : [])) : [];
      const [left, right] = [Math.min(...xs), Math.max(...xs)];
      const marks = sheet.items.flatMap((item) => (item.kind === 'group' ? item.items.flatMap((one) => (one.kind === 'text' && one.role === 'join' ? [{ ...one, at: { x: one.at.x + item.shift.x, y: one.at.y + item.shift.y } }] : [])) : []));
      for (const { words, at, size, weight } of marks) {
        const half = widthOf(words, size, weight) / 2;
        expect(at.x - half, words).toBeGreaterThan(left);
        expect(at.x + half, words).toBeLessThan(right);
        if (/^[A-Z]+\d+–\d/.test(words)) expect(Math.min(at.x - left, right - at.x) + half, words).toBeLessThan(overlap);
      }
    }
  });
});

/** Every text with how far it is turned on the sheet, and its box there. */
function lyingTexts(items: readonly Item[], around: readonly GroupItem[] = []): readonly { readonly item: TextItem; readonly turn: number; readonly box: Box }[] {
  return items.flatMap((item) => {
    if (item.kind === 'group') return lyingTexts(item.items, [item, ...around]);
    if (item.kind !== 'text') return [];
    const box = around.reduce<Box | undefined>((one, group) => one && outOf(one, group), textExtent(item));
    return box === undefined ? [] : [{ item, turn: item.turn - 90 * around.filter(({ turned }) => turned).length, box }];
  });
}

describe.each(samplePatterns)('words on the templates of %s', (name) => {
  it.each(['a4', 'letter'])('stand upright or are read from the right on %s: never on their heads', (paper) => {
    const { templates, headline } = templateSet(samplePattern(name), new Map(), optionsFor(paper));
    const turns = templateSheets(templates, headline, optionsFor(paper)).flatMap(({ sheet }) => lyingTexts(sheet.items).map(({ turn, item }) => [turn === 0 ? 0 : turn, item.words] as const));
    expect(turns.length).toBeGreaterThan(0);
    expect(turns.filter(([turn]) => turn !== 0 && turn !== -90)).toEqual([]);
  });

  it.each(['a4', 'letter'])('are each whole on one sheet of %s, and on no sheet where they can’t be seen or one laid over it has them whole', (paper) => {
    const options = optionsFor(paper);
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    const tiles = templateSheets(templates, headline, options).flatMap(({ tile }) => tile ?? []);
    const items = tileItems(tiles);
    for (const plate of new Set(tiles.map((tile) => tile.plate))) {
      const own = tiles.filter((tile) => tile.plate === plate);
      for (const { item, box } of lyingTexts(plateItems(plate, own))) {
        expect(own.some(({ window }) => box.x >= window.x && box.y >= window.y && box.x + box.width <= window.x + window.width && box.y + box.height <= window.y + window.height), item.words).toBe(true);
      }
    }
    const wholeOn = tiles.map(({ window }, index) => new Set(lyingTexts(items[index]!.map((one) => (one.kind === 'group' ? { ...one, window: undefined } : one)))
      .filter(({ box }) => box.x >= 0 && box.y >= 0 && box.x + box.width <= window.width && box.y + box.height <= window.height).map(({ item }) => item)));
    tiles.forEach(({ window, plate, row, column }, index) => {
      for (const { item } of lyingTexts(items[index]!)) {
        if (wholeOn[index]!.has(item)) continue;
        expect(tiles.some((other, at) => other.plate === plate && at !== index && other.row >= row && other.column >= column && wholeOn[at]!.has(item)), item.words).toBe(false);
      }
      for (const { box, item } of lyingTexts(items[index]!.map((one) => (one.kind === 'group' ? { ...one, window: undefined } : one)))) {
        expect(box.x < window.width && box.y < window.height && box.x + box.width > 0 && box.y + box.height > 0, item.words).toBe(true);
      }
    });
  });

  it.each(['a4', 'letter'])('lie within what a printer prints of a sheet of %s', (paper) => {
    const options = optionsFor(paper);
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    // A line’s box has room under it for what no figure reaches to.
    const depth = 0.5;
    for (const { sheet, origin, tile } of templateSheets(templates, headline, options)) {
      if (tile !== undefined) continue;
      for (const { box, item } of lyingTexts(sheet.items)) expect(box.x >= origin.x - depth && box.x + box.width <= sheet.width - origin.x + depth && box.y >= origin.y - depth, `${sheet.name}: ${item.words}`).toBe(true);
    }
  });

  it('explain the arrow along the grain wherever there is one', () => {
    const { sheets } = pagesOf(samplePattern(name), new Map(), optionsFor());
    const drawn = sheets.filter(({ kind }) => kind !== 'booklet');
    const hasArrow = all(drawn.flatMap(({ items }) => items)).some((item) => item.kind !== 'group' && item.kind !== 'text' && item.role === 'grain');
    const explained = drawn.flatMap(texts).map(({ words }) => words).filter((words) => words.startsWith('Grain'));
    expect(new Set(explained).size).toBe(explained.length);
    expect(explained.length > 0).toBe(hasArrow);
  });
});

describe('the names of lines that run close to one another', () => {
  it('stand between them, and none is struck through', () => {
    const options = optionsFor();
    const { templates, headline } = templateSet(samplePattern('hearth-cosy'), new Map(), options);
    const loop = drawTemplate(templates.find(({ title }) => title === 'Loop')!, headline);
    const names = lyingTexts(loop.items).filter(({ turn }) => turn === -90);
    expect(names.map(({ item }) => item.words).sort()).toEqual(['Both long sides', 'left quarter: fold', 'middle: fold', 'right quarter: fold']);
    for (const { item, box } of names) {
      for (const { points } of loop.lines) {
        const xs = points.map(({ x }) => x);
        if (Math.max(...xs) - Math.min(...xs) > 1) continue;
        // From the capitals' tops to a little under their line.
        const [left, right] = [box.x + 0.25 * item.size, box.x + box.width - 0.15 * item.size];
        expect(xs[0]! <= left || xs[0]! >= right, item.words).toBe(true);
      }
    }
  });
});

describe('the edge of a tile', () => {
  it.each(samplePatterns.flatMap((name) => [[name, 'a4'], [name, 'letter']] as const))('has no line of %s along it on %s', (name, paper) => {
    const options = optionsFor(paper);
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    const tiles = templateSheets(templates, headline, options).flatMap(({ tile }) => tile ?? []);
    let looked = 0;
    for (const { plate, window, joined } of tiles) {
      const edges = { x: [...(joined.left ? [window.x] : []), ...(joined.right ? [window.x + window.width] : [])], y: [...(joined.above ? [window.y] : []), ...(joined.below ? [window.y + window.height] : [])] };
      for (const { drawn, x, y, turned } of plate.placed) {
        for (const { points } of drawn.lines) {
          const lain = points.map((point) => (turned ? { x: x + point.y, y: y + drawn.width - point.x } : { x: x + point.x, y: y + point.y }));
          lain.slice(1).forEach((to, index) => {
            const from = lain[index]!;
            for (const [axis, other] of [['x', 'y'], ['y', 'x']] as const) {
              if (Math.abs(from[axis] - to[axis]) > 0.1 || Math.abs(from[other] - to[other]) < 3) continue;
              looked++;
              for (const edge of edges[axis]) expect(Math.abs(from[axis] - edge)).toBeGreaterThan(0.7);
            }
          });
        }
      }
    }
    expect(looked > 10).toBe(tiles.length > 0);
  });
});

describe('the test squares', () => {
  it('take no sheet of their own where a template leaves them room beside its outline, and lie clear of it', () => {
    for (const [name, tiled, count] of [['harvest-bunting', false, 1], ['market-apron', true, 15]] as const) {
      const options = optionsFor();
      const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
      const sheets = templateSheets(templates, headline, options);
      expect(sheets).toHaveLength(count);
      const [first] = sheets as [TemplateSheet];
      expect(first.tile !== undefined).toBe(tiled);
      expect(texts(first.sheet).map(({ words }) => words)).toEqual(expect.arrayContaining(['1 in', '5 cm', 'Cut here'].slice(0, tiled ? 2 : 3)));
      const blocks = first.placed.filter(({ drawn }) => !isTemplate(drawn));
      expect(blocks.length).toBeGreaterThan(0);
      const outlines = first.tile === undefined
        ? first.placed.flatMap(({ drawn, x, y }) => (isTemplate(drawn) ? [drawn.hull.map((point) => ({ x: point.x + x, y: point.y + y }))] : []))
        : first.tile.plate.hulls.map((hull) => hull.map(({ x, y }) => ({ x: x - first.tile!.window.x, y: y - first.tile!.window.y })));
      for (const { drawn, x, y } of blocks) {
        for (let across = -3.9; across <= drawn.width + 3.9; across++) {
          for (let along = -3.9; along <= drawn.height + 3.9; along++) for (const outline of outlines) expect(pointInside({ x: x + across, y: y + along }, outline)).toBe(false);
        }
      }
    }
  });
});

describe('what is measured before anything is cut', () => {
  it.each(samplePatterns)('is on the first sheet of %s and on no other, whatever the paper', (name) => {
    for (const paper of ['a4', 'letter', 'a3'] as const) {
      const options = optionsFor(paper);
      const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
      const withSquares = templateSheets(templates, headline, options).flatMap(({ sheet }, index) => (texts(sheet).some(({ words }) => words === '5 cm') ? [index] : []));
      expect(withSquares, paper).toEqual([0]);
    }
  });
});

describe('the tile that has room for the test squares', () => {
  it('is printed first, wherever in its template it lies, and told by that number', () => {
    const options = optionsFor('a4');
    const { templates, headline } = templateSet(samplePattern('potters-roll'), new Map(), options);
    const sheets = templateSheets(templates, headline, options);
    expect(sheets).toHaveLength(12);
    expect(sheets[0]?.tile).toMatchObject({ row: 2, column: 3 });
    expect(texts(sheets[0]!.sheet).map(({ words }) => words)).toEqual(expect.arrayContaining(['5 cm', 'Print at 100 %   Sheet 1 of 12']));
    expect(sheets.map(({ tile }) => [tile?.row, tile?.column].join()).slice(1, 4)).toEqual(['1,1', '1,2', '1,3']);
    expect(sheets.map(({ sheet }) => sheet.name.replace(/:.*/, ''))).toEqual(sheets.map((_, index) => `Sheet ${index + 1}`));
  });
});

describe('a sheet with little on it', () => {
  it.each([['hearth-cosy', 6], ['orchard-wallet', 8], ['sill-cover', 6], ['potters-roll', 14]] as const)('of %s is spared where others have room beside their outlines', (name, count) => {
    const options = optionsFor('letter');
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    const sheets = templateSheets(templates, headline, options);
    expect(sheets).toHaveLength(count);
    // Every template is there, and the test squares are on the first sheet.
    expect([...new Set(sheets.flatMap((sheet) => sheet.templates))].sort((a, b) => a - b)).toEqual(templates.map(({ number }) => number));
    expect(texts(sheets[0]!.sheet).map(({ words }) => words)).toEqual(expect.arrayContaining(['1 in', '5 cm', 'Print at 100 %']));
    for (const { tile, placed, origin, sheet } of sheets) {
      const boxes = placed.map(({ drawn, x, y, turned }): Box => ({ x, y, width: turned ? drawn.height : drawn.width, height: turned ? drawn.width : drawn.height }));
      for (const { x, y, width, height } of boxes) expect(x >= 0 && y >= 0 && x + width <= sheet.width - 2 * origin.x + 1e-6 && y + height <= sheet.height - 2 * origin.y + 1e-6, sheet.name).toBe(true);
      if (tile === undefined) continue;
      const { window, plate } = tile;
      const off = [tile.joined.left, tile.joined.above].map((is) => (is ? overlap : 0)) as [number, number];
      for (const { x, y, width, height } of boxes) {
        // Clear of what the tile is of, and of the strips that it shares.
        expect(x >= off[0] && y >= off[1] && x + width <= window.width - (tile.joined.right ? overlap : 0) && y + height <= window.height - (tile.joined.below ? overlap : 0), sheet.name).toBe(true);
        for (let across = -1.9; across <= width + 1.9; across++) for (let along = -1.9; along <= height + 1.9; along++) for (const hull of plate.hulls) expect(pointInside({ x: x + across + window.x, y: y + along + window.y }, hull)).toBe(false);
      }
    }
  });
});

describe('the map of the sheets', () => {
  it.each(samplePatterns.flatMap((name) => ['a4', 'letter'].map((paper) => [name, paper] as const)))('of %s on %s has no words over others, nor under the ring of a number, however many tiles there are', (name, paper) => {
    const options = optionsFor(paper);
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    // The ring round a number reaches 2.4 mm from its middle.
    const ringed = ({ item, box: { x, y, width, height } }: { readonly item: TextItem; readonly box: Box }): Box =>
      (item.align === 'middle' && /^\d+$/.test(item.words) ? { x: x + width / 2 - 2.4, y: y + height - 0.35 * item.size - 0.95 - 2.4, width: 4.8, height: 4.8 } : { x, y: y + 0.3, width, height: height - 0.6 });
    const sheets = templateSheets(templates, headline, options);
    const written = [165, 135].flatMap((tallest) => sheetMap(sheets, 188, tallest)).map(({ items }) => lyingTexts(items).map((one) => ({ item: one.item, box: ringed(one) })));
    expect(written.flat().length).toBeGreaterThan(1);
    for (const row of written) {
      row.forEach(({ box, item }, index) => {
        // A line’s box has room for what no letter here reaches to.
        for (const other of row.slice(index + 1)) expect(box.x < other.box.x + other.box.width && other.box.x < box.x + box.width && box.y < other.box.y + other.box.height && other.box.y < box.y + box.height, `${item.words} and ${other.item.words}`).toBe(false);
      });
    }
  });
});

describe('the last page of a booklet', () => {
  it.each(['market-apron', 'potters-roll'])('has all cautions under their heading, not the last of them alone: %s', (name) => {
    const booklet = pagesOf(samplePattern(name), new Map(), optionsFor()).sheets.filter(({ kind }) => kind === 'booklet');
    const words = lyingTexts(booklet.at(-1)?.items ?? []).map(({ item }) => item.words);
    expect(words).toContain('Safety');
    expect(words.filter((text) => text === '–').length).toBeGreaterThan(4);
    for (const map of booklet.map(({ items }) => lyingTexts(items).map(({ item }) => item.words)).filter((texts) => texts.includes('Map of the sheets'))) expect(map).toContain('A1');
  });
});

describe('where a template is', () => {
  it('names every sheet that pdf.js finds a part of it on', async () => {
    const pattern = samplePattern('tidal-crossbody');
    const { pages } = await seen(handedOver(pattern, 'pdf').files[0]!.content);
    const { sheets } = pagesOf(pattern, new Map(), optionsFor());
    const first = sheets.findIndex(({ kind }) => kind !== 'booklet');
    // The label of a template that is cut into tiles is on one of the sheets that the list names.
    // The gusset’s label is on one of the sheets that the list names.
    const label = pages.findIndex((page, index) => index >= first && page.texts.some(({ text }) => /^Template 16 of \d+$/.test(text))) - first + 1;
    const rows = pages.slice(0, first).flatMap(({ texts: own }) => own.filter(({ text }) => text === '16').map((start) => own.filter(({ y }) => Math.abs(y - start.y) < 0.1).map(({ text }) => text)));
    const named = rows.find((row) => row[0] === '16' && row[1] === 'Gusset')!.at(-1)!;
    const numbers = /^([\d, ]+)(?: \(|$)/.exec(named)![1]!.split(', ').map(Number);
    expect(numbers).toContain(label);
    expect(numbers.length).toBeLessThan(sheets.length - first);
  });
});

describe('sizes over one another', () => {
  it('are drawn once where their lines are the same, each told what is cut of it', () => {
    const { templates } = templateSet(samplePattern('harvest-bunting'), new Map(), optionsFor());
    expect(templates.map(({ variants }) => variants.map(({ sizes }) => sizes))).toEqual([[[]]]);
    expect(templates[0]!.cuts).toContain('short: Cut 11 × Cotton poplin');
  });

  it('have dashes that fall on one another along one straight line, wherever each begins', () => {
    const period = pens.fold.dashes.reduce((sum, one) => sum + one, 0);
    const begins = [0, 3.7, 100].map((y) => y - inStep(pens.fold, { x: 5, y }, { x: 5, y: y + 50 }).phase!);
    for (const one of begins) expect(Math.abs(Math.round((one - begins[0]!) / period) * period - (one - begins[0]!))).toBeLessThan(1e-9);
  });
});

describe('a line of text', () => {
  it('is never broken between a number, its fraction and its unit', () => {
    expect(linesOf('within 31 1/2 in × 30 cm of 12 pieces in 4 rows', 12, 3)).toEqual(['within', '31 1/2 in', '× 30 cm', 'of 12', 'pieces in', '4 rows']);
  });
});
