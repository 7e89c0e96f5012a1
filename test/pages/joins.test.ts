import { describe, expect, it } from 'vitest';
import { outOf, textExtent } from '../../server/src/pages/extent.ts';
import { templateSet } from '../../server/src/pages/pages.ts';
import type { Box, Item, TextItem } from '../../server/src/pages/sheet.ts';
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
    // These have no room beside the join: lines close to one another, or a size at its line.
    ['market-apron', 'a4', ['M']],
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
