import type { PieceDrawing } from '../../server/src/preview/drawing-data.ts';
import { millimetresIn, showLength, type Display, type FileUnit } from '../../server/src/units/length.ts';
import { measured } from '../../server/src/units/rational.ts';

/** A point of a piece, in its own frame: millimetres from where its positions are counted, y upwards. */
export interface PiecePoint {
  readonly x: number;
  readonly y: number;
}

/** As finely as a ruler is read. */
const rulerOf = (unit: FileUnit): Display => ({ unit, step: unit === 'in' ? millimetresIn.in.div(16) : millimetresIn.mm });

/** A ruler's least step, millimetres. */
export const stepOf = (unit: FileUnit): number => rulerOf(unit).step.valueOf();

const show = (length: number, unit: FileUnit): string => showLength(measured(length), rulerOf(unit));

/** `x 3 1/2 in, y 2 in`, from where the spec counts. */
export const pointWords = ({ x, y }: PiecePoint, unit: FileUnit): string => `x ${show(x, unit)}, y ${show(y, unit)}`;

/** `5 in apart: 4 in across, 3 in up`. */
export function distanceWords(from: PiecePoint, to: PiecePoint, unit: FileUnit): string {
  const [x, y] = [to.x - from.x, to.y - from.y];
  return `${show(Math.hypot(x, y), unit)} apart: ${show(Math.abs(x), unit)} across, ${show(Math.abs(y), unit)} ${y < 0 ? 'down' : 'up'}`;
}

/** Where something begins or ends, or is set: what a person measures between. */
export function catchPoints({ parts }: PieceDrawing): readonly PiecePoint[] {
  return parts.flatMap(({ kind, path, signs = [] }) => {
    if (kind === 'grain') return [];
    return [...endsOf(path), ...signs.filter(({ twin }) => twin !== true).map(({ x, y }) => ({ x, y }))];
  });
}

/** Where the stretches of SVG path data begin and end, of the commands that drawings have: M, L, l, C, A and Z. */
function endsOf(path: string): readonly PiecePoint[] {
  const ends: PiecePoint[] = [];
  for (const [, command, numbers = ''] of path.matchAll(/([MLlCA])([^MLlCAZ]*)/g)) {
    const [x = 0, y = 0] = (numbers.match(/-?[\d.]+/g) ?? []).slice(-2).map(Number);
    const before = command === 'l' ? ends.at(-1) : undefined;
    ends.push({ x: x + (before?.x ?? 0), y: y + (before?.y ?? 0) });
  }
  return ends;
}

/** The nearest of some points if it is near enough, or else the point itself. */
export function caught(point: PiecePoint, points: readonly PiecePoint[], reach: number): PiecePoint {
  let best = point;
  let least = reach;
  for (const one of points) {
    const away = Math.hypot(one.x - point.x, one.y - point.y);
    if (away <= least) [best, least] = [one, away];
  }
  return best;
}
