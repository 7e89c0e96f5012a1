import { describe, expect, it } from 'vitest';
import { distancePointToPolyline } from '../../server/src/geometry/distance.ts';
import type { Point, Polyline } from '../../server/src/geometry/shape.ts';
import { stepPicture } from '../../server/src/pages/step-picture.ts';
import { textExtent } from '../../server/src/pages/extent.ts';
import type { Box, Item, TextItem } from '../../server/src/pages/sheet.ts';
import { chosenCombinations } from '../../server/src/cli/combinations.ts';
import type { StepDrawing } from '../../server/src/table/step-drawings.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { samplePattern, samplePatterns } from '../support/pages.ts';
import { pattern } from '../support/spec.ts';

interface Picture {
  readonly letters: readonly TextItem[];
  readonly heavy: readonly Polyline[];
}

/** The letters beside the heavy lines of each piece that a step draws, and those lines. */
const picturesOf = (drawing: StepDrawing): readonly Picture[] => stepPicture(drawing).items.flatMap((piece: Item): readonly Picture[] => {
  if (piece.kind !== 'group') return [];
  return [{
    letters: piece.items.flatMap((item) => (item.kind === 'text' && item.weight === 'bold' ? [item] : [])),
    heavy: piece.items.flatMap((item) => (item.kind === 'line' && item.pen.width > 0.4 ? [item.path.flatMap((step): readonly Point[] => ('to' in step ? [step.to] : []))] : [])),
  }];
});

const isOver = (one: Box, other: Box): boolean => one.x < other.x + other.width && other.x < one.x + one.width && one.y + one.height * 0.35 < other.y + other.height * 0.7 && other.y + other.height * 0.35 < one.y + one.height * 0.7;

/** Letters that a heavy line runs through, or that stand over another: they are black on black. */
const unread = (drawings: readonly StepDrawing[]): readonly string[] => drawings.flatMap((drawing) => picturesOf(drawing).flatMap(({ letters, heavy }) =>
  letters.filter((letter, index) => {
    const box = textExtent(letter)!;
    if (letters.slice(0, index).some((other) => isOver(textExtent(other)!, box))) return true;
    const across = [0.1, 0.5, 0.9].map((share) => ({ x: box.x + box.width * share, y: letter.at.y - letter.size * 0.3 }));
    return heavy.some((points) => points.length > 1 && across.some((point) => distancePointToPolyline(point, points) < 0.45));
  }).map(({ words }) => `step ${String(drawing.number)}: ${words}`)));

describe('the letters in the picture of a step', () => {
  it('are beside the heavy lines of a pleat, not on them', () => {
    const found = pattern('piece wall "Wall" {\n  outline rectangle 20 by 14\n  allowance 1\n  pleat one on top at 6 deep 1 towards start\n  pleat two on top at 13 deep 1 towards end\n  dart three on bottom at 9 wide 2 deep 4\n  edge all raw\n  cut 1 cloth\n}\nstep "Lay the pleats." does wall.one, wall.two, wall.three\nstep "Rest." does wall', 'unit cm').table().stepDrawings;
    expect(found.flatMap(picturesOf).flatMap(({ letters }) => letters.map(({ words }) => words))).toEqual(['a', 'b', 'c']);
    expect(unread(found)).toEqual([]);
  });

  it('don’t stand over one another where lines run close by', () => {
    const found = pattern('piece wall "Wall" {\n  outline rectangle 20 by 14\n  edge all raw\n  topstitch one 0.4 from left\n  topstitch two 1.2 from left\n  cut 1 cloth\n}\nstep "Sew." does wall.one, wall.two\nstep "Rest." does wall', 'unit cm\nallowance none').table().stepDrawings;
    expect(found.flatMap(picturesOf).flatMap(({ letters }) => letters.map(({ words }) => words))).toEqual(['a', 'b']);
    expect(unread(found)).toEqual([]);
  });

  it('are beside the middle of a line that nothing else is near', () => {
    const found = pattern('piece wall "Wall" {\n  outline rectangle 20 by 14\n  edge top raw\n  edge bottom raw\n  cut 1 cloth\n}\npiece side "Side" {\n  outline rectangle 6 by 14\n  edge top raw\n  edge bottom raw\n  cut 1 cloth\n}\nseam one = wall.left with side.left\nseam two = wall.right with side.right\nstep "Sew." does one, two\nstep "Rest." does wall, side', 'unit cm\nallowance none').table().stepDrawings;
    for (const { letters, heavy } of found.flatMap(picturesOf)) {
      expect(letters.map(({ words }) => words)).toEqual(['a', 'b']);
      letters.forEach((letter, index) => {
        const ys = heavy[index]!.map(({ y }) => y);
        expect(letter.at.y - letter.size * 0.33).toBeCloseTo((Math.min(...ys) + Math.max(...ys)) / 2, 0);
      });
    }
  });

  it.each(samplePatterns)('are read in %s', (name) => {
    const made = samplePattern(name);
    const drawings = [...chosenCombinations(made, [], true)].flatMap((combination) => cuttingTable(made, combination).stepDrawings);
    expect(unread(drawings)).toEqual([]);
  });
});
