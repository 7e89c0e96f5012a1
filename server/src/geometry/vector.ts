import type { Point } from './shape.ts';

export const plus = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
export const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
export const times = (a: Point, k: number): Point => ({ x: a.x * k, y: a.y * k });
export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;

/** Positive when `b` lies to the left of `a`. */
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;

// Math.hypot guards against overflow that millimetres never reach, and takes many times as long.
export const length = (a: Point): number => Math.sqrt(a.x * a.x + a.y * a.y);
export const distance = (a: Point, b: Point): number => length(minus(b, a));

/** The point `from` + k·`direction`. */
export const ahead = (from: Point, direction: Point, k: number): Point => ({
  x: from.x + direction.x * k,
  y: from.y + direction.y * k,
});

/** The point a fraction `t` of the way from `a` to `b`. */
export const between = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});

/** The vector a quarter turn clockwise: outward, for a direction along an outline. */
export const rightOf = (a: Point): Point => ({ x: a.y, y: -a.x });

/** The vector turned counter-clockwise by `radians`. */
export const turned = (a: Point, radians: number): Point => {
  const c = Math.cos(radians);
  const s = Math.sin(radians);
  return { x: a.x * c - a.y * s, y: a.x * s + a.y * c };
};

/** The vector at length one; the zero vector stays zero. */
export const unit = (a: Point): Point => {
  const l = length(a);
  return l === 0 ? a : { x: a.x / l, y: a.y / l };
};

/** Twice the signed area of the triangle a, b, c: positive when it turns left. */
export const turnOf = (a: Point, b: Point, c: Point): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
