import { faces, type Weight } from './generated/faces.js';
import { create, type Font } from './generated/fontkit.js';
import { unpackedFont } from './woff.ts';
import { wordsOf } from './words-of.ts';

/** A stretch of text that one file of the typeface has all letters of. */
export interface Run {
  /** Name of the file. */
  readonly face: string;
  readonly text: string;
}

/** Pairs of letters move together; none are joined into one sign, so that text copied from a page is what was written. */
export const features = { kern: true, liga: false, clig: false, calt: false, ccmp: false } as const;

/** What stands for a letter that the typeface doesn’t have. */
export const missingLetter = '?';

/** How high capitals and how deep descenders are, as parts of the size. */
export const capitals = 0.66;
export const descent = 0.24;

interface Face {
  readonly name: string;
  readonly font: Font;
}

/** Read when they are first needed: most of what runs never draws a letter. */
const read: Partial<Record<Weight, readonly Face[]>> = {};
const facesOf = (weight: Weight): readonly Face[] => (read[weight] ??= faces[weight].map(({ name, base64 }) => {
  const font = create(unpackedFont(Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0))) as Buffer);
  if (!('characterSet' in font)) throw new Error(`The typeface’s file “${name}” holds several.`);
  return { name, font };
}));

/** The typeface’s files of both weights, by their names, as whoever embeds them needs them. */
export const fontsByName = (): ReadonlyMap<string, Font> => new Map([...facesOf('regular'), ...facesOf('bold')].map(({ name, font }) => [name, font]));

/**
 * A text of one line as it can be set: signs that steer are left out, and what the typeface lacks is a question mark. It
 * has no right-to-left letters, so whatever is left runs from left to right.
 */
export function settable(text: string): string {
  const plain = text.replace(/[\s\p{Zs}]+/gu, ' ').replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Variation_Selector}]/gu, '').normalize('NFC');
  return plain.replace(/[^\u0020-\u007E]/gu, (letter) => (faceFor(letter, 'regular') === undefined ? missingLetter : letter));
}

/** Letters of a text that the typeface doesn’t have, each once. */
export function missingLetters(text: string): readonly string[] {
  const letters = Array.from(text.normalize('NFC').replace(/[\s\p{Zs}\p{Cc}\p{Cf}]+/gu, ''));
  return [...new Set(letters.filter((letter) => faceFor(letter, 'regular') === undefined))];
}

const lookedUp = new Map<string, Face | undefined>();
function faceFor(letter: string, weight: Weight): Face | undefined {
  const key = `${weight[0] ?? ''}${letter}`;
  if (!lookedUp.has(key)) lookedUp.set(key, facesOf(weight).find(({ font }) => font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)));
  return lookedUp.get(key);
}

/** A settable text in stretches of one file each. */
export function runsOf(text: string, weight: Weight): readonly Run[] {
  const runs: { face: string; text: string }[] = [];
  for (const letter of text) {
    const last = runs.at(-1);
    const face = (faceFor(letter, weight) ?? facesOf(weight)[0])?.name ?? '';
    // A space is in every file: no need to change it for that.
    if (last !== undefined && (letter === ' ' || last.face === face)) last.text += letter;
    else runs.push({ face, text: letter });
  }
  return runs;
}

const widths: Readonly<Record<Weight, Map<string, number>>> = { regular: new Map(), bold: new Map() };

/** How wide a text of one line is, in the unit of the size. */
export function widthOf(text: string, size: number, weight: Weight = 'regular'): number {
  let sum = 0;
  for (const part of text.split(/( )/)) if (part !== '') sum += wordWidth(part, weight);
  return sum * size;
}

function wordWidth(word: string, weight: Weight): number {
  const cache = widths[weight];
  let width = cache.get(word);
  if (width === undefined) {
    width = runsOf(word, weight).reduce((sum, run) => {
      const font = facesOf(weight).find(({ name }) => name === run.face)?.font;
      return sum + (font === undefined ? 0 : font.layout(run.text, features).advanceWidth / font.unitsPerEm);
    }, 0);
    if (cache.size > 20_000) cache.clear();
    cache.set(word, width);
  }
  return width;
}

/** A settable text in lines no wider than `width`: broken between words, and in a word that is wider by itself. */
export function linesOf(text: string, width: number, size: number, weight: Weight = 'regular'): readonly string[] {
  const lines: string[] = [];
  let line = '';
  let used = 0;
  const space = widthOf(' ', size, weight);
  for (const word of wordsOf(text)) {
    const wide = widthOf(word, size, weight);
    if (line !== '' && used + space + wide <= width) {
      line += ` ${word}`;
      used += space + wide;
      continue;
    }
    if (line !== '') lines.push(line);
    const parts = wide <= width ? [word] : brokenWord(word, width, size, weight);
    lines.push(...parts.slice(0, -1));
    line = parts.at(-1) ?? '';
    used = widthOf(line, size, weight);
  }
  return line === '' ? lines : [...lines, line];
}

function brokenWord(word: string, width: number, size: number, weight: Weight): readonly string[] {
  const parts: string[] = [];
  let part = '';
  let used = 0;
  for (const letter of word) {
    const wide = wordWidth(letter, weight) * size;
    if (part !== '' && used + wide > width) {
      parts.push(part);
      part = '';
      used = 0;
    }
    part += letter;
    used += wide;
  }
  return [...parts, part];
}

/** A text cut to one line of a width, an ellipsis in place of what is left out. */
export function cutTo(text: string, width: number, size: number, weight: Weight = 'regular'): string {
  if (text.length < 400 && widthOf(text, size, weight) <= width) return text;
  const [first = ''] = linesOf(text.slice(0, 400), Math.max(0, width - widthOf('…', size, weight)), size, weight);
  return `${first}…`;
}
