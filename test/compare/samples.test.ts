import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare } from '../../server/src/compare/comparison.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import type { SourceFile } from '../../server/src/syntax/tree.ts';
import { patternOf } from '../support/samples.ts';
import { respaced } from '../support/respaced.ts';

vi.setConfig({ testTimeout: 120_000 });

const folder = new URL('../../samples/', import.meta.url);
const samples = readdirSync(folder).filter((name) => name.endsWith('.piece'));
const textOf = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const shared = 'studio/materials.piece';
/** No lay is planned for what is the same; one that were would show as a difference between orders. */
const options = { ...usualOptions, effort: 0 };

/** The declarations in another order; facts of the whole pattern, of which notes are told in their order, come first, as do steps, whose order is what they say. */
function reordered(file: SourceFile, order: (declarations: readonly string[]) => readonly string[]): string {
  const [facts, others]: [string[], string[]] = [[], []];
  for (const { declaration: { tree, text } } of file.declarations) (['pattern', 'revision', 'issued', 'unit', 'step', 'currency', 'allowance', 'drawn', 'note', 'work step'].includes(tree.kind) ? facts : others).push(text.trim());
  return `${[...facts, ...order(others)].join('\n')}\n`;
}

const backwards = (list: readonly string[]): readonly string[] => [...list].reverse();
const interleaved = (list: readonly string[]): readonly string[] => [...list.filter((_, index) => index % 2 === 1), ...list.filter((_, index) => index % 2 === 0)];

const ways: readonly (readonly [string, (text: string) => string])[] = [
  ['declarations backwards', (text) => reordered(parseFile('a.piece', text), backwards)],
  ['every second declaration first', (text) => reordered(parseFile('a.piece', text), interleaved)],
  ['tabs and wide spaces', (text) => respaced(text, repeated(['\t', '   ', ' \t ']), '\r\n')],
  ['canonical form', (text) => printFile(parseFile('a.piece', respaced(text, repeated(['  ']), '\n')))],
  ['without comments', (text) => text.replace(/^((?:"(?:[^"\\]|\\.)*"|[^"#\n])*)#.*$/gm, '$1')],
];

function* repeated(texts: readonly string[]): Generator<string> {
  for (let index = 0; ; index++) yield texts[index % texts.length] ?? '';
}

describe.each(samples)('%s', (name) => {
  const before = patternOf(textOf(name), {});
  it.each(ways)('%s is no change', (_, change) => {
    const after = patternOf(change(textOf(name)), { [shared]: change(textOf(shared)) });
    const { same, changes, renamed, discipline } = compare(before, after, options);
    expect({ changes, renamed, discipline }).toEqual({ changes: [], renamed: [], discipline: undefined });
    expect(same).toBe(true);
  });
  it('a revision alone is a note', () => {
    const after = patternOf(textOf(name).replace(/^revision (\d+)/m, (_, number: string) => `revision ${Number(number) + 1}`));
    const { same, discipline } = compare(before, after, options);
    expect([same, discipline?.severity, discipline?.code]).toEqual([true, 'note', 'revision-raised-without-change']);
  });
});
