import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parseFile } from '../../server/src/syntax/parse.ts';

interface Snippet {
  readonly body: string | readonly string[];
}

const read = (path: string): string => readFileSync(new URL(`../../client/${path}`, import.meta.url), 'utf8');
const problems = (text: string): readonly string[] =>
  parseFile('text.piece', text).declarations.flatMap(({ declaration }) => declaration.problems.map(({ kind, found }) => `${kind}: ${found}`));

/** A snippet as it is inserted, with its first options and its default texts. */
const inserted = ({ body }: Snippet): string =>
  [body]
    .flat()
    .join('\n')
    .replace(/\$\{\d+\|([^,|]+)[^|]*\|\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d/g, '');

const snippets = Object.entries(JSON.parse(read('language/snippets.json')) as Record<string, Snippet>);
it.each(snippets)('the snippet “%s” is a readable text', (_, snippet) => {
  const text = inserted(snippet);
  expect(text).not.toContain('$');
  expect(text.split('\n').filter((line) => line.trim() === '')).toEqual([]);
  expect(problems(text)).toEqual([]);
});

it('the examples of the walkthrough are readable', () => {
  const examples = readdirSync(new URL('../../client/walkthrough/', import.meta.url)).flatMap((file) =>
    [...read(`walkthrough/${file}`).matchAll(/```\n([\s\S]*?)```/g)].map(([, text]) => text ?? ''),
  );
  expect(examples.length).toBeGreaterThan(1);
  expect(examples.map(problems)).toEqual(examples.map(() => []));
});
