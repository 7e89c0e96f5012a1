import { pointInside } from '../geometry/inside.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point, Polygon, Polyline } from '../geometry/shape.ts';
import { ahead } from '../geometry/vector.ts';
import type { Grain } from '../model/piece/piece.ts';
import { polylineSteps, segmentOf } from './path.ts';
import type { Room } from './room.ts';
import type { Box } from './sheet.ts';
import type { Stroke } from './strokes.ts';

const headLength = 3.5;
const headHalf = 1.3;
const longest = 110;
const clear = 3;
/** Halves of an arrow across, the shortest with room for both its heads. */
const acrossHalves = [20, 14, 9, 6] as const;

export interface GrainArrow {
  readonly strokes: readonly Stroke[];
  /** Whether there was room for it; else it lies over something. */
  readonly isFree: boolean;
}

/**
 * The arrow along the grain, where there is room for it inside a template: one head where only one way is right, two
 * where either is, and a second arrow across where the piece may lie across too.
 */
export function grainArrow(room: Room, outline: Polygon, grain: Grain | undefined, oneWay: boolean): GrainArrow {
  const { angle, orAcross = false } = grain ?? {};
  if (angle === undefined || outline.length < 3) return { strokes: [], isFree: true };
  const across = wayOf(angle + 90);
  const shortFor = (middle: Point, half: number): number | undefined => [half, ...acrossHalves].find((one) => one <= half && isRoomFor(room, outline, middle, across, one));
  const { middle, half, isFree } = arrowPlace(room, outline, wayOf(angle), (at, long) => !orAcross || shortFor(at, long) !== undefined);
  const main = arrow(middle, wayOf(angle), half, oneWay);
  const short = orAcross ? shortFor(middle, half) ?? Math.min(half, acrossHalves.at(-1) ?? half) : undefined;
  const strokes = short === undefined ? main : [...main, ...arrow(middle, across, short, false)];
  for (const { points } of strokes) room.take(boxRound(points));
  return { strokes, isFree };
}

/** Unit direction on the sheet, y downwards, of an angle that is counter-clockwise from upright. */
function wayOf(angle: number): Point {
  const radians = (angle * Math.PI) / 180;
  return { x: -Math.sin(radians), y: -Math.cos(radians) };
}

/** Whether an arrow lies inside, with nothing along it or just beside it. */
function isRoomFor(room: Room, outline: Polygon, middle: Point, way: Point, half: number): boolean {
  const steps = Math.ceil((2 * half) / clear);
  for (let step = 0; step <= steps; step++) {
    const { x, y } = ahead(middle, way, half * ((2 * step) / steps - 1));
    if (!room.isBlank({ x: x - clear / 2, y: y - clear / 2, width: clear, height: clear })) return false;
  }
  return pointInside(middle, outline);
}

/** To the right of the middle for choice, as long as there is room for; where there is none, short and in the middle. */
function arrowPlace(room: Room, outline: Polygon, way: Point, isRight: (middle: Point, half: number) => boolean): { readonly middle: Point; readonly half: number; readonly isFree: boolean } {
  const box = boundsOfPoints(outline);
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const reach = Math.min(longest, width / Math.max(1e-6, Math.abs(way.x)), height / Math.max(1e-6, Math.abs(way.y)));
  for (const share of [0.34, 0.25, 0.16, 0.1]) {
    const half = Math.max(5, reach * share);
    for (const y of [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8]) {
      for (const x of [0.82, 0.18, 0.74, 0.26, 0.66, 0.34, 0.58, 0.42, 0.5, 0.9, 0.1]) {
        const middle = { x: box.minX + width * x, y: box.minY + height * y };
        if (isRoomFor(room, outline, middle, way, half) && isRight(middle, half)) return { middle, half, isFree: true };
      }
    }
  }
  const inside = [[0.5, 0.5], [0.3, 0.5], [0.7, 0.5], [0.5, 0.3], [0.5, 0.7]].map(([x = 0, y = 0]) => ({ x: box.minX + width * x, y: box.minY + height * y })).find((point) => pointInside(point, outline));
  return { middle: inside ?? { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }, half: Math.max(3, Math.min(10, reach * 0.2)), isFree: false };
}

function boxRound(points: Polyline): Box {
  const box = boundsOfPoints(points);
  return { x: box.minX - 1, y: box.minY - 1, width: box.maxX - box.minX + 2, height: box.maxY - box.minY + 2 };
}

function arrow(middle: Point, way: Point, half: number, oneWay: boolean): readonly Stroke[] {
  const [tip, tail] = [ahead(middle, way, half), ahead(middle, way, -half)];
  const shaft: Stroke = { role: 'grain', name: 'grain', path: segmentOf(tail, tip), points: [tail, tip], closed: false, filled: false };
  return [shaft, head(tip, way), ...(oneWay ? [] : [head(tail, { x: -way.x, y: -way.y })])];
}

function head(at: Point, way: Point): Stroke {
  const back = ahead(at, way, -headLength);
  const side = { x: -way.y, y: way.x };
  const corners = [at, ahead(back, side, headHalf), ahead(back, side, -headHalf)];
  return { role: 'grain', name: 'grain', path: polylineSteps(corners, true), points: corners, closed: true, filled: true };
}
