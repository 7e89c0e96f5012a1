import { glued, type Glued, type Rim } from '../../geometry/gluing.ts';
import type { Face, Span } from '../../geometry/gluing-cells.ts';
import { Groups } from '../../geometry/groups.ts';
import { edgeLength } from '../../geometry/measure.ts';
import { foldedOf } from '../piece/folded.ts';
import type { PieceShape } from '../piece/piece.ts';
import { allPieces, allSeams } from '../query/inputs.ts';
import type { Context, Query } from '../query/query.ts';
import type { Layer } from './cloths.ts';
import { copiedSeams, countsOf, type CopiedSeam } from './copies.ts';
import { faceOf } from './face-of-piece.ts';
import { finishesOf } from './finishes.ts';
import { jointsOf, settled, spanOf, timesOf, type Ahead, type FaceNumber } from './joints.ts';
import { seamOf } from './read-seam.ts';
import { drawnName, type Stretch } from './seam.ts';

/** Edges of the finished article that no seam joins, one after the other as they lie round it. */
export interface ArticleRim {
  readonly stretches: readonly Stretch[];
  /** Of what the edges are cut. */
  readonly layer: Layer;
  /** In millimetres, along stitching lines. */
  readonly length: number;
  /** Whether it comes back to where it began; else it runs from one seam by which a piece is laid on another to the next. */
  readonly isClosed: boolean;
  /** Whether it is the outer edge of what lies flat, rather than a mouth. */
  readonly isOuter: boolean;
  /** How many like it there are. */
  readonly count: number;
}

/**
 * An edge that turns once round what it bounds is that of a flat sheet; one that doesn't turn is the mouth of a tube or a
 * bag. Halfway between is taken for the limit (invented).
 */
const outerTurn = Math.PI;

/** More copies than these are not looked through; nor are more ways to join them, counted in copies that are joined anew. */
const most = { faces: 400, tries: 2000 };

/** The rims of what the seams of a pattern join, in the order of the spec; nothing where the spec leaves open how they hang together. */
export const rimsOf: Query<'all', readonly ArticleRim[]> = {
  name: 'rims',
  input: false,
  compute: (context) => {
    const seams = context.get(allSeams, 'all').map((one) => context.get(seamOf, one)).filter((seam) => seam !== undefined);
    const joined = seams.filter(({ way }) => way === 'with');
    const sewn = new Set(seams.flatMap(({ first, second, way }) => [...first.stretches, ...(way === 'with' ? second.stretches : [])].map(({ piece }) => piece)));
    const order = context.get(allPieces, 'all');
    const pieces = [...sewn].sort((a, b) => order.indexOf(a.declaration) - order.indexOf(b.declaration));
    const faces = facesOf(context, pieces);
    if (faces.length > most.faces) return [];
    const laid = seams.filter(({ way }) => way === 'onto').flatMap(({ first }) => first.stretches.flatMap((stretch) => faces.flatMap(({ piece }, index) => (piece === stretch.piece ? [spanOf(stretch, index)] : []))));
    const result = gluedSurely(faces, copiedSeams(context, joined), laid);
    const surely = result.rims.filter(({ spans: [first] }) => first !== undefined && !result.unclear.has(result.bodies[first.face] ?? -1)).map((rim) => articleRim(rim, faces));
    return counted(surely.filter((rim) => !isEndOfStrip(context, rim) && !isFoldedShut(context, rim)));
  },
};

/** The end of a strip that is folded flat and sewn along its side, be it a strap or a loop, is no mouth. */
const isEndOfStrip = (context: Context, { isClosed, stretches: [only, ...others] }: ArticleRim): boolean =>
  isClosed && only !== undefined && others.length === 0 && context.get(foldedOf, only.piece.declaration) !== undefined;

/** A gap between an edge that is hemmed and those that are caught in that very hem is closed by it. */
function isFoldedShut(context: Context, { stretches }: ArticleRim): boolean {
  const nameOf = ({ name }: PieceShape, edge: string): string => `${name}.${edge}`;
  const edges = stretches.map(({ piece, edge }) => ({ name: nameOf(piece, drawnName(edge)), hem: context.get(finishesOf, piece.declaration).get(drawnName(edge))?.hem }));
  const hems = new Set(edges.flatMap(({ hem }) => (hem === undefined ? [] : [nameOf(hem.piece, hem.edge)])));
  const names = new Set(edges.map(({ name }) => name));
  return hems.size > 0 && edges.every(({ name, hem }) => (hem === undefined ? hems.has(name) : names.has(nameOf(hem.piece, hem.edge))));
}

interface PieceFace extends Face {
  readonly piece: PieceShape;
  readonly layer: Layer;
  readonly copy: number;
}

function facesOf(context: Context, pieces: readonly PieceShape[]): readonly PieceFace[] {
  return pieces.flatMap((piece) => {
    const face = faceOf(piece);
    return [...countsOf(context, piece)].flatMap(([layer, count]) => Array.from({ length: Math.min(count, most.faces + 1) }, (_, index): PieceFace => ({ ...face, piece, layer, copy: index + 1 })));
  });
}

