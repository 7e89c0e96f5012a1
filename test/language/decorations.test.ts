import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { childrenOf, parentsOf, pieceAt } from '../../server/src/language/call-hierarchy.ts';
import { codeLenses } from '../../server/src/language/code-lens.ts';
import { folding } from '../../server/src/language/folding.ts';
import { inlayHints, type InlayOptions } from '../../server/src/language/inlay-hints.ts';
import { selectionSteps } from '../../server/src/language/selection.ts';
import { semanticTokens } from '../../server/src/language/semantic-tokens.ts';
import { printDeclaration } from '../../server/src/syntax/print.ts';
import { declaration } from '../support/arbitrary-tree.ts';
import { textsIn, marked } from '../support/marked.ts';
import { sample, snapshotOfText } from '../support/samples.ts';

// Many cases each, and machines that do other work beside.
vi.setConfig({ testTimeout: 30_000 });

describe('semantic tokens', () => {
  function check(text: string, expected: readonly string[]): void {
    const { snapshot } = marked(text);
    expect(semanticTokens(snapshot).map((token) => [snapshot.file.text.slice(token.start, token.start + token.length), token.type, ...token.modifiers].join(' '))).toEqual(expected);
  }
  test('values, numbers and comments', () => check('length a = 7 1/2 in + b * 50%  # why\nlength b = 1', [
    'length keyword', 'a variable declaration readonly', '= operator', '7 1/2 number', 'in keyword', '+ operator', 'b variable', '* operator', '50% number', '# why comment',
    'length keyword', 'b variable declaration readonly', '= operator', '1 number',
  ]));
  test('what each name is', () => check('choice tab is cork or cloth\nmaterial x "X" {\n  role main\n}\npiece a {\n  line core = inset 1\n  cut 1 x along core when tab is cork\n}\ncheck a.core <= min(1, 2)', [
    'choice keyword', 'tab enum declaration readonly', 'is keyword', 'cork enumMember declaration readonly', 'or keyword', 'cloth enumMember declaration readonly',
    'material keyword', 'x type declaration readonly', '"X" string', 'role keyword', 'main enumMember readonly',
    'piece keyword', 'a class declaration readonly', 'line keyword', 'core property declaration readonly', '= operator', 'inset keyword', '1 number',
    'cut keyword', '1 number', 'x type', 'along keyword', 'core property', 'when keyword', 'tab enum', 'is keyword', 'cork enumMember',
    'check keyword', 'a class', 'core property', '<= operator', 'min function', '1 number', '2 number',
  ]));
  test('are in order, apart, and on one line each, whatever the text', () => {
    fc.assert(fc.property(fc.oneof(fc.array(declaration.map(printDeclaration), { maxLength: 3 }).map((all) => all.join('')), fc.string()), (text) => {
      let past = 0;
      for (const token of semanticTokens(snapshotOfText(text))) {
        expect(token.start).toBeGreaterThanOrEqual(past);
        expect(token.length).toBeGreaterThan(0);
        past = token.start + token.length;
        expect(text.slice(token.start, past)).not.toMatch(/[\n\r]/);
      }
      expect(past).toBeLessThanOrEqual(text.length);
    }), { numRuns: 100 });
  });
});

describe('folding', () => {
  function check(text: string, expected: readonly string[]): void {
    const { snapshot } = marked(text);
    expect(folding(snapshot).map((fold) => `${fold.kind}: ${text.slice(fold.start, fold.end).replace(/\s+/g, ' ')}`)).toEqual(expected);
  }
  test('blocks, comments and uses', () => check('# one\n# two\nuse "a"\nuse "b"\n\npiece a {\n  outline path from 0, 0 {\n    close\n  }\n}\n# alone\n', [
    'comments: # one # two', 'uses: use "a" use "b"', 'block: { outline path from 0, 0 { close } }', 'block: { close }',
  ]));
  test('a block left open', () => check('piece a {\n  cut 1 x\n', ['block: { cut 1 x ']));
  test('nothing on one line', () => check('piece a {}\n', []));
});

describe('selecting more and more', () => {
  function check(fixture: string, expected: readonly string[]): void {
    const one = marked(fixture);
    expect(textsIn(one.text, selectionSteps(one.snapshot, one.offset))).toEqual(expected);
  }
  test('from a word to the file', () => check('length b = 1\n\n# why\npiece a {\n  cut 1 x when b > ro|ws * 2\n  grain up\n}\n', [
    'rows', 'rows * 2', 'b > rows * 2', 'when b > rows * 2', 'cut 1 x when b > rows * 2', 'cut 1 x when b > rows * 2\n  grain up', '{\n  cut 1 x when b > rows * 2\n  grain up\n}',
    'piece a {\n  cut 1 x when b > rows * 2\n  grain up\n}', '# why\npiece a {\n  cut 1 x when b > rows * 2\n  grain up\n}',
    'length b = 1\n\n# why\npiece a {\n  cut 1 x when b > rows * 2\n  grain up\n}\n',
  ]));
  test('each step holds the one before and more', () => {
    const text = sample('orchard-wallet.piece');
    const snapshot = snapshotOfText(text);
    fc.assert(fc.property(fc.nat(text.length), (offset) => {
      const steps = selectionSteps(snapshot, offset);
      steps.slice(1).forEach((step, index) => {
        const before = steps[index] ?? step;
        expect(step.start <= before.start && before.end <= step.end && step.end - step.start > before.end - before.start).toBe(true);
      });
      expect(steps.at(-1)).toEqual({ start: 0, end: text.length });
    }), { numRuns: 200 });
  });
});

