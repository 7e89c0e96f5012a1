/** How a piece's name stands in the room that it has on screen. */
export interface NameForm {
  readonly way: 'level' | 'upright';
  /** In smaller letters. */
  readonly small: boolean;
  /** Pixels after which it goes on in the next line. */
  readonly width: number;
  /** What is written below the title; undefined where there is no room for any of it. */
  readonly details: NameDetails | undefined;
  /** What it takes up on screen, pixels. */
  readonly box: Extent;
}

export interface Extent {
  readonly width: number;
  readonly height: number;
}

/** How many are cut of a piece and its finished size; words that stay together are joined by spaces that don't break. */
export interface NameDetails {
  readonly text: string;
  /** Whether its size is among them. */
  readonly isSized: boolean;
}

/** What is written in a piece. */
export interface NameWords {
  readonly title: string;
  /** The longest first; the first that has room is written. */
  readonly details: readonly NameDetails[];
}

interface Room {
  readonly across: number;
  readonly high: number;
}

type WidthOf = (words: string) => number;

/** A line of it, pixels. */
const lineHigh = 16;
/** Room on both sides together, pixels. */
const margin = 8;
/** Smaller letters to usual ones, as in the style. */
export const smaller = 0.82;

/**
 * With as much of its details as there is room for; level in as many lines as it needs rather than upright in one of each,
 * and in usual letters rather than in smaller ones. Undefined where there is no room.
 *
 * @param widthOf how wide words are on screen in usual letters, pixels
 */
export function nameForm({ title, details }: NameWords, room: Room, widthOf: WidthOf): NameForm | undefined {
  for (const one of details) {
    const found = levelForm(title, one, room, widthOf, 1) ?? levelForm(title, one, room, widthOf, smaller) ?? uprightForm(title, one, room, widthOf, 1) ?? uprightForm(title, one, room, widthOf, smaller);
    if (found !== undefined) return found;
  }
  return levelForm(title, undefined, room, widthOf, 1) ?? uprightForm(title, undefined, room, widthOf, 1) ?? levelForm(title, undefined, room, widthOf, smaller) ?? uprightForm(title, undefined, room, widthOf, smaller);
}

function levelForm(title: string, details: NameDetails | undefined, { across, high }: Room, usual: WidthOf, letters: number): NameForm | undefined {
  const widthOf = (words: string): number => usual(words) * letters;
  const [lines, below] = [linesWithin(title, across - margin, widthOf), details === undefined ? 0 : linesWithin(details.text, across - margin, widthOf)];
  if (lines === undefined || below === undefined) return undefined;
  const height = (lines + below) * lineHigh * letters;
  if (height > high) return undefined;
  const width = Math.min(across, Math.max(widthOf(title), widthOf(details?.text ?? '')) + margin);
  return { way: 'level', small: letters < 1, width: across, details, box: { width, height } };
}

function uprightForm(title: string, details: NameDetails | undefined, { across, high }: Room, usual: WidthOf, letters: number): NameForm | undefined {
  const width = (details === undefined ? 1 : 2) * lineHigh * letters;
  const height = Math.max(usual(title), usual(details?.text ?? '')) * letters + margin;
  return width > across || height > high ? undefined : { way: 'upright', small: letters < 1, width: high, details, box: { width, height } };
}

/** How wide some words are in two lines of about the same length; undefined of what can't be broken. */
export function widthInTwo(words: string, widthOf: WidthOf): number | undefined {
  const breaks = [...words.matchAll(/ /g)].map(({ index }) => Math.max(widthOf(words.slice(0, index)), widthOf(words.slice(index + 1))));
  return breaks.length === 0 ? undefined : Math.min(...breaks);
}

/** How many lines some words take; undefined where one of them is too long. */
function linesWithin(title: string, width: number, widthOf: (words: string) => number): number | undefined {
  let lines = 1;
  let line = '';
  for (const word of title.split(' ')) {
    if (widthOf(word) > width) return undefined;
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer) <= width) line = longer;
    else {
      lines++;
      line = word;
    }
  }
  return lines;
}

/** More words than a board of many pieces has, with their sizes. */
const mostKnown = 5000;

/**
 * Measures bold words in the page's own typeface; each is measured once, until that may be another.
 *
 * @param penOf what measures them, made anew for another typeface
 */
export function wordWidths(penOf: () => (words: string) => number = pagePen): { readonly widthOf: (words: string) => number; readonly forget: () => void } {
  const known = new Map<string, number>();
  let pen: ((words: string) => number) | undefined;
  const widthOf = (words: string): number => {
    const before = known.get(words);
    if (before !== undefined) return before;
    const width = (pen ??= penOf())(words);
    // Every key that is typed in a title makes another.
    if (known.size >= mostKnown) known.clear();
    known.set(words, width);
    return width;
  };
  const forget = (): void => {
    known.clear();
    pen = undefined;
  };
  return { widthOf, forget };
}

function pagePen(): (words: string) => number {
  const { fontFamily, fontSize } = getComputedStyle(document.body);
  const pen = document.createElement('canvas').getContext('2d');
  if (pen !== null) pen.font = `600 ${fontSize} ${fontFamily}`;
  return (words) => pen?.measureText(words).width ?? words.length * lineHigh / 2;
}
