import type { Resolved } from '../model/pattern.ts';
import { dartsOn, type DartOnEdge } from '../model/piece/darts.ts';
import type { Point } from '../geometry/shape.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { distance } from '../geometry/vector.ts';
import type { Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { figure, measure } from './figures.ts';
import { edgeText } from './names.ts';
import type { SewingRow } from './sewing.ts';

/** Darts and pleats stand before the seams that run over them: a dart is a seam of its two legs, a pleat is laid along its edge, or sewn down. */
export const dartRows = (resolved: Resolved, display: Display): readonly SewingRow[] => resolved.pieces.filter(({ cuts }) => cuts.length > 0).flatMap(({ shape }) =>
  shape.stitching.edges.flatMap(({ name }) => dartsOn(shape, name).map((dart) => ({
    ...(dart.line.pleat === undefined ? dartRow : pleatRow)(shape, name, dart, display),
    times: clothCount(resolved, shape.name) * (shape.fold === undefined ? 1 : 2),
  }))));

function dartRow(shape: PieceShape, edge: string, { line, from, to }: DartOnEdge, display: Display): Omit<SewingRow, 'times'> {
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
    unsewn: 0,
    place: line.place,
  };
}

/** A pleat that isn't sewn down is basted across the edge, as wide as it is deep. Where it lies is told among the marks, once. */
function pleatRow(shape: PieceShape, edge: string, { line }: DartOnEdge, display: Display): Omit<SewingRow, 'times'> {
  const { depth, stitched } = line.pleat ?? { depth: 0, stitched: undefined };
  const [[fold, laid], isUpright] = sidesOf(line.points);
  const show = (length: number): string => figure(measured(length), display);
  const other = shape.fold === undefined ? '' : ', and so on the other half, mirrored';
  return {
    seam: `${shape.title}: ${line.title}`,
    first: `${stitched === undefined ? 'pleat' : 'tuck'} on ${edgeText(shape, edge)}, ${show(depth)} deep: its ${fold} line`,
    how: 'laid on',
    second: `its ${laid} line, so that its fold looks ${lookingTo(laid, isUpright)}${other}`,
    length: measure(measured(stitched ?? depth), display),
    ease: '', allowance: '', notches: '', open: '',
    unsewn: 0,
    place: line.place,
  };
}

type Side = 'left' | 'right' | 'lower' | 'upper';

/** On which sides of the pleat its fold lies and is laid, by how the piece is drawn; whether they lie over one another. */
function sidesOf(points: readonly Point[]): readonly [sides: readonly [fold: Side, laid: Side], isUpright: boolean] {
  const [from = { x: 0, y: 0 }, to = from] = [points[0], points.at(-1)];
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  if (Math.abs(dy) > Math.abs(dx)) return [dy > 0 ? ['lower', 'upper'] : ['upper', 'lower'], true];
  return [dx > 0 ? ['left', 'right'] : ['right', 'left'], false];
}

const lookingTo = (side: Side, isUpright: boolean): string => (isUpright ? (side === 'upper' ? 'up' : 'down') : `to the ${side}`);

/** How many of a piece there are, of cloth: its layers are no pieces of their own. */
function clothCount({ pieces }: Resolved, name: string): number {
  const cuts = pieces.find(({ shape }) => shape.name === name)?.cuts ?? [];
  return cuts.reduce((sum, cut) => (cut.layer === undefined ? sum + Number(cut.count.n) : sum), 0);
}
