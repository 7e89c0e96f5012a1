import { boundsOfPoints } from '../geometry/measure.ts';
import type { Polygon } from '../geometry/shape.ts';
import type { Box } from './sheet.ts';

/** How far apart heights are that are tried, millimetres. */
const step = 2;

/**
 * The uppermost place, and there the one farthest to the left, where a box is clear of convex outlines by a gap; undefined where
 * there is none. What lies beside a height is told exactly: each outline bars a stretch across.
 */
export function placeBeside({ width, height }: Pick<Box, 'width' | 'height'>, outlines: readonly Polygon[], area: Box, gap: number): Pick<Box, 'x' | 'y'> | undefined {
  const lowest = area.y + area.height - height;
  if (lowest < area.y - 1e-6) return undefined;
  // The last is as low as can be.
  for (let index = 0; index <= Math.ceil((lowest - area.y) / step); index++) {
    const y = Math.min(area.y + index * step, lowest);
    const barred = outlines.flatMap((outline) => stretchIn(outline, y - gap, y + height + gap) ?? []).sort((one, other) => one.from - other.from);
    let { x } = area;
    for (const { from, to } of barred) if (x + width + gap > from && x - gap < to) x = to + gap;
    if (x + width <= area.x + area.width + 1e-6) return { x, y };
  }
  return undefined;
}

/** How far to the left and to the right a convex outline reaches between two heights; undefined where it isn't there. */
function stretchIn(outline: Polygon, above: number, below: number): { readonly from: number; readonly to: number } | undefined {
  const { minY, maxY } = boundsOfPoints(outline);
  if (minY >= below || maxY <= above) return undefined;
  let [from, to] = [Infinity, -Infinity];
  const take = (x: number): void => {
    from = Math.min(from, x);
    to = Math.max(to, x);
  };
  outline.forEach((end, index) => {
    const start = outline.at(index - 1) ?? end;
    for (const y of [above, below]) if ((start.y - y) * (end.y - y) < 0) take(start.x + ((end.x - start.x) * (y - start.y)) / (end.y - start.y));
    if (end.y >= above && end.y <= below) take(end.x);
  });
  return from > to ? undefined : { from, to };
}
