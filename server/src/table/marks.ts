import { isCircle } from '../geometry/circle.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { pointInside } from '../geometry/inside.ts';
import { distancePointToBoundary } from '../geometry/distance.ts';
import type { Point } from '../geometry/shape.ts';
import { movePoint, movePolyline } from '../geometry/transform.ts';
import type { Pattern, Resolved, ResolvedPiece } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { InnerLine, Mark, Notch, PieceShape, StitchRow } from '../model/piece/piece.ts';
import { foldMirroring } from '../model/piece/whole.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { sidesText } from '../units/sides.ts';
import { measured } from '../units/rational.ts';
import { figure, measure, type Measure } from './figures.ts';
import { groundsOf } from './grounds.ts';
import { tellsMark } from './mark-supplies.ts';
import { markedWindows } from './marked-windows.ts';
import { edgeTextHere, stitchedLineText } from './names.ts';
import { keptFor } from './per-display.ts';

/**
 * Something to mark on a piece once it is cut. Distances run from the left and the lower end of what is cut, opened out
 * where it is drawn as half; undefined where one doesn't matter.
 */
export interface MarkRow {
  readonly pieceName: string;
  readonly piece: string;
  /** What is cut so, where the piece is cut in more than one way. */
  readonly materials: string;
  /** `notch on top`, `clasp`, `spine`. */
  readonly mark: string;
  /** `snap of 14 mm`, `drill hole`, `notch`, `fold line`, `placement, 4 in × 2 1/2 in`, `placement, circle, 3 in across`, `window of Board, 3 in × 1 in`. */
  readonly kind: string;
  readonly fromLeft: Measure | undefined;
  readonly fromBelow: Measure | undefined;
  /** Which side of the piece faces whoever marks it. */
  readonly facing: string;
  readonly place: Place;
}

/**
 * Notches, marks, drill holes, fold lines and placements of every piece that is cut, once for each line that it is cut
 * along. A mark that belongs to a supply is told only where that is set.
 */
export function markRows(pattern: Pattern, resolved: Resolved): readonly MarkRow[] {
  const isTold = tellsMark(pattern, resolved);
  return resolved.pieces.flatMap((piece) => groundsOf(piece).flatMap((ground) => {
    const { line, materials, facing } = ground;
    const { notches, marks, lines, named } = rowsOf(line, pattern.display);
    const rows = [...notches, ...marks.filter(({ mark }) => isTold(piece.shape, mark)).flatMap((one) => one.rows), ...lines];
    const opened = markedWindows(ground, piece.cuts).flatMap((one) => (named.get(one.window) ?? []).map((row) => ({ ...row, kind: `${windowKind}${one.layers}, ${row.kind}`, materials: one.materials, facing })));
    return [...(materials === '' && facing === usualFacing ? rows : rows.map((row) => toldOf(row, materials, facing))), ...opened];
  }));
}

const lastTold = new WeakMap<MarkRow, MarkRow>();

/** A row for what is cut so; the very same again where it is told as it was last. */
function toldOf(row: MarkRow, materials: string, facing: string): MarkRow {
  const last = lastTold.get(row);
  if (last?.materials === materials && last.facing === facing) return last;
  const told = { ...row, materials, facing };
  lastTold.set(row, told);
  return told;
}

/** Where a line of a piece lies on what is cut of it, of its two halves the one that was drawn: `8 cm from the left, 5 cm from below`; empty where nothing is cut there. */
export function placeOfLine(piece: ResolvedPiece, line: string, display: Display): string {
  const places = groundsOf(piece).flatMap((ground) => {
    const [row] = rowsOf(ground.line, display).named.get(line) ?? [];
    return row === undefined ? [] : [{ materials: ground.materials, text: distancesText(row) }];
  });
  if (new Set(places.map(({ text }) => text)).size === 1) return places[0]?.text ?? '';
  return places.map(({ materials, text }) => `${materials}: ${text}`).join('; ');
}

/** `8 cm from the left, 5 cm from below`. */
export const distancesText = ({ fromLeft, fromBelow }: Pick<MarkRow, 'fromLeft' | 'fromBelow'>): string =>
  [...(fromLeft === undefined ? [] : [`${fromLeft.text} from the left`]), ...(fromBelow === undefined ? [] : [`${fromBelow.text} from below`])].join(', ');

const usualFacing = 'right side';

const windowKind = 'window of ';

/** Whether what is marked is a window, which is cut out of layers alone. */
export const isWindow = ({ kind }: Pick<MarkRow, 'kind'>): boolean => kind.startsWith(windowKind);

