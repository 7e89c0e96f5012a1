/**
 * Abscissae and weights of eight-point Gauss–Legendre quadrature on −1…1
 * (Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4).
 */
const NODES: readonly (readonly [number, number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

function gauss(f: (t: number) => number, from: number, until: number): number {
  const middle = (from + until) / 2;
  const half = (until - from) / 2;
  let sum = 0;
  for (const [node, weight] of NODES) sum += weight * (f(middle - half * node) + f(middle + half * node));
  return sum * half;
}

/** The integral of a smooth function to about `tolerance`, halving the interval until both halves agree with the whole. */
export function integrate(f: (t: number) => number, from: number, until: number, tolerance: number): number {
  const refine = (a: number, b: number, whole: number, allowed: number, depth: number): number => {
    const middle = (a + b) / 2;
    const left = gauss(f, a, middle);
    const right = gauss(f, middle, b);
    if (depth === 0 || Math.abs(left + right - whole) <= allowed) return left + right;
    return refine(a, middle, left, allowed / 2, depth - 1) + refine(middle, b, right, allowed / 2, depth - 1);
  };
  return refine(from, until, gauss(f, from, until), tolerance, 24);
}
