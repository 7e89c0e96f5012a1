import { boxSteps, polylineSteps, segmentOf, circleSteps } from './path.ts';
import { settable, linesOf, widthOf } from './letters/letters.ts';
import { nestedPen, pens } from './pens.ts';
import { groupItem, textItem, type Box, type Item, type Role } from './sheet.ts';
import type { Drawn } from './arrange.ts';
import type { Template } from './templates.ts';

/** The sides of the test squares, exactly, in millimetres: an inch and five centimetres. */
export const testSquares = [
  { words: '1 in', side: 25.4 },
  { words: '5 cm', side: 50 },
] as const;

/** What the legend explains: roles of lines, and an arrow along the grain with one head. */
type Explained = Role | 'one way';

const words: Partial<Record<Explained, string>> = {
  cutting: 'Cut here', stitching: 'Stitch here', fold: 'On the fold: do not cut', foldline: 'Fold line', line: 'Dart, pleat or other line inside', placement: 'Placement of another part', partfold: 'Fold the template here for a part',
  window: 'Window', topstitch: 'Topstitching or quilting', ghost: 'Cut from its own template', grain: 'Grain: along the selvedge', 'one way': 'Grain, one way: its tip is up', notch: 'Notch', mark: 'Mark, or snap by its size', drill: 'Drill hole',
};
const order = Object.keys(words) as Explained[];

const rowHeight = 4.6;
const sampleLength = 17;
const size = 2.8;

/** What is drawn on some templates, their arrows along the grain among it: those with two heads, and those with one. */
export function rolesOf(templates: readonly Template[]): ReadonlySet<Explained> {
  return new Set(templates.flatMap(({ variants }) => variants.flatMap(({ drawing, hasGrain, oneWay }): Explained[] => [...drawing.strokes.map(({ role }) => role), ...(!hasGrain ? [] : [oneWay ? 'one way' as const : 'grain' as const])])));
}

/** The test squares, what the lines mean, or both. */
export interface Legend extends Drawn {
  readonly isLegend: true;
  readonly hasSquares: boolean;
  /** What it shows, in words. */
  readonly words: string;
}

/** The test squares and beside them what the lines mean: whatever is on the sheets, and no more. */
export function legendBlock(roles: ReadonlySet<Explained>, sizes: readonly string[]): Legend {
  const [squares, lines] = legendBlocks(roles, sizes);
  const x = squares.width + 5;
  return { width: x + lines.width, height: 50, items: [...squares.items, groupItem('', lines.items, { x, y: 0 })], isUpright: true, isLegend: true, hasSquares: true, words: `${squares.words} ${lines.words}` };
}

/** The same as two blocks, for where both have no room together. */
export const legendBlocks = (roles: ReadonlySet<Explained>, sizes: readonly string[]): readonly [Legend, Legend] => [squaresBlock(), linesBlock(roles, sizes)];

/** How far the smaller square stands off the sides of the larger. */
const inset = 3;

/** The smaller square within the larger, so that both have room in a corner that templates leave. */
function squaresBlock(): Legend {
  const [{ words: inch, side: small }, { words: centimetres, side: large }] = testSquares;
  const square = (name: string, box: Box): Item => ({ kind: 'line', role: 'test', name: `test square ${name}`, path: boxSteps(box), pen: pens.test });
  const says = (words: string, x: number, y: number, of: number, weight: 'bold' | 'regular', align: 'start' | 'middle' = 'start'): Item => textItem(words, { x, y }, { size: of, weight, align, role: 'test' });
  const items: readonly Item[] = [
    square(inch, { x: inset, y: large - inset - small, width: small, height: small }),
    says(inch, inset + small / 2, large - inset - small / 2 + 1, 3.6, 'bold', 'middle'),
    square(centimetres, { x: 0, y: 0, width: large, height: large }),
    says(centimetres, (inset + small + large) / 2, large - inset - small / 2 + 1, 3.6, 'bold', 'middle'),
    says('Print at 100 %', inset, 6.4, 4.2, 'bold'),
    ...linesOf('Measure both squares before you cut.', large - 2 * inset, 2.7).map((line, index) => says(line, inset, 14 + index * 3.6, 2.7, 'regular')),
  ];
  return { width: large, height: large, items, isUpright: true, isLegend: true, hasSquares: true, words: `Test squares of ${inch} and ${centimetres}, the one within the other.` };
}

function linesBlock(roles: ReadonlySet<Explained>, sizes: readonly string[]): Legend {
  const items: Item[] = [];
  let x = 0;
  const rows = order.filter((role) => roles.has(role)).flatMap((role) =>
    (role === 'cutting' && sizes.length > 0 ? sizes.map((name, index) => ({ role, text: `Cut here for size ${name}`, index })) : [{ role, text: words[role] ?? '', index: -1 }]));
  const perColumn = 11;
  const columns = [rows.slice(0, perColumn), rows.slice(perColumn)].filter((column) => column.length > 0);
  let width = x;
  for (const column of columns) {
    const texts = column.map(({ text }) => settable(text));
    column.forEach(({ role, index }, row) => {
      const y = 2.2 + row * rowHeight;
      items.push(...sample(role, x, y, index), textItem(texts[row] ?? '', { x: x + sampleLength + 3, y: y + 1 }, { size, role: 'legend' }));
    });
    width = x + sampleLength + 3 + Math.max(...texts.map((text) => widthOf(text, size)));
    x = width + 5;
  }
  return { width, height: 4.2 + (Math.min(perColumn, rows.length) - 1) * rowHeight, items, isUpright: true, isLegend: true, hasSquares: false, words: 'A sample of each kind of line beside what it means.' };
}

function sample(role: Explained, x: number, y: number, index: number): readonly Item[] {
  const line = (path: Parameters<typeof polylineSteps>[0]): Item => ({ kind: 'line', role: 'legend', name: words[role] ?? '', path: polylineSteps(path, false), pen: index >= 0 ? nestedPen(index) : ((pens as Partial<Record<Explained, (typeof pens)['line']>>)[role] ?? pens.line) });
  const end = x + sampleLength;
  const filled = (points: Parameters<typeof polylineSteps>[0]): Item => ({ kind: 'fill', role: 'legend', name: words[role] ?? '', path: polylineSteps(points, true), tone: 0 });
  switch (role) {
    case 'notch':
      return [line([{ x: x + 4, y: y - 1.4 }, { x: x + 13, y: y - 1.4 }]), filled([{ x: x + 6.9, y: y - 1.4 }, { x: x + 10.1, y: y - 1.4 }, { x: x + 8.5, y: y + 1.6 }])];
    case 'grain': case 'one way': {
      const back = role === 'one way' ? [] : [filled([{ x, y }, { x: x + 3.5, y: y - 1.3 }, { x: x + 3.5, y: y + 1.3 }])];
      return [line([{ x, y }, { x: end, y }]), filled([{ x: end, y }, { x: end - 3.5, y: y - 1.3 }, { x: end - 3.5, y: y + 1.3 }]), ...back];
    }
    case 'mark':
    case 'drill': {
      const at = { x: x + 8.5, y };
      const arm = 1.9;
      const path = [...segmentOf({ x: at.x - arm, y }, { x: at.x + arm, y }), ...segmentOf({ x: at.x, y: y - arm }, { x: at.x, y: y + arm }), ...(role === 'drill' ? circleSteps(at, 1.1) : [])];
      return [{ kind: 'line', role: 'legend', name: words[role] ?? '', path, pen: pens.mark }];
    }
    default:
      return [line([{ x, y }, { x: end, y }])];
  }
}
