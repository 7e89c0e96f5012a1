import { describe, expect, test } from 'vitest';
import { completion } from '../../server/src/language/completion.ts';
import { marked } from '../support/marked.ts';
import { pouch, materials } from '../support/pouch.ts';

const others = { 'materials.piece': materials };

/** What is offered for a line put before the first line of `front` that cuts something, or at the end of the file. */
function offered(line: string, where: 'piece' | 'file' = 'piece'): readonly string[] {
  const text = where === 'piece' ? pouch.replace('  cut 1 canvas\n', `  ${line}\n  cut 1 canvas\n`) : `${pouch}${line}`;
  const { snapshot, offset, workspace } = marked(text, others);
  return completion(snapshot, offset, workspace.paths()).map((item) => item.label);
}

function check(line: string, wanted: readonly string[], unwanted: readonly string[] = [], where: 'piece' | 'file' = 'piece'): void {
  const labels = offered(line, where);
  for (const label of wanted) expect(labels, `${line} offers ${label}`).toContain(label);
  for (const label of unwanted) expect(labels, `${line} doesn’t offer ${label}`).not.toContain(label);
}

describe('inside a piece', () => {
  test('a new line begins with a word of the block', () => check('|', ['cut', 'notch', 'on fold'], ['material', 'role', 'kind']));
  test('a started word keeps its place', () => check('cu|', ['cut'], ['canvas']));
  test('a count comes before the material', () => check('cut |', ['rows'], ['canvas', 'base']));
  test('materials follow a count, also one that is a formula', () => {
    check('cut 2 |', ['canvas', 'crisp'], ['front', 'rows']);
    check('cut rows |', ['canvas', 'crisp'], ['front']);
    check('cut rows + 1 |', ['canvas'], ['front']);
    check('cut 2 ca|', ['canvas'], ['front']);
  });
  test('clauses follow the material', () => check('cut 1 canvas |', ['along', 'twins', 'when', 'sized', 'note'], ['crisp']));
  test('a clause is offered once', () => check('cut 1 canvas twins |', ['along'], ['twins']));
  test('lines follow along', () => check('cut 1 canvas along |', ['core', 'view', 'cutting', 'stitching'], ['canvas', 'catch']));
  test('windows follow without', () => check('cut 1 canvas without |', ['view'], ['core']));
  test('choices follow when, options follow is', () => {
    check('cut 1 canvas when |', ['closing', 'size', 'not'], ['flap']);
    check('cut 1 canvas when closing is |', ['flap', 'cord', 'not'], ['S', 'closing']);
    check('cut 1 canvas when size is not |', ['S', 'L'], ['flap']);
    check('cut 1 canvas when closing |', ['is'], ['flap']);
    check('cut 1 canvas when closing is flap or |', ['cord'], ['S']);
  });
  test('edges where an edge is wanted', () => {
    check('notch |', ['hem', 'left', 'right', 'bottom'], ['top', 'core']);
    check('on fold |', ['hem', 'left'], ['canvas']);
    check('line x = inset 1/4 except |', ['hem', 'left'], ['core']);
  });
  test('corner names', () => check('corner |', ['all', 'top_left', 'bottom'], ['hem']));
  test('units follow a number', () => check('line x = inset 1/4 |', ['except', 'in', 'mm'], ['hem']));
  test('units follow a number in a formula', () => check('notch hem at 3 |', ['in', 'cm', 'mm', 'yd', 'from start']));
  test('a formula offers values, pieces and functions', () => check('outline rectangle |', ['base', 'high', 'round_up', 'front'], ['core', 'flap']));
  test('shapes', () => {
    check('outline |', ['rectangle', 'circle across', 'path from'], ['level at', 'inset']);
    check('foldline f = |', ['level at', 'upright at', 'inset', 'rectangle']);
  });
  test('no unit without a number before it', () => {
    check('notch hem at 50% |', ['from start', 'from end'], ['in', 'mm']);
    check('outline rectangle base |', ['by'], ['in']);
    check('outline rectangle 3 |', ['by', 'in'], []);
  });
  test('a size has two sides', () => {
    check('cut 1 canvas sized 3 |', ['by', 'in'], ['along']);
    check('cut 1 canvas sized 3 by |', ['base'], ['by', 'along']);
    check('cut 1 canvas sized 3 by 4 |', ['large by', 'when', 'in'], ['by', 'sized']);
  });
  test('a mark is for a snap', () => check('mark dot for |', ['snap'], ['at', 'S']));
  test('a quoted text is for the designer to say', () => {
    expect(offered('note |')).toEqual([]);
    expect(offered('cut 1 canvas note |')).toEqual([]);
    expect(offered('check front holds card else warning |', 'file')).toEqual([]);
  });
  test('corners of an allowance are said once', () => {
    check('allowance hem 1 |', ['mitred', 'rounded']);
    check('allowance hem 1 mitred |', ['limit'], ['rounded']);
    expect(offered('allowance hem 1 rounded |')).toEqual([]);
  });
  test('a name that is being made up is left alone', () => expect(offered('line |')).toEqual([]));
  test('nothing in a comment or a text', () => {
    expect(offered('cut 1 canvas # wh|')).toEqual([]);
    expect(offered('note "cut |"')).toEqual([]);
  });
  test('after a piece and a dot: edges, lines, measures', () => {
    check('outline rectangle front.|', ['hem', 'core', 'width', 'area'], ['base', 'catch_set']);
    check('outline rectangle front.wi|', ['width']);
    check('outline rectangle front.core.|', ['width', 'height', 'area', 'length'], ['hem']);
  });
});

