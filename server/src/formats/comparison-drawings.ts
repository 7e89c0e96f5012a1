import type { OutlineChange } from '../compare/outlines.ts';
import { whenWords } from '../compare/summary.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { Polygon } from '../geometry/shape.ts';
import { escapeMarkup } from './escape.ts';
import { margin, ringPath, type Picture } from './pictures.ts';

/** The longer side of a drawing in pixels. */
const longest = 220;

/** How to read the drawings; they are told apart without colour. */
export const drawingKey = 'Solid: as it is now. Dashed and lighter: as it was, seen only where it differs. Both lie on one another at the lower left corner.';

/** Each outline that changed, as it was under what it is now. */
export const comparisonPictures = (outlines: readonly OutlineChange[]): readonly Picture[] => outlines.map((one) => {
  const caption = `${one.subject}, ${one.material}: ${sizes(one)}${whenWords(one)}`;
  return { svg: overlaid(one, caption), caption: [caption] };
});

/** Whether a text is one of these drawings, and no other. */
export const isComparisonPicture = (text: string): boolean => /^<svg [^\n]*><rect [^\n]*<path class="was" [^\n]*<path class="now" [^\n]*<\/svg>\n$/.test(text);

const sizes = ({ was, now }: OutlineChange): string => (was.size === now.size ? `${now.size}, with another outline` : `${was.size} → ${now.size}`);

function overlaid({ was, now }: OutlineChange, label: string): string {
  const [before, after] = [atCorner(was.rings), atCorner(now.rings)];
  const box = boundsOfPoints([...before, ...after].flat());
  const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
  const scale = longest / Math.max(wide, high, 1);
  const [width, height] = [wide, high].map((side) => Math.ceil(side * scale + 2 * margin));
  const path = (rings: readonly Polygon[]): string => rings.map((ring) => ringPath(ring, box, scale)).join('');
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeMarkup(label)}" fill="none" stroke-linejoin="round">`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    `<path class="was" d="${path(before)}" stroke="#777777" stroke-width="1.2" stroke-dasharray="5 3"/>`,
    // White below the line that is now hides the dashes wherever both run together.
    `<path d="${path(after)}" stroke="#ffffff" stroke-width="2.4"/>`,
    `<path class="now" d="${path(after)}" stroke="#000000" stroke-width="1.4"/>`,
    '</svg>',
  ].join('');
}

/** Moved so that the lower left corner of the outer ring, which comes first, is at the origin. */
function atCorner(rings: readonly Polygon[]): readonly Polygon[] {
  const { minX, minY } = boundsOfPoints(rings[0] ?? []);
  return rings.map((ring) => ring.map(({ x, y }) => ({ x: x - minX, y: y - minY })));
}
