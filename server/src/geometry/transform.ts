import { reverseOutline, stretches } from './edge.ts';
import { sweepOf } from './segment.ts';
import type { Edge, Outline, Point, Polyline, Segment } from './shape.ts';

/** An affine map: x′ = xx·x + xy·y + dx, y′ = yx·x + yy·y + dy. */
export interface Transform {
  readonly xx: number;
  readonly xy: number;
  readonly yx: number;
  readonly yy: number;
  readonly dx: number;
  readonly dy: number;
}

/** Moves everything by (dx, dy) mm. */
export const translation = (dx: number, dy: number): Transform => ({ xx: 1, xy: 0, yx: 0, yy: 1, dx, dy });

/** Turns everything counter-clockwise by `radians` about a point. Quarter turns are exact. */
export function rotation(radians: number, about: Point = { x: 0, y: 0 }): Transform {
  const whole = (value: number) => (Math.abs(value - Math.round(value)) < 1e-15 ? Math.round(value) : value);
  const c = whole(Math.cos(radians));
  const s = whole(Math.sin(radians));
  return fixing({ xx: c, xy: -s, yx: s, yy: c, dx: 0, dy: 0 }, about);
}

/** Mirrors everything across the vertical line at `x`. */
export const mirroring = (x: number): Transform => ({ xx: -1, xy: 0, yx: 0, yy: 1, dx: 2 * x, dy: 0 });

/** Mirrors everything across the line through two points, which must differ, or every coordinate comes out NaN. */
export function mirroringAcross(a: Point, b: Point): Transform {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const squared = dx * dx + dy * dy;
  const cos = (dx * dx - dy * dy) / squared;
  const sin = (2 * dx * dy) / squared;
  return fixing({ xx: cos, xy: sin, yx: sin, yy: -cos, dx: 0, dy: 0 }, a);
}

/** Scales everything by positive factors along x and y, the origin staying put. */
export const scaling = (alongX: number, alongY: number = alongX): Transform => ({
  xx: alongX,
  xy: 0,
  yx: 0,
  yy: alongY,
  dx: 0,
  dy: 0,
});

/** The map that does `first`, then `second`. */
export const followedBy = (first: Transform, second: Transform): Transform => ({
  xx: second.xx * first.xx + second.xy * first.yx,
  xy: second.xx * first.xy + second.xy * first.yy,
  yx: second.yx * first.xx + second.yy * first.yx,
  yy: second.yx * first.xy + second.yy * first.yy,
  dx: second.xx * first.dx + second.xy * first.dy + second.dx,
  dy: second.yx * first.dx + second.yy * first.dy + second.dy,
});

function fixing(linear: Transform, point: Point): Transform {
  const moved = movePoint(linear, point);
  return { ...linear, dx: point.x - moved.x, dy: point.y - moved.y };
}

export const movePoint = (t: Transform, p: Point): Point => ({
  x: t.xx * p.x + t.xy * p.y + t.dx,
  y: t.yx * p.x + t.yy * p.y + t.dy,
});

/** The points moved, in the same order; a mirrored polygon therefore runs clockwise. */
export const movePolyline = (t: Transform, points: Polyline): Polyline => points.map((p) => movePoint(t, p));

const flips = (t: Transform): boolean => t.xx * t.yy - t.xy * t.yx < 0;

/**
 * The edge moved, still running from its own start. Circular arcs stay so under
 * any map that keeps shapes; elliptical arcs become cubics, within 1e-7 of
 * their radius, when their axes would no longer be parallel to x and y.
 */
export const moveEdge = (t: Transform, edge: Edge): Edge => ({
  name: edge.name,
  start: movePoint(t, edge.start),
  segments: stretches(edge).flatMap(({ start, segment }) => moveSegment(t, start, segment)),
  measuredFrom: edge.measuredFrom,
});

