/** How a line is drawn: told apart by weight and dashes first, so that it holds in black and white. Millimetres. */
export interface Pen {
  readonly width: number;
  /** Lengths of dashes and gaps; empty for a solid line. */
  readonly dashes: readonly number[];
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
  window: pen(0.4, [1.6, 0.8]),
  grain: pen(0.3),
  notch: pen(0.2),
  mark: pen(0.3),
  drill: pen(0.3),
  ghost: pen(0.18, [0.9, 1.8], 0.45),
  frame: pen(0.2, [], 0.35),
  join: pen(0.2, [1.2, 1.2], 0.2),
  test: pen(0.25),
  hair: pen(0.12, [], 0.45),
  rule: pen(0.35),
} as const;

/** Cutting lines of nested sizes, by the size’s place in the list. */
const nested: readonly (readonly number[])[] = [
  [], [9, 1.8], [4.5, 1.5], [9, 1.5, 1.2, 1.5], [2, 1.2], [9, 1.5, 1.2, 1.5, 1.2, 1.5], [4.5, 1.5, 1.2, 1.5], [1, 1.4],
];
export const nestedPen = (index: number): Pen => pen(0.5, nested[index % nested.length] ?? []);
