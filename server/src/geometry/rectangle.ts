import { selfCrossing } from './crossing.ts';
import { straightEdge } from './edge.ts';
import { flattenOutline } from './flatten.ts';
import type { Edge, Outline, Point } from './shape.ts';
import { distance } from './vector.ts';

export type CornerName = 'bottom_left' | 'bottom_right' | 'top_right' | 'top_left';
export type SideName = 'bottom' | 'right' | 'top' | 'left';

/**
 * What takes the place of a square corner, sizes in mm: a quarter circle, a
 * straight cut from `alongX` along the level side to `alongY` along the upright
 * one, or a notch `across` wide and `up` high taken out.
 */
export type Corner =
  | { readonly kind: 'round'; readonly radius: number }
  | { readonly kind: 'chamfer'; readonly alongX: number; readonly alongY: number }
  | { readonly kind: 'box'; readonly across: number; readonly up: number };

/**
 * A rectangle, or why there is none: a size that is not positive (for a corner:
 * negative), corners `by` mm too long together for a side, or opposite corners
 * running into each other `at` a point.
 */
export type RectangleResult =
  | { readonly kind: 'ok'; readonly outline: Outline }
  | { readonly kind: 'not_positive'; readonly what: 'width' | 'height' | CornerName }
  | { readonly kind: 'overflow'; readonly side: SideName; readonly by: number }
  | { readonly kind: 'crossing'; readonly at: Point };

/** A corner's extent along x and y. */
function reach(corner: Corner | undefined): Point {
  switch (corner?.kind) {
    case undefined:
      return { x: 0, y: 0 };
    case 'round':
      return { x: corner.radius, y: corner.radius };
    case 'chamfer':
      return { x: corner.alongX, y: corner.alongY };
    case 'box':
      return { x: corner.across, y: corner.up };
  }
}

const ROUND = ['bottom_left', 'bottom_right', 'top_right', 'top_left'] as const;
const SLACK = 1e-9;

/**
 * A rectangle with its lower left corner at 0,0 and edges `bottom`, `right`,
 * `top`, `left`; bottom and top are measured from the left, left and right from
 * the bottom. A round or chamfered corner is an edge of its own named like the
 * corner; a boxed-out one makes two, `<corner>_level` and `<corner>_upright`,
 * measured like the sides. A side its corners use up entirely is left out.
 */
export function rectangle(
  width: number,
  height: number,
  corners: Readonly<Partial<Record<CornerName, Corner>>> = {},
): RectangleResult {
  if (!(width > 0)) return { kind: 'not_positive', what: 'width' };
  if (!(height > 0)) return { kind: 'not_positive', what: 'height' };
  for (const name of ROUND) {
    const { x, y } = reach(corners[name]);
    if (!(x >= 0 && y >= 0)) return { kind: 'not_positive', what: name };
  }
  const bl = reach(corners.bottom_left);
  const br = reach(corners.bottom_right);
  const tr = reach(corners.top_right);
  const tl = reach(corners.top_left);
  const over: readonly (readonly [SideName, number])[] = [
    ['bottom', bl.x + br.x - width],
    ['right', br.y + tr.y - height],
    ['top', tr.x + tl.x - width],
    ['left', tl.y + bl.y - height],
  ];
  for (const [side, by] of over) if (by > SLACK) return { kind: 'overflow', side, by };

  const point = (x: number, y: number): Point => ({ x, y });
  const edges = [
    straightEdge('bottom', point(bl.x, 0), point(width - br.x, 0)),
    ...corner('bottom_right', corners.bottom_right, point(width - br.x, 0), point(width, br.y)),
    straightEdge('right', point(width, br.y), point(width, height - tr.y)),
    ...corner('top_right', corners.top_right, point(width, height - tr.y), point(width - tr.x, height)),
    straightEdge('top', point(width - tr.x, height), point(tl.x, height), 'end'),
    ...corner('top_left', corners.top_left, point(tl.x, height), point(0, height - tl.y)),
    straightEdge('left', point(0, height - tl.y), point(0, bl.y), 'end'),
    ...corner('bottom_left', corners.bottom_left, point(0, bl.y), point(bl.x, 0)),
  ].filter((edge) => edge.segments.some(({ to }) => distance(edge.start, to) > SLACK));
  const outline = { edges };
  // Corners next to each other cannot meet once the sides are long enough; opposite ones still can.
  const cornersMeet =
    (bl.x + tr.x > width && bl.y + tr.y > height) || (br.x + tl.x > width && br.y + tl.y > height);
  const at = cornersMeet ? selfCrossing(flattenOutline(outline).polygon) : undefined;
  return at ? { kind: 'crossing', at } : { kind: 'ok', outline };
}

function corner(name: CornerName, shape: Corner | undefined, from: Point, to: Point): readonly Edge[] {
  // Going counter-clockwise, the lower right and upper left corners are entered along a level side.
  const levelFirst = name === 'bottom_right' || name === 'top_left';
  const inner = levelFirst ? { x: from.x, y: to.y } : { x: to.x, y: from.y };
  switch (shape?.kind) {
    case undefined:
      return [];
    case 'chamfer':
      return [straightEdge(name, from, to)];
    case 'round':
      return [{ name, start: from, segments: [{ kind: 'arc', to, centre: inner, turn: 'left' }], measuredFrom: 'start' }];
    case 'box': {
      const upright = `${name}_upright`;
      const level = `${name}_level`;
      return [
        measuredUpOrRight(levelFirst ? upright : level, from, inner),
        measuredUpOrRight(levelFirst ? level : upright, inner, to),
      ];
    }
  }
}

const measuredUpOrRight = (name: string, from: Point, to: Point): Edge =>
  straightEdge(name, from, to, to.x > from.x || to.y > from.y ? 'start' : 'end');
