import fc from 'fast-check';
import { readdirSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printDeclaration, printFile, printSegments } from '../../server/src/syntax/print.ts';
import { declaration } from '../support/arbitrary-tree.ts';
import { respaced } from '../support/respaced.ts';
import { sample } from '../support/samples.ts';

vi.setConfig({ testTimeout: 60_000 });

const formatted = (text: string): string => printFile(parseFile('a.piece', text));
const folder = new URL('../../samples/', import.meta.url);
const samples = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll('\\', '/')).filter((path) => path.endsWith('.piece')).sort();
/** Any canonical text of what can be read. */
const canonical = fc.array(declaration.filter((tree) => !/"(?:kind":"broken|unread)"/.test(JSON.stringify(tree))), { minLength: 1, maxLength: 4 }).map((trees) => formatted(trees.map(printDeclaration).join('')));

/** A text before a fact was added, and its lines; a fact goes with the comments that stand before it. */
interface Addition {
  readonly without: string;
  readonly fact: readonly string[];
}

/** Every fact of a canonical text, each taken out of it. What opens and closes a block is no fact by itself. */
function additions(text: string): readonly Addition[] {
  const segments = printSegments(parseFile('a.piece', text));
  return segments.filter((segment) => !/[{}]\s*(?:#.*)?\n$/.test(segment.text)).map(({ start, end }) => ({
    without: text.slice(0, start) + text.slice(end), fact: told(text.slice(start, end)),
  }));
}

/** Lines on which something stands: where blank ones fall is no fact. */
const told = (text: string): readonly string[] => text.split('\n').filter((line) => line.trim() !== '');

/** Whether a text is another with some lines put in at one place. */
function isAddition(whole: readonly string[], without: readonly string[], fact: readonly string[]): boolean {
  return whole.some((_, at) => [...without.slice(0, at), ...fact, ...without.slice(at)].join('\n') === whole.join('\n'));
}

function eachAddsItsLinesAlone(text: string): number {
  const all = additions(text);
  for (const { without, fact } of all) expect(isAddition(told(formatted(text)), told(formatted(without)), fact), fact.join('\n')).toBe(true);
  return all.length;
}

describe('adding one fact adds its line and changes no other', () => {
  it('in any text', () => {
    let count = 0;
    fc.assert(fc.property(canonical, (text) => { count += eachAddsItsLinesAlone(text); }), { numRuns: 150 });
    expect(count).toBeGreaterThan(300);
  });

  it.each(samples)('in %s, whatever fact', (path) => { expect(eachAddsItsLinesAlone(formatted(sample(path)))).toBeGreaterThan(10); });
});

describe.each(samples)('%s', (path) => {
  it('keeps its order, and each comment with its line, however it was laid out', () => {
    const text = sample(path);
    const comments = (of: string): readonly string[] => told(of).filter((line) => line.includes('#')).map((line) => line.replace(/\s+/g, ' ').trim());
    const loose = respaced(text, (function* () { for (;;) yield* ['\t', '   ']; })(), '\n');
    expect(formatted(loose)).toBe(formatted(text));
    expect(comments(formatted(loose))).toEqual(comments(text));
    expect(formatted(text).replace(/\s+/g, '')).toBe(text.replace(/\s+/g, ''));
  });
});
