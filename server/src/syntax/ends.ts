/**
 * Where a run of some characters begins that ends at an offset. Regular expressions that end in `$` try anew at every
 * character of every run in a text, which takes hours for a million spaces or line ends; so none are used for this.
 */
export function runBefore(text: string, offset: number, characters: string): number {
  let start = offset;
  while (start > 0 && characters.includes(text.charAt(start - 1))) start--;
  return start;
}

/** The offset of the spaces and tabs right before an offset; the offset itself where there are none. */
export const spaceBefore = (text: string, offset: number): number => runBefore(text, offset, ' \t');

/** A line without its comment and the space around what is left. A sign within a text counts as one of a comment. */
export const beforeComment = (line: string): string => (line.split('#', 1)[0] ?? '').trim();
