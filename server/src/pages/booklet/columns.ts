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
  return lowered(shared(natural, least, wish, free - tight), natural, least, cells.map((all) => all.slice(0, mostRows).map(({ text, weight }) => wordsOf(text.slice(0, 400)).map((word) => widthOf(word, size, weight)))), widthOf(' ', size));
}

/** The head and the first rows stand for all: what is alike in them is alike in the others. */
const mostRows = 40;
/** By how much a column is made wider at the cost of another, millimetres. */
const moves = [12, 6, 3, 1] as const;
/** A line more in any cell counts so much against a line more of a row, so that of two cells that are as high both are lowered in turn. */
const beside = 0.02;

/** Widths that make a table lower: from column to column, as long as its rows get lines fewer by that. */
function lowered(from: readonly number[], natural: readonly number[], least: readonly number[], cells: readonly (readonly (readonly number[])[])[], space: number): readonly number[] {
  const widths = [...from];
  const known = cells.map(() => new Map<number, readonly number[]>());
  const linesIn = (column: number, width: number): readonly number[] => {
    const kept = known[column]?.get(width);
    if (kept !== undefined) return kept;
    const lines = (cells[column] ?? []).map((words) => linesOfWords(words, width, space));
    known[column]?.set(width, lines);
    return lines;
  };
  const rows = (cells[0] ?? []).map((_, row) => row);
  const height = (of: readonly number[]): number => {
    const lines = of.map((width, column) => linesIn(column, width));
    return rows.reduce((sum, row) => lines.reduce((more, column) => more + beside * (column[row] ?? 1), sum + Math.max(...lines.map((column) => column[row] ?? 1))), 0);
  };
  let now = height(widths);
  for (const most of moves) {
    for (;;) {
      let best: { readonly widths: readonly number[]; readonly height: number } | undefined;
      for (let to = 0; to < widths.length; to++) {
        for (let giver = 0; giver < widths.length; giver++) {
          const by = Math.min(most, (natural[to] ?? 0) - (widths[to] ?? 0), (widths[giver] ?? 0) - (least[giver] ?? 0));
          if (giver === to || by < 0.5) continue;
          const moved = widths.map((width, column) => (column === to ? width + by : column === giver ? width - by : width));
          const found = height(moved);
          if (found < (best?.height ?? now) - 1e-9) best = { widths: moved, height: found };
        }
      }
      if (best === undefined) break;
      widths.splice(0, widths.length, ...best.widths);
      now = best.height;
    }
  }
  return widths;
}

/** How many lines words of these widths take. */
function linesOfWords(words: readonly number[], width: number, space: number): number {
  let [lines, used] = [1, 0];
  for (const wide of words) {
    if (used > 0 && used + space + wide > width) [lines, used] = [lines + 1, 0];
    used += (used > 0 ? space : 0) + wide;
    // A word wider than the column is broken.
    while (used > width + 1e-9) [lines, used] = [lines + 1, used - width];
  }
  return lines;
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
