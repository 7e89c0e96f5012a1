/**
 * Looks for a lower bound above a length that can be had, over many invented problems:
 *
 *   node bounds.mjs [CASES]
 *
 * Half the cases are cloth cut up without waste, where the bound must also reach the length; half are
 * rectangles laid by the planner. Prints the count and fails on the first bound that is too high.
 */
import { lowerBound } from '../../server/src/lay/bounds/bound.ts';
import { seededRandom } from '../../server/src/lay/random.ts';
import { planRectangleLay } from '../../server/src/lay/rectangles/plan.ts';
import { anyRectangles, cutCloth } from '../lay/bounds/cases.ts';

const cases = Number(process.argv[2] ?? 10_000);
const reasons = new Map<string, number>();
let closed = 0;
let laid = 0;
for (let seed = 1; seed <= cases; seed++) {
  const random = seededRandom(seed);
  if (seed % 2 === 0) {
    const { problem, length } = cutCloth(random);
    const bound = lowerBound(problem);
    if (bound.length > length) fail(seed, bound.length, length);
    continue;
  }
  const problem = anyRectangles(random);
  const plan = planRectangleLay(problem, { steps: 20_000 });
  if (plan.kind !== 'laid') continue;
  laid++;
  const bound = lowerBound(problem);
  if (bound.length > plan.lay.length) fail(seed, bound.length, plan.lay.length);
  if (bound.length >= plan.lay.length * (1 - 1e-6)) closed++;
  reasons.set(bound.reason, (reasons.get(bound.reason) ?? 0) + 1);
}
console.log(`${cases} cases, ${laid} of them laid by the planner: no bound above a length that can be had`);
console.log(`of those laid the bound was met by ${closed}; it came from ${[...reasons].map(([reason, n]) => `${reason} ${n}`).join(', ')}`);

function fail(seed: number, bound: number, length: number): never {
  console.error(`case ${seed}: bound ${bound} above length ${length}`);
  process.exit(1);
}
