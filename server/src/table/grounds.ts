import type { ResolvedPiece } from '../model/pattern.ts';
import type { CutLine, Hand } from '../model/piece/cut-line.ts';
import { listed } from './figures.ts';
import { flipsOnToItself } from './flipping.ts';

/**
 * One way in which the cloth of a piece is cut in an option: along one line of it. What is marked, notched and sewn is
 * told once for each, since a tab cut along its stitching line has no allowances and is smaller all round.
 */
export interface Ground {
  /** The first of the cut lines that are cut so; all of them have its outline. */
  readonly line: CutLine;
  /** All of them. */
  readonly lines: readonly CutLine[];
  /** What it is cut from; empty where all of the piece is cut alike. */
  readonly materials: string;
  /** Which side of it faces whoever marks it as it is drawn. */
  readonly facing: string;
}

/** Layers are marked by what they go on, unless there is no such cloth. */
export function groundsOf({ cuts }: ResolvedPiece): readonly Ground[] {
  const cloth = cuts.filter((line) => line.layer === undefined);
  const byLine = new Map<string, CutLine[]>();
  for (const line of cloth.length > 0 ? cloth : cuts) {
    const key = [line.along ?? `${line.bounds.width} ${line.bounds.height}`, line.large?.toFraction() ?? ''].join(' ');
    const same = byLine.get(key);
    if (same === undefined) byLine.set(key, [line]);
    else same.push(line);
  }
  return [...byLine.values()].flatMap((lines) => {
    const [line] = lines;
    return line === undefined ? [] : [{ line, lines, materials: byLine.size === 1 ? '' : listed(titlesOf(lines)), facing: facingOf(lines) }];
  });
}

/** Their materials, each once. */
export const titlesOf = (lines: readonly CutLine[]): readonly string[] => [...new Set(lines.map((line) => line.material.title))];

const facingWords: Readonly<Record<Hand, string>> = {
  'as drawn': 'right side',
  mirrored: 'wrong side',
  twins: 'right side, of the flipped ones the wrong side',
};

function facingOf(lines: readonly CutLine[]): string {
  const words = lines.map((line) => (line.material.faces === 'alike' ? 'either side' : line.material.faces === 'glued' ? 'as drawn' : facingWords[line.hand === 'mirrored' && flipsOnToItself(line) ? 'as drawn' : line.hand]));
  if (new Set(words).size === 1) return words[0] ?? '';
  return lines.map((line, index) => `${line.material.title}: ${words[index] ?? ''}`).join('; ');
}
