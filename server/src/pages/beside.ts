import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point, Polyline } from '../geometry/shape.ts';
import { between } from '../geometry/vector.ts';
import type { Box } from './sheet.ts';

/** Where letters may stand: level, or upright and read from the right. */
export interface Place {
  readonly box: Box;
  readonly turn: 0 | -90;
}

/** Where along a line letters are looked for, as a part of its length: first in its middle. */
const shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85] as const;
/** A line that leans by more than this beside its letters, millimetres, runs away from them (invented). */
const mostLean = 2.2;

/**
 * Places beside a line that may bend: on either side of it, level where it runs level and upright where it runs upright, so
 * that it is the line next to its letters all along them.
 *
 * @param gap between the line and the letters
 * @param at where along it they are looked for, as parts of its length
 */
export function placesBeside(points: Polyline, closed: boolean, width: number, height: number, gap: number, at: readonly number[] = shares): readonly Place[] {
  const [first] = points;
  const run = closed && first !== undefined ? [...points, first] : points;
  const ends = run.map((point, index) => (index === 0 ? 0 : Math.hypot(point.x - (run[index - 1]?.x ?? 0), point.y - (run[index - 1]?.y ?? 0))));
  const long = ends.reduce((sum, one) => sum + one, 0);
  return at.flatMap((share) => {
    const middle = share * long;
    if (middle < width / 2 || middle + width / 2 > long) return [];
    const { minX, minY, maxX, maxY } = boundsOfPoints(partOf(run, ends, middle - width / 2, middle + width / 2));
    const [across, down] = [maxX - minX, maxY - minY];
    if (Math.min(across, down) > mostLean) return [];
    const [x, y] = [(minX + maxX - width) / 2, (minY + maxY - width) / 2];
    return across >= down
      ? [minY - gap - height, maxY + gap].map((top): Place => ({ box: { x, y: top, width, height }, turn: 0 }))
      : [minX - gap - height, maxX + gap].map((left): Place => ({ box: { x: left, y, width: height, height: width }, turn: -90 }));
  });
}

/** The part of a run of lines between two lengths along it. @param steps how long each line is, before its end */
function partOf(run: Polyline, steps: readonly number[], from: number, to: number): Polyline {
  const part: Point[] = [];
  let at = 0;
  run.forEach((point, index) => {
    const step = steps[index] ?? 0;
    const before = run[index - 1];
    const start = at;
    at += step;
    if (before === undefined || step === 0 || at < from || start > to) return;
    part.push(between(before, point, Math.max(0, (from - start) / step)), between(before, point, Math.min(1, (to - start) / step)));
  });
  return part;
}
