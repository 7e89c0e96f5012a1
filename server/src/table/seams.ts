import type { Resolved } from '../model/pattern.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { sizeWords } from './finished-size.ts';
import { keptFor } from './per-display.ts';
import { nameText } from './marks.ts';

/** What to sew by: how large a piece is once it is sewn, and how far from its edges. */
export interface SeamRow {
  readonly pieceName: string;
  readonly piece: string;
  readonly finished: string;
  /** `3/8 in all round`, `1.5 cm, but 3 cm on bottom and none on top`, `none`. */
  readonly allowance: string;
  readonly place: Place;
}

/** One for each piece that is cut. */
export const seamRows = (resolved: Resolved, display: Display): readonly SeamRow[] =>
  resolved.pieces.filter((piece) => piece.cuts.length > 0).map(({ shape }) => seamRow(shape, display));

const seamRow: (shape: PieceShape, display: Display) => SeamRow = keptFor((shape, display) => {
  const { width, height } = sizeWords(shape, display).stitching;
  return { pieceName: shape.name, piece: shape.title, finished: `${width.text} × ${height.text}`, allowance: allowanceWords(shape, display), place: shape.place };
});

/** The width that most edges have first, then those that have another; an edge on the fold is no edge to sew. */
function allowanceWords(shape: PieceShape, display: Display): string {
  const edges = new Map<string, string[]>();
  for (const { name } of shape.stitching.edges) {
    if (name === shape.fold) continue;
    const size = shape.allowances.get(name)?.size;
    const words = size === undefined || size.n === 0n ? 'none' : showLength(size, display);
    const same = edges.get(words);
    if (same === undefined) edges.set(words, [nameText(name)]);
    else same.push(nameText(name));
  }
  const [most, ...others] = [...edges].sort(([, a], [, b]) => b.length - a.length);
  if (most === undefined) return 'none';
  if (others.length === 0) return most[0] === 'none' ? 'none' : `${most[0]} all round`;
  return `${most[0]}, but ${listed(others.map(([words, names]) => `${words} on ${listed(names)}`))}`;
}

const listed = (words: readonly string[]): string => (words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1] ?? ''}`);
