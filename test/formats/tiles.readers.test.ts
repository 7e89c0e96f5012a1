import { expect, it, describe } from 'vitest';
import { toPdf } from '../../server/src/formats/pdf/pdf.ts';
import { templateSet, type Pages } from '../../server/src/pages/pages.ts';
import type { Sheet } from '../../server/src/pages/sheet.ts';
import { drawTemplate } from '../../server/src/pages/template-item.ts';
import { groupItem } from '../../server/src/pages/sheet.ts';
import { overlap, plateItems, tileItems, tilesOf } from '../../server/src/pages/tiles.ts';
import { optionsFor, rasterOf } from '../support/pages.ts';
import { patternOf } from '../support/samples.ts';

/** Our own large mat, of curves and slanting lines that cross every join, in whole fifths of a millimetre. */
const mat = `pattern "Floor mat"
revision 1
unit mm
allowance 10
use "studio/materials.piece"
piece top "Top" {
  outline path from 0, 0 {
    line to 300, 40 as low
    arc to 340, 300 through 380, 160 as side
    line to 60, 380 as high
    close as left
  }
  placement stripe = from 20, 60 to 300, 300
  mark middle at 170, 180
  grain up
  cut 1 canvas
}
`;

/** At 127 dots an inch a millimetre is five dots, so that windows begin on whole ones. */
const dots = 5;
const resolution = 127;

const { templates, headline } = templateSet(patternOf(mat), new Map(), optionsFor());
const drawn = drawTemplate(templates[0]!, headline);
const tiles = tilesOf([drawn], { width: 180, height: 260 }, undefined);
const sheetOf = (width: number, height: number, items: Sheet['items']): Sheet => ({ kind: 'tile', name: '', width, height, items });
const pdfOf = (sheets: readonly Sheet[]): Uint8Array => toPdf({ title: '', revision: undefined, digest: '', layers: [], outline: [], sheets } satisfies Pages);

describe('a template in tiles', () => {
  it('is on as few as cover it, each sharing its edge with the next', () => {
    expect(tiles).toHaveLength(Math.ceil((drawn.width - overlap) / (180 - overlap)) * Math.ceil((drawn.height - overlap) / (260 - overlap)));
    for (const { window, row, column } of tiles) {
      const next = tiles.find((one) => one.row === row && one.column === column + 1);
      if (next !== undefined) expect(window.x + window.width - next.window.x).toBeCloseTo(overlap, 9);
    }
  });

  it('is the same once its tiles are joined as in one: no line breaks off, and none is out by a dot', () => {
    const left = Math.min(...tiles.map(({ window }) => window.x));
    const above = Math.min(...tiles.map(({ window }) => window.y));
    const [plate] = tiles.map((tile) => tile.plate);
    const width = Math.max(...tiles.map(({ window }) => window.x + window.width)) - left;
    const height = Math.max(...tiles.map(({ window }) => window.y + window.height)) - above;
    const whole = rasterOf(pdfOf([sheetOf(width, height, [groupItem('', plateItems(plate!, tiles), { x: -left, y: -above })])]), 1, resolution);
    // Without the join marks, which only tiles have.
    const pdf = pdfOf(tileItems(tiles).map(([template], index) => sheetOf(tiles[index]!.window.width, tiles[index]!.window.height, [template!])));
    let dark = 0;
    tiles.forEach(({ window }, index) => {
      const tile = rasterOf(pdf, index + 1, resolution);
      const [dx, dy] = [(window.x - left) * dots, (window.y - above) * dots].map(Math.round) as [number, number];
      let apart = 0;
      // What is painted at the very border of a sheet is cut off there.
      for (let y = 2; y < tile.height - 2; y++) {
        for (let x = 2; x < tile.width - 2; x++) {
          if (tile.at(x, y) < 128) dark++;
          if (Math.abs(tile.at(x, y) - whole.at(x + dx, y + dy)) > 96) apart++;
        }
      }
      expect(apart, `tile ${index + 1}`).toBe(0);
    });
    expect(dark).toBeGreaterThan(5000);
  });

  it('has the same join marks on both sides of a join, at one place of the template', () => {
    const marks = tileItems(tiles).flatMap((items, index) => items.flatMap((item) => (item.kind === 'line' && item.role === 'join' && item.name.startsWith('join ') && item.path[0]?.kind === 'move'
      ? [{ name: item.name, x: item.path[0].to.x + tiles[index]!.window.x, y: item.path[0].to.y + tiles[index]!.window.y }] : [])));
    const names = [...new Set(marks.map(({ name }) => name))];
    expect(names.length).toBeGreaterThan(3);
    for (const name of names) {
      const [one, other, ...more] = marks.filter((mark) => mark.name === name);
      expect(more).toEqual([]);
      expect([other?.x, other?.y]).toEqual([expect.closeTo(one!.x, 6), expect.closeTo(one!.y, 6)]);
    }
  });
});
