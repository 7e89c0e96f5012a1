import type { Point, Polyline } from '../geometry/shape.ts';
import type { Box } from './sheet.ts';

/** The parts of a run of lines that lie in a box, each a run of its own. */
export function clippedRuns(points: Polyline, closed: boolean, box: Box): readonly Polyline[] {
  const runs: Point[][] = [];
  const last = points.at(-1);
  let before = closed ? last : undefined;
  for (const point of points) {
    const part = before && clippedLine(before, point, box);
    if (part !== undefined) {
      const run = runs.at(-1);
      const end = run?.at(-1);
      if (run !== undefined && end !== undefined && end.x === part[0].x && end.y === part[0].y) run.push(part[1]);
      else runs.push([...part]);
    }
    before = point;
  }
  return runs;
}

/** A straight line cut to a box’s sides one after the other (Liang and Barsky 1984); undefined where nothing is left. */
export function clippedLine(from: Point, to: Point, { x, y, width, height }: Box): readonly [Point, Point] | undefined {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [enter, leave] = [0, 1];
  for (const [direction, room] of [[-dx, from.x - x], [dx, x + width - from.x], [-dy, from.y - y], [dy, y + height - from.y]] as const) {
    if (direction === 0) {
      if (room < 0) return undefined;
    } else if (direction < 0) enter = Math.max(enter, room / direction);
    else leave = Math.min(leave, room / direction);
  }
  if (enter > leave) return undefined;
  const at = (t: number): Point => (t === 0 ? from : t === 1 ? to : { x: from.x + dx * t, y: from.y + dy * t });
  return [at(enter), at(leave)];
}
