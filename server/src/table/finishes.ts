import type { Resolved, ResolvedPiece } from '../model/pattern.ts';
import type { Finish } from '../model/seams/finishes.ts';
import { titleText } from '../model/titles.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { figure, listed } from './figures.ts';
import { edgeText, lineText } from './names.ts';

/** What becomes of edges that are sewn to no other. */
export interface FinishRow {
  readonly pieceName: string;
  readonly piece: string;
  /** `top`, `left and right`. */
  readonly edges: string;
  /** `hemmed, 1.5 cm wide`, `bound with Binding`, `takes Zip`, `faced`, `left as it is cut`. */
  readonly finish: string;
  readonly place: Place;
}

/** Of each piece that is cut, in the order of the spec; edges of which the same is said stand together. */
export const finishRows = ({ pieces }: Resolved, display: Display): readonly FinishRow[] => pieces.filter(({ cuts }) => cuts.length > 0).flatMap((piece) => rowsOf(piece, display));

function rowsOf({ shape, finishes }: ResolvedPiece, display: Display): readonly FinishRow[] {
  const rows = new Map<string, { readonly edges: string[]; readonly place: Place }>();
  for (const [edge, finish] of finishes) {
    const text = finishText(finish, display);
    const row = rows.get(text) ?? { edges: [], place: finish.place };
    row.edges.push(shape.lines.some(({ name, use }) => name === edge && use === 'window') ? lineText(shape, edge) : edgeText(shape, edge));
    rows.set(text, row);
  }
  return [...rows].map(([finish, { edges, place }]) => ({ pieceName: shape.name, piece: shape.title, edges: listed(edges), finish, place }));
}

function finishText({ kind, size, supply }: Finish, display: Display): string {
  const title = supply === undefined || supply.tree.kind !== 'supply' ? undefined : titleText(supply.tree.title, supply.tree.name);
  switch (kind) {
    case 'hemmed': return size === undefined ? 'hemmed' : `hemmed, ${figure(size, display)} wide`;
    case 'bound': return title === undefined ? 'bound' : `bound with ${title}`;
    case 'takes': return `takes ${title ?? 'what is sewn on'}`;
    case 'faced': return 'faced';
    case 'raw': return 'left as it is cut';
  }
}
