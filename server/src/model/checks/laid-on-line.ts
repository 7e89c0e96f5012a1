import { liesAlong } from '../../geometry/lies-along.ts';
import { lineMeeting } from '../../geometry/crossing.ts';
import { measuring } from '../../geometry/measure.ts';
import { partOfEdge } from '../../geometry/part.ts';
import type { Point, Polyline } from '../../geometry/shape.ts';
import { distance, minus, plus, times } from '../../geometry/vector.ts';
import { showLength } from '../../units/length.ts';
import { allDefined } from '../formulas/evaluate.ts';
import { dartsOn } from '../piece/darts.ts';
import { sizeOfLine, sizeOfPiece, type Size } from '../piece/size.ts';
import { openedLine } from '../piece/whole.ts';
import { report, type Scope } from '../query/scope.ts';
import { stretchLength, type Run, type Seam, type Stretch } from '../seams/seam.ts';

/** A patch that is laid on a closed line, neither eased nor gathered, must have the line's shape as far as it goes. */
export function checkLaidOnLine(scope: Scope, { first, second: { line: on }, eased, gathered, within }: Seam, words: { readonly first: string; readonly second: string }): void {
  if (on?.line.closed !== true || gathered || eased !== 0) return;
  const run = patchRun(first);
  const { outline } = openedLine(on.piece, on.line);
  if (run === undefined || [run.points, run.squared].some((points) => liesAlong(points, outline, within + measuring))) return;
  const text = ({ width, height }: Size): string => [width, height].map((one) => showLength(one, scope.settings.display)).join(' × ');
  report(scope, 'patch-misses-line', first.place, {
    ...words, piece: run.piece.name, size: text(sizeOfPiece(run.piece, 'stitching')), lineSize: text(sizeOfLine(on.piece, on.line)),
  });
}

interface PatchRun {
  readonly piece: Stretch['piece'];
  /** As it lies, its darts and pleats closed. */
  readonly points: Polyline;
  /** The same with its round corners square, as where it goes is often marked. */
  readonly squared: Polyline;
}

/** What is laid on a line; undefined where its shape isn't known by its stitching line. */
function patchRun({ stretches }: Run): PatchRun | undefined {
  const [first] = stretches;
  if (first === undefined || stretches.some(({ piece, folded }) => piece !== first.piece || folded !== undefined)) return undefined;
  const isBack = stretches.some(({ way }) => way === -1);
  const parts = allDefined((isBack ? stretches.toReversed() : stretches).map(partOf));
  return parts && { piece: first.piece, points: joined(parts), squared: joined(parts.map((part, index) => squaredCorner(part, parts[index - 1], parts[index + 1]))) };
}

/** One after the other; what follows an edge whose darts are closed begins where that ends. */
function joined(parts: readonly Polyline[]): Polyline {
  const points: Point[] = [];
  for (const [start, ...rest] of parts) {
    if (start === undefined) continue;
    const by = minus(points.at(-1) ?? start, start);
    points.push(...(points.length === 0 ? [start] : []), ...rest.map((point) => plus(point, by)));
  }
  return points;
}

/** A curve between two straight edges as the corner that these have, carried on; any other part as it is. */
function squaredCorner(part: Polyline, before: Polyline | undefined, after: Polyline | undefined): Polyline {
  const [start, end, from, to] = [part[0], part.at(-1), before?.[0], after?.at(-1)];
  if (part.length === 2 || before?.length !== 2 || after?.length !== 2 || start === undefined || end === undefined || from === undefined || to === undefined) return part;
  const corner = lineMeeting(from, plus(start, times(minus(start, from), 1000)), to, plus(end, times(minus(end, to), 1000)));
  return corner === undefined ? part : [start, corner, end];
}

/** The stitching line of a stretch as the outline runs; a straight one as long as with its darts closed. A curve with a dart has another shape by then, which isn't worked out. */
function partOf(stretch: Stretch): Polyline | undefined {
  const { piece, edge: name, from, to } = stretch;
  const edge = piece.whole.stitching.edges.find((one) => one.name === name);
  const points = edge && partOfEdge(edge, from, to);
  if (points === undefined || dartsOn(piece, name).length === 0) return points;
  const [start, end] = [points[0], points.at(-1)];
  if (start === undefined || end === undefined || distance(start, end) < to - from - measuring) return undefined;
  return [start, plus(start, times(minus(end, start), stretchLength(stretch) / (to - from)))];
}
