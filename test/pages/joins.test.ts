import { describe, expect, it } from 'vitest';
import { distancePointToBoundary } from '../../server/src/geometry/distance.ts';
import { outOf, textExtent } from '../../server/src/pages/extent.ts';
import { templateSet } from '../../server/src/pages/pages.ts';
import type { Box, Item, TextItem } from '../../server/src/pages/sheet.ts';
import { drawTemplate } from '../../server/src/pages/template-item.ts';
import { templateSheets } from '../../server/src/pages/template-sheets.ts';
import { plateItems, tileItems, type Tile } from '../../server/src/pages/tiles.ts';
import { optionsFor, samplePattern } from '../support/pages.ts';

interface Lying {
  readonly item: TextItem;
  readonly box: Box;
}

/** All texts with the boxes that they take, out of the groups that they lie in. */
const lying = (items: readonly Item[]): readonly Lying[] => items.flatMap((item): readonly Lying[] => {
  if (item.kind === 'text') return [{ item, box: textExtent(item) }].filter((one): one is Lying => one.box !== undefined);
  return item.kind === 'group' ? lying(item.items).flatMap((one) => { const box = outOf(one.box, item); return box === undefined ? [] : [{ ...one, box }]; }) : [];
});

/** Whether the edge of a tile runs through a text: it would be printed in two parts. */
const isCutBy = ({ window }: Tile, { x, y, width, height }: Box): boolean => {
  const [right, below] = [window.x + window.width, window.y + window.height];
  const isBeside = x > right || x + width < window.x || y > below || y + height < window.y;
  return !isBeside && (x < window.x || x + width > right || y < window.y || y + height > below);
};

describe('the line of a join', () => {
  it.each(['market-apron', 'tidal-crossbody'])('ends with its ticks at the frame, off what the sheet says of itself: %s', (name) => {
    const options = optionsFor('a4');
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    const tiles = templateSheets(templates, headline, options).flatMap(({ tile }) => tile ?? []);
    const beyond = tileItems(tiles).flatMap((items, index) => {
      const { width = 0, height = 0 } = tiles[index]?.window ?? {};
      const paths = items.flatMap((item) => (item.kind === 'line' && item.role === 'join' ? item.path : []));
      expect(paths.length).toBeGreaterThan(0);
      return paths.flatMap((step) => (step.kind === 'move' || step.kind === 'line' ? [step.to] : [])).filter(({ x, y }) => x > width || y > height);
    });
    expect(beyond).toEqual([]);
  });
});

describe('the name of a line across a join', () => {
  it.each([
    ['market-apron', 'a4', []],
    ['market-apron', 'letter', []],
    // These have no room beside the join: lines close to one another.
    ['sill-cover', 'a4', ['Pleat 2: lay to the arrow small', 'Pleat 3: lay to the arrow small']],
    ['tidal-crossbody', 'a4', []],
    ['tidal-crossbody', 'letter', []],
  ] as const)('stands beside it where there is room: %s on %s', (name, paper, without) => {
    const options = optionsFor(paper);
    const { templates, headline } = templateSet(samplePattern(name), new Map(), options);
    const tiles = templateSheets(templates, headline, options).flatMap(({ tile }) => tile ?? []);
    const plates = [...new Set(tiles.map(({ plate }) => plate))];
    const parted = plates.flatMap((plate) => {
      const own = tiles.filter((tile) => tile.plate === plate);
      return lying(plateItems(plate, own)).filter(({ box }) => own.some((tile) => isCutBy(tile, box))).map(({ item }) => item.words);
    });
    expect(plates.length).toBeGreaterThan(0);
    expect(parted).toEqual(without);
  });
});

describe('the size at a cutting line, where sheets are joined', () => {
  it('stands beside that line where it runs apart from those of other sizes', () => {
    const { templates, headline } = templateSet(samplePattern('market-apron'), new Map(), optionsFor('a4'));
    const tie = templates.find(({ title }) => title === 'Tie')!;
    const drawn = drawTemplate(tie, headline);
    const tag = (items: readonly Item[]): Box => lying(items).find(({ item }) => item.words === 'M' && item.weight === 'bold')!.box;
    const { y } = tag(drawn.items);
    const moved = tag(drawn.itemsOff([{ x: 0, y: y + 1, width: drawn.width, height: 15 }], [{ x: 0, y: 0, width: drawn.width, height: drawn.height }], false));
    expect(moved.y + moved.height).toBeLessThan(y + 1.01);
    const others = tie.variants.flatMap(({ sizes, drawing }) => drawing.strokes.map(({ role }) => role === 'cutting' && !sizes.includes('M')));
    const away = drawn.lines.flatMap(({ points }, index) => (others[index] === true ? [distancePointToBoundary({ x: moved.x + moved.width / 2, y: moved.y + moved.height / 2 }, points)] : []));
    expect(away).toHaveLength(3);
    for (const one of away) expect(one).toBeGreaterThan(3);
  });
});