/** The notches of a piece that there is an allowance to cut into. */
export const notchesToCut = (shape: PieceShape): readonly Notch[] => shape.notches.filter((notch) => (shape.allowances.get(notch.edge)?.size.n ?? 0n) > 0n);

/** Everything to mark on what is cut along a line, whether it is told in a combination or not. */
interface GroundRows {
  readonly notches: readonly MarkRow[];
  readonly marks: readonly { readonly mark: Mark; readonly rows: readonly MarkRow[] }[];
  readonly lines: readonly MarkRow[];
  /** Every line of the piece by its name, marked or not; their kinds say no more than how large they are. */
  readonly named: ReadonlyMap<string, readonly MarkRow[]>;
}

/** Farther than this from what is cut, in millimetres, there is nothing to mark. */
const near = 0.02;

const rowsOf: (line: CutLine, display: Display) => GroundRows = keptFor((cut, display) => {
  const { piece: shape, outline } = cut;
  const box = boundsOfPoints(outline);
  const distance = (length: number): Measure => {
    const found = measure(Math.abs(length), display);
    return length > -near ? found : { ...found, value: -found.value, text: `${found.text} beyond the edge` };
  };
  const at = (point: Point): Pick<MarkRow, 'fromLeft' | 'fromBelow'> => ({ fromLeft: distance(point.x - box.minX), fromBelow: distance(point.y - box.minY) });
  const isThere = (point: Point): boolean => pointInside(point, outline) || distancePointToBoundary(point, outline) <= near;
  const mirror = foldMirroring(shape);
  const row = (mark: string, kind: string, place: Place, where: Pick<MarkRow, 'fromLeft' | 'fromBelow'>): MarkRow =>
    ({ pieceName: shape.name, piece: shape.title, materials: '', mark, kind, ...where, facing: usualFacing, place });
  /** On a piece drawn as half, everything is there twice. */
  const both = (mark: string, kind: string, place: Place, point: Point): readonly MarkRow[] => {
    const own = row(mark, kind, place, at(point));
    const other = mirror && movePoint(mirror, point);
    const apart = other !== undefined && Math.hypot(other.x - point.x, other.y - point.y) > 0.01;
    return apart ? [own, row(`${mark}, other half`, kind, place, at(other))] : [own];
  };
  const notched = cut.along === 'cutting' ? notchesToCut(shape) : [];
  return {
    notches: notched.flatMap((notch) => both(`notch on ${edgeTextHere(shape, notch.edge)}`, 'notch', notch.place, notch.point)),
    marks: shape.marks.filter((mark) => isThere(mark.point)).map((mark) => {
      const kind = mark.use === 'drill' ? 'drill hole' : mark.snap === undefined ? 'mark' : `snap of ${showLength(mark.snap, { unit: 'mm', step: measured(0.5) })}`;
      return { mark, rows: both(mark.title, kind, mark.place, mark.point) };
    }),
    lines: [...shape.lines.flatMap(shapingRows), ...shape.lines.filter(isMarked).flatMap(lineRows), ...shape.lines.filter((line) => !isMarked(line)).flatMap((line) => stitchedRows(shape, line, both, lineRows))],
    named: new Map(shape.lines.map((line) => [line.name, lineRows(line)])),
  };

  /** A dart by its two legs at the seam and its point, a pleat by where its fold and the line that it is laid on meet the seam. */
  function shapingRows(line: InnerLine): readonly MarkRow[] {
    if (line.isDart === true) return [...dartRows(line, line.points, ''), ...(mirror === undefined ? [] : dartRows(line, movePolyline(mirror, line.points), ', other half'))];
    const [fold, onto] = [line.points[0], line.points.at(-1)];
    if (line.pleat === undefined || fold === undefined || onto === undefined) return [];
    const kind = `${line.pleat.stitched === undefined ? 'pleat' : 'tuck'}, on the seam line`;
    return ([['fold', fold], ['laid on', onto]] as const).flatMap(([name, point]) => (isThere(point) ? both(`${line.title}, ${name}`, kind, line.place, point) : []));
  }

  function dartRows(line: InnerLine, points: readonly Point[], half: string): readonly MarkRow[] {
    return dartPoints(points).flatMap(([name, point]) =>
      (isThere(point) ? [row(`${line.title}, ${name}${half}`, `dart, ${name === 'point' ? 'inside' : 'on the seam line'}`, line.place, at(point))] : []));
  }

  function lineRows(line: InnerLine): readonly MarkRow[] {
    const mirrored = mirror && movePolyline(mirror, line.points);
    // What begins at the fold is one thing with its other half.
    if (mirrored !== undefined && line.closed && liesOnFold(line.points, mirrored)) return lineRow(line, [...line.points, ...mirrored]);
    const own = lineRow(line, line.points);
    const other = mirrored === undefined ? [] : lineRow(line, mirrored);
    const isSame = other[0]?.fromLeft?.text === own[0]?.fromLeft?.text && other[0]?.fromBelow?.text === own[0]?.fromBelow?.text;
    return isSame ? own : [...own, ...other.map((one) => ({ ...one, mark: `${one.mark}, other half` }))];
  }

  /** Nothing where no part of the line lies on what is cut. */
  function lineRow(line: InnerLine, points: readonly Point[]): readonly MarkRow[] {
    const span = boundsOfPoints(points);
    if (span.maxX < box.minX - near || span.minX > box.maxX + near || span.maxY < box.minY - near || span.minY > box.maxY + near) return [];
    const kind = line.use === 'foldline' ? ['fold line'] : line.use === 'placement' ? ['placement'] : [];
    const [width, height] = [span.maxX - span.minX, span.maxY - span.minY];
    const corner = at({ x: span.minX, y: span.minY });
    if (!line.closed && points.length === 2 && height < 0.01) return [row(line.title, [...kind, 'level'].join(', '), line.place, { fromLeft: undefined, fromBelow: corner.fromBelow })];
    if (!line.closed && points.length === 2 && width < 0.01) return [row(line.title, [...kind, 'upright'].join(', '), line.place, { fromLeft: corner.fromLeft, fromBelow: undefined })];
    const circle = line.closed && isCircle(points);
    const size = sidesText(circle, figure(width, display), figure(height, display));
    return [row(line.title, [...kind, circle || line.rectangle !== undefined ? size : `within ${size}`].join(', '), line.place, corner)];
  }
});

