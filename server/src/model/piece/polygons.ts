import { flattenOutline } from '../../geometry/flatten.ts';
import { isSymmetric, type Turns } from '../../geometry/congruence.ts';
import type { Outline, Polygon } from '../../geometry/shape.ts';

const polygons = new WeakMap<Outline, Polygon>();

/** An outline as a polygon, worked out once; the same outline always gives the very same polygon. */
export function polygonOf(outline: Outline): Polygon {
  let polygon = polygons.get(outline);
  if (polygon === undefined) polygons.set(outline, (polygon = flattenOutline(outline).polygon));
  return polygon;
}

const symmetries = new WeakMap<Polygon, Map<Turns, boolean>>();

/** Whether a polygon is its own mirror image, worked out once. */
export function isOwnMirrorImage(polygon: Polygon, turns: Turns): boolean {
  let known = symmetries.get(polygon);
  if (known === undefined) symmetries.set(polygon, (known = new Map<Turns, boolean>()));
  let symmetric = known.get(turns);
  if (symmetric === undefined) known.set(turns, (symmetric = (turns === 'any' && isOwnMirrorImage(polygon, 'half')) || isSymmetric(polygon, turns)));
  return symmetric;
}
