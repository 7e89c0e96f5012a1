import fc from 'fast-check';
import { expect, test } from 'vitest';
import { childrenOf, parentsOf, pieceAt } from '../../server/src/language/call-hierarchy.ts';
import { codeLenses } from '../../server/src/language/code-lens.ts';
import { completion } from '../../server/src/language/completion.ts';
import { fixes } from '../../server/src/language/fixes.ts';
import { folding } from '../../server/src/language/folding.ts';
import { formatTyping } from '../../server/src/language/format-typing.ts';
import { format } from '../../server/src/language/format.ts';
import { hover } from '../../server/src/language/hover.ts';
import { inlayHints } from '../../server/src/language/inlay-hints.ts';
import { refactorings } from '../../server/src/language/refactor/refactorings.ts';
import { edited, type TextRange } from '../../server/src/language/results.ts';
import { selectionSteps } from '../../server/src/language/selection.ts';
import { semanticTokens } from '../../server/src/language/semantic-tokens.ts';
import { signature } from '../../server/src/language/signature.ts';
import { printDeclaration } from '../../server/src/syntax/print.ts';
import { declaration } from '../support/arbitrary-tree.ts';
import { sample, snapshotOfText } from '../support/samples.ts';

const wallet = sample('orchard-wallet.piece');
const texts = fc.oneof(
  fc.array(declaration.map(printDeclaration), { maxLength: 4 }).map((all) => all.join('')),
  fc.tuple(fc.nat(wallet.length), fc.nat(30), fc.constantFrom('', '{', '}', '"', '\n', '#', ' 3', 'wrap', ' when ', ',')).map(([at, removed, added]) => wallet.slice(0, at) + added + wallet.slice(at + removed)),
);
const inside = (text: string, ranges: readonly TextRange[]): boolean => ranges.every((range) => range.start >= 0 && range.start <= range.end && range.end <= text.length);

test('whatever the text, every feature answers with places inside it', () => {
  fc.assert(fc.property(texts, fc.nat(), fc.nat(40), (text, place, length) => {
    const snapshot = snapshotOfText(text);
    const start = place % (text.length + 1);
    const range = { start, end: Math.min(text.length, start + length) };
    const whole = { start: 0, end: text.length };
    expect(inside(text, folding(snapshot))).toBe(true);
    expect(inside(text, selectionSteps(snapshot, start))).toBe(true);
    expect(inside(text, codeLenses(snapshot, { values: true }))).toBe(true);
    expect(inside(text, formatTyping(snapshot, start, '\n'))).toBe(true);
    expect(inside(text, format(snapshot, range))).toBe(true);
    expect(inside(text, semanticTokens(snapshot).map((token) => ({ start: token.start, end: token.start + token.length })))).toBe(true);
    expect(inside(text, inlayHints(snapshot, whole, { sizes: true, totals: true }).map((hint) => ({ start: hint.at, end: hint.at })))).toBe(true);
    for (const action of [...fixes(snapshot, whole), ...refactorings(snapshot, range)]) {
      const own = action.edits.filter((edit) => edit.file === 'a.piece');
      expect(inside(text, own), action.title).toBe(true);
      edited(text, own);
    }
    const piece = pieceAt(snapshot, start);
    if (piece !== undefined) for (const link of [...parentsOf(snapshot, piece.name), ...childrenOf(snapshot, piece.name)]) expect(inside(text, link.places)).toBe(true);
  }), { numRuns: 60 });
}, 20_000);

test('formatting a range and then the whole is the same as formatting the whole', () => {
  fc.assert(fc.property(texts, fc.nat(), fc.nat(200), (text, place, length) => {
    const snapshot = snapshotOfText(text);
    const start = place % (text.length + 1);
    const part = edited(text, format(snapshot, { start, end: Math.min(text.length, start + length) }));
    expect(edited(part, format(snapshotOfText(part)))).toBe(edited(text, format(snapshot)));
  }), { numRuns: 60 });
}, 20_000);

test('a line of more points than anyone writes is answered, be it with nothing', () => {
  const points = Array.from({ length: 8_000 }, (_, index) => `${index}, ${(index * 7) % 11}`).join(' to ');
  const text = `piece a "A" {\n  outline polygon from ${points}\n}\n`;
  const snapshot = snapshotOfText(text);
  const [word, last] = [text.indexOf('polygon') + 2, text.length - 5];
  for (const at of [word, last]) expect(() => hover(snapshot, at)).not.toThrow();
  expect(completion(snapshot, last, [])).toEqual([]);
  expect(signature(snapshot, last)).toBeUndefined();
});
