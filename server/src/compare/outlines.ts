import type { Polygon } from '../geometry/shape.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Change } from './change.ts';
import { cutSizeText } from './lengths.ts';
import type { Pair } from './pair.ts';
import { cutLines } from './piece-changes.ts';
import { cutsTheSame } from './same-outline.ts';

/** What is cut, as a drawing: rings in millimetres, y upwards, and its size in words. */
export interface Outline {
  readonly rings: readonly Polygon[];
  readonly size: string;
}

/** A cut line of which the outline is another. */
export interface OutlineChange extends Pick<Change, 'subject' | 'when'> {
  /** What it is cut from. */
  readonly material: string;
  readonly was: Outline;
  readonly now: Outline;
}

/** Both outlines of what is cut in another size or shape. */
export function outlineChanges(pair: Pair): readonly Omit<OutlineChange, 'when'>[] {
  const outline = (line: CutLine): Outline => ({ rings: [line.outline, ...line.holes], size: cutSizeText(line, pair.fresh.pattern.display) });
  return pair.pieces.both.flatMap(([before, after]) => cutLines(pair, before, after).both
    .filter(([was, now]) => !cutsTheSame(was, now))
    .map(([was, now]) => ({ subject: now.piece.title, material: now.material.title, was: outline(was), now: outline(now) })));
}
