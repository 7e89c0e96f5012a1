import type { Resolved } from '../model/pattern.ts';
import type { PieceShape, StitchRow } from '../model/piece/piece.ts';
import { drawnName, type Run } from '../model/seams/seam.ts';
import { isCloth } from '../model/stock/material.ts';
import type { Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import { figure, listed, measure } from './figures.ts';
import { edgeText, lineText } from './names.ts';
import type { SewingRow } from './sewing.ts';

/** Topstitching and quilting, which stand after the seams: most of it is sewn once those are. */
export const stitchingRows = (resolved: Resolved, display: Display): readonly SewingRow[] => resolved.pieces.filter(({ cuts }) => cuts.length > 0).flatMap(({ shape }) =>
  shape.stitchRows.map((row) => ({
    seam: `${shape.title}: ${row.title}`,
    ...(row.kind === 'topstitch' ? { first: besides(shape, row), how: 'topstitched' as const } : { first: `${lineText(shape, row.from[0] ?? '')}, and beside it`, how: 'quilted' as const }),
    second: stitchText(shape, row, display),
    times: timesOf(resolved, shape, row),
    length: measure(measured(row.length), display),
    ease: '', allowance: '', notches: '', open: '',
    unsewn: 0,
    place: row.place,
  })));

/** `1/8 in from the finished edge`, `1 1/2 in apart, from cut edge to cut edge`. */
export function stitchText(shape: PieceShape, row: StitchRow, display: Display): string {
  const distance = finely(row.distance, display);
  if (row.kind === 'quilt') return `in ${wayOf(shape, row)} rows ${distance} apart, from cut edge to cut edge`;
  if (row.distance.n === 0n) return row.from.length > 1 ? 'along those lines' : 'along that line';
  const kinds = new Set(row.from.map((name) => kindOf(shape, name)));
  const from = [kinds.has('edge') ? 'the finished edge' : '', kinds.has('fold') ? 'the fold' : '', kinds.has('window') ? 'the window' : ''].filter((text) => text !== '');
  return `${distance} from ${from.join(' or ')}`;
}

/** How the rows run on the piece as it is drawn. */
function wayOf({ lines }: PieceShape, { from: [name] }: StitchRow): 'level' | 'upright' | 'slanting' {
  const [a, b] = lines.find((line) => line.name === name)?.points ?? [];
  if (a === undefined || b === undefined) return 'slanting';
  return Math.abs(a.y - b.y) < 0.01 ? 'level' : Math.abs(a.x - b.x) < 0.01 ? 'upright' : 'slanting';
}

/** Finer than a size: most rows lie nearer to their edge than a step. */
const finely = (length: Rational, display: Display): string => figure(length, { ...display, step: display.step.div(display.unit === 'in' ? 4 : 10) });

/** `left, bottom and right`. */
export const besides = (shape: PieceShape, { from }: StitchRow): string => listed(from.map((name) => (kindOf(shape, name) === 'edge' ? edgeText(shape, name) : lineText(shape, name))));

function kindOf({ lines }: PieceShape, name: string): 'edge' | 'fold' | 'window' {
  const line = lines.find((one) => one.name === name);
  return line === undefined ? 'edge' : line.use === 'window' ? 'window' : 'fold';
}

/**
 * Once for each piece that is cut of an outside's cloth, or of a lining's where there is no other; and once for two copies
 * that are sewn to one another by all the edges that it runs beside.
 */
function timesOf(resolved: Resolved, shape: PieceShape, { kind, from }: StitchRow): number {
  const cuts = resolved.pieces.find((piece) => piece.shape === shape)?.cuts.filter(({ layer, material }) => layer === undefined && isCloth(material)) ?? [];
  const outside = cuts.filter(({ material }) => material.role !== 'lining');
  const count = (outside.length > 0 ? outside : cuts).reduce((sum, cut) => sum + Number(cut.count.n), 0);
  if (kind === 'quilt') return Math.max(1, count);
  const joins = from.map((name) => resolved.seams.find(({ way, first, second }) => way === 'with' && isOn(first, shape, name) && isOn(second, shape, name)));
  const [join] = joins;
  const times = join === undefined || joins.includes(undefined) ? count : Math.min(count, resolved.times.get(join.name) ?? count);
  return Math.max(1, times);
}

const isOn = ({ stretches }: Run, piece: PieceShape, name: string): boolean => stretches.some((stretch) => stretch.piece === piece && drawnName(stretch.edge) === name);
