/** A straight piece of a line: millimetres, y downwards. */
export interface LinePiece {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

/** Curves are followed by so many straight pieces: names keep off them, and need not know them finely. */
const perCurve = 6;

/** The straight pieces of a line as SVG path data, y upwards, of the commands that drawings have; an arc is its chord. */
export function linePieces(path: string): readonly LinePiece[] {
  const pieces: LinePiece[] = [];
  let [at, start] = [{ x: 0, y: 0 }, { x: 0, y: 0 }];
  const lineTo = (x: number, y: number): void => {
    const to = { x, y };
    pieces.push({ from: at, to });
    at = to;
  };
  for (const [, command = '', data = ''] of path.matchAll(/([MLlCAZ])([^MLlCAZ]*)/g)) {
    const numbers = (data.match(/-?[\d.]+/g) ?? []).map(Number);
    if (command === 'Z') lineTo(start.x, start.y);
    const size = command === 'C' ? 6 : command === 'A' ? 7 : 2;
    for (let index = 0; index + size <= numbers.length; index += size) {
      const own = numbers.slice(index, index + size);
      const [x = 0, y = 0] = own.slice(-2);
      if (command === 'M') at = start = { x, y: -y };
      else if (command === 'l') lineTo(at.x + x, at.y - y);
      else if (command === 'C') for (const [alongX, alongY] of curvePoints(at, own)) lineTo(alongX, alongY);
      else lineTo(x, -y);
    }
  }
  return pieces;
}

/** Points along a cubic curve from where a line is, its numbers as in the path. */
function curvePoints(from: LinePiece['from'], [x1 = 0, y1 = 0, x2 = 0, y2 = 0, x3 = 0, y3 = 0]: readonly number[]): readonly (readonly [number, number])[] {
  return Array.from({ length: perCurve }, (_, index) => {
    const [b, a] = [(index + 1) / perCurve, 1 - (index + 1) / perCurve];
    const on = (p: number, q: number, r: number, s: number): number => a ** 3 * p + 3 * a * a * b * q + 3 * a * b * b * r + b ** 3 * s;
    return [on(from.x, x1, x2, x3), on(from.y, -y1, -y2, -y3)] as const;
  });
}
