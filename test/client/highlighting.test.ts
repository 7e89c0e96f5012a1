import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';
import { beforeAll, describe, expect, test } from 'vitest';
import { semanticTokens } from '../../server/src/language/semantic-tokens.ts';
import { sample, snapshotOfText } from '../support/samples.ts';

/** The colours before the server has read a file, by the engine that editors run them with. */
const url = new URL('../../client/language/generated/piece.tmLanguage.json', import.meta.url);
let grammar: textmate.IGrammar;

beforeAll(async () => {
  await oniguruma.loadWASM(readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm')));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({ createOnigScanner: (sources) => new oniguruma.OnigScanner(sources), createOnigString: (text) => new oniguruma.OnigString(text) }),
    loadGrammar: () => Promise.resolve(textmate.parseRawGrammar(readFileSync(url, 'utf8'), 'piece.tmLanguage.json')),
  });
  const loaded = await registry.loadGrammar('source.piece');
  if (loaded === null) throw new Error('There is no grammar');
  grammar = loaded;
});

interface Scoped {
  readonly start: number;
  readonly end: number;
  readonly scope: string;
}

function scopesOf(text: string): readonly Scoped[] {
  const found: Scoped[] = [];
  let state = textmate.INITIAL;
  let start = 0;
  for (const line of text.split('\n')) {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    for (const { startIndex, endIndex, scopes } of tokens) found.push({ start: start + startIndex, end: start + endIndex, scope: scopes.at(-1) ?? '' });
    state = ruleStack;
    start += line.length + 1;
  }
  return found;
}

const scopeAt = (scopes: readonly Scoped[], offset: number): string => scopes.find(({ start, end }) => start <= offset && offset < end)?.scope ?? '';

/** What a text's words are coloured as, in short. */
function coloured(text: string): string {
  return scopesOf(text).filter(({ start, end }) => text.slice(start, end).trim() !== '')
    .map(({ start, end, scope }) => `${text.slice(start, end).trim()}:${scope.split('.').slice(0, 2).join('.')}`).join(' ');
}

/** The scopes that fit what the server makes of a word. */
const fitting: Readonly<Record<string, RegExp>> = {
  keyword: /^(?:keyword|storage|support\.type)/, number: /^constant\.numeric|^keyword\.other\.unit/, string: /^string|^constant\.character/, comment: /^comment/, operator: /^keyword\.operator/,
};
const names = /^(?:variable|entity|support\.function)/;

const samples = readdirSync(new URL('../../samples/', import.meta.url), { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.piece')).sort();

describe.each(samples)('%s', (path) => {
  test('is coloured as the server colours it, but for what only the server knows', () => {
    const text = sample(path);
    const scopes = scopesOf(text);
    const wrong = new Set<string>();
    for (const { start, length, type, modifiers } of semanticTokens(snapshotOfText(text))) {
      const scope = scopeAt(scopes, start);
      const word = text.slice(start, start + length);
      const line = text.slice(text.lastIndexOf('\n', start) + 1, start + length);
      if (type === 'number' && word.endsWith('%')) continue;
      // A word of a fact is coloured like a name.
      if (type === 'enumMember' && !modifiers.includes('declaration')) continue;
      const fits = fitting[type] ?? names;
      if (!fits.test(scope)) wrong.add(`${line} ‹${type}›: ${scope}`);
    }
    expect([...wrong]).toEqual([]);
  });
});

test('what is declared stands out', () => {
  expect(coloured('piece größe "T" {')).toBe('piece:keyword.control größe:entity.name ":string.quoted T:string.quoted ":string.quoted {:punctuation.section');
  expect(coloured('length round = 3 1/2 in for S')).toBe('length:storage.type round:variable.other =:keyword.operator 3 1/2:constant.numeric in:keyword.other for:keyword.other S:variable.other');
  expect(coloured('  edge top as hem')).toBe('edge:keyword.control top:variable.other as:keyword.other hem:entity.name');
  expect(coloured('  corner top box 1 by 2')).toBe('corner:keyword.control top:variable.other box:keyword.other 1:constant.numeric by:keyword.other 2:constant.numeric');
});
test('words that are also names', () => {
  expect(coloured('  cut count of_it along line')).toContain('count:variable.other');
  expect(coloured('  line side = inset max(limit, side)')).toContain('limit:variable.other');
  expect(coloured('note "cut # 2" # cut')).toBe('note:keyword.control ":string.quoted cut # 2:string.quoted ":string.quoted # cut:comment.line');
});

test.each(['note ', 'step ', '  cut 2 canvas note ', 'check 1 < 2 else ', 'check 1 < 2 else warning '])('a formula in the text after “%s” is coloured as one', (line) => {
  expect(coloured(`${line}"So {side.length}."`)).toMatch(/side:variable\.other/);
  expect(coloured(`piece a "So {side.length}" {`)).not.toMatch(/side:variable/);
});
