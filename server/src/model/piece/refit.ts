import { pointInside } from '../../geometry/inside.ts';
import { distance } from '../../geometry/vector.ts';
import type { Outline, Point, Polygon, Polyline } from '../../geometry/shape.ts';
import type { Name } from '../../syntax/tree.ts';
import { report, type Scope } from '../query/scope.ts';
import { dartMoved, dartsOn, takesFromEdge } from './darts.ts';
import { acrossAt, fitsIn, useWords } from './lines.ts';
import type { InnerLine, Mark, PieceShape } from './piece.ts';
import { pleatMoved } from './pleats.ts';
import { polygonOf } from './polygons.ts';

/** The lines of a copy that what it takes over is fitted to: other allowances may have moved them. */
interface Ground {
  readonly stitching: Outline;
  readonly cuttingPolygon: Polygon;
  readonly fold: string | undefined;
}

/**
 * The lines of a copy, with what it takes over as it is on its own cutting line and seam: what runs right across does so again,
 * darts and pleats begin on the seam. What has no room any more is reported and left out.
 */
export function refittedLines(scope: Scope, copy: Name, parent: PieceShape, lines: readonly InnerLine[], ground: Ground): readonly InnerLine[] {
  return lines.flatMap((line) => {
    const points = takesFromEdge(line) ? onSeam(line, ground) : line.across === undefined ? line.points : across(line, line.across, ground.cuttingPolygon);
    const fitted = points === undefined || points === line.points ? line : { ...line, points };
    if (points !== undefined && (takesFromEdge(line) || fitsIn(ground.cuttingPolygon, fitted))) return fitted;
    // What has no room on the parent either was told there.
    const there = parent.lines.find(({ name }) => name === line.name);
    if (points !== undefined && there !== undefined && !fitsIn(polygonOf(parent.cutting), there)) return fitted;
    const what = line.isDart === true ? 'dart' : line.pleat === undefined ? useWords[line.use] : 'pleat';
    report(scope, 'no-room-on-copy', copy, { what, name: line.name });
    return [];
  });
}

/** The marks of a copy without those of its parent that lie beyond what is cut of it, which are reported. */
export function marksWithin(scope: Scope, copy: Name, parent: PieceShape, marks: readonly Mark[], cutting: Polygon): readonly Mark[] {
  return marks.filter((mark) => {
    if (pointInside(mark.point, cutting)) return true;
    const there = parent.marks.find(({ name }) => name === mark.name);
    if (there !== undefined && !pointInside(there.point, polygonOf(parent.cutting))) return true;
    report(scope, 'no-room-on-copy', copy, { what: mark.use === 'drill' ? 'drill hole' : 'mark', name: mark.name });
    return false;
  });
}

/** In the direction that it ran in. */
function across({ points }: InnerLine, { way, at }: NonNullable<InnerLine['across']>, cutting: Polygon): Polyline | undefined {
  const found = acrossAt(cutting, way, at);
  const [[from, to], [first, last]] = [[points[0], points.at(-1)], found ?? []];
  if (found === undefined || from === undefined || to === undefined || first === undefined || last === undefined) return found;
  if (isAt(from, first) && isAt(to, last)) return points;
  return (way === 'level' ? from.x <= to.x : from.y <= to.y) ? found : found.toReversed();
}

const isAt = (a: Point, b: Point): boolean => distance(a, b) < 1e-9;

/** A dart or pleat as it is where it begins on the seam, or else moved there, square to its edge. */
function onSeam(line: InnerLine, { stitching, fold }: Ground): Polyline | undefined {
  const edge = stitching.edges.find(({ name }) => name === line.edge);
  if (edge !== undefined && edge.name === fold) return undefined;
  if (edge === undefined || dartsOn({ lines: [line], stitching }, edge.name).length > 0) return line.points;
  const polygon = polygonOf(stitching);
  return line.pleat === undefined ? dartMoved(line, edge, polygon) : pleatMoved(line, edge, polygon);
}
