import type { Resolved, ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Seam } from '../model/seams/seam.ts';
import type { Matched } from './matched.ts';
import type { Pair } from './pair.ts';

/**
 * Pieces that only one of two patterns has, put together where the one is the other under another name and of another size:
 * as many are cut of the same materials, and it is sewn to the same edges, or has the same title where neither is sewn to any. It must
 * be the only one of either that it could be.
 */
export function withRenamed(pieces: Matched<ResolvedPiece>, was: Resolved, now: Resolved, sameMaterial: Pair['sameMaterial']): Matched<ResolvedPiece> {
  const names = new Map(pieces.both.map(([a, b]) => [b.shape.name, a.shape.name]));
  const couldBe = (a: ResolvedPiece, b: ResolvedPiece): boolean => cutAlike(a, b, sameMaterial) && (sewnAlike(a, b, was.seams, now.seams, names) ?? a.shape.title === b.shape.title);
  const pairs = pieces.gone.flatMap((a) => pieces.come.filter((b) => couldBe(a, b)).map((b) => [a, b] as const));
  const sure = pairs.filter(([a, b]) => pairs.filter(([one, other]) => one === a || other === b).length === 1);
  if (sure.length === 0) return pieces;
  const both = [...pieces.both, ...sure];
  return {
    both: now.pieces.flatMap((piece) => both.filter(([, b]) => b === piece)),
    gone: pieces.gone.filter((one) => !sure.some(([a]) => a === one)),
    come: pieces.come.filter((one) => !sure.some(([, b]) => b === one)),
  };
}

const cutAlike = (a: ResolvedPiece, b: ResolvedPiece, sameMaterial: Pair['sameMaterial']): boolean =>
  a.cuts.length === b.cuts.length && a.cuts.every((line, index) => {
    const other: CutLine | undefined = b.cuts[index];
    return other !== undefined && sameMaterial(line.material, other.material) && line.count.equals(other.count) && line.hand === other.hand && line.onFold === other.onFold && line.along === other.along;
  });

/** Whether its edges are sewn to the same edges of others; undefined where neither is sewn to any. */
function sewnAlike(a: ResolvedPiece, b: ResolvedPiece, before: readonly Seam[], after: readonly Seam[], names: ReadonlyMap<string, string>): boolean | undefined {
  const [was, now] = [partnersOf(a, before, new Map()), partnersOf(b, after, names)];
  return was.length === 0 && now.length === 0 ? undefined : was.join('\n') === now.join('\n');
}

/** What a piece is sewn to, by the earlier names of the pieces. */
function partnersOf({ shape }: ResolvedPiece, seams: readonly Seam[], names: ReadonlyMap<string, string>): readonly string[] {
  return seams.flatMap(({ first, second, way }) => [[first, second, 'first'] as const, [second, first, 'second'] as const].flatMap(([own, other, which]) => {
    const edges = own.stretches.filter(({ piece }) => piece === shape).map(({ edge }) => edge);
    if (edges.length === 0) return [];
    const called = (name: string): string => (name === shape.name ? 'itself' : (names.get(name) ?? name));
    const partners = [...other.stretches.map(({ piece, edge }) => `${called(piece.name)}.${edge}`), ...(other.line === undefined ? [] : [`${called(other.line.piece.name)}.${other.line.line.name}`])];
    return [`${way} ${which} ${edges.join(',')}: ${partners.join(',')}`];
  })).sort();
}
