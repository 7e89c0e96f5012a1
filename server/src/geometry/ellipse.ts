import { straightEdge } from './edge.ts';
import { bounds } from './measure.ts';
import { onSweep } from './segment.ts';
import type { Sweep } from './segment.ts';
import type { Edge, Outline, Segment } from './shape.ts';
import { moveOutline, translation } from './transform.ts';

/**
 * An ellipse, or the part of one swept counter-clockwise between two directions
 * seen from its centre, in degrees from the x axis. The whole is one edge,
 * `edge`, starting at the right; a part is `arc` closed by `chord`, or by `end`
 * and `start` running through the centre. Either way the least rectangle round
 * it has its lower left corner at 0,0. Sizes in mm are those of the whole
 * ellipse; undefined when one is not positive or the part has no angle.
 */
export function ellipse(
  width: number,
  height: number,
  fromDegrees = 0,
  toDegrees = 360,
  closing: 'straight' | 'centre' = 'straight',
): Outline | undefined {
  if (!(width > 0 && height > 0)) return undefined;
  const turn = toDegrees - fromDegrees;
  if (!Number.isFinite(turn) || turn === 0) return undefined;
  const swept = turn % 360 === 0 ? 360 : ((turn % 360) + 360) % 360;
  const radiusX = width / 2;
  const radiusY = height / 2;
  const from = parametric(fromDegrees, radiusX, radiusY);
  const sweep = swept === 360 ? 2 * Math.PI : parametric(fromDegrees + swept, radiusX, radiusY) - from;
  const s: Sweep = { centre: { x: radiusX, y: radiusY }, radiusX, radiusY, from, sweep };
  if (swept === 360) return { edges: [arcEdge('edge', s, true)] };

  const arc = arcEdge('arc', s, false);
  const first = arc.start;
  const last = onSweep(s, from + sweep);
  const closed =
    closing === 'straight'
      ? [arc, straightEdge('chord', last, first)]
      : [arc, straightEdge('end', last, s.centre), straightEdge('start', s.centre, first)];
  const { minX, minY } = bounds({ edges: closed });
  return moveOutline(translation(-minX, -minY), { edges: closed });
}

/** The parametric angle, in radians, of the point seen from the centre in a direction in degrees; grows with it. */
function parametric(degrees: number, radiusX: number, radiusY: number): number {
  const direction = (degrees * Math.PI) / 180;
  const angle = Math.atan2(radiusX * Math.sin(direction), radiusY * Math.cos(direction));
  // Both angles lie in the same quarter turn, so the nearest whole turn brings them together.
  return angle + 2 * Math.PI * Math.round((direction - angle) / (2 * Math.PI));
}

/** The sweep as an edge of stretches of at most a quarter turn. */
function arcEdge(name: string, s: Sweep, closed: boolean): Edge {
  const count = Math.max(1, Math.ceil(s.sweep / (Math.PI / 2) - 1e-9));
  const step = s.sweep / count;
  const start = onSweep(s, s.from);
  const segments = Array.from({ length: count }, (_, i): Segment => {
    const startAngle = s.from + i * step;
    const endAngle = startAngle + step;
    const to = closed && i === count - 1 ? start : onSweep(s, endAngle);
    const { centre, radiusX, radiusY } = s;
    return radiusX === radiusY
      ? { kind: 'arc', to, centre, turn: 'left' }
      : { kind: 'elliptical', to, centre, radiusX, radiusY, startAngle, endAngle };
  });
  return { name, start, segments, measuredFrom: 'start' };
}
