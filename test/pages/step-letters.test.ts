import { describe, expect, it } from 'vitest';
import { distancePointToPolyline } from '../../server/src/geometry/distance.ts';
import type { Point, Polyline } from '../../server/src/geometry/shape.ts';
import { stepPicture } from '../../server/src/pages/step-picture.ts';
import { textExtent } from '../../server/src/pages/extent.ts';
import type { Item, TextItem } from '../../server/src/pages/sheet.ts';
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

/** Letters that a heavy line runs through: they are black on black. */
const unread = (drawings: readonly StepDrawing[]): readonly string[] => drawings.flatMap((drawing) => picturesOf(drawing).flatMap(({ letters, heavy }) =>
  letters.filter((letter) => {
    const box = textExtent(letter)!;
    const across = [0.1, 0.5, 0.9].map((share) => ({ x: box.x + box.width * share, y: letter.at.y - letter.size * 0.3 }));
    return heavy.some((points) => points.length > 1 && across.some((point) => distancePointToPolyline(point, points) < 0.45));
  }).map(({ words }) => `step ${String(drawing.number)}: ${words}`)));

describe('the letters in the picture of a step', () => {
  it('are beside the heavy lines of a pleat, not on them', () => {
    const found = pattern('piece wall "Wall" {\n  outline rectangle 20 by 14\n  allowance 1\n  pleat one on top at 6 deep 1 towards start\n  pleat two on top at 13 deep 1 towards end\n  dart three on bottom at 9 wide 2 deep 4\n  edge all raw\n  cut 1 cloth\n}\nstep "Lay the pleats." does wall.one, wall.two, wall.three\nstep "Rest." does wall', 'unit cm').table().stepDrawings;
    expect(found.flatMap(picturesOf).flatMap(({ letters }) => letters.map(({ words }) => words))).toEqual(['a', 'b', 'c']);
    expect(unread(found)).toEqual([]);
  });

  it.each(samplePatterns)('are read in %s', (name) => {
    const made = samplePattern(name);
    const drawings = [...chosenCombinations(made, [], true)].flatMap((combination) => cuttingTable(made, combination).stepDrawings);
    expect(unread(drawings)).toEqual([]);
  });
});
