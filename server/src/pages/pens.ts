import type { Point } from '../geometry/shape.ts';

/** How a line is drawn: told apart by weight and dashes first, so that it holds in black and white. Millimetres. */
export interface Pen {
  readonly width: number;
  /** Lengths of dashes and gaps; empty for a solid line. */
  readonly dashes: readonly number[];
  /** How far into its dashes a line begins. */
  readonly phase?: number;
  /** 0 is black. */
  readonly tone: number;
}

const pen = (width: number, dashes: readonly number[] = [], tone = 0): Pen => ({ width, dashes, tone });

/** Weights and dashes are invented; they follow the usual rule of drawing, the more it matters the heavier (ISO 128-2). */
export const pens = {
  cutting: pen(0.5),
  stitching: pen(0.25, [2.6, 1.4]),
  fold: pen(0.9, [7, 1.6, 1.6, 1.6]),
  line: pen(0.25),
  placement: pen(0.3, [0.5, 1.3]),
  foldline: pen(0.25, [6, 1.2, 1, 1.2]),
  partfold: pen(0.35, [3.4, 1.1, 1.1, 1.1, 1.1, 1.1]),
  window: pen(0.4, [1.6, 0.8]),
  topstitch: pen(0.2, [0.9, 0.5, 0.9, 2.2]),
  grain: pen(0.3),
  notch: pen(0.2),
  mark: pen(0.3),
  drill: pen(0.3),
  ghost: pen(0.18, [0.9, 1.8], 0.45),
  frame: pen(0.2, [], 0.35),
  // Solid, so that it fills no gaps of a size that runs along it; fine and grey, so that it isn’t one.
  join: pen(0.15, [], 0.5),
  test: pen(0.25),
  hair: pen(0.12, [], 0.45),
  rule: pen(0.35),
} as const;

/** Cutting lines of nested sizes, by the size’s place in the list: long dashes with short ones, since dashes with dots are folds. */
const nested: readonly (readonly number[])[] = [
  [], [9, 1.8], [4.5, 1.5], [9, 1.3, 2.6, 1.3, 2.6, 1.3], [2, 1.2], [9, 1.5, 3.2, 1.5], [4.5, 1.2, 2.2, 1.2], [1, 1.4],
];
export const nestedPen = (index: number): Pen => pen(0.5, nested[index % nested.length] ?? []);

/**
 * A straight line’s pen with its dashes counted from one place for all lines along the same straight line, so that those of
 * nested sizes fall on one another: shifted against one another they would look solid.
 */
export function inStep(one: Pen, from: Point, to: Point): Pen {
  const period = one.dashes.reduce((sum, dash) => sum + dash, 0);
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (period === 0 || length === 0) return one;
  const along = (from.x * (to.x - from.x) + from.y * (to.y - from.y)) / length;
  return { ...one, phase: ((along % period) + period) % period };
}
