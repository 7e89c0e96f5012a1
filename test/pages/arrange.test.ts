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

/** Whether boxes fit on one sheet, each turned or not: every box in turn at every corner that the others leave (bottom-left places, which some fewest packing always has). */
function fitsOne(all: readonly Drawn[], placed: readonly Lying[] = []): boolean {
  if (all.length === 0) return true;
  const xs = [0, ...placed.map(({ right }) => right + gap)];
  const ys = [0, ...placed.map(({ below }) => below + gap)];
  return all.some((drawn, index) => {
    const rest = all.filter((_, at) => at !== index);
    return [[drawn.width, drawn.height], [drawn.height, drawn.width]].some(([width = 0, height = 0]) => xs.some((x) => ys.some((y) => {
      const here = { x, y, right: x + width, below: y + height };
      const isFree = here.right <= area.width && here.below <= area.height && placed.every((one) => here.x >= one.right + gap || one.x >= here.right + gap || here.y >= one.below + gap || one.y >= here.below + gap);
      return isFree && fitsOne(rest, [...placed, here]);
    })));
  });
}

/** The fewest sheets, by trying every way to share the boxes out. */
function fewestSheets(all: readonly Drawn[]): number {
  const known = new Map<string, boolean>();
  const fits = (some: readonly Drawn[]): boolean => {
    const key = some.map((one) => all.indexOf(one)).join(' ');
    if (!known.has(key)) known.set(key, fitsOne(some));
    return known.get(key)!;
  };
  const share = (index: number, sheets: readonly (readonly Drawn[])[]): number => {
    const next = all[index];
    if (next === undefined) return sheets.every(fits) ? sheets.length : Infinity;
    return Math.min(...sheets.map((_, at) => share(index + 1, sheets.map((one, other) => (other === at ? [...one, next] : one)))), share(index + 1, [...sheets, [next]]));
  };
  return share(0, []);
}

describe('the fewest sheets, against every way there is (five boxes or fewer)', () => {
  const few = fc.array(fc.record({ width: fc.integer({ min: 60, max: 185 }), height: fc.integer({ min: 60, max: 260 }) }).map(({ width, height }) => box(width, height)), { minLength: 2, maxLength: 5 });

  it('are found where filling one sheet after the other takes one more', () => {
    expect(arranged([box(64, 156), box(111, 174), box(123, 204), box(93, 93)], area)).toHaveLength(2);
  });

  it('are found by the search', () => {
    fc.assert(fc.property(few, (all) => { check(all, arranged(all, area)); expect(arranged(all, area).length).toBe(fewestSheets(all)); }), { numRuns: 60, seed: 5 });
  });
});
