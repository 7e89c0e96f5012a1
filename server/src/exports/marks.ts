import { bounds } from '../geometry/measure.ts';
import type { Resolved } from '../model/pattern.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';

/** Something to mark on a piece once it is cut. Distances run from the left and lower ends of the cut piece. */
export interface MarkRow {
  readonly piece: string;
  /** `notch on top`, `clasp`, `rivet`. */
  readonly mark: string;
  /** `snap of 14 mm`, `drill hole`, `notch`. */
  readonly kind: string;
  readonly fromLeft: string;
  readonly fromBelow: string;
  readonly place: Place;
}

/** Marks, drill holes and notches of every piece that is cut, as drawn: for a mirrored piece, from the right. */
export function markRows(resolved: Resolved, display: Display): readonly MarkRow[] {
  return resolved.pieces.filter((piece) => piece.cuts.length > 0).flatMap(({ shape }) => rowsOf(shape, display));
}

function rowsOf(shape: PieceShape, display: Display): readonly MarkRow[] {
  const box = bounds(shape.cutting);
  const at = (point: { readonly x: number; readonly y: number }): Pick<MarkRow, 'fromLeft' | 'fromBelow'> => ({
    fromLeft: showLength(measured(point.x - box.minX), display),
    fromBelow: showLength(measured(point.y - box.minY), display),
  });
  return [
    ...shape.notches.map((notch): MarkRow => ({ piece: shape.title, mark: `notch on ${nameText(notch.edge)}`, kind: 'notch', ...at(notch.point), place: notch.place })),
    ...shape.marks.map((mark): MarkRow => ({
      piece: shape.title,
      mark: nameText(mark.name),
      kind: mark.use === 'drill' ? 'drill hole' : mark.snap === undefined ? 'mark' : `snap of ${showLength(mark.snap, { unit: 'mm', step: measured(0.5) })}`,
      ...at(mark.point),
      place: mark.place,
    })),
  ];
}

/** A name of the spec as a table shows it: `zip_box` reads “zip box”. */
export const nameText = (name: string): string => name.replaceAll('_', ' ');