const small = 'unit in\nallowance 0\nsizes S, M\nlength w = 4 for S, 5 for M\nlength h = w / 2\nlength fixed = 3\nmaterial x {\n  width 40\n}\npiece a {\n  outline rectangle w by h\n  cut 2 x\n}\npiece b from a {\n  grain up\n  cut 1 x\n}\n';

describe('inlay hints', () => {
  function check(options: InlayOptions, expected: readonly string[]): void {
    const { snapshot } = marked(small);
    expect(inlayHints(snapshot, { start: 0, end: small.length }, options).map((hint) => `${small.slice(0, hint.at).split('\n').at(-1) ?? ''} ‹${hint.text}›`)).toEqual(expected);
  }
  test('values and sizes', () => check({ sizes: true, totals: false }, [
    'length w = 4 for S, 5 for M ‹= 4 in or 5 in›', 'length h = w / 2 ‹= 2 in or 2 1/2 in›', '  cut 2 x ‹4 in wide, 2 in high or 5 in wide, 2 1/2 in high›', '  cut 1 x ‹4 in wide, 2 in high or 5 in wide, 2 1/2 in high›',
  ]));
  test('totals', () => check({ sizes: false, totals: true }, ['material x { ‹3 pieces, 24 sq in or 3 pieces, 37.5 sq in›']));
  test('a cut that says its own size has it once', () => {
    const { text, snapshot } = marked(small.replace('cut 2 x', 'cut 2 x\n  cut 1 x sized 3 by 2'));
    const hints = inlayHints(snapshot, { start: 0, end: text.length }, { sizes: true, totals: false });
    expect(hints.filter(({ kind }) => kind === 'size').map(({ at }) => text.slice(0, at).split('\n').at(-1))).toEqual(['  cut 2 x', '  cut 1 x']);
  });
  test('none', () => check({ sizes: false, totals: false }, []));
  test('only those in the range', () => {
    const { snapshot } = marked(small);
    const at = small.indexOf('length h');
    expect(inlayHints(snapshot, { start: at, end: at + 16 }, { sizes: true, totals: true }).map((hint) => hint.text)).toEqual(['= 2 in or 2 1/2 in']);
  });
});

describe('code lenses', () => {
  test('how much is cut, and how often a name is used', () => {
    const { snapshot } = marked(small);
    expect(codeLenses(snapshot, { values: true }).map((lens) => [small.slice(lens.start, lens.end), lens.title, textsIn(small, lens.places).length].join(' | '))).toEqual([
      'w | used 2 times | 2', 'h | used once | 1', 'x | used by 2 pieces | 2', 'a | cut 2 from “x” | 0', 'a | used by 1 piece | 1', 'b | cut 1 from “x” | 0',
    ]);
  });
  test('nothing above values unless that is asked for', () => {
    const { snapshot } = marked(small);
    expect(codeLenses(snapshot, { values: false }).map((lens) => small.slice(lens.start, lens.end))).toEqual(['x', 'a', 'a', 'b']);
  });
  test('in the sample', () => {
    const titles = codeLenses(snapshotOfText(sample('orchard-wallet.piece')), { values: false }).map((lens) => lens.title);
    expect(titles).toContain('cut 5 from 3 materials');
  });
});

describe('pieces drawn from pieces', () => {
  test('up and down', () => {
    const one = marked('piece a {\n  outline rectangle 1 by 1\n}\npiece b from |a {\n}\npiece c from a mirrored {\n}\n');
    expect(pieceAt(one.snapshot, one.offset)?.name).toBe('a');
    expect(childrenOf(one.snapshot, 'a').map((link) => [link.piece.name, ...textsIn(one.text, link.places)])).toEqual([['b', 'a'], ['c', 'a']]);
    expect(parentsOf(one.snapshot, 'b').map((link) => [link.piece.name, ...textsIn(one.text, link.places)])).toEqual([['a', 'a']]);
    expect(parentsOf(one.snapshot, 'a')).toEqual([]);
  });
  test('nothing but a piece', () => expect(pieceAt(marked('length |a = 1\n').snapshot, 7)).toBeUndefined());
});
