/** How a piece's name stands in the room that it has on screen. */
export interface NameForm {
  readonly way: 'level' | 'upright';
  /** Pixels after which it goes on in the next line. */
  readonly width: number;
  /** Whether there is room for how many are cut. */
  readonly counted: boolean;
  /** What it takes up on screen, pixels. */
  readonly box: { readonly width: number; readonly height: number };
}

/** A line of it, pixels. */
const lineHigh = 16;
/** Room on both sides together, pixels. */
const margin = 8;

/**
 * Level where there is room for it, in as many lines as it needs; else upright in one. Undefined where there is no room.
 *
 * @param widthOf how wide words are on screen, pixels
 */
export function nameForm(title: string, { across, high }: { readonly across: number; readonly high: number }, widthOf: (words: string) => number): NameForm | undefined {
  const lines = linesWithin(title, across - margin, widthOf);
  if (lines !== undefined && lines * lineHigh <= high) {
    const counted = (lines + 1) * lineHigh <= high;
    return { way: 'level', width: across, counted, box: { width: Math.min(across, widthOf(title) + margin), height: (counted ? lines + 1 : lines) * lineHigh } };
  }
  if (lineHigh <= across && widthOf(title) + margin <= high) {
    const counted = 2 * lineHigh <= across;
    return { way: 'upright', width: high, counted, box: { width: (counted ? 2 : 1) * lineHigh, height: widthOf(title) + margin } };
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

/** Measures bold words in the page's own typeface; each is measured once. */
export function wordWidths(): (words: string) => number {
  const known = new Map<string, number>();
  let pen: CanvasRenderingContext2D | null | undefined;
  return (words) => {
    const before = known.get(words);
    if (before !== undefined) return before;
    if (pen === undefined) {
      const { fontFamily, fontSize } = getComputedStyle(document.body);
      pen = document.createElement('canvas').getContext('2d');
      if (pen !== null) pen.font = `600 ${fontSize} ${fontFamily}`;
    }
    const width = pen?.measureText(words).width ?? words.length * lineHigh / 2;
    known.set(words, width);
    return width;
  };
}
