import type { Resolved } from '../model/pattern.ts';
import type { ArticleRim } from '../model/seams/rims.ts';
import { drawnName } from '../model/seams/seam.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { listed, measure, type Measure } from './figures.ts';
import { finishText } from './finishes.ts';
import { edgeText } from './names.ts';
import { kindsOf, stretchText } from './run-words.ts';

/** An opening or outer edge of what is sewn together. */
export interface OpeningRow {
  /** `Opening at the top`, `Opening`, `Outer edge`, `Free edge`. */
  readonly opening: string;
  /** As they lie round it: `Front: top; Back: top`. */
  readonly edges: string;
  readonly length: Measure;
  /** Whether it goes round; else it runs from where a piece is laid on another to where it is so again. */
  readonly isClosed: boolean;
  readonly count: number;
  /** What becomes of its edges, each said once. */
  readonly finish: readonly string[];
  readonly place: Place;
}

export const openingRows = (resolved: Resolved, display: Display): readonly OpeningRow[] => resolved.rims.flatMap((rim) => {
  const [first] = rim.stretches;
  return first === undefined ? [] : [{
    opening: titleOf(rim),
    edges: edgesOf(rim, resolved, display),
    length: measure(measured(rim.length), display),
    isClosed: rim.isClosed,
    count: rim.count,
    finish: finishesIn(rim, resolved, display),
    place: first.place,
  }];
});

/** Edges that all have one name name the opening. */
function titleOf({ stretches, isClosed, isOuter }: ArticleRim): string {
  if (!isClosed) return 'Free edge';
  const names = new Set(stretches.map(({ piece, edge }) => edgeText(piece, drawnName(edge))));
  const [name] = names;
  const what = isOuter ? 'Outer edge' : 'Opening';
  return names.size === 1 && name !== undefined ? `${what} at the ${name}` : what;
}

function edgesOf({ stretches, layer }: ArticleRim, { pieces }: Resolved, display: Display): string {
  const parts: { readonly piece: string; readonly edges: string[] }[] = [];
  for (const stretch of stretches) {
    const kinds = kindsOf(pieces, stretch.piece.name);
    const piece = `${stretch.piece.title}${kinds.size < 2 ? '' : ` in ${listed([...(kinds.get(layer) ?? [])])}`}`;
    const last = parts.at(-1);
    if (last?.piece === piece) last.edges.push(stretchText(stretch, display));
    else parts.push({ piece, edges: [stretchText(stretch, display)] });
  }
  return parts.map(({ piece, edges }) => `${piece}: ${sameOr(edges)}`).join('; ');
}

/** `top`, `top, of each of 2`, `left and right`. */
function sameOr(edges: readonly string[]): string {
  const [first = ''] = edges;
  return edges.length > 1 && edges.every((edge) => edge === first) ? `${first}, of each of ${edges.length}` : listed(edges);
}

function finishesIn({ stretches }: ArticleRim, { pieces, supplies }: Resolved, display: Display): readonly string[] {
  const finishes = stretches.map(({ piece, edge }) => pieces.find(({ shape }) => shape.name === piece.name)?.finishes.get(drawnName(edge)));
  return [...new Set(finishes.filter((finish) => finish !== undefined).map((finish) => finishText(finish, supplies, display)))];
}
