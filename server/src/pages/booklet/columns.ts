import { widthOf } from '../letters/letters.ts';
import { wordsOf } from '../letters/words-of.ts';

/** A word longer than this may be broken. */
const longestWord = 34;

/**
 * Widths for the columns of a table: each as wide as its longest cell where all have room; else none narrower than its
 * longest word, and what is left shared by how much more each could use.
 *
 * @returns undefined where even the words have no room
 */
export function columnWidths(heads: readonly string[], rows: readonly (readonly string[])[], width: number, gap: number, size: number): readonly number[] | undefined {
  const free = width - gap * (heads.length - 1);
  const cells = heads.map((head, column) => [{ text: head, weight: 'bold' as const }, ...rows.map((row) => ({ text: row[column] ?? '', weight: 'regular' as const }))]);
  const natural = cells.map((all) => Math.max(1, ...all.map(({ text, weight }) => (text.length > 200 ? free : widthOf(text, size, weight)))) + 0.01);
  const sum = natural.reduce((total, one) => total + one, 0);
  if (sum <= free) return natural;
  const least = cells.map((all, column) => Math.min(natural[column] ?? 0, Math.max(1, ...all.flatMap(({ text, weight }) => wordsOf(text.slice(0, 400)).map((word) => Math.min(longestWord, widthOf(word, size, weight))))) + 0.01));
  const tight = least.reduce((total, one) => total + one, 0);
  if (tight > free) return undefined;
  // Wider cells get more, but less than in proportion: three lines of a note cost less than three of everything else.
  const wish = natural.map((one, column) => Math.sqrt(Math.max(0, one - (least[column] ?? 0))));
  return shared(natural, least, wish, free - tight);
}

/** Shares what is left, again and again, since some have enough before others. */
function shared(natural: readonly number[], least: readonly number[], wish: readonly number[], left: number): readonly number[] {
  const widths = [...least];
  let rest = left;
  for (let round = 0; round < natural.length && rest > 1e-6; round++) {
    const open = widths.map((one, column) => one < (natural[column] ?? 0) - 1e-9);
    const total = wish.reduce((sum, one, column) => sum + (open[column] === true ? one : 0), 0);
    if (total === 0) break;
    const share = rest;
    widths.forEach((one, column) => {
      if (open[column] !== true) return;
      const more = Math.min((natural[column] ?? 0) - one, (share * (wish[column] ?? 0)) / total);
      widths[column] = one + more;
      rest -= more;
    });
  }
  return widths;
}
