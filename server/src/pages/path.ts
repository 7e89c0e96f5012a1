import { stretches } from '../geometry/edge.ts';
import { flattenEdge } from '../geometry/flatten.ts';
import { pointOn, sliceSegment, sweepOf, velocityOn } from '../geometry/segment.ts';
import type { Edge, Point, Polyline, Segment } from '../geometry/shape.ts';
import type { Box, Path, PathStep } from './sheet.ts';

const isSamePoint = (one: Point, other: Point): boolean => one.x === other.x && one.y === other.y;

export const isSamePath = (one: Path, other: Path): boolean => one.length === other.length && one.every((step, index) => isSameStep(step, other[index]));

function isSameStep(one: PathStep, other: PathStep | undefined): boolean {
  if (one.kind === 'close') return other?.kind === 'close';
  if (one.kind === 'cubic') return other?.kind === 'cubic' && isSamePoint(one.control1, other.control1) && isSamePoint(one.control2, other.control2) && isSamePoint(one.to, other.to);
  return other?.kind === one.kind && isSamePoint(one.to, other.to);
}

/** From the model’s y upwards to the sheet’s y downwards. */
export const down = (point: Point): Point => ({ x: point.x, y: -point.y || 0 });

/** An edge of the model as a path of a sheet. */
export function edgeSteps(edge: Edge): Path {
  return [{ kind: 'move', to: down(edge.start) }, ...stretches(edge).flatMap(({ start, segment }) => segmentSteps(start, segment))];
}

/** Arcs become cubics of at most an eighth of a turn, with handles of a third of the derivative’s length: within 1e-5 of the radius (M. Goldapp 1991). */
function segmentSteps(start: Point, segment: Segment): Path {
  switch (segment.kind) {
    case 'line':
      return [{ kind: 'line', to: down(segment.to) }];
    case 'cubic':
      return [{ kind: 'cubic', control1: down(segment.control1), control2: down(segment.control2), to: down(segment.to) }];
    case 'arc':
    case 'elliptical': {
      const count = Math.max(1, Math.ceil(Math.abs(sweepOf(start, segment).sweep) / (Math.PI / 4) - 1e-9));
      return Array.from({ length: count }, (_, index): PathStep => {
        const part = sliceSegment(start, segment, index / count, (index + 1) / count);
        const { sweep } = part.segment.kind === 'arc' || part.segment.kind === 'elliptical' ? sweepOf(part.start, part.segment) : { sweep: 0 };
        // The velocity is the derivative by a parameter that runs from 0 to 1, its length radius × sweep.
        const handle = sweep === 0 ? 1 / 3 : ((4 / 3) * Math.tan(sweep / 4)) / sweep;
        const [from, to] = [velocityOn(part.start, part.segment, 0), velocityOn(part.start, part.segment, 1)];
        const end = pointOn(part.start, part.segment, 1);
        return {
          kind: 'cubic',
          control1: down({ x: part.start.x + from.x * handle, y: part.start.y + from.y * handle }),
          control2: down({ x: end.x - to.x * handle, y: end.y - to.y * handle }),
          to: down(end),
        };
      });
    }
  }
}

/** Points of a sheet as a path. */
export function polylineSteps(points: Polyline, closed: boolean): Path {
  return [...points.map((to, index): PathStep => ({ kind: index === 0 ? 'move' : 'line', to })), ...(closed ? [{ kind: 'close' } as const] : [])];
}

/** An edge of the model flattened, as points of a sheet. */
export const edgePoints = (edge: Edge): Polyline => flattenEdge(edge).map(down);

/** Four quarter turns as cubics. */
export function circleSteps({ x, y }: Point, r: number): Path {
  const k = r * ((4 / 3) * Math.tan(Math.PI / 8));
  const quarter = (c1x: number, c1y: number, c2x: number, c2y: number, tx: number, ty: number): PathStep =>
    ({ kind: 'cubic', control1: { x: x + c1x, y: y + c1y }, control2: { x: x + c2x, y: y + c2y }, to: { x: x + tx, y: y + ty } });
  return [
    { kind: 'move', to: { x: x + r, y } },
    quarter(r, k, k, r, 0, r), quarter(-k, r, -r, k, -r, 0), quarter(-r, -k, -k, -r, 0, -r), quarter(k, -r, r, -k, r, 0),
    { kind: 'close' },
  ];
}

export const segmentOf = (from: Point, to: Point): Path => [{ kind: 'move', to: from }, { kind: 'line', to }];

export const boxSteps = ({ x, y, width, height }: Box): Path =>
  polylineSteps([{ x, y }, { x: x + width, y }, { x: x + width, y: y + height }, { x, y: y + height }], true);