describe('in the order of use', () => {
  test('what is in most use stands first', () => {
    expect(offered('|', 'file').slice(0, 4)).toEqual(['unit', 'piece', 'length', 'count']);
    expect(offered('|').slice(0, 3)).toEqual(['cut', 'line', 'placement']);
    expect(offered('material m "M" {\n  |', 'file').slice(0, 2)).toEqual(['role', 'width']);
  });
  test('what a file, or a block, says once is not offered again', () => {
    check('|', ['unit', 'step'], ['pattern', 'revision', 'sizes', 'allowance'], 'file');
    check('|', ['on fold', 'this way up', 'edge'], ['outline', 'grain']);
    check('piece p "P" {\n  grain up\n  |', ['outline', 'cut', 'this way up'], ['grain'], 'file');
    check('supply s "S" {\n  at front.catch\n  count 2\n  |', ['at', 'kind', 'note'], ['count'], 'file');
  });
  test('what is being written anew is offered where it stands', () => {
    const { snapshot, offset } = marked(pouch.replace('revision 1', 'rev|ision 1'), others);
    expect(completion(snapshot, offset, []).map(({ label }) => label)).toContain('revision');
    const inside = marked(pouch.replace('outline rectangle base', 'out|line rectangle base'), others);
    expect(completion(inside.snapshot, inside.offset, []).map(({ label }) => label)).toContain('outline');
  });
});

test('units follow a whole number or fraction, not half of one', () => {
  const units = (line: string): readonly string[] => offered(line).filter((label) => ['in', 'cm', 'mm', 'm', 'yd', 'ft', 'deg'].includes(label));
  for (const line of ['line x = inset 9 1/|', 'line x = inset 1/|', 'line x = inset 9 1|', 'line x = inset 9 1/ |']) expect(offered(line), line).toEqual([]);
  for (const line of ['line x = inset 9 |', 'line x = inset 9 1/2 |', 'line x = inset 9½|', 'line x = inset .5 |', 'line x = inset base / 2 |']) expect(units(line), line).toContain('in');
  expect(units('grain 30 |')).toEqual(['deg']);
  expect(units('cut 2 |')).toEqual([]);
  expect(units('material m "M" {\n  price 9 |')).toEqual([]);
});

