import type { Point, Polyline } from '../geometry/shape.ts';
import { between } from '../geometry/vector.ts';
import { polylineSteps } from './path.ts';
import type { Role } from './sheet.ts';
import type { Stroke } from './strokes.ts';

/** What only points something out has no line that another could lie on. */
const signs: ReadonlySet<Role> = new Set<Role>(['notch', 'mark', 'drill']);

/**
 * Lines of a template, of what is cut from another one only what lies on no other line: its dashes and those of a stitching
 * line would together look like a fold.
 */
export function ghostsOffLines(strokes: readonly Stroke[]): readonly Stroke[] {
  const others = strokes.filter(({ role }) => role !== 'ghost' && !signs.has(role)).flatMap(sidesOf);
  return strokes.flatMap((stroke): readonly Stroke[] => {
    if (stroke.role !== 'ghost') return [stroke];
    const sides = sidesOf(stroke);
    const left = sides.map((side) => partsOff(side, others));
    if (left.every((parts, index) => parts.length === 1 && parts[0] === sides[index])) return [stroke];
    return joined(left.flat()).map((points): Stroke => ({ ...stroke, path: polylineSteps(points, false), points, closed: false }));
  });
}

type Side = readonly [Point, Point];

function sidesOf({ points, closed }: Stroke): readonly Side[] {
  return points.flatMap((point, index): readonly Side[] => {
    const before = index > 0 || closed ? points.at(index - 1) : undefined;
    return before === undefined ? [] : [[before, point]];
  });
}

/** Nearer than this, in millimetres, one line is printed over the other. */
const near = 0.1;
/** What is shorter is no line that anybody could see, in millimetres. */
const shortest = 1;

/** The parts of a side that lie on none of the others; the very same where all of it does. */
function partsOff(side: Side, others: readonly Side[]): readonly Side[] {
  const [from, to] = side;
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  // The short sides that stand for a curve lie on no other line all along it.
  if (long < shortest) return [side];
  const along = { x: (to.x - from.x) / long, y: (to.y - from.y) / long };
  const place = ({ x, y }: Point): readonly [ahead: number, aside: number] =>
    [(x - from.x) * along.x + (y - from.y) * along.y, Math.abs((x - from.x) * along.y - (y - from.y) * along.x)];
  const covered = others.flatMap(([a, b]): readonly (readonly [number, number])[] => {
    const [[start, asideA], [end, asideB]] = [place(a), place(b)];
    const [low, high] = [Math.max(0, Math.min(start, end)), Math.min(long, Math.max(start, end))];
    return asideA < near && asideB < near && high - low > near ? [[low, high]] : [];
  }).sort(([one], [other]) => one - other);
  if (covered.length === 0) return [side];
  let at = 0;
  const free: (readonly [number, number])[] = [];
  for (const [low, high] of [...covered, [long, long] as const]) {
    if (low - at > shortest) free.push([at, low]);
    at = Math.max(at, high);
  }
  return free.map(([low, high]): Side => [between(from, to, low / long), between(from, to, high / long)]);
}

/** Sides that follow one another as runs; what begins where the last one ends goes on from it. */
function joined(sides: readonly Side[]): readonly Polyline[] {
  const runs: Point[][] = [];
  for (const [from, to] of sides) {
    const run = runs.at(-1);
    if (run !== undefined && isAt(run.at(-1), from)) run.push(to);
    else runs.push([from, to]);
  }
  const [first, ...others] = runs;
  const last = others.at(-1);
  return first !== undefined && last !== undefined && isAt(last.at(-1), first[0]) ? [[...last, ...first.slice(1)], ...others.slice(0, -1)] : runs;
}

const isAt = (one: Point | undefined, other: Point | undefined): boolean => one !== undefined && other !== undefined && Math.hypot(one.x - other.x, one.y - other.y) < 1e-6;
