import { reverseOutline, straightEdge, withoutEmptySegments } from './edge.ts';
import { outlineArea } from './measure.ts';
import { SAME_POINT } from './segment.ts';
import type { Edge, Outline, Point, Segment } from './shape.ts';
import { distance } from './vector.ts';

/** One step of a path: a segment and, when the designer gave one, the name of the edge it belongs to. */
export interface PathStep {
  readonly segment: Segment;
  readonly name?: string;
}

/**
 * The outline with corners at `points`. The side from the first to the second
 * point is `side1`, and so on, unless `names` has another name for it. Points
 * may run either way round; undefined when they enclose nothing.
 */
export function polygon(points: readonly Point[], names: readonly (string | undefined)[] = []): Outline | undefined {
  const first = points[0];
  if (!first) return undefined;
  const edges = points.map((point, i) =>
    straightEdge(names[i] ?? `side${i + 1}`, point, points[i + 1] ?? first),
  );
  return closedOutline(edges);
}

/**
 * The outline through `steps`. Neighbouring steps of one given name are one
 * edge, also across the start; a step without a name is `side<n>` by its
 * position. A line back to the start is added when the last step ends elsewhere;
 * it counts as one more step. Steps may run either way round; steps of no
 * length vanish; undefined when nothing is enclosed.
 */
export function path(start: Point, steps: readonly PathStep[]): Outline | undefined {
  const edges: Edge[] = [];
  let from = start;
  let lastName: string | undefined;
  steps.forEach(({ segment, name }, i) => {
    const previous = edges.at(-1);
    if (previous && name !== undefined && name === lastName) {
      edges[edges.length - 1] = { ...previous, segments: [...previous.segments, segment] };
    } else {
      edges.push({ name: name ?? `side${i + 1}`, start: from, segments: [segment], measuredFrom: 'start' });
    }
    lastName = name;
    from = segment.to;
  });
  if (distance(from, start) > SAME_POINT) edges.push(straightEdge(`side${steps.length + 1}`, from, start));

  const first = edges[0];
  const last = edges.at(-1);
  if (first && last && first !== last && steps[0]?.name !== undefined && first.name === last.name) {
    edges[0] = { ...last, segments: [...last.segments, ...first.segments] };
    edges.pop();
  }
  return closedOutline(edges);
}

function closedOutline(edges: readonly Edge[]): Outline | undefined {
  const kept = edges.map(withoutEmptySegments).filter((edge) => edge !== undefined);
  const outline = { edges: kept };
  const area = outlineArea(outline);
  if (!(Math.abs(area) > SAME_POINT)) return undefined;
  return area > 0 ? outline : reverseOutline(outline);
}
