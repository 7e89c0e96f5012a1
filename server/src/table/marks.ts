import { bounds, boundsOfPoints } from '../geometry/measure.ts';
import type { Point } from '../geometry/shape.ts';
import { movePoint, movePolyline } from '../geometry/transform.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import type { InnerLine, PieceShape } from '../model/piece/piece.ts';
import { foldMirroring } from '../model/piece/whole.ts';
import type { Place } from '../problems/place.ts';
import { millimetresIn, roundedFrom, showLength, type Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import { keptFor } from './per-display.ts';

/**
 * Something to mark on a piece once it is cut. Distances run from the left and the lower end of the cut piece, opened out
 * where it is drawn as half; empty where one doesn't matter.
 */
export interface MarkRow {
  readonly pieceName: string;
  readonly piece: string;
  /** `notch on top`, `clasp`, `spine`. */
  readonly mark: string;
  /** `snap of 14 mm`, `drill hole`, `notch`, `fold line`, `placement, 4 in × 2 1/2 in`. */
  readonly kind: string;
  readonly fromLeft: string;
  readonly fromBelow: string;
  readonly place: Place;
}

/**
 * Notches, marks, drill holes, fold lines and placements of every piece that is cut. A snap's mark is left out where the
 * snaps that go on it are not wanted in this combination.
 */
export function markRows(pattern: Pattern, resolved: Resolved): readonly MarkRow[] {
  const wanted = new Set(resolved.supplies.flatMap((supply) => supply.marks.map((mark) => mark.path.map((name) => name.text).join('.'))));
  const spoken = new Set<string>();
  for (const declaration of pattern.world.names.values()) {
    if (declaration.tree.kind !== 'supply') continue;
    for (const statement of declaration.tree.body.statements) {
      if (statement.kind === 'at') for (const mark of statement.marks) spoken.add(mark.path.map((name) => name.text).join('.'));
    }
  }
  return resolved.pieces.filter((piece) => piece.cuts.length > 0).flatMap(({ shape }) => {
    const isWanted = (mark: string): boolean => !spoken.has(`${shape.name}.${mark}`) || wanted.has(`${shape.name}.${mark}`);
    const { notches, marks, lines } = rowsOf(shape, pattern.display);
    return [...notches, ...marks.filter(({ name }) => isWanted(name)).flatMap(({ rows }) => rows), ...lines];
  });
}

/** Everything to mark on a piece, whether it is wanted in a combination or not. */
interface PieceRows {
  readonly notches: readonly MarkRow[];
  readonly marks: readonly { readonly name: string; readonly rows: readonly MarkRow[] }[];
  readonly lines: readonly MarkRow[];
}

const rowsOf: (shape: PieceShape, display: Display) => PieceRows = keptFor((shape, display) => {
  const box = bounds(shape.whole.cutting);
  const show = (length: number): string => showLength(measured(length), display);
  const shown = (length: number): string => {
    const from = writtenFrom(measured(length), display);
    return from === undefined ? show(length) : `${show(length)} (rounded from ${from})`;
  };
  const at = (point: Point): Pick<MarkRow, 'fromLeft' | 'fromBelow'> => ({ fromLeft: shown(point.x - box.minX), fromBelow: shown(point.y - box.minY) });
  const mirror = foldMirroring(shape);
  const row = (mark: string, kind: string, place: Place, where: Pick<MarkRow, 'fromLeft' | 'fromBelow'>): MarkRow => ({ pieceName: shape.name, piece: shape.title, mark, kind, ...where, place });
  /** On a piece drawn as half, everything is there twice. */
  const both = (mark: string, kind: string, place: Place, point: Point): readonly MarkRow[] => {
    const own = row(mark, kind, place, at(point));
    const other = mirror && movePoint(mirror, point);
    const apart = other !== undefined && Math.hypot(other.x - point.x, other.y - point.y) > 0.01;
    return apart ? [own, row(`${mark}, other half`, kind, place, at(other))] : [own];
  };
  return {
    notches: shape.notches.flatMap((notch) => both(`notch on ${nameText(notch.edge)}`, 'notch', notch.place, notch.point)),
    marks: shape.marks.map((mark) => {
      const kind = mark.use === 'drill' ? 'drill hole' : mark.snap === undefined ? 'mark' : `snap of ${showLength(mark.snap, { unit: 'mm', step: measured(0.5) })}`;
      return { name: mark.name, rows: both(nameText(mark.name), kind, mark.place, mark.point) };
    }),
    lines: shape.lines.filter((line) => line.use === 'foldline' || line.use === 'placement').flatMap((line) => {
      const own = lineRow(line, line.points);
      const mirrored = mirror && movePolyline(mirror, line.points);
      // What begins at the fold is one thing with its other half.
      if (mirrored !== undefined && line.closed && liesOnFold(line.points, mirrored)) return [lineRow(line, [...line.points, ...mirrored])];
      const other = mirrored && lineRow(line, mirrored);
      return other === undefined || (other.fromLeft === own.fromLeft && other.fromBelow === own.fromBelow) ? [own] : [own, { ...other, mark: `${other.mark}, other half` }];
    }),
  };

  function lineRow(line: InnerLine, points: readonly Point[]): MarkRow {
    const kind = line.use === 'foldline' ? 'fold line' : 'placement';
    const span = boundsOfPoints(points);
    const [width, height] = [span.maxX - span.minX, span.maxY - span.minY];
    const corner = at({ x: span.minX, y: span.minY });
    const name = nameText(line.name);
    if (!line.closed && points.length === 2 && height < 0.01) return row(name, `${kind}, level`, line.place, { fromLeft: '', fromBelow: corner.fromBelow });
    if (!line.closed && points.length === 2 && width < 0.01) return row(name, `${kind}, upright`, line.place, { fromLeft: corner.fromLeft, fromBelow: '' });
    const size = line.rectangle === undefined ? `within ${show(width)} × ${show(height)}, see the drawing` : `${show(width)} × ${show(height)}`;
    return row(name, `${kind}, ${size}`, line.place, corner);
  }
});

/** Whether a side of a line lies on the fold: there it is its own mirror image. */
const liesOnFold = (points: readonly Point[], mirrored: readonly Point[]): boolean =>
  points.filter((point, index) => Math.hypot(point.x - (mirrored[index]?.x ?? NaN), point.y - (mirrored[index]?.y ?? NaN)) < 0.01).length > 1;

/** What a distance was rounded from, where that is a length that one would write: on a curve nobody needs it. */
function writtenFrom(length: Rational, display: Display): string | undefined {
  const value = length.div(millimetresIn[display.unit]);
  const isWritten = display.unit === 'in' ? value.d <= 64n : value.mul(100).d === 1n;
  return isWritten ? roundedFrom(length, display) : undefined;
}

/** A name of the spec as a table shows it: `zip_box` reads “zip box”. */
export const nameText = (name: string): string => name.replaceAll('_', ' ');
