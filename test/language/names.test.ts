import { describe, expect, test } from 'vitest';
import { definition } from '../../server/src/language/definition.ts';
import { highlights } from '../../server/src/language/highlights.ts';
import { links } from '../../server/src/language/links.ts';
import { references } from '../../server/src/language/references.ts';
import { prepareRename, rename } from '../../server/src/language/rename.ts';
import { marked, bracketed } from '../support/marked.ts';
import { pouch, materials } from '../support/pouch.ts';

const others = { 'materials.piece': materials };
/** The pouch with a cursor in the n-th place where some words stand, behind their first letters. */
function cursorIn(words: string, inside: number, nth = 0): ReturnType<typeof marked> {
  let at = -1;
  for (let index = 0; index <= nth; index++) at = pouch.indexOf(words, at + 1);
  expect(at).toBeGreaterThanOrEqual(0);
  return marked(`${pouch.slice(0, at + inside)}|${pouch.slice(at + inside)}`, others);
}

describe('definition', () => {
  function goesTo(words: string, inside: number, target: string, file = 'main.piece'): void {
    const { snapshot, offset, workspace } = cursorIn(words, inside);
    const found = definition(snapshot, offset);
    expect(found?.target.file).toBe(file);
    const text = workspace.text(file) ?? '';
    const line = text.slice(text.lastIndexOf('\n', (found?.target.start ?? 0) - 1) + 1).split('\n')[0];
    expect(bracketed(line ?? '', [{ start: (found?.target.start ?? 0) - text.lastIndexOf('\n', (found?.target.start ?? 0) - 1) - 1, end: (found?.target.end ?? 0) - text.lastIndexOf('\n', (found?.target.start ?? 0) - 1) - 1 }])).toBe(target);
  }
  test('of a value', () => goesTo('base / 2', 2, 'length [base] = 6 in for S, 8 in for L'));
  test('of a material in another file', () => goesTo('cut 1 canvas', 8, 'material [canvas] "Canvas" {', 'materials.piece'));
  test('of a thing', () => goesTo('holds card', 7, 'thing [card] "Card" = 3 1/2 by 2', 'materials.piece'));
  test('of a piece', () => goesTo('from front', 6, 'piece [front] "Front" {'));
  test('of an edge with a name of its own, from another piece too', () => {
    goesTo('front.hem', 7, '  edge top as [hem]');
    goesTo('allowance hem', 11, '  edge top as [hem]');
    goesTo('lining.hem', 8, '  edge top as [hem]');
  });
  test('of a line', () => goesTo('along core', 7, '  line [core] = inset 1/2'));
  test('of a window', () => goesTo('without view', 9, '  window [view] = rectangle 2 by 1 at 1, 1'));
  test('of a mark', () => goesTo('front.catch', 8, '  mark [catch] for snap 11 mm at 1, 2'));
  test('of a choice and an option', () => {
    goesTo('when closing', 6, 'choice [closing] is flap or cord');
    goesTo('closing is cord', 12, 'choice closing is flap or [cord]');
  });
  test('of a size', () => goesTo('for S', 4, 'sizes [S], L'));
  test('of a side that the shape has by itself', () => goesTo('edge top', 6, '  [outline rectangle base by high]'));
  test('of a file', () => {
    const { snapshot, offset } = cursorIn('"materials.piece"', 4);
    expect(definition(snapshot, offset)?.target).toEqual({ file: 'materials.piece', start: 0, end: 0 });
  });
  test('of nothing', () => {
    const { snapshot, offset } = cursorIn('grain up', 1);
    expect(definition(snapshot, offset)).toBeUndefined();
  });
});

