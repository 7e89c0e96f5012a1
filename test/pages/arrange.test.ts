import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arranged, type Drawn, type Placed } from '../../server/src/pages/arrange.ts';
import { firstFit } from '../../server/src/pages/first-fit.ts';

const area = { width: 190, height: 271 };
const gap = 4;
const box = (width: number, height: number): Drawn => ({ width, height, items: [] });
const boxes = fc.array(fc.record({ width: fc.integer({ min: 10, max: 185 }), height: fc.integer({ min: 10, max: 260 }) }).map(({ width, height }) => box(width, height)), { minLength: 1, maxLength: 9 });

interface Lying {
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly below: number;
}
const lying = ({ drawn, x, y, turned }: Placed<Drawn>): Lying => ({ x, y, right: x + (turned ? drawn.height : drawn.width), below: y + (turned ? drawn.width : drawn.height) });

function check(all: readonly Drawn[], sheets: readonly (readonly Placed<Drawn>[])[]): void {
  expect(sheets.flat().map(({ drawn }) => all.indexOf(drawn)).sort((a, b) => a - b)).toEqual(all.map((_, index) => index));
  for (const sheet of sheets) {
    const places = sheet.map(lying);
    for (const [index, one] of places.entries()) {
      expect(Math.min(one.x, one.y)).toBeGreaterThanOrEqual(-0.001);
      expect(one.right).toBeLessThanOrEqual(area.width + 0.1);
      expect(one.below).toBeLessThanOrEqual(area.height + 0.1);
      for (const other of places.slice(index + 1)) {
        const apart = Math.max(other.x - one.right, one.x - other.right, other.y - one.below, one.y - other.below);
        expect(apart).toBeGreaterThanOrEqual(gap - 0.01);
      }
    }
  }
}

describe.each([
  ['with a search', (all: readonly Drawn[]) => arranged(all, area)],
  ['many at once', (all: readonly Drawn[]) => firstFit(all, area, gap)],
] as const)('templates put on sheets, %s', (_, place) => {
  it('lie each whole on one sheet, apart from one another', () => {
    fc.assert(fc.property(boxes, (all) => check(all, place(all))), { numRuns: 25 });
  });

  it('take one sheet where they fill it but for the gaps', () => {
    const four = [box(93, 133), box(93, 133), box(93, 133), box(93, 133)];
    expect(place(four)).toHaveLength(1);
    check(four, place(four));
  });

  it('take as many sheets as they are where no two fit together', () => {
    expect(place([box(150, 250), box(150, 250), box(150, 250)])).toHaveLength(3);
  });

  it('are turned where only that fits', () => {
    const [[only] = []] = place([box(250, 100)]);
    expect(only?.turned).toBe(true);
  });
});
