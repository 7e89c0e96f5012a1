/** Where a part of a text begins, line and column counted from 1; the last of it where it is marked with `|`. */
export function placeOf(text: string, part: string): readonly [line: number, column: number] {
  const mark = part.indexOf('|');
  const found = text.indexOf(part.replace('|', ''));
  if (found < 0) throw new Error(`“${part}” is not in the text.`);
  const before = text.slice(0, found + Math.max(0, mark)).split('\n');
  return [before.length, (before.at(-1) ?? '').length + 1];
}
