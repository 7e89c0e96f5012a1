import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { parseDeclaration, parseFile } from '../../server/src/syntax/parse.ts';
import { splitDeclarations } from '../../server/src/syntax/split.ts';
import { printDeclaration } from '../../server/src/syntax/print.ts';
import { declaration } from '../support/arbitrary-tree.ts';
import { sample } from '../support/samples.ts';

// Many cases each, and machines that do other work beside.
vi.setConfig({ testTimeout: 30_000 });

const read = (text: string) => parseFile('a.piece', text);
const kinds = (text: string): readonly string[] => read(text).declarations.map((one) => one.declaration.tree.kind);
const problems = (text: string): readonly string[] => read(text).declarations.flatMap(({ declaration: one }) => one.problems.map((problem) => `${problem.kind} ${one.text.slice(problem.start, problem.end)}`));

describe('every kind of line', () => {
  const top: Readonly<Record<string, readonly string[]>> = {
    pattern: ['pattern "Small pouch"'],
    revision: ['revision 12'],
    issued: ['issued 3 as "0123456789ab"'],
    unit: ['unit in', 'unit cm', 'unit mm'],
    step: ['step 1/16'],
    currency: ['currency "EUR"'],
    use: ['use "studio/materials.piece"'],
    sizes: ['sizes S, M, L', 'sizes S,\n  M'],
    choice: ['choice tab is fabric or cork', 'choice tab is fabric, cork or felt'],
    value: ['length a = 3 1/2', 'count n = 2', 'ratio r = 50%', 'angle t = 45 deg', 'area s = a * a', 'length w = 30 in for S, 34 in for size M, 38 in otherwise'],
    thing: ['thing card "Bank card" = 85.60 mm by 53.98 mm', 'thing card = 3 by 2'],
    material: ['material canvas "Canvas" {\n}', 'material canvas {\n  width 58 in\n}'],
    supply: ['supply zip "Zip" when tab is cork {\n  kind zip\n}'],
    piece: ['piece a {}', 'piece a "A" from b above fold left of c mirrored inset 1/8 when tab is fabric {\n}'],
    check: ['check a matches b eased by 1/8 within 1/16', 'check a.core clears a.cutting by 1/2 else "Words"', 'check a holds card with ease 1/8', 'check a holds 3 by 4', 'check a mates b', 'check a.width <= b or not (tab is not cork) when size is S else warning'],
    drawn: ['drawn to stitching'],
    allowance: ['allowance 3/8', 'allowance none'],
    note: ['note "Press first."'],
  };
  test.each(Object.entries(top).flatMap(([kind, lines]) => lines.map((line) => [kind, line])))('%s: %s', (kind, line) => {
    expect(kinds(line)).toEqual([kind]);
    expect(problems(line)).toEqual([]);
  });

  const inside: Readonly<Record<'piece' | 'material' | 'supply', Readonly<Record<string, readonly string[]>>>> = {
    piece: {
      outline: [
        'outline rectangle 3 by 4 at 1, 2', 'outline circle across 3 from 0 deg to 90 deg through middle centred at 1, 1', 'outline ellipse 3 by 2', 'outline polygon from 0, 0 to 1, 0 to 1, 1',
        'outline path from 0, 0 {\n line to 1, 0 as base\n arc to 2, 2 through 1, 1\n arc to 2, 2 radius 3 left\n curve to 0, 3 by 1, 1 and 2, 2\n close as back\n }',
      ],
      corner: ['corner all round 1/2', 'corner top box 1 by 2'],
      edge: ['edge top as brim'],
      drawn: ['drawn to cutting'],
      allowance: ['allowance top 1/4 mitred limit 3', 'allowance 1/4 bevelled', 'allowance top none', 'allowance top (1) rounded', 'allowance top 2 turned back'],
      'on fold': ['on fold left'],
      grain: ['grain up', 'grain bias or across', 'grain 30 deg', 'grain none'],
      'way up': ['this way up'],
      'template folded': ['template folded'],
      line: ['line core = inset 1/2 except top 1, left 2 from stitching', 'foldline f = level at 3', 'placement p = from 0, 0 to 1, 1', 'window w = rectangle 1 by 1'],
      notch: ['notch top at 50%', 'notch top at 1 from end'],
      mark: ['mark clasp at 1, 2', 'drill d for snap 14 mm at 1, 2'],
      note: ['note "x"'],
      cut: ['cut 2 canvas', 'cut rows * 2 canvas along core twins without w and v on wrong side of canvas large by 1/4 when n > 1 note "x"', 'cut 1 crisp sized 3 by 4 on fold mirrored on right side'],
    },
    material: {
      role: ['role non-fray'], width: ['width 58 in usable 56 in'], faces: ['faces differ'], direction: ['direction one  way'], weight: ['weight light'],
      bought: ['bought in lengths of 1/8 yd', 'bought in panels of 18 in by 22 in', 'bought in sheets of 2 by 3'], shrinks: ['shrinks 4% by 2%'], price: ['price 18.50 per yd'], note: ['note "x"'],
    },
    supply: {
      'supply kind': ['kind zip'], count: ['count 2'], finished: ['finished w - 3'], across: ['across 14 mm'], length: ['length 3 for S, 4 otherwise'], from: ['from closed 6', 'from tape 8'],
      at: ['at cover.clasp, tab.cap'], fits: ['fits strap'], bought: ['bought in lengths of 1 m'], price: ['price 0.80 per each'], note: ['note "x"'],
    },
  };
  test.each(Object.entries(inside).flatMap(([block, ofKind]) => Object.entries(ofKind).flatMap(([kind, lines]) => lines.map((line) => [block, kind, line]))))('%s, %s: %s', (block, kind, line) => {
    const { tree, problems: found } = parseDeclaration('a.piece', `${block} x {\n  ${line}\n}\n`);
    expect('body' in tree && tree.body.statements.map((one) => one.kind)).toEqual([kind]);
    expect(found).toEqual([]);
  });

  test('a call after “or” is no option', () => {
    expect(problems('check tab is cork or min(a, b) > 3')).toEqual([]);
  });
});

