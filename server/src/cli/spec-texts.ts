import { createHash } from 'node:crypto';
import { resolvePath } from '../model/names/paths.ts';
import { Analyst, type Pattern } from '../model/pattern.ts';
import type { ReadText } from '../platform/decode.ts';
import { limits } from '../problems/limits.ts';
import { parseFile } from '../syntax/parse.ts';
import type { SourceFile } from '../syntax/tree.ts';
import { unreadableFile } from '../syntax/unreadable.ts';

/** Reads another file of the same folder, or of the same revision, by its path; undefined where there is none. */
export type TextReader = (path: string) => ReadText | undefined;

/** A spec's own text and those of all that it uses, read once: what is computed of it follows from nothing else. */
export interface SpecTexts {
  readonly path: string;
  readonly own: ReadText;
  readonly used: ReadonlyMap<string, ReadText | undefined>;
  readonly read: TextReader;
}

export function textsOf(path: string, own: ReadText, read: TextReader): SpecTexts {
  const used = new Map<string, ReadText | undefined>();
  const waiting: (readonly [string, ReadText | undefined])[] = [[path, own]];
  for (let one = waiting.pop(); one !== undefined && used.size <= limits.files; one = waiting.pop()) {
    const [from, text] = one;
    for (const written of text !== undefined && 'text' in text ? usesIn(text.text) : []) {
      const other = resolvePath(from, written);
      if (other === undefined || other === path || used.has(other)) continue;
      const there = read(other);
      used.set(other, there);
      waiting.push([other, there]);
    }
  }
  return { path, own, used, read };
}

/**
 * The paths that a text may use, found without reading it through: it may be some more, in comments and texts. That there
 * are no fewer is seen by {@link patternFrom}, which knows what was really asked for.
 */
function usesIn(text: string): readonly string[] {
  return [...text.matchAll(/use[ \t]*"((?:[^"\\\n\r]|\\[^\n\r])*)"/g)].map(([, quoted = '']) => quoted.replace(/\\(["\\n])/g, (_, sign: string) => (sign === 'n' ? '\n' : sign)));
}

/**
 * What the texts say, in few letters: no two that differ have the same.
 *
 * @param within a folder, as in `old/`, that paths are told from, where it makes no difference
 */
export function contentOf({ path, own, used }: SpecTexts, within = ''): string {
  const files = [...used].map(([name, text]): readonly [string, string] => [toldWithin(name, within), stateOf(text)]).sort(([a], [b]) => (a < b ? -1 : 1));
  return sha256(JSON.stringify([toldWithin(path, within), stateOf(own), ...files]));
}

/** A path as it is told from a folder. */
export const toldWithin = (path: string, within: string): string => (path.startsWith(within) ? path.slice(within.length) : `/${path}`);

/** Texts are shared by many specs, and so is what is known of them. */
const states = new WeakMap<ReadText, string>();
const trees = new WeakMap<ReadText, SourceFile>();

/** What a text says, in few letters. */
export function stateOf(text: ReadText | undefined): string {
  if (text === undefined) return 'missing';
  let state = states.get(text);
  if (state === undefined) states.set(text, (state = 'text' in text ? sha256(text.text) : text.unread));
  return state;
}

/** Half of a pair of code units, which UTF-8 has no bytes for, is no part of a text that was read. */
export const sha256 = (text: string | Uint8Array): string => createHash('sha256').update(text).digest('hex');

/** A text as read; once, where it is used by many specs. */
export function treeOf(path: string, text: ReadText): SourceFile {
  const known = trees.get(text);
  if (known?.path === path) return known;
  const tree = 'text' in text ? parseFile(path, text.text) : unreadableFile(path, text.unread);
  trees.set(text, tree);
  return tree;
}

/**
 * What a spec means; and whether it follows from its texts alone, which is to be known before it is kept for them.
 *
 * @param analyst one that has read other specs before keeps what it has found of a list that they share; whoever asks of two patterns in turn needs two
 */
export function patternFrom({ path, own, used, read }: SpecTexts, analyst = new Analyst()): { readonly pattern: Pattern; readonly isWhole: boolean } {
  let isWhole = true;
  const root = 'text' in own ? parseFile(path, own.text) : unreadableFile(path, own.unread);
  const pattern = analyst.analyse(root, (asked) => {
    isWhole &&= used.has(asked);
    const text = used.has(asked) ? used.get(asked) : read(asked);
    return text && treeOf(asked, text);
  });
  return { pattern, isWhole };
}
