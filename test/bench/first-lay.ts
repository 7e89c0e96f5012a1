/**
 * How soon a first lay is there, and how its cost grows with the number of pieces: rectangles, and outlines with curves.
 *
 *   node test/bench/run.mjs first-lay
 */
import { planPolygons } from '../../server/src/lay/polygons/plan.ts';
import type { LayPiece, LayProblem } from '../../server/src/lay/problem.ts';
import { planRectangleLay } from '../../server/src/lay/rectangles/plan.ts';

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

/** Invented pieces, a kind to every three, between 4 and 30 cm. */
function problemOf(count: number, curved: boolean): LayProblem {
  const kinds = Math.max(1, Math.round(count / 3));
  const pieces = Array.from({ length: kinds }, (_, i): LayPiece => {
    const width = 40 + ((i * 37) % 211);
    const height = 40 + ((i * 53) % 257);
    return {
      id: `piece ${i}`,
      outline: curved ? rounded(width, height) : [{ x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: height }, { x: 0, y: height }],
      count: { asDrawn: 0, mirrored: 0, either: i < kinds - 1 ? 3 : count - 3 * (kinds - 1) },
      turns: [0, 180],
      onFold: false,
    };
  });
  return { width: 1067, pieces, gap: 0 };
}

function rounded(width: number, height: number): LayPiece['outline'] {
  return Array.from({ length: 24 }, (_, i) => {
    const angle = (2 * Math.PI * i) / 24;
    return { x: (width / 2) * (1 + Math.cos(angle)), y: (height / 2) * (1 + Math.sin(angle)) };
  });
}

console.log('pieces   rectangles   curved (ms to the first lay, median of 5)');
for (const count of [20, 60, 200, 1000]) {
  const times = [false, true].map((curved) => {
    const problem = problemOf(count, curved);
    return median(Array.from({ length: 5 }, () => {
      const start = performance.now();
      if (curved) planPolygons(problem, { steps: 0 });
      else planRectangleLay(problem, { steps: 0 });
      return performance.now() - start;
    }));
  });
  console.log(`${String(count).padStart(6)} ${times.map((time) => time.toFixed(1).padStart(12)).join('')}`);
}
