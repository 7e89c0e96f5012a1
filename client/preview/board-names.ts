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
 * With its finished size and its count wherever there is room for both, or else with its size alone; level in as many lines as
 * it needs rather than upright in one of each, and in usual letters rather than in smaller ones. Undefined where there is no room.
 *
 * @param widthOf how wide words are on screen in usual letters, pixels
 */
export function nameForm(words: NameWords, room: { readonly across: number; readonly high: number }, widthOf: (words: string) => number): NameForm | undefined {
  const [usual, small] = [1, smaller].map((letters) => ({ level: levelForm(words, room, widthOf, letters), upright: uprightForm(words, room, widthOf, letters) }));
  const inOrder = [usual?.level, small?.level, usual?.upright, small?.upright];
  return inOrder.find((form) => form?.sized === true && form.counted)
    ?? inOrder.find((form) => form?.sized === true)
    ?? usual?.level ?? usual?.upright ?? small?.level ?? small?.upright;
}

function levelForm({ title, size }: NameWords, { across, high }: { readonly across: number; readonly high: number }, usual: (words: string) => number, letters: number): NameForm | undefined {
  const widthOf = (words: string): number => usual(words) * letters;
  const line = lineHigh * letters;
  const lines = linesWithin(title, across - margin, widthOf);
  if (lines === undefined || lines * line > high) return undefined;
  const sizeLines = linesWithin(size, across - margin, widthOf);
  const sized = sizeLines !== undefined && (lines + sizeLines) * line <= high;
  const below = sized ? sizeLines : 0;
  const counted = (lines + below + 1) * line <= high;
  const width = Math.min(across, Math.max(widthOf(title), sized ? widthOf(size) : 0) + margin);
  return { way: 'level', small: letters < 1, width: across, counted, sized, box: { width, height: (lines + below + (counted ? 1 : 0)) * line } };
}

function uprightForm({ title, size }: NameWords, { across, high }: { readonly across: number; readonly high: number }, usual: (words: string) => number, letters: number): NameForm | undefined {
  const widthOf = (words: string): number => usual(words) * letters;
  const line = lineHigh * letters;
  if (line > across || widthOf(title) + margin > high) return undefined;
  const sized = 2 * line <= across && widthOf(size) + margin <= high;
  const counted = (sized ? 3 : 2) * line <= across;
  const height = (sized ? Math.max(widthOf(title), widthOf(size)) : widthOf(title)) + margin;
  return { way: 'upright', small: letters < 1, width: high, counted, sized, box: { width: (1 + (sized ? 1 : 0) + (counted ? 1 : 0)) * line, height } };
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
