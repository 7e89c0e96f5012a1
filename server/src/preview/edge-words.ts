import { edgeLength } from '../geometry/measure.ts';
import type { Edge } from '../geometry/shape.ts';
import { dartsOn } from '../model/piece/darts.ts';
import type { PieceShape } from '../model/piece/piece.ts';

/** Millimetres in words. */
type Show = (length: number) => string;

/**
 * How long an edge is between the stitching lines, and how long its cutting line: `sewn 20 cm, cut 22 cm`, or `20 cm long` where
 * both read the same. Of a piece on a fold it is the half that is drawn.
 */
export function edgeWords(shape: PieceShape, cutting: Edge, show: Show): string {
  const cut = show(edgeLength(cutting));
  const stitching = shape.stitching.edges.find(({ name }) => name === cutting.name);
  if (stitching === undefined) return `${cut} long`;
  const { taken, closed } = closedOn(shape, stitching.name);
  const sewn = show(edgeLength(stitching) - taken);
  return sewn === cut ? `${cut} long` : `sewn ${sewn}${closed}, cut ${cut}`;
}

/** How long a stitching line is as it is drawn, and what of it is sewn: `16 in long, sewn 15 in with its dart closed`. */
export function stitchingWords(shape: PieceShape, stitching: Edge, show: Show): string {
  const { taken, closed } = closedOn(shape, stitching.name);
  const long = `${show(edgeLength(stitching))} long`;
  return taken === 0 ? long : `${long}, sewn ${show(edgeLength(stitching) - taken)}${closed}`;
}

/** What the darts and pleats of an edge take of its length, millimetres, and in words that they do. */
function closedOn(shape: PieceShape, edge: string): { readonly taken: number; readonly closed: string } {
  const all = dartsOn(shape, edge);
  const [darts, pleats] = [all.filter(({ line }) => line.isDart === true).length, all.filter(({ line }) => line.pleat !== undefined).length];
  const plural = (count: number, word: string): string => `${word}${count === 1 ? '' : 's'}`;
  const told = [...(darts === 0 ? [] : [`${plural(darts, 'dart')} closed`]), ...(pleats === 0 ? [] : [`${plural(pleats, 'pleat')} laid`])];
  return { taken: all.reduce((sum, { from, to }) => sum + to - from, 0), closed: told.length === 0 ? '' : ` with its ${told.join(' and ')}` };
}
