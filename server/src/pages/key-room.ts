import { intersection } from '../geometry/boolean.ts';
import { boundsOfPoints, polygonArea } from '../geometry/measure.ts';
import type { Polygon } from '../geometry/shape.ts';
import type { Drawn, Placed } from './arrange.ts';
import { overlap } from './room.ts';
import type { Box } from './sheet.ts';

/** Least distance from a template, millimetres: room for scissors. */
const gap = 4;
/** How far apart places are that are tried, millimetres. */
const step = 2;

/**
 * Where blocks lie upright beside the templates of a sheet, each in the uppermost place that is clear of their outlines, not
 * just of their boxes; undefined where one has no room.
 */
export function besideOutlines<D extends Drawn>(blocks: readonly D[], outlines: readonly Polygon[], area: Box): readonly Placed<D>[] | undefined {
  const placed: Placed<D>[] = [];
  const taken: Box[] = [];
  for (const drawn of blocks) {
    const at = firstClear(drawn, outlines, taken, area);
    if (at === undefined) return undefined;
    placed.push({ drawn, ...at, turned: false });
    taken.push({ ...at, width: drawn.width, height: drawn.height });
  }
  return placed;
}

function firstClear({ width, height }: Drawn, outlines: readonly Polygon[], taken: readonly Box[], area: Box): { readonly x: number; readonly y: number } | undefined {
  for (let y = area.y; y + height <= area.y + area.height; y += step) {
    for (let x = area.x; x + width <= area.x + area.width; x += step) {
      const grown = { x: x - gap, y: y - gap, width: width + 2 * gap, height: height + 2 * gap };
      if (!taken.some((one) => overlap(one, grown)) && !outlines.some((one) => reaches(one, grown))) return { x, y };
    }
  }
  return undefined;
}

function reaches(outline: Polygon, { x, y, width, height }: Box): boolean {
  const { minX, minY, maxX, maxY } = boundsOfPoints(outline);
  if (minX >= x + width || maxX <= x || minY >= y + height || maxY <= y) return false;
  const corners: Polygon = [{ x, y }, { x: x + width, y }, { x: x + width, y: y + height }, { x, y: y + height }];
  return intersection([corners], [polygonArea(outline) < 0 ? [...outline].reverse() : outline]).length > 0;
}
