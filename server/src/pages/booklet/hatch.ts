import type { Point, Polygon } from '../../geometry/shape.ts';
import { segmentOf } from '../path.ts';
import type { Pen } from '../pens.ts';
import type { Path } from '../sheet.ts';

/** How a material looks in a picture in black and white: a tone, and lines of some slope over it. */
export interface Look {
  readonly tone: number;
  /** Degrees, and millimetres from line to line. */
  readonly lines: readonly { readonly angle: number; readonly apart: number; readonly pen: Pen }[];
}

const thin: Pen = { width: 0.13, dashes: [], tone: 0.25 };
const dotted: Pen = { width: 0.35, dashes: [0.02, 1.5], tone: 0.2 };
const line = (angle: number, apart: number, pen: Pen = thin): Look['lines'][number] => ({ angle, apart, pen });

const looks: readonly Look[] = [
  { tone: 0.86, lines: [] },
  { tone: 1, lines: [line(45, 1.8)] },
  { tone: 1, lines: [line(0, 1.5, dotted)] },
  { tone: 1, lines: [line(-45, 1.8)] },
  { tone: 1, lines: [line(0, 1.6)] },
  { tone: 0.93, lines: [line(45, 2.4), line(-45, 2.4)] },
  { tone: 1, lines: [line(90, 1.6)] },
  { tone: 0.74, lines: [] },
  { tone: 1, lines: [line(0, 2.2), line(90, 2.2)] },
  { tone: 0.9, lines: [line(45, 1.2)] },
];
export const lookOf = (index: number): Look => looks[index % looks.length] ?? { tone: 0.9, lines: [] };

/** Lines of a slope inside some rings, by the rule of odd and even: where they cross a border they begin or end. */
export function hatching(rings: readonly Polygon[], angle: number, apart: number): Path {
  const radians = (angle * Math.PI) / 180;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  // Turned so that the lines are level.
  const turned = rings.map((ring) => ring.map(({ x, y }) => ({ x: x * cos + y * sin, y: y * cos - x * sin })));
  const back = ({ x, y }: Point): Point => ({ x: x * cos - y * sin, y: x * sin + y * cos });
  const ys = turned.flat().map(({ y }) => y);
  const path: Path[number][] = [];
  for (let k = Math.ceil(Math.min(...ys) / apart); k <= Math.max(...ys) / apart; k++) {
    // Off the corners by a hair, so that none is met exactly.
    const y = k * apart + 1.7e-5;
    const crossings = turned.flatMap((ring) => ring.flatMap((a, index) => {
      const b = ring[(index + 1) % ring.length] ?? a;
      return a.y > y === b.y > y ? [] : [a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y)];
    })).sort((one, other) => one - other);
    for (let index = 0; index + 1 < crossings.length; index += 2) path.push(...segmentOf(back({ x: crossings[index] ?? 0, y }), back({ x: crossings[index + 1] ?? 0, y })));
  }
  return path;
}