/**
 * Glued as the spec says. Where several copies may hang together in more than one way, in the one that leaves most points
 * apart: from the plainest, one seam after the other is tried the other way, as long as that leaves more.
 */
function gluedSurely(faces: readonly PieceFace[], seams: readonly CopiedSeam[], laid: readonly Span[]): Glued {
  const numbers = new Map(faces.map(({ piece, layer, copy }, index) => [`${piece.name} ${layer} ${copy}`, index]));
  const faceNumber: FaceNumber = (piece, layer, copy) => numbers.get(`${piece.name} ${layer} ${copy}`) ?? 0;
  const glue = (turned: ReadonlySet<CopiedSeam>): Glued => glued(faces, settled(faces, seams.flatMap((seam) => jointsOf(seam, faceNumber, aheadBy(turned)) ?? [])), laid);
  const open = openSeams(seams, faceNumber);
  const mayTry = open.length * faces.length <= most.tries;
  let turned: ReadonlySet<CopiedSeam> = new Set();
  let best = glue(turned);
  const unsure = new Set(mayTry ? [] : open);
  for (const seam of mayTry ? open : []) {
    const other = new Set([...turned, seam]);
    const tried = glue(other);
    if (tried.points > best.points) [turned, best] = [other, tried];
    else if (tried.points === best.points && signature(tried.rims, faces) !== signature(best.rims, faces)) unsure.add(seam);
  }
  // What a later seam has decided is no longer open.
  for (const seam of unsure) if (mayTry && glue(new Set([...turned, seam])).points < best.points) unsure.delete(seam);
  for (const seam of seams) if (jointsOf(seam, faceNumber, aheadBy(turned)) === undefined) unsure.add(seam);
  return { ...best, unclear: new Set([...best.unclear, ...[...unsure].flatMap((seam) => bodiesIn(seam, faces, best.bodies))]) };
}

/** The edges in the second runs of some seams are those of the next copy each. */
function aheadBy(turned: ReadonlySet<CopiedSeam>): Ahead {
  const edges = [...turned].flatMap(({ second }) => second.run.stretches);
  return (stretch) => edges.filter(({ piece, edge }) => piece === stretch.piece && edge === stretch.edge).length;
}

/**
 * Seams that sew a copy to itself though there are others, or that are sewn several times on copies which hang together
 * already: in a ring, or each for itself.
 */
function openSeams(seams: readonly CopiedSeam[], faceNumber: FaceNumber): readonly CopiedSeam[] {
  const bodies = new Groups();
  return seams.filter((seam) => {
    const own = jointsOf(seam, faceNumber, () => 0) ?? [];
    const several = [...seam.second.counts.values()].some((count) => count > 1);
    const isRing = (timesOf(seam.first) ?? 0) > 1;
    const isOpen = several && own.some(({ first, second }) => first.some((one) => second.some((other) => one.face === other.face || (isRing && bodies.of(one.face) === bodies.of(other.face)))));
    for (const { first, second } of own) for (const { face } of [...first, ...second]) bodies.join(first[0]?.face ?? face, face);
    return isOpen;
  });
}

/** What rims there are, whatever the copies that they run over. */
const signature = (rims: readonly Rim[], faces: readonly PieceFace[]): string =>
  rims.map(({ spans }) => spans.map(({ face, side, from, to }) => `${faces[face]?.piece.name ?? ''} ${side} ${from.toFixed(1)} ${to.toFixed(1)}`).sort().join()).sort().join('\n');

const bodiesIn = ({ first, second }: CopiedSeam, faces: readonly PieceFace[], bodies: readonly number[]): readonly number[] => {
  const pieces = new Set([...first.run.stretches, ...second.run.stretches].map(({ piece }) => piece));
  return faces.flatMap(({ piece }, index) => (pieces.has(piece) ? (bodies[index] ?? []) : []));
};

function articleRim({ spans, length, isClosed, turn }: Rim, faces: readonly PieceFace[]): ArticleRim {
  const stretches = spans.flatMap(({ face, side, from, to, way }): readonly Stretch[] => {
    const piece = faces[face]?.piece;
    const edge = piece?.whole.stitching.edges[side];
    if (piece === undefined || edge === undefined) return [];
    // A whole edge is as long as it is before darts in it are closed.
    const isWhole = from === 0 && to === faces[face]?.sides[side]?.length;
    return [{ piece, edge: edge.name, place: piece.edgePlaces.get(edge.name) ?? piece.place, from, to: isWhole ? edgeLength(edge) : to, way }];
  });
  return { stretches, layer: faces[spans[0]?.face ?? 0]?.layer ?? 'outside', length, isClosed, isOuter: isClosed && turn > outerTurn, count: 1 };
}

/** Rims over the same edges are told once, with their number. */
function counted(rims: readonly ArticleRim[]): readonly ArticleRim[] {
  const all = new Map<string, ArticleRim>();
  for (const rim of rims) {
    const key = `${rim.layer} ${rim.stretches.map(({ piece, edge, from, to }) => `${piece.name}.${edge} ${from.toFixed(1)} ${to.toFixed(1)}`).sort().join()}`;
    const known = all.get(key);
    all.set(key, known === undefined ? rim : { ...known, count: known.count + 1 });
  }
  return [...all.values()];
}
