import { edgeLength } from '../geometry/measure.ts';
import type { Resolved, ResolvedPiece } from '../model/pattern.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Finish } from '../model/seams/finishes.ts';
import type { Stretch } from '../model/seams/seam.ts';
import { coveredBy } from '../model/seams/sewn-edges.ts';
import { usualTolerance } from '../model/seams/read-seam.ts';
import { titleText } from '../model/titles.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { figure, listed } from './figures.ts';
import { edgeText, lineText } from './names.ts';

/** What becomes of edges, sewn to others or not. */
export interface FinishRow {
  readonly pieceName: string;
  readonly piece: string;
  /** `top`, `left and right`, `the rest of left` where a seam takes part of it. */
  readonly edges: string;
  /** `hemmed, 1.5 cm wide`, `bound with Binding`, `takes Zip`, `faced`, `left as it is cut`. */
  readonly finish: string;
  readonly place: Place;
}

/** Of each piece that is cut, in the order of the spec; edges of which the same is said stand together. */
export const finishRows = ({ pieces, seams, supplies }: Resolved, display: Display): readonly FinishRow[] => {
  const joined = seams.filter(({ way }) => way === 'with').flatMap(({ first, second }) => [...first.stretches, ...second.stretches]);
  // What something is laid on is not taken up by that.
  const sewn = [...joined, ...seams.filter(({ way }) => way === 'onto').flatMap(({ first }) => first.stretches)];
  return pieces.filter(({ cuts }) => cuts.length > 0).flatMap((piece) => rowsOf(piece, { joined, sewn, supplies }, display));
};

function rowsOf({ shape, finishes }: ResolvedPiece, { joined, sewn, supplies }: Pick<Resolved, 'supplies'> & { readonly joined: readonly Stretch[]; readonly sewn: readonly Stretch[] }, display: Display): readonly FinishRow[] {
  const rows = new Map<string, { readonly edges: string[]; readonly place: Place }>();
  for (const [edge, finish] of finishes) {
    const text = finishText(finish, supplies, display);
    // Where all edges are said to be raw, those that a seam takes up are not.
    if (finish.kind === 'raw' && isSewnWhole(shape, edge, joined)) continue;
    const isWindow = shape.lines.some(({ name, use }) => name === edge && use === 'window');
    const row = rows.get(text) ?? { edges: [], place: finish.place };
    row.edges.push(isWindow ? lineText(shape, edge) : `${isSewnInPart(shape, edge, sewn) ? 'the rest of ' : ''}${edgeText(shape, edge)}`);
    rows.set(text, row);
  }
  return [...rows].map(([finish, { edges, place }]) => ({ pieceName: shape.name, piece: shape.title, edges: listed(edges), finish, place }));
}

const isSewnInPart = (shape: PieceShape, edge: string, stretches: readonly Stretch[]): boolean => sewnOf(shape, edge, stretches) > 0 && !isSewnWhole(shape, edge, stretches);

function isSewnWhole(shape: PieceShape, edge: string, stretches: readonly Stretch[]): boolean {
  const found = shape.whole.stitching.edges.find((one) => one.name === edge);
  return found !== undefined && edgeLength(found) - sewnOf(shape, edge, stretches) <= usualTolerance;
}

const sewnOf = ({ name }: PieceShape, edge: string, stretches: readonly Stretch[]): number => coveredBy(stretches.filter((one) => one.piece.name === name && one.edge === edge));

/** What becomes of an edge; of what runs through a hem nothing where that is not there, as with another option. */
export function finishText({ kind, size, supply, hem }: Finish, supplies: Resolved['supplies'], display: Display): string {
  const isThere = supplies.some(({ name }) => name === supply?.tree.name.text);
  const title = supply === undefined || supply.tree.kind !== 'supply' ? undefined : titleText(supply.tree.title, supply.tree.name);
  switch (kind) {
    case 'hemmed': return `${size === undefined ? 'hemmed' : `hemmed, ${figure(size, display)} wide`}${title === undefined || !isThere ? '' : `, with ${title} in it`}`;
    case 'bound': return title === undefined ? 'bound' : `bound with ${title}`;
    case 'takes': return `takes ${title ?? 'what is sewn on'}`;
    case 'caught': return hem === undefined ? 'caught in a hem' : `caught in the hem of ${hem.piece.title}: ${edgeText(hem.piece, hem.edge)}, folded together with it`;
    case 'faced': return 'faced';
    case 'raw': return 'left as it is cut';
  }
}