describe('in a file', () => {
  test('a new line begins with a word of the file', () => check('|', ['piece', 'length', 'check', 'use'], ['cut', 'role'], 'file'));
  test('options follow for', () => check('length x = 1 in for |', ['S', 'L', 'flap', 'closing'], ['base'], 'file'));
  test('options of a choice that is named', () => check('length x = 1 in for closing |', ['flap', 'cord'], ['S'], 'file'));
  test('a formula offers values and functions', () => check('length x = |', ['base', 'high', 'max', 'front'], ['flap'], 'file'));
  test('otherwise comes last, after a value for an option', () => {
    check('length x = 3 |', ['in'], ['otherwise'], 'file');
    check('length x = base |', ['for'], ['otherwise'], 'file');
    check('length x = 3 for S, base |', ['for', 'otherwise'], [], 'file');
    expect(offered('length x = 3 for S, base otherwise |', 'file')).toEqual([]);
  });
  test('pieces follow from, lines follow above', () => {
    check('piece x from |', ['front', 'lining'], ['canvas'], 'file');
    check('piece x from front |', ['above', 'mirrored', 'when'], ['front'], 'file');
    check('piece x from front above |', ['core', 'view'], ['hem'], 'file');
  });
  test('checks', () => {
    check('check front |', ['mates', 'holds'], [], 'file');
    check('check front holds |', ['card'], ['flap'], 'file');
    check('check front.core clears front.|', ['cutting', 'stitching', 'core'], [], 'file');
    check('check front.hem matches lining.hem within |', ['base'], ['when', 'else'], 'file');
    check('check front.hem matches lining.hem within base |', ['when', 'else'], ['within', 'eased by'], 'file');
    check('check front holds card with |', ['ease'], ['when'], 'file');
  });
  test('the words of facts', () => {
    check('material m "M" {\n  role |', ['main', 'fusible'], ['differ'], 'file');
    check('material m "M" {\n  |', ['role', 'width', 'bought in lengths of'], ['cut', 'usable'], 'file');
    check('material m "M" {\n  price 9 per |', ['yd', 'each'], [], 'file');
    check('supply s "S" {\n  kind |', ['zip', 'snap'], [], 'file');
    check('supply s "S" {\n  kind snap\n  at front.|', ['catch'], ['core', 'width'], 'file');
  });
  test('paths of other files', () => {
    const { snapshot, offset, workspace } = marked('use "|"\n', { 'studio/cloth.piece': '', 'b/own.piece': '' }, 'b/main.piece');
    expect(completion(snapshot, offset, workspace.paths()).map((item) => item.label)).toEqual(['own.piece', '../studio/cloth.piece']);
  });
  test('steps of a path', () => {
    check('piece p "P" {\n  outline path from 0, 0 {\n    |', ['line to', 'arc to', 'close'], ['cut'], 'file');
    check('piece p "P" {\n  outline path from 0, 0 {\n    arc to 1, 1 |', ['through', 'radius'], [], 'file');
    check('piece p "P" {\n  outline path from 0, 0 {\n    arc to 1, 1 radius 2 |', ['left', 'right'], ['through'], 'file');
    check('piece p "P" {\n  outline path from 0, 0 {\n    curve to 1, 1 by 2, 2 |', ['and'], ['by', 'as'], 'file');
    check('piece p "P" {\n  outline path from 0, 0 {\n    line to 1, 1 as side |', [], ['as'], 'file');
  });
  test('a broken line above is no hindrance', () => check('piece p "P" {\n  outline rectangl 3 by\n  cut 2 |', ['canvas'], [], 'file'));
});

test('what is written takes the place of the started word', () => {
  const { snapshot, offset, text } = marked(pouch.replace('cut 1 crisp', 'cut 1 cri|'), others);
  const [item] = completion(snapshot, offset, []);
  expect(text.slice(item?.start, item?.end)).toBe('cri');
});

test('snippets carry a meaning and an example', () => {
  const { snapshot, offset } = marked('|', others);
  const piece = completion(snapshot, offset, []).find((item) => item.label === 'piece');
  expect(piece).toMatchObject({ isSnippet: true, kind: 'keyword' });
  expect(piece?.documentation).toContain('```piecewright\npiece front "Front" {');
});

describe('what is told of names', () => {
  const told = (line: string, label: string): string | undefined => {
    const { snapshot, offset } = marked(pouch.replace('  cut 1 canvas\n', `  ${line}\n  cut 1 canvas\n`), others);
    return completion(snapshot, offset, []).find((item) => item.label === label)?.documentation;
  };
  test('a value with its formula', () => {
    expect(told('outline rectangle |', 'high')).toBe('`base / 2 + 1` = 4 in or 5 in');
    expect(told('outline rectangle |', 'base')).toBe('`6 in for S, 8 in for L` = 6 in or 8 in');
    expect(told('outline rectangle |', 'rows')).toBe('`2`');
  });
  test('a material with its role and width', () => expect(told('cut 1 |', 'canvas')).toBe('role main, width 58 in usable 56 in'));
  test('a piece with its size, a thing with its own, a supply with its kind', () => {
    expect(told('outline rectangle |', 'lining')).toBe('6 in × 4 in as cut (first options)');
    expect(told('outline rectangle |', 'card')).toBe('3 1/2 by 2');
    expect(told('outline rectangle |', 'catch_set')).toBe('kind snap, across 11 mm');
  });
  test('an edge with its length', () => expect(told('notch |', 'left')).toBe('3 1/4 in along the stitching line'));
});
