/** How a piece's name stands in the room that it has on screen. */
export interface NameForm {
  readonly way: 'level' | 'upright';
  /** In smaller letters. */
  readonly small: boolean;
  /** Pixels after which it goes on in the next line. */
  readonly width: number;
  /** Whether there is room for how many are cut, and for the finished size. */
  readonly counted: boolean;
  readonly sized: boolean;
  /** What it takes up on screen, pixels. */
  readonly box: { readonly width: number; readonly height: number };
}

/** What is written in a piece. */
export interface NameWords {
  readonly title: string;
  /** Its finished size; words that stay together are joined by spaces that don't break. */
  readonly size: string;
}

/** A line of it, pixels. */
const lineHigh = 16;
/** Room on both sides together, pixels. */
const margin = 8;
/** Smaller letters to usual ones, as in the style. */
export const smaller = 0.82;

/**
 * Level where there is room for it, in as many lines as it needs; else upright in one. Letters are made smaller where that
 * gives the finished size its room, or else the name. Undefined where there is no room.
 *
 * @param widthOf how wide words are on screen in usual letters, pixels
 */
export function nameForm(words: NameWords, room: { readonly across: number; readonly high: number }, widthOf: (words: string) => number): NameForm | undefined {
  const usual = formIn(words, room, widthOf, 1);
  if (usual?.sized === true) return usual;
  const small = formIn(words, room, widthOf, smaller);
  return small?.sized === true ? small : (usual ?? small);
}

function formIn({ title, size }: NameWords, { across, high }: { readonly across: number; readonly high: number }, usual: (words: string) => number, letters: number): NameForm | undefined {
  const widthOf = (words: string): number => usual(words) * letters;
  const [small, line] = [letters < 1, lineHigh * letters];
  const lines = linesWithin(title, across - margin, widthOf);
  if (lines !== undefined && lines * line <= high) {
    const counted = (lines + 1) * line <= high;
    const sizeLines = linesWithin(size, across - margin, widthOf);
    const sized = sizeLines !== undefined && (lines + 1 + sizeLines) * line <= high;
    const all = lines + (counted ? 1 : 0) + (sized ? sizeLines : 0);
    return { way: 'level', small, width: across, counted, sized, box: { width: Math.min(across, Math.max(widthOf(title), sized ? widthOf(size) : 0) + margin), height: all * line } };
  }
  if (line <= across && widthOf(title) + margin <= high) {
    const counted = 2 * line <= across;
    const sized = 3 * line <= across && widthOf(size) + margin <= high;
    return { way: 'upright', small, width: high, counted, sized, box: { width: (sized ? 3 : counted ? 2 : 1) * line, height: (sized ? Math.max(widthOf(title), widthOf(size)) : widthOf(title)) + margin } };
  }
  return undefined;
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
