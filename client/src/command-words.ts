/** What commands write and say, apart from the editor that they do it in. */

/** Line breaks that leave one empty line between a text and what is put below it. */
export function gapBelow(text: string): string {
  if (text.trim() === '' || /\n[ \t]*\r?\n[ \t]*$/.test(text)) return '';
  return /\n[ \t]*$/.test(text) ? '\n' : '\n\n';
}

export const nothingToFix = 'There is nothing that can be fixed without a decision of yours.';

/** How many lines are no longer as they were. */
export function fixedWords(before: string, after: string): string {
  const rest = new Map<string, number>();
  for (const line of after.split(/\r?\n/)) rest.set(line, (rest.get(line) ?? 0) + 1);
  let changed = 0;
  for (const line of before.split(/\r?\n/)) {
    const left = rest.get(line) ?? 0;
    if (left === 0) changed++;
    else rest.set(line, left - 1);
  }
  const added = [...rest.values()].reduce((sum, count) => sum + count, 0);
  const count = Math.max(changed, added);
  return `All safe fixes are applied: ${count === 1 ? '1 line is' : `${count} lines are`} changed. Nothing that is cut is different.`;
}
