import { stretches } from '../geometry/edge.ts';
import { sliceSegment, sweepOf } from '../geometry/segment.ts';
import type { Edge, Point, Polyline, Segment } from '../geometry/shape.ts';

/** A thousandth of a millimetre is far below what any screen or printer shows. */
const number = (value: number): string => String(Math.round(value * 1e3) / 1e3 || 0);

export const pointData = (point: Point): string => `${number(point.x)} ${number(point.y)}`;

/**
 * A straight line from one point to the next, measured from wherever that is shorter to write. Both points are rounded
 * before they are taken from each other, so that no error adds up along a run of lines.
 */
function lineData(from: Point, to: Point): string {
  const absolute = `L${pointData(to)}`;
  const step = (a: number, b: number): number => (Math.round(b * 1e3) - Math.round(a * 1e3)) / 1e3;
  const relative = `l${pointData({ x: step(from.x, to.x), y: step(from.y, to.y) })}`;
  return relative.length < absolute.length ? relative : absolute;
}

/**
 * An edge as SVG path data (SVG 2, section 9.3) in the same millimetres, y upwards: arcs and cubics stay what they are.
 * With y upwards a left turn has rising angles, which is the sweep flag 1.
 */
export function edgePath(edge: Edge): string {
  return `M${pointData(edge.start)}${stretches(edge).map(({ start, segment }) => segmentData(start, segment)).join('')}`;
}

function segmentData(start: Point, segment: Segment): string {
  switch (segment.kind) {
    case 'line':
      return lineData(start, segment.to);
    case 'cubic':
      return `C${pointData(segment.control1)} ${pointData(segment.control2)} ${pointData(segment.to)}`;
    case 'arc':
    case 'elliptical': {
      const { radiusX, radiusY, sweep } = sweepOf(start, segment);
      // An arc whose ends meet or lie opposite each other would not say which way round it goes.
      if (Math.abs(sweep) > Math.PI * 0.99) {
        const first = sliceSegment(start, segment, 0, 0.5);
        const second = sliceSegment(start, segment, 0.5, 1);
        return segmentData(first.start, first.segment) + segmentData(second.start, second.segment);
      }
      return `A${number(radiusX)} ${number(radiusY)} 0 0 ${sweep > 0 ? 1 : 0} ${pointData(segment.to)}`;
    }
  }
}

export function polylinePath(points: Polyline, closed: boolean): string {
  const [first] = points;
  if (first === undefined) return '';
  return `M${pointData(first)}${points.slice(1).map((point, index) => lineData(points[index] ?? first, point)).join('')}${closed ? 'Z' : ''}`;
}

export function circlePath(centre: Point, radius: number): string {
  const right = pointData({ x: centre.x + radius, y: centre.y });
  const left = pointData({ x: centre.x - radius, y: centre.y });
  const r = number(radius);
  return `M${right}A${r} ${r} 0 0 1 ${left}A${r} ${r} 0 0 1 ${right}Z`;
}