describe('a line that can’t be read', () => {
  test.each([
    ['at the top', 'revision 3\nlengt a = 3\nrevision 4\n', ['revision', 'broken', 'revision']],
    ['with a block', 'peice a {\n  cut 1 x\n}\nrevision 4\n', ['broken', 'revision']],
    ['a lone brace', '}\nrevision 4\n', ['broken', 'revision']],
    ['an empty formula', 'length a = \nrevision 4\n', ['broken', 'revision']],
    ['an open quote', 'note "open\nrevision 4\n', ['broken', 'revision']],
    ['an open quote that ends in a backslash', 'note "open\\\nnote "two"\n', ['broken', 'note']],
    ['brackets without end', `length a = ${'('.repeat(100_000)}\nrevision 4\n`, ['broken', 'revision']],
    ['a sum without end', `length a = 1${' + 1'.repeat(5000)}\nrevision 4\n`, ['broken', 'revision']],
  ])('%s costs one problem', (_, text, wanted) => {
    expect(kinds(text)).toEqual(wanted);
    expect(problems(text)).toHaveLength(1);
  });

  test.each([['piece', 'cutt 2 x', 'this way up'], ['piece', 'cut two of x', 'grain up'], ['piece', 'outline {\n    line\n  }', 'grain up'], ['material', 'widht 3', 'role main'], ['supply', 'kind', 'count 2'], ['piece', 'cut 1 x {', 'grain up']])(
    'in a %s: %s', (block, bad, good) => {
      const { tree, problems: found } = parseDeclaration('a.piece', `${block} x {\n  ${good}\n  ${bad}${bad.endsWith(' {') ? ' }' : ''}\n  ${good}\n}\n`);
      expect('body' in tree && tree.body.statements.map((one) => one.kind === 'broken')).toEqual([false, true, false]);
      expect(found).toHaveLength(1);
    });

  test('in a path, and in a block’s first line', () => {
    const { tree, problems: found } = parseDeclaration('a.piece', 'piece x frm y {\n  outline path from 0, 0 {\n    lin to 1, 1\n    close\n  }\n  cut 1 x\n}\n');
    expect(found.map((one) => [one.kind, one.found])).toEqual([['unreadable', 'frm'], ['unreadable', 'lin']]);
    expect('body' in tree && tree.body.statements.map((one) => one.kind)).toEqual(['outline', 'cut']);
  });

  test('says where and what would be right there', () => {
    const [problem] = parseDeclaration('a.piece', '\n  unit furlong\n').problems;
    expect(problem).toEqual({ kind: 'unreadable', start: 8, end: 15, found: 'furlong', expected: ['cm', 'in', 'mm'] });
  });
});

describe('a block left open', () => {
  test('ends where the next declaration starts', () => {
    const text = 'piece a {\n  cut 1 x\n\n# about b\npiece b {\n  cut 1 x\n}\n';
    expect(kinds(text)).toEqual(['piece', 'piece']);
    expect(problems(text)).toEqual(['unclosed block {']);
  });
  test('a path’s own block too', () => {
    const text = 'piece a {\n  outline path from 0, 0 {\n    line to 1, 1\nsupply b {\n}\n';
    expect(kinds(text)).toEqual(['piece', 'supply']);
    expect(problems(text).every((one) => one === 'unclosed block {')).toBe(true);
    expect(problems(text).length).toBeGreaterThan(0);
  });
  test('isn’t opened by a brace in a text without its closing quote', () => {
    const text = 'piece a {\n  note "Turn {3 cm\n  cut 1 x\n}\nnote "Press {4 cm  \nlenth b = 3\nlength c = 3\n';
    expect(kinds(text)).toEqual(['piece', 'broken', 'broken', 'value']);
    expect(problems(text)).toEqual(['unclosed text "Turn {3 cm', 'unclosed text "Press {4 cm', 'unreadable lenth']);
  });
  test('is opened by one behind such a text, before a comment too', () => {
    const text = 'piece a "Front { # left\ncut 1 x\n}\nlenth b = 3\n';
    expect(kinds(text)).toEqual(['piece', 'broken']);
    expect(problems(text)).toEqual(['unclosed text "Front', 'unreadable lenth']);
  });
});

