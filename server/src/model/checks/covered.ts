import { intersection } from '../../geometry/boolean.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import { contains, pointInside } from '../../geometry/inside.ts';
import { polygonArea } from '../../geometry/measure.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import { millimetresIn } from '../../units/length.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { openedOut } from '../piece/whole.ts';
import { polygonOf } from '../piece/polygons.ts';
import { report, type Scope } from '../query/scope.ts';

/** What a layer must reach over the edge of the window that it is set behind, to be sewn down: 1/8 in (invented). */
const leastReach = millimetresIn.in.div(8).valueOf();

/** Rounding to the micrometre leaves this much, in millimetres. */
const slack = 0.02;
/** Smaller parts than this, in square millimetres, are what rounding leaves. */
const leastPart = 1;

/** Layers with a size or a line of their own that lie on a window of their shell, and don’t reach over its edge all round. */
export function checkCovered(scope: Scope, lines: readonly CutLine[]): void {
  for (const line of lines) {
    const shell = line.layer === undefined ? undefined : lines[line.layer.shell];
    const clause = line.statement.clauses.find((one) => one.kind === 'sized' || one.kind === 'along');
    if (shell === undefined || clause === undefined) continue;
    const within = seamOf(shell);
    // What has the same window is no cover for it.
    const windows = shell.holes.map(upright).filter((hole) => !overlap(line.holes.map(upright), hole));
    const parts = windows.flatMap((hole) => within.flatMap((one) => intersection([one], [hole]))).filter((part) => polygonArea(part) > leastPart);
    if (parts.some((part) => overlap([line.outline], part) && !covers(line.outline, part, within))) {
      report(scope, 'window-uncovered', clause, { material: line.material.name, shell: shell.material.name });
    }
  }
}

/** What of a shell is seen once it is sewn: within its seams, opened out. */
const seamOf = (shell: CutLine): readonly Polygon[] =>
  (shell.along === 'cutting' ? openedOut(shell.piece, polygonOf(shell.piece.stitching)) : [shell.outline]).map(upright);

const upright = (ring: Polygon): Polygon => (polygonArea(ring) < 0 ? [...ring].reverse() : ring);

const overlap = (polygons: readonly Polygon[], part: Polygon): boolean => intersection(polygons.map(upright), [part]).some((one) => polygonArea(one) > leastPart);

/** Whether a layer reaches over all of a window, but for where that runs out into a seam. Two rings are nearest at a corner of one. */
function covers(layer: Polygon, part: Polygon, within: readonly Polygon[]): boolean {
  if (!contains(layer, part, slack)) return false;
  const inner = (point: Point): boolean => within.some((one) => pointInside(point, one) && distancePointToBoundary(point, one) > slack);
  const reaches = (points: Polygon, other: Polygon): boolean => points.filter(inner).every((point) => distancePointToBoundary(point, other) >= leastReach - slack);
  return reaches(part, layer) && reaches(layer, part);
}
