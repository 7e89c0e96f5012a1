import { isCongruent } from '../geometry/congruence.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point, Polygon } from '../geometry/shape.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { sizeOfCut } from '../model/piece/size.ts';
import { hasGrain } from '../table/cut-rows.ts';
import { notchesToCut } from '../table/marks.ts';

/** How far apart, in mm, two outlines may be and still be the same: what is worked out twice is right to a millionth. */
const same = 0.001;

/** Whether two cut lines cut the same, windows and all, wherever each was drawn. */
export function cutsTheSame(a: CutLine, b: CutLine): boolean {
  const [one, other] = [sizeOfCut(a), sizeOfCut(b)];
  if (one.plain !== other.plain || a.holes.length !== b.holes.length) return false;
  if (one.plain) return one.width.equals(other.width) && one.height.equals(other.height);
  return isSame(a.outline, b.outline) && (a.holes.length === 0 || placedText([a.outline, ...a.holes]) === placedText([b.outline, ...b.holes]));
}

/** Whether only the windows may be others. */
export const hasSameOutline = (a: CutLine, b: CutLine): boolean => isSame(a.outline, b.outline);

const isSame = (a: Polygon, b: Polygon): boolean => placedText([a]) === placedText([b]) || isCongruent(a, b, 'none', same);

/**
 * Whether a template of one serves for the other: what it is cut along, and all that is drawn on it.
 *
 * @param others by name, the lines of either piece that are left out of it, having templates of their own
 */
export function printsTheSame(a: CutLine, b: CutLine, others: readonly [ReadonlySet<string>, ReadonlySet<string>] = [new Set(), new Set()]): boolean {
  return cutsTheSame(a, b) && drawnText(a, others[0]) === drawnText(b, others[1]);
}

/** All that is drawn within a template, from the lower left corner of what is cut; in whatever order the spec has it. */
function drawnText(line: CutLine, others: ReadonlySet<string>): string {
  const { piece } = line;
  const isRound = line.along === 'cutting' || line.along === 'stitching';
  const { minX, minY } = boundsOfPoints(line.outline);
  const at = (points: readonly Point[]): string => points.map(({ x, y }) => `${rounded(x - minX)},${rounded(y - minY)}`).join(' ');
  return [
    ...piece.lines.filter(({ name }) => !others.has(name)).map(({ use, points, closed }) => `${use} ${String(closed)} ${at(points)}`),
    ...(line.along === 'cutting' ? piece.stitchRows.flatMap(({ runs }) => runs.map(({ points, closed }) => `stitches ${String(closed)} ${at(points)}`)) : []),
    ...piece.marks.map(({ use, point, snap }) => `${use} ${at([point])} ${snap?.toFraction() ?? ''}`),
    ...(isRound ? notchesToCut(piece) : []).map(({ point, inward }) => `notch ${at([point])} ${rounded(inward.x)},${rounded(inward.y)}`),
    ...(isRound ? (['cutting', 'stitching'] as const) : []).map((which) => `${which} ${at(piece[which].edges.flatMap((edge) => [edge.start, ...edge.segments.map((segment) => segment.to)]))}`),
    `grain ${hasGrain(line) ? `${String(piece.grain.angle)} ${String(piece.grain.orAcross)}` : ''} ${String(line.thisWayUp)}`,
    `fold ${line.fold === undefined ? '' : at(line.fold)}`,
  ].sort().join('\n');
}

function placedText(polygons: readonly Polygon[]): string {
  const { minX, minY } = boundsOfPoints(polygons[0] ?? []);
  return polygons.map((polygon) => polygon.map(({ x, y }) => `${rounded(x - minX)},${rounded(y - minY)}`).join(' ')).sort().join('\n');
}

const rounded = (millimetres: number): number => Math.round(millimetres / same) * same || 0;