/** The legs and the point of a dart by where they stand on what is cut, from the left, or from below where the one leg stands over the other. */
function dartPoints(points: readonly Point[]): readonly (readonly [name: string, point: Point])[] {
  const [first, tip, last] = [points[0], points[1], points.at(-1)];
  if (first === undefined || tip === undefined || last === undefined) return [];
  const isSideBySide = Math.abs(first.x - last.x) >= Math.abs(first.y - last.y);
  const [one, other] = (isSideBySide ? first.x < last.x : first.y < last.y) ? [first, last] : [last, first];
  return isSideBySide ? [['left leg', one], ['point', tip], ['right leg', other]] : [['lower leg', one], ['point', tip], ['upper leg', other]];
}

const isMarked = ({ use }: InnerLine): boolean => use === 'foldline' || use === 'placement';

const stitchedKind = 'line to stitch along';

const rowAlong = ({ stitchRows }: PieceShape, { name, closed, points }: InnerLine): StitchRow | undefined =>
  (closed || points.length !== 2 ? undefined : stitchRows.find(({ kind, distance, from }) => (kind === 'quilt' || distance.n === 0n) && from.includes(name)));

/** A line that stitches run along, called as it is on the template. */
function stitchedRows(shape: PieceShape, line: InnerLine, both: (mark: string, kind: string, place: Place, point: Point) => readonly MarkRow[], lineRows: (line: InnerLine) => readonly MarkRow[]): readonly MarkRow[] {
  const along = rowAlong(shape, line);
  if (along === undefined) return [];
  const title = stitchedLineText(along.title, line.title);
  return slantingEnds(line)?.flatMap(([end, point]) => both(`${title}, ${end}`, `${stitchedKind}, slanting`, line.place, point))
    ?? lineRows({ ...line, title }).map((one) => ({ ...one, kind: `${stitchedKind}, ${one.kind}` }));
}

/** Of a line that slants, which no one distance tells the place of. */
function slantingEnds({ points: [a, b] }: InnerLine): readonly (readonly [end: string, point: Point])[] | undefined {
  if (a === undefined || b === undefined || Math.abs(a.x - b.x) < 0.01 || Math.abs(a.y - b.y) < 0.01) return undefined;
  const [low, high] = a.y < b.y ? [a, b] : [b, a];
  return [['lower end', low], ['upper end', high]];
}

/** Whether a side of a line lies on the fold: there it is its own mirror image. */
const liesOnFold = (points: readonly Point[], mirrored: readonly Point[]): boolean =>
  points.filter((point, index) => Math.hypot(point.x - (mirrored[index]?.x ?? NaN), point.y - (mirrored[index]?.y ?? NaN)) < 0.01).length > 1;
