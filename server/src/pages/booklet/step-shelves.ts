import { linesOf, settable } from '../letters/letters.ts';
import { groupItem, textItem, type Item } from '../sheet.ts';
import type { StepPicture } from '../step-picture.ts';
import { shelved } from './shelves.ts';

const captionSize = 2.6;
const leading = captionSize * 1.36;
const narrowest = 34;
const gap = 6;

/** Pictures of steps in rows, each with its caption below. */
export function stepShelves(pictures: readonly StepPicture[], width: number): readonly { readonly height: number; readonly items: readonly Item[] }[] {
  const boxes = pictures.map((picture) => {
    const wide = Math.max(picture.width, narrowest);
    const lines = linesOf(settable(picture.caption), wide, captionSize);
    return { picture, lines, width: wide, height: picture.height + lines.length * leading + 4 };
  });
  const { placed } = shelved(boxes, width, gap);
  return [...new Set(placed.map(({ y }) => y))].map((row) => {
    const own = placed.filter(({ y }) => y === row);
    return {
      height: Math.max(...own.map(({ of }) => of.height)),
      items: own.map(({ of: { picture, lines }, x }) => groupItem('', [
        ...picture.items,
        ...lines.map((line, index) => textItem(line, { x: 0, y: picture.height + leading * (index + 1) }, { size: captionSize, role: 'picture', tag: 'Caption' })),
      ], { x, y: 0 }, { figure: picture.words })),
    };
  });
}
