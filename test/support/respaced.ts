/**
 * A text that says the same with other spaces: each run of spaces between words, and each line's indent, is replaced by
 * the next of `spaces`. What stands in quotes or in a comment, and the space inside a number, stay.
 */
export function respaced(text: string, spaces: Iterable<string>, eol: string): string {
  const next = spaces[Symbol.iterator]();
  const space = (): string => next.next().value as string;
  return text
    .split('\n')
    .map((line) => line.replace(/"(?:[^"\\]|\\.)*"?|#.*|(?<![\p{L}\p{M}\p{N}_])\d+ \d+\/\d+|(?<![\p{L}\p{M}\p{N}_])\d+ [¼-¾⅐-⅞]| +/gu, (match) => (match.trim() === '' ? space() : match)))
    .join(eol);
}