/** The outline moved and counter-clockwise again, each edge keeping its name and the end it is measured from. */
export function moveOutline(t: Transform, outline: Outline): Outline {
  const moved = { edges: outline.edges.map((edge) => moveEdge(t, edge)) };
  return flips(t) ? reverseOutline(moved) : moved;
}

function moveSegment(t: Transform, start: Point, segment: Segment): readonly Segment[] {
  const to = movePoint(t, segment.to);
  switch (segment.kind) {
    case 'line':
      return [{ kind: 'line', to }];
    case 'cubic':
      return [{ kind: 'cubic', control1: movePoint(t, segment.control1), control2: movePoint(t, segment.control2), to }];
    case 'arc': {
      if (keepsShapes(t)) {
        const turn = flips(t) === (segment.turn === 'left') ? 'right' : 'left';
        return [{ kind: 'arc', to, centre: movePoint(t, segment.centre), turn }];
      }
      const { centre, radiusX, radiusY, from, sweep } = sweepOf(start, segment);
      const startAngle = from;
      return moveElliptical(t, { kind: 'elliptical', to: segment.to, centre, radiusX, radiusY, startAngle, endAngle: from + sweep });
    }
    case 'elliptical':
      return moveElliptical(t, segment);
  }
}

function keepsShapes(t: Transform): boolean {
  const slack = 1e-12 * (Math.abs(t.xx) + Math.abs(t.xy));
  const turns = Math.abs(t.xx - t.yy) <= slack && Math.abs(t.xy + t.yx) <= slack;
  const mirrors = Math.abs(t.xx + t.yy) <= slack && Math.abs(t.xy - t.yx) <= slack;
  return turns || mirrors;
}

type Elliptical = Extract<Segment, { kind: 'elliptical' }>;

function moveElliptical(t: Transform, arc: Elliptical): readonly Segment[] {
  const upright = t.xy === 0 && t.yx === 0;
  const sideways = t.xx === 0 && t.yy === 0;
  if (!upright && !sideways) return asCubics(arc).flatMap((cubic) => moveSegment(t, arc.centre, cubic));
  // Sideways, x and y change places, which takes the parametric angle a to a quarter turn less a.
  const scaleX = upright ? t.xx : t.xy;
  const scaleY = upright ? t.yy : t.yx;
  const angle = (a: number) => {
    const swapped = upright ? a : Math.PI / 2 - a;
    const acrossY = scaleX < 0 ? Math.PI - swapped : swapped;
    return scaleY < 0 ? -acrossY : acrossY;
  };
  return [
    {
      kind: 'elliptical',
      to: movePoint(t, arc.to),
      centre: movePoint(t, arc.centre),
      radiusX: Math.abs(scaleX) * (upright ? arc.radiusX : arc.radiusY),
      radiusY: Math.abs(scaleY) * (upright ? arc.radiusY : arc.radiusX),
      startAngle: angle(arc.startAngle),
      endAngle: angle(arc.endAngle),
    },
  ];
}

/**
 * An elliptical arc as cubics of at most a sixteenth of a turn, with handles of
 * 4⁄3·tan(turn/4): M. Goldapp, "Approximation of circular arcs by cubic
 * polynomials", 1991; the error is below 1e-7 of the radius.
 */
function asCubics({ centre, radiusX, radiusY, startAngle, endAngle, to }: Elliptical): readonly Segment[] {
  const sweep = endAngle - startAngle;
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 8) - 1e-9));
  const step = sweep / count;
  const handle = (4 / 3) * Math.tan(step / 4);
  const at = (a: number, along: number): Point => ({
    x: centre.x + radiusX * (Math.cos(a) - along * Math.sin(a)),
    y: centre.y + radiusY * (Math.sin(a) + along * Math.cos(a)),
  });
  return Array.from({ length: count }, (_, i) => {
    const a = startAngle + i * step;
    const end = i === count - 1 ? to : at(a + step, 0);
    return { kind: 'cubic', control1: at(a, handle), control2: at(a + step, -handle), to: end };
  });
}
