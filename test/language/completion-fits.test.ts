import { readdirSync, readFileSync } from 'node:fs';
import peggy from 'peggy';
import { expect, test } from 'vitest';
import { completion } from '../../server/src/language/completion.ts';
import type { Completion } from '../../server/src/language/completion-items.ts';
import type { Snapshot } from '../../server/src/workspace/snapshot.ts';
import { sample, snapshotOfText } from '../support/samples.ts';

/**
 * What is offered must fit where it is offered: over the samples, at every line's end and after each word, a word of the
 * language never makes a line less readable than it was, and neither does the first thing that is offered after it.
 */

/** What a snippet writes where its proposals are taken as they are. */
const plain = ({ insert, isSnippet }: Completion): string =>
  (isSnippet ? insert.replace(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1').replace(/\$\{\d+:([^}]*)\}/g, '$1').replace(/\$\d+/g, '').replace(/\t/g, '  ') : insert);

/** A sample as it is while something is being written: all up to a place, and what is added there. */
function written(snapshot: Snapshot, at: number, added: string): Snapshot {
  const { file } = snapshot;
  return { ...snapshot, file: { ...file, text: file.text.slice(0, at) + added }, declarationAt: (offset) => snapshot.declarationAt(Math.min(offset, at)) };
}

/**
 * The grammar without what keeps it from saying how far a text can be read: lines that may be broken, and rules that tell
 * of a fault at their start.
 */
const grammar = readFileSync(new URL('../../grammar/piece.peggy', import.meta.url), 'utf8')
  .replace(/^(Broken|UnreadHead) = /gm, '$1 = !. ')
  .replace(/^([A-Z]\w*) "[^"]*" = /gm, '$1 = ');
const parser = peggy.generate(grammar, { allowedStartRules: ['Declaration'] });

const readable = new Map<string, boolean>();

/** Whether a declaration that ends in the middle can be read as far as it goes. */
function isReadable(text: string): boolean {
  const known = readable.get(text) ?? reach(text) >= text.length;
  readable.set(text, known);
  return known;
}

function reach(text: string): number {
  try {
    parser.parse(text);
    return Infinity;
  } catch (error) {
    if (error instanceof parser.SyntaxError) return error.location.start.offset;
    throw error;
  }
}

/** Whether a text can be read to its end and its last word is whole. */
const fits = (text: string): boolean => isReadable(`${text} `);

const ofTheLanguage: readonly Completion['kind'][] = ['keyword', 'unit', 'word'];

/** The places to try in a text: each word's end, and behind the space after it. */
const placesIn = (text: string): readonly number[] => [0, ...[...text.matchAll(/[\p{L}\p{N}_.%")/]+/gu)].map((match) => match.index + match[0].length)];

const samples = readdirSync(new URL('../../samples/', import.meta.url)).filter((name) => name.endsWith('.piece'));

test.each([...samples, 'studio/materials.piece'])('%s', (path) => {
  const snapshot = snapshotOfText(sample(path));
  const { text } = snapshot.file;
  const wrong = new Set<string>();
  for (const at of placesIn(text)) {
    const start = snapshot.declarationAt(at)?.offset ?? 0;
    const own = text.slice(start, at);
    for (const space of ['', ' ']) {
      if (!isReadable(own + space)) continue;
      const line = own.slice(Math.max(own.lastIndexOf('\n'), own.lastIndexOf('{')) + 1) + space;
      for (const item of completion(written(snapshot, at, space), at + space.length, [])) {
        if (!ofTheLanguage.includes(item.kind)) continue;
        const before = (text.slice(0, at) + space).slice(start, item.start);
        if (!fits(before + plain(item))) wrong.add(`${line}| ${plain(item)}`);
        const added = `${before}${item.label} `.slice(own.length);
        if (item.kind !== 'keyword' || !added.startsWith(space) || item.start < at) continue;
        const [next] = completion(written(snapshot, at, added), at + added.length, []);
        if (next !== undefined && !fits(own + added + plain(next))) wrong.add(`${line}${item.label} | ${plain(next)}`);
      }
    }
  }
  expect([...wrong]).toEqual([]);
}, 60_000);