describe('uses', () => {
  test('of a mark, a line and an edge are told apart', () => {
    const { snapshot, offset, text } = cursorIn('as hem', 4);
    const marked = bracketed(text, highlights(snapshot, offset)).split('\n').filter((line) => line.includes('['));
    expect(marked).toEqual(['  edge top as [hem]', '  notch [hem] at 50%', '  allowance [hem] 1/4', 'check front.[hem] matches lining.[hem]']);
  });
  test('of a material in all patterns that use its file', () => {
    const { snapshot, offset, workspace } = cursorIn('cut 1 canvas', 8);
    workspace.setDisk('bag.piece', 'use "materials.piece"\npiece flap {\n  outline rectangle 2 by 2\n  cut 2 canvas\n}\n');
    workspace.setDisk('other.piece', 'material canvas {\n  width 40\n}\n');
    const bag = workspace.snapshot('bag.piece');
    if (bag === undefined) throw new Error('no bag');
    expect(workspace.usersOf('materials.piece')).toEqual(['bag.piece', 'main.piece']);
    const found = references(snapshot, [bag], offset, true);
    expect(found.map((use) => use.file)).toEqual(['bag.piece', 'main.piece', 'main.piece', 'materials.piece']);
    expect(references(snapshot, [bag], offset, false).map((use) => use.file)).toEqual(['bag.piece', 'main.piece', 'main.piece']);
  });
  test('of a function', () => {
    const { snapshot, offset, text } = marked('length a = ma|x(1, 2)\nlength b = max(a, 3)\n');
    expect(bracketed(text, highlights(snapshot, offset))).toBe('length a = [max](1, 2)\nlength b = [max](a, 3)\n');
  });
});

describe('rename', () => {
  function renamed(words: string, inside: number, newName: string): string | undefined {
    const { snapshot, offset, text } = cursorIn(words, inside);
    const changes = rename(snapshot, [], offset, newName);
    if (changes === undefined) return undefined;
    if ('refused' in changes) return changes.refused;
    let result = text;
    for (const change of [...changes].filter(({ file }) => file === 'main.piece').sort((a, b) => b.start - a.start)) result = result.slice(0, change.start) + change.newText + result.slice(change.end);
    return result;
  }
  const replaced = (from: RegExp, to: string): string => pouch.replace(from, to);
  test('a value', () => expect(renamed('base / 2', 1, 'wide')).toBe(replaced(/\bbase\b/g, 'wide')));
  test('an edge', () => expect(renamed('notch hem', 7, 'rim')).toBe(replaced(/\bhem\b/g, 'rim')));
  test('an inner line', () => expect(renamed('along core', 7, 'board_line')).toBe(replaced(/\bcore\b/g, 'board_line')));
  test('a mark', () => expect(renamed('front.catch', 8, 'snap')).toBe(replaced(/mark catch/, 'mark snap').replace('front.catch', 'front.snap')));
  test('a choice', () => expect(renamed('when closing', 6, 'fastening')).toBe(replaced(/\bclosing\b/g, 'fastening')));
  test('an option', () => expect(renamed('closing is cord', 12, 'lace')).toBe(replaced(/\bcord\b/g, 'lace')));
  test('a size', () => expect(renamed('for L', 4, 'XL')).toBe(replaced(/\bL\b/g, 'XL')));
  test('a piece', () => expect(renamed('from front', 6, 'shell')).toBe(replaced(/\bfront\b/g, 'shell')));
  test('is refused where the name is taken', () => expect(renamed('base / 2', 1, 'high')).toBe('The name “high” is already taken.'));
  test('is refused where it would be no name', () => {
    expect(renamed('base / 2', 1, '2nd')).toContain('can’t be a name');
    expect(renamed('base / 2', 1, 'along')).toBe('“along” is a word of the language.');
  });
  test('is refused for what the language names', () => {
    const { snapshot, offset } = cursorIn('edge top', 6);
    expect(prepareRename(snapshot, offset)).toEqual({ refused: expect.stringContaining('Give it a name of your own') });
  });
  test('offers the name under the cursor', () => {
    const { snapshot, offset, text } = cursorIn('along core', 7);
    const found = prepareRename(snapshot, offset);
    expect(found).toMatchObject({ name: 'core' });
    expect(found !== undefined && 'start' in found && text.slice(found.start, found.end)).toBe('core');
  });
});

test('the path of a use line is a link', () => {
  const { snapshot, text } = cursorIn('pattern', 0);
  expect(links(snapshot).map(({ start, end, path }) => [text.slice(start, end), path])).toEqual([['materials.piece', 'materials.piece']]);
});
