import { limits } from '../problems/limits.ts';
import { UsageError } from './files.ts';

/**
 * A whole number as it was typed after an option.
 *
 * @throws UsageError where it is none, or not from 1 to {@link limits.articles}
 */
export function wholeNumber(text: string, option: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < 1 || value > limits.articles) throw new UsageError(`“${text}” isn’t a number for ${option}: write a whole number from 1 to ${limits.articles}.`);
  return value;
}
