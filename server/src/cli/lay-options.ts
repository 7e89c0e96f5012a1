import { readLength, readWidth } from '../buying/other-widths.ts';
import { usualOptions, type BuyingOptions, type OtherWidth } from '../buying/plan.ts';
import { limits } from '../problems/limits.ts';
import type { FileUnit } from '../units/length.ts';
import { UsageError } from './files.ts';

/** What `piecewright lay` was told of how to buy, as it was typed. */
export interface TypedBuying {
  readonly articles: string;
  readonly width: readonly string[];
  readonly lay: BuyingOptions['lay'];
  readonly gap: string;
  readonly effort: string;
}

/**
 * The options that were typed.
 *
 * @throws UsageError where one can’t be read, or is too much
 */
export function buyingOptions({ width, lay, gap, effort }: TypedBuying, unit: FileUnit): BuyingOptions {
  if (width.length > limits.otherWidths) throw new UsageError(`There are ${width.length} widths, more than the ${limits.otherWidths} that are set side by side.`);
  return { ...usualOptions, lay, gap: gapOf(gap, unit), effort: effortOf(effort), widths: width.map((text) => widthOf(text, unit)) };
}

/** @throws UsageError where it can’t be read, or is too much */
export function effortOf(text: string): number {
  const effort = Number(text);
  if (text.trim() === '' || !(effort >= 0 && effort <= limits.effort)) throw new UsageError(`“${text}” isn’t an effort: write a number from 0 to ${limits.effort}, about the seconds to look for each lay.`);
  return effort;
}

function widthOf(text: string, unit: FileUnit): OtherWidth {
  const width = readWidth(text, unit);
  if (width === undefined) throw new UsageError(`“${text}” isn’t a width: write it as in 54in, or with a price as in 54in=12.50, up to ${limits.typedLength / 1000} m.`);
  return width;
}

function gapOf(text: string, unit: FileUnit): number {
  const length = readLength(text, unit);
  if (length === undefined) throw new UsageError(`“${text}” isn’t a length for --gap: write it as in 1/8in or 3 mm, up to ${limits.typedLength / 1000} m.`);
  return length.valueOf();
}
