import type { Resolved } from '../model/pattern.ts';
import { dartsOn, type DartOnEdge } from '../model/piece/darts.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { distance } from '../geometry/vector.ts';
import type { Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { figure, measure } from './figures.ts';
import { edgeText } from './names.ts';
import type { SewingRow } from './sewing.ts';

/** Darts stand before the seams that run over them: each is a seam of its two legs. */
export const dartRows = ({ pieces }: Resolved, display: Display): readonly SewingRow[] => pieces.filter(({ cuts }) => cuts.length > 0).flatMap(({ shape }) =>
  shape.stitching.edges.flatMap(({ name }) => dartsOn(shape, name).map((dart) => dartRow(shape, name, dart, display))));

function dartRow(shape: PieceShape, edge: string, { line, from, to }: DartOnEdge, display: Display): SewingRow {
  const [leg = { x: 0, y: 0 }, tip = leg, other = leg] = line.points;
  const depth = Math.sqrt(Math.max(0, distance(leg, tip) ** 2 - (distance(leg, other) / 2) ** 2));
  const show = (length: number): string => figure(measured(length), display);
  return {
    seam: `${shape.title}: ${line.title}`,
    first: `dart on ${edgeText(shape, edge)}, ${show(to - from)} wide and ${show(depth)} deep: one leg`,
    how: 'sewn to',
    second: shape.fold === undefined ? 'its other leg' : 'its other leg, and so on the other half',
    length: measure(measured(distance(leg, tip)), display),
    ease: '', allowance: '', notches: '', open: '',
    place: line.place,
  };
}
