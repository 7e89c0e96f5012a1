/** Letters that a line of a printed table holds, at 8 points on 190 mm (counted in a print). */
const lineLetters = 118;
/** What a column of sentences is to have at least, and one of shorter texts that are broken. */
const roomForText = 22;
const roomForWords = 13;
/** Longer texts are sentences, which are broken between words. */
const longestFact = 34;

/**
 * Which columns of a table keep their texts on one line in print, so that a size isn't read over two: those with the shortest
 * texts first, as long as what remains leaves room for the others.
 */
export function unbrokenColumns(columns: readonly (readonly string[])[]): readonly boolean[] {
  const longest = columns.map((texts) => Math.max(1, ...texts.map((text) => text.length)));
  const broken = (length: number): number => Math.min(length, length > longestFact ? roomForText : roomForWords);
  const order = longest.map((length, index) => ({ length, index })).sort((a, b) => a.length - b.length || a.index - b.index);
  const kept = new Set<number>();
  let taken = longest.reduce((sum, length) => sum + broken(length), 0);
  for (const { length, index } of order) {
    taken += length - broken(length);
    if (length > longestFact || taken > lineLetters) break;
    kept.add(index);
  }
  return columns.map((_, index) => kept.has(index));
}
