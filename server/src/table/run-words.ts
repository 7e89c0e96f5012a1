import { edgeEnd } from '../geometry/edge.ts';
import { edgeLength } from '../geometry/measure.ts';
import type { Edge } from '../geometry/shape.ts';
import type { Resolved } from '../model/pattern.ts';
import type { Run, Seam, Stretch } from '../model/seams/seam.ts';
import { isCloth } from '../model/stock/material.ts';
import type { Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { figure, listed } from './figures.ts';
import { placeOfLine } from './marks.ts';
import { edgeText, lineText } from './names.ts';

/** Nothing is sewn that is shorter than this, in millimetres. */
const least = 0.01;

export interface RunWords {
  readonly first: string;
  readonly second: string;
}

/** What a seam sews to what: edges by their titles, those of one piece together, and what something is laid on with its place. */
export function runWords(seam: Seam, resolved: Resolved, display: Display): RunWords {
  const cloths = clothsInSeam(seam, resolved);
  const words = ({ stretches, line }: Run): string => {
    if (line !== undefined) {
      const piece = resolved.pieces.find(({ shape }) => shape.name === line.piece.name);
      const place = piece === undefined ? '' : placeOfLine(piece, line.line.name, display);
      return `${line.piece.title}${cloths(line.piece.name)}: ${lineText(line.piece, line.line.name)}${place === '' ? '' : ` (${place})`}`;
    }
    const parts: { readonly piece: string; readonly edges: string[] }[] = [];
    for (const stretch of stretches) {
      const piece = `${stretch.piece.title}${cloths(stretch.piece.name)}`;
      const last = parts.at(-1);
      if (last?.piece === piece) last.edges.push(stretchText(stretch, display));
      else parts.push({ piece, edges: [stretchText(stretch, display)] });
    }
    return parts.map(({ piece, edges }) => `${piece}: ${listed(edges)}`).join('; ');
  };
  return { first: words(seam.first), second: words(seam.second) };
}

/** `left`, or the part of it that is sewn: `left (its lower 10 cm)`, `top (2 in to 8 in from its left end)`. */
export function stretchText({ piece, edge: name, from, to, folded }: Stretch, display: Display): string {
  const edge = piece.whole.stitching.edges.find((one) => one.name === name);
  const text = edgeText(piece, name);
  if (folded !== undefined) return `${text}, folded`;
  if (edge === undefined || to - from > edgeLength(edge) - least) return text;
  return `${text} (${partText(edge, from, to, display)})`;
}

export function partText(edge: Edge, from: number, to: number, display: Display): string {
  const length = edgeLength(edge);
  const { start } = edge;
  const end = edgeEnd(edge);
  const [dx, dy] = [end.x - start.x, end.y - start.y];
  const show = (millimetres: number): string => figure(measured(millimetres), display);
  if (Math.hypot(dx, dy) < least) return `${show(from)} to ${show(to)} against the clock from where it begins`;
  const isUpright = Math.abs(dy) >= Math.abs(dx);
  // Measured from below or from the left, whichever way the outline runs.
  const [near, far] = (isUpright ? dy : dx) > 0 ? [from, to] : [length - to, length - from];
  if (near < least) return `its ${isUpright ? 'lower' : 'left'} ${show(far)}`;
  if (far > length - least) return `its ${isUpright ? 'upper' : 'right'} ${show(far - near)}`;
  return `${show(near)} to ${show(far)} from its ${isUpright ? 'lower' : 'left'} end`;
}

type Kind = 'outside' | 'lining';

/**
 * Of a piece that is cut both from an outside's cloth and from a lining's, which of them a seam means: the one that all its
 * other pieces are cut from too. Where those are cut from both as well, each is sewn for itself, and nothing is said.
 */
function clothsInSeam({ first, second }: Seam, { pieces }: Resolved): (piece: string) => string {
  const names = new Set([first, second].flatMap(({ stretches, line }) => [...stretches.map(({ piece }) => piece.name), ...(line === undefined ? [] : [line.piece.name])]));
  const kinds = new Map([...names].map((name) => [name, kindsOf(pieces, name)]));
  const common = (['outside', 'lining'] as const).filter((kind) => [...kinds.values()].every((own) => own.size === 0 || own.has(kind)));
  return (piece) => {
    const own = kinds.get(piece) ?? new Map<Kind, Set<string>>();
    const [only] = common;
    return own.size === 2 && common.length === 1 && only !== undefined ? ` in ${listed([...(own.get(only) ?? [])])}` : '';
  };
}

export function kindsOf(pieces: Resolved['pieces'], name: string): ReadonlyMap<Kind, ReadonlySet<string>> {
  const kinds = new Map<Kind, Set<string>>();
  for (const { layer, material } of pieces.find(({ shape }) => shape.name === name)?.cuts ?? []) {
    if (layer !== undefined || !isCloth(material)) continue;
    const kind = material.role === 'lining' ? 'lining' : 'outside';
    kinds.set(kind, (kinds.get(kind) ?? new Set()).add(material.title));
  }
  return kinds;
}
