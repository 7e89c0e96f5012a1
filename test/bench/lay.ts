/**
 * Measures the lay planner on files of strip packing problems.
 *
 *   node lay.mjs [FILE ...] [--effort N] [--turns allowed|forbidden] [--seed N] [--only NAME,NAME]
 *
 * A file holds { instances: [...] } of rectangles ({ name, width, optimum, items: [[w, h, count]] },
 * whole units) or of polygons ({ name, width, published_use_percent, items: [{ count, rotations, points }] }).
 * One unit of effort is a fixed number of steps that took about one second on the desktop processor it
 * was measured on; the answer depends on the steps alone. Every lay is checked before it is reported,
 * and the command fails if one is not right.
 */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { lowerBound } from '../../server/src/lay/bounds/bound.ts';
import { areaOf } from '../../server/src/lay/bounds/outline.ts';
import { planPolygons, stepsPerSecond as polygonStepsPerSecond } from '../../server/src/lay/polygons/plan.ts';
import type { LayPoint, LayProblem } from '../../server/src/lay/problem.ts';
import { packRectangles, STEPS_PER_SECOND } from '../../server/src/lay/rectangles/pack.ts';
import { faultsOf } from '../lay/rectangles/faults.ts';
import type { RectangleInput } from '../../server/src/lay/rectangles/types.ts';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';

interface RectangleInstance {
  readonly name: string;
  readonly width: number;
  readonly optimum?: number;
  readonly items: readonly (readonly [number, number, number])[];
}
interface PolygonInstance {
  readonly name: string;
  readonly width: number;
  readonly published_use_percent?: { readonly median: number; readonly best: number };
  readonly items: readonly {
    readonly count: number;
    readonly rotations: readonly number[];
    readonly points: readonly (readonly [number, number])[];
  }[];
}
type Instance = RectangleInstance | PolygonInstance;

interface Settings {
  readonly effort: number;
  readonly turnable: boolean;
  readonly seed: number;
}

/** One line of the table; `figure` is what the mean is taken of. */
interface Row {
  readonly cells: readonly string[];
  readonly figure: number | undefined;
  readonly right: boolean;
}

const isRectangles = (instance: Instance): instance is RectangleInstance => Array.isArray(instance.items[0]);
const cpuSeconds = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

const RECTANGLE_HEAD = ['name', 'pieces', 'length', 'gap %', 'optimum', 'bound', 'first ms', 'CPU s', 'check'];
const POLYGON_HEAD = ['name', 'pieces', 'length', 'use %', 'median %', 'best %', 'bound', 'CPU s', 'check'];

function measureRectangles(instance: RectangleInstance, { effort, turnable, seed }: Settings): Row {
  const input: RectangleInput = {
    width: instance.width,
    items: instance.items.map(([w, h, count]) => ({ w, h, count, turnable })),
  };
  const pieces = input.items.reduce((sum, { count }) => sum + count, 0);
  const cpu = cpuSeconds();
  const start = performance.now();
  const search = packRectangles(input, { steps: Math.round(effort * STEPS_PER_SECOND), seed });
  let turn = search.next();
  const first = performance.now() - start;
  while (!turn.done) turn = search.next();
  const outcome = turn.value;
  if (outcome.kind === 'too wide') {
    return { cells: [instance.name, `${pieces}`, 'does not fit', '', '', '', '', '', ''], figure: undefined, right: true };
  }
  const used = cpuSeconds() - cpu;
  const faults = faultsOf(input, outcome.packing);
  const against = instance.optimum ?? outcome.bound;
  const gap = (100 * (outcome.packing.length - against)) / against;
  const cells = [
    instance.name,
    `${pieces}`,
    `${outcome.packing.length}`,
    gap.toFixed(3),
    `${instance.optimum ?? '-'}`,
    `${outcome.bound}`,
    first.toFixed(1),
    used.toFixed(2),
    faults[0] ?? 'right',
  ];
  return { cells, figure: gap, right: faults.length === 0 && outcome.bound <= outcome.packing.length };
}

