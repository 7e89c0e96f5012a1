/** A place in a text as people count: both from 1, columns in UTF-16 code units. */
export interface LineColumn {
  readonly line: number;
  readonly column: number;
}

/** Finds lines and columns in one text. A line ends with CR, LF or both. */
export function lineFinder(text: string): (offset: number) => LineColumn {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\r|\n/g)) starts.push(match.index + match[0].length);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
  };
}
