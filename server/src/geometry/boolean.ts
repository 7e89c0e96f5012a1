import { Clipper64, ClipType, FillRule, PathType } from 'clipper2-ts';
import type { Path64, Paths64 } from 'clipper2-ts';
import type { Polygon } from './shape.ts';

/** Polygons are combined on a grid of whole micrometres, on which crossings are found exactly. */
const PER_MM = 1000;

const toGrid = (polygon: Polygon): Path64 =>
  polygon.map(({ x, y }) => ({ x: Math.round(x * PER_MM), y: Math.round(y * PER_MM) }));

const fromGrid = (path: Path64): Polygon => path.map(({ x, y }) => ({ x: x / PER_MM, y: y / PER_MM }));

function combine(type: ClipType, rule: FillRule, subject: readonly Polygon[], clip: readonly Polygon[]): Polygon[] {
  const clipper = new Clipper64();
  // Corners in the middle of a straight side say nothing.
  clipper.preserveCollinear = false;
  clipper.addPaths(subject.map(toGrid), PathType.Subject);
  clipper.addPaths(clip.map(toGrid), PathType.Clip);
  const solution: Paths64 = [];
  clipper.execute(type, rule, solution);
  return solution.map(fromGrid);
}

/**
 * Everything inside any of the polygons, to the nearest micrometre. In all four
 * functions outer rings come back counter-clockwise and holes clockwise, and may
 * be given so; where nothing is left, there are none.
 */
export const union = (subject: readonly Polygon[], clip: readonly Polygon[] = []): Polygon[] =>
  combine(ClipType.Union, FillRule.NonZero, subject, clip);

/** What of `subject` lies outside `clip`. */
export const difference = (subject: readonly Polygon[], clip: readonly Polygon[]): Polygon[] =>
  combine(ClipType.Difference, FillRule.NonZero, subject, clip);

/** What lies inside both. */
export const intersection = (subject: readonly Polygon[], clip: readonly Polygon[]): Polygon[] =>
  combine(ClipType.Intersection, FillRule.NonZero, subject, clip);

/** What a self-crossing ring runs round counter-clockwise at least once more than clockwise. */
export const positivelyWound = (ring: Polygon): Polygon[] => combine(ClipType.Union, FillRule.Positive, [ring], []);