function measurePolygons(instance: PolygonInstance, { effort, seed }: Settings): Row {
  const problem: LayProblem = {
    width: instance.width,
    gap: 0,
    pieces: instance.items.map(({ count, rotations, points }, i) => ({
      id: `${i}`,
      outline: counterClockwise(points.map(([x, y]) => ({ x, y }))),
      count: { asDrawn: count, mirrored: 0, either: 0 },
      turns: rotations.length > 0 ? rotations : [0],
      onFold: false,
    })),
  };
  const pieces = instance.items.reduce((sum, { count }) => sum + count, 0);
  const area = problem.pieces.reduce((sum, piece) => sum + piece.count.asDrawn * areaOf(piece.outline), 0);
  const bound = lowerBound(problem);
  const cpu = cpuSeconds();
  const lay = planPolygons(problem, { steps: Math.round(effort * polygonStepsPerSecond), seed });
  const used = cpuSeconds() - cpu;
  const faults = verifyLay(problem, lay);
  const use = (100 * area) / (instance.width * lay.length);
  const published = instance.published_use_percent;
  const cells = [
    instance.name,
    `${pieces}`,
    lay.length.toFixed(2),
    use.toFixed(2),
    published?.median.toFixed(2) ?? '-',
    published?.best.toFixed(2) ?? '-',
    `${bound.length.toFixed(2)} (${bound.reason})`,
    used.toFixed(2),
    faults[0]?.kind ?? 'right',
  ];
  return { cells, figure: use, right: faults.length === 0 && bound.length <= lay.length + 1e-6 };
}

function counterClockwise(points: readonly LayPoint[]): readonly LayPoint[] {
  const twice = points.reduce((sum, a, i) => {
    const b = points[(i + 1) % points.length]!;
    return sum + a.x * b.y - b.x * a.y;
  }, 0);
  return twice < 0 ? [...points].reverse() : points;
}

function printed(cells: readonly string[]): string {
  return cells.map((cell, i) => (i === 0 ? cell.padEnd(12) : cell.padStart(9))).join(' ');
}

function main(): void {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      effort: { type: 'string', default: '1' },
      turns: { type: 'string', default: 'allowed' },
      seed: { type: 'string', default: '1' },
      only: { type: 'string' },
    },
  });
  const settings: Settings = {
    effort: Number(values.effort),
    turnable: values.turns !== 'forbidden',
    seed: Number(values.seed),
  };
  if (!(settings.effort >= 0)) throw new Error(`--effort ${values.effort} is not a number`);
  const only = values.only?.split(',');
  const files = positionals.length > 0 ? positionals : defaultFiles();
  for (const file of files) {
    const data = JSON.parse(readFileSync(file, 'utf8')) as { source?: string; instances: readonly Instance[] };
    const instances = data.instances.filter(({ name }) => only === undefined || only.includes(name));
    if (instances.length === 0) continue;
    const rectangles = isRectangles(instances[0]!);
    console.log(`${file}\nsource: ${data.source ?? 'not given'}`);
    console.log(`effort ${settings.effort}, seed ${settings.seed}${rectangles ? `, turns ${values.turns}` : ''}`);
    console.log(printed(rectangles ? RECTANGLE_HEAD : POLYGON_HEAD));
    const figures: number[] = [];
    const cpu = cpuSeconds();
    for (const instance of instances) {
      const row = isRectangles(instance) ? measureRectangles(instance, settings) : measurePolygons(instance, settings);
      console.log(printed(row.cells));
      if (row.figure !== undefined) figures.push(row.figure);
      if (!row.right) process.exitCode = 1;
    }
    const mean = figures.reduce((sum, figure) => sum + figure, 0) / figures.length;
    console.log(`mean ${rectangles ? 'gap' : 'use'} ${mean.toFixed(3)} % of ${figures.length}, ${(cpuSeconds() - cpu).toFixed(1)} CPU s in all\n`);
  }
}

/** The data beside this file; found from the project's root as well when this file has been bundled elsewhere. */
function defaultFiles(): readonly string[] {
  const here = dirname(fileURLToPath(import.meta.url));
  const names = ['strip-rectangles.json', 'strip-polygons.json'];
  for (const folder of [join(here, 'data'), join('test', 'bench', 'data')]) {
    try {
      readFileSync(join(folder, names[0]!));
      return names.map((name) => join(folder, name));
    } catch {
      continue;
    }
  }
  throw new Error('no data found: name a file');
}

main();
