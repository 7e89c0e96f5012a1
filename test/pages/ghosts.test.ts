import { describe, expect, it } from 'vitest';
import { distancePointToBoundary } from '../../server/src/geometry/distance.ts';
import type { Point, Polyline } from '../../server/src/geometry/shape.ts';
import { outOf, textExtent } from '../../server/src/pages/extent.ts';
import { ghostsOffLines } from '../../server/src/pages/ghosts.ts';
import { templateSet } from '../../server/src/pages/pages.ts';
import { polylineSteps } from '../../server/src/pages/path.ts';
import type { Box, Item } from '../../server/src/pages/sheet.ts';
import type { Stroke } from '../../server/src/pages/strokes.ts';
import { drawTemplate } from '../../server/src/pages/template-item.ts';
import { optionsFor, samplePattern } from '../support/pages.ts';

const stroke = (role: Stroke['role'], closed: boolean, ...corners: readonly (readonly [number, number])[]): Stroke => {
  const points = corners.map(([x, y]) => ({ x, y }));
  return { role, name: role, path: polylineSteps(points, closed), points, closed, filled: false };
};
const flat = (points: Polyline): readonly (readonly [number, number])[] => points.map(({ x, y }) => [x, y]);
const ghosts = (strokes: readonly Stroke[]): readonly Stroke[] => ghostsOffLines(strokes).filter(({ role }) => role === 'ghost');

describe('a line of another template', () => {
  const round = stroke('ghost', true, [0, 0], [100, 0], [100, 60], [0, 60]);

  it('is drawn only where it lies on no other line: with the dashes of a stitching line it would look like a fold', () => {
    const stitching = stroke('stitching', false, [0, 0], [0, 60], [100, 60], [100, 0]);
    expect(ghosts([round, stitching]).map(({ points, closed }) => [flat(points), closed])).toEqual([[[[0, 0], [100, 0]], false]]);
  });

  it('is drawn beyond the end of what lies on it', () => {
    const short = stroke('placement', false, [30, 0], [50, 0.02]);
    expect(ghosts([stroke('ghost', false, [0, 0], [100, 0]), short]).map(({ points }) => flat(points))).toEqual([[[0, 0], [30, 0]], [[50, 0], [100, 0]]]);
  });

  it('is one run where it goes on round its first corner', () => {
    const pocket = stroke('placement', true, [100, 60], [60, 60], [60, 20], [100, 20]);
    expect(ghosts([round, pocket]).map(({ points }) => flat(points))).toEqual([[[60, 60], [0, 60], [0, 0], [100, 0], [100, 20]]]);
  });

  it('is left as it is beside other lines, across them, and on one that is a ghost, too', () => {
    const others = [stroke('stitching', false, [0, 3], [100, 3]), stroke('line', false, [50, -10], [50, 70]), stroke('ghost', false, [0, 0], [100, 0])];
    expect(ghosts([round, ...others])).toEqual([round, others[2]]);
  });
});

interface Lying {
  readonly words: string;
  readonly box: Box;
}
const lying = (items: readonly Item[]): readonly Lying[] => items.flatMap((item): readonly Lying[] => {
  if (item.kind === 'text') return [{ words: item.words, box: textExtent(item) }].filter((one): one is Lying => one.box !== undefined);
  return item.kind === 'group' ? lying(item.items).flatMap((one) => { const box = outOf(one.box, item); return box === undefined ? [] : [{ ...one, box }]; }) : [];
});
const cornersOf = ({ x, y, width, height }: Box): readonly Point[] => [{ x, y }, { x: x + width, y }, { x, y: y + height }, { x: x + width, y: y + height }, { x: x + width / 2, y }, { x: x + width / 2, y: y + height }];
const fromLine = (box: Box, { points, closed }: Pick<Stroke, 'points' | 'closed'>): number =>
  Math.min(...cornersOf(box).map((corner) => distancePointToBoundary(corner, closed ? points : [...points, ...[...points].reverse()])));

describe('the name of a line of another template', () => {
  it.each([['tidal-crossbody', 8], ['orchard-wallet', 6], ['hearth-cosy', 2]] as const)('is nearer to that line than to any other that is drawn alike: %s', (name, atLeast) => {
    const { templates, headline } = templateSet(samplePattern(name), new Map(), optionsFor('a4'));
    const named = templates.flatMap((template) => {
      const drawn = drawTemplate(template, headline);
      const strokes = template.variants.flatMap(({ drawing }) => drawing.strokes);
      const { width, height } = drawn;
      // Whole, and parted into two sheets that have something in common.
      const parted = drawn.itemsOff([{ x: width / 2 - 8, y: 0, width: 15, height }], [{ x: 0, y: 0, width: width / 2 + 7, height }, { x: width / 2 - 8, y: 0, width, height }], false);
      const own = [...lying(drawn.items), ...lying(parted)].filter(({ words }) => words.endsWith(': see its own template'));
      return own.map(({ words, box }) => {
        const away = (isNamed: boolean): number => Math.min(...strokes.flatMap((one, index) => {
          const line = drawn.lines[index];
          return one.role !== 'ghost' || line === undefined || (`${one.name}: see its own template` === words) !== isNamed ? [] : [fromLine(box, line)];
        }));
        return { template: template.number, words, own: away(true), others: away(false) };
      });
    });
    expect(named.length).toBeGreaterThanOrEqual(atLeast);
    expect(named.filter(({ own, others }) => own > 1 || others < own + 1)).toEqual([]);
  });
});
