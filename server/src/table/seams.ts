import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { sizeOfCut, sizeOfPiece } from '../model/piece/size.ts';
import { drawnName } from '../model/seams/seam.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { figure, listed, measure, measureSize, type Measure, type MeasuredSize } from './figures.ts';
import { groundsOf } from './grounds.ts';
import { keptFor } from './per-display.ts';
import { edgeText } from './names.ts';

/** What to sew by: how large a piece is between its seams, and how far from its edges they run. */
export interface SeamRow {
  readonly pieceName: string;
  readonly piece: string;
  /** What is cut so, where the piece is cut in more than one way. */
  readonly materials: string;
  readonly finished: MeasuredSize;
  /** As it is folded before it is sewn; undefined where it isn't. */
  readonly folded: MeasuredSize | undefined;
  /** `3/8 in all round`, `1.5 cm, but 3 cm on bottom`, `1 1/2 in on hem and 1/2 in on side`, `none`. */
  readonly allowance: string;
  /** The same edge by edge; empty where there is none. */
  readonly allowances: readonly { readonly edge: string; readonly width: Measure }[];
  readonly place: Place;
}

/** One for each line that a piece's cloth is cut along. */
export const seamRows = (resolved: Resolved, display: Display): readonly SeamRow[] =>
  resolved.pieces.flatMap((piece) => groundsOf(piece).map(({ line, materials }) => {
    const row = seamRow(line, display);
    const folded = piece.folded === undefined || !isRound(line) ? undefined : measureSize(piece.folded.size, display);
    return { ...row, materials, folded };
  }));

const seamRow: (line: CutLine, display: Display) => SeamRow = keptFor((line, display) => {
  const shape = line.piece;
  // Only outside the stitching line is there anything to sew within.
  const isAllowed = line.along === 'cutting';
  return {
    pieceName: shape.name,
    piece: shape.title,
    materials: '',
    finished: finishedSize(line, display),
    folded: undefined,
    allowance: isAllowed ? allowanceWords(shape, display) : 'none',
    allowances: isAllowed ? allowancesOf(shape, display) : [],
    place: shape.place,
  };
});

const isRound = ({ along }: CutLine): boolean => along === 'cutting' || along === 'stitching';

const finishedSize = (line: CutLine, display: Display): MeasuredSize =>
  measureSize(isRound(line) ? sizeOfPiece(line.piece, 'stitching') : sizeOfCut(line), display);

function allowancesOf(shape: PieceShape, display: Display): SeamRow['allowances'] {
  return shape.stitching.edges.flatMap(({ name }) => {
    const size = shape.allowances.get(name)?.size;
    return name === shape.fold || size === undefined || size.n === 0n ? [] : [{ edge: edgeText(shape, name), width: measure(size, display) }];
  });
}

/**
 * The width that more than half of the edges have, then those that have another; where there is none such, every edge by
 * its name. An edge on the fold is no edge to sew.
 */
function allowanceWords(shape: PieceShape, display: Display): string {
  const edges = new Map<string, string[]>();
  for (const { name } of shape.stitching.edges) {
    if (name === shape.fold) continue;
    const size = shape.allowances.get(name)?.size;
    const words = size === undefined || size.n === 0n ? 'none' : figure(size, display);
    const same = edges.get(words);
    // The other half of an edge goes without saying where it is as the first.
    const own = drawnName(name);
    if (own !== name && same?.includes(edgeText(shape, own)) === true) continue;
    if (same === undefined) edges.set(words, [edgeText(shape, name)]);
    else same.push(edgeText(shape, name));
  }
  const [most, ...others] = [...edges].sort(([, a], [, b]) => b.length - a.length);
  if (most === undefined) return 'none';
  if (others.length === 0) return most[0] === 'none' ? 'none' : `${most[0]} all round`;
  const each = (widths: Iterable<readonly [string, readonly string[]]>): string => listed([...widths].map(([words, names]) => `${words} on ${listed(names)}`));
  const isMost = most[1].length > others.reduce((sum, [, names]) => sum + names.length, 0);
  return isMost ? `${most[0]}, but ${each(others)}` : each(edges);
}
