import type { PartKind } from './drawing-data.ts';

/** How a kind of line is told apart without colour: by its weight and its dashes. In CSS pixels, or points on paper. */
export interface LineStyle {
  readonly width: number;
  /** Lengths of dashes and gaps; empty for a solid line. */
  readonly dashes: readonly number[];
  /** Filled with its own colour. */
  readonly filled: boolean;
  /** What the legend calls it. */
  readonly words: string;
}

export const lineStyles: Readonly<Record<PartKind, LineStyle>> = {
  cutting: { width: 2, dashes: [], filled: false, words: 'Cutting line' },
  stitching: { width: 1.25, dashes: [6, 4], filled: false, words: 'Stitching line' },
  fold: { width: 3.5, dashes: [14, 3, 3, 3], filled: false, words: 'On the fold' },
  line: { width: 1.25, dashes: [], filled: false, words: 'Inner line' },
  placement: { width: 1.5, dashes: [1.5, 3], filled: false, words: 'Placement line' },
  foldline: { width: 1.25, dashes: [12, 3, 2, 3], filled: false, words: 'Fold line' },
  window: { width: 1.75, dashes: [4, 2], filled: false, words: 'Window' },
  topstitch: { width: 1, dashes: [2.5, 1.5, 2.5, 6], filled: false, words: 'Topstitching or quilting' },
  grain: { width: 1.25, dashes: [], filled: false, words: 'Grain' },
  notch: { width: 1, dashes: [], filled: true, words: 'Notch' },
  mark: { width: 1.5, dashes: [], filled: false, words: 'Mark' },
  drill: { width: 1.5, dashes: [], filled: false, words: 'Drill hole' },
};

/** The other half of a piece on a fold. */
export const twinDashes: readonly number[] = [3, 5];
