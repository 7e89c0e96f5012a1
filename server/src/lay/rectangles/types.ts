/**
 * Strip packing of axis-parallel rectangles in whole units: the strip has a fixed `width` and is used
 * from y = 0 upwards; the answer is the height used, called the length of the packing.
 */

/** One kind of rectangle: `w` across the strip, `h` along it, as given. */
export interface RectangleItem {
  readonly w: number;
  readonly h: number;
  readonly count: number;
  /** Whether a quarter turn is permitted. */
  readonly turnable: boolean;
}

/** From `x` rightwards (to the next step or the side of the strip) the strip is taken up to `y`. */
export interface Step {
  readonly x: number;
  readonly y: number;
}

export interface RectangleInput {
  readonly width: number;
  readonly items: readonly RectangleItem[];
  /** What is already taken at the start of the strip; the first step has x = 0. Absent: nothing. */
  readonly floor?: readonly Step[];
}

/** One rectangle laid: its lower left corner, and whether it was given a quarter turn. */
export interface RectanglePlacement {
  /** Index into `RectangleInput.items`. */
  readonly item: number;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

export interface RectanglePacking {
  readonly length: number;
  readonly placements: readonly RectanglePlacement[];
}

/** How hard to look. Steps, never seconds, so that the answer is the same on every machine. */
export interface RectangleEffort {
  readonly steps: number;
  readonly seed?: number;
}

/** What is known after `step` of `steps`: the shortest packing so far, and a length none can beat. */
export interface RectangleProgress {
  readonly packing: RectanglePacking;
  readonly bound: number;
  readonly step: number;
  readonly steps: number;
}

export type RectangleOutcome =
  | { readonly kind: 'packed'; readonly packing: RectanglePacking; readonly bound: number; readonly step: number }
  /** These items (indices) are wider than the strip in every permitted turn. */
  | { readonly kind: 'too wide'; readonly items: readonly number[] };