describe('positions', () => {
  const said = (node: { readonly start: number; readonly end: number }, text: string): string => text.slice(node.start, node.end);
  function names(node: unknown, found: { text: string; start: number; end: number }[] = []): typeof found {
    if (typeof node !== 'object' || node === null) return found;
    const one = node as { text?: unknown; start?: unknown; end?: unknown; kind?: unknown; digits?: unknown };
    if (typeof one.text === 'string' && typeof one.start === 'number' && typeof one.end === 'number' && one.kind !== 'broken') found.push({ text: one.text, start: one.start, end: one.end });
    for (const value of Object.values(node)) names(value, found);
    return found;
  }
  test('a name stands where it says, whatever letters surround it', () => {
    fc.assert(fc.property(declaration, (tree) => {
      const text = printDeclaration(tree);
      for (const name of names(parseDeclaration('a.piece', text).tree)) expect(said(name, text)).toBe(name.text);
    }), { numRuns: 150 });
  });
  test('parts of formulas', () => {
    const text = '# 🧵 e\u0301\r\n\tlength größe = a + b * (2 1/2 in - c), \r\n'.replace(', ', '');
    const { tree } = parseDeclaration('a.piece', text);
    if (tree.kind !== 'value' || tree.value.kind !== 'binary' || tree.value.right.kind !== 'binary') throw new Error('Another tree was expected');
    expect([tree, tree.name, tree.value, tree.value.left, tree.value.right, tree.value.right.right].map((node) => said(node, text)))
      .toEqual(['length größe = a + b * (2 1/2 in - c)', 'größe', 'a + b * (2 1/2 in - c)', 'a', 'b * (2 1/2 in - c)', '(2 1/2 in - c)']);
  });
  test('arms, and arguments that are chosen by size', () => {
    const text = 'length a = max(1 for S, 2 for size M, 3 otherwise, b)';
    const { tree } = parseDeclaration('a.piece', text);
    if (tree.kind !== 'value' || tree.value.kind !== 'call') throw new Error('Another tree was expected');
    const [chosen, plain] = tree.value.arguments;
    if (chosen?.kind !== 'selection' || plain === undefined) throw new Error('Another tree was expected');
    expect([chosen, plain, ...chosen.arms].map((node) => said(node, text))).toEqual(['1 for S, 2 for size M, 3 otherwise', 'b', '1 for S', '2 for size M', '3 otherwise']);
  });
});

const lines = fc.array(fc.oneof(declaration.map(printDeclaration), fc.constantFrom('}', '{', '', '# x', 'piece a {\n', '"', ',\r\n', '🧵', '\t', 'e\u0301', '\r')), { maxLength: 8 }).map((parts) => parts.join('\n'));

describe('cutting a file into declarations', () => {
  test('covers the text exactly', () => {
    fc.assert(fc.property(fc.oneof(lines, fc.string({ unit: 'binary' })), (text) => {
      expect(splitDeclarations(text).map((slice) => text.slice(slice.start, slice.end)).join('')).toBe(text);
      const file = read(text);
      for (const { declaration: one, offset } of file.declarations) expect(text.startsWith(one.text, offset)).toBe(true);
    }), { numRuns: 150 });
  });
  test('line ends and tabs make no difference', () => {
    const text = sample('orchard-wallet.piece');
    expect(kinds(text.replace(/\n/g, '\r\n').replace(/ {2}/g, '\t'))).toEqual(kinds(text));
    expect(problems(text.replace(/\n/g, '\r'))).toEqual([]);
  });
});

describe('reading again after an edit', () => {
  test('takes every declaration that is unchanged as it is', () => {
    const before = read(sample('orchard-wallet.piece'));
    const after = parseFile('a.piece', `# new\nlength added = 3\n${before.text.replace('arc to 0, 0 through 1 3/4, 5/8', 'arc to 0, 0 through 1 3/4, 3/4')}`, before);
    const kept = new Set(before.declarations.map((one) => one.declaration));
    const fresh = after.declarations.map((one) => one.declaration).filter((one) => !kept.has(one));
    expect(fresh.map((one) => one.tree.kind)).toEqual(['value', 'piece']);
  });
  test('gives what a first reading gives', () => {
    fc.assert(fc.property(lines, fc.nat(), fc.nat(20), fc.constantFrom('', '{', '}', '\n', 'length a = 3\n', '"', '#'), (text, at, removed, added) => {
      const from = text === '' ? 0 : at % text.length;
      const edited = text.slice(0, from) + added + text.slice(from + removed);
      expect(parseFile('a.piece', edited, read(text))).toEqual(read(edited));
    }), { numRuns: 80 });
  });
});
