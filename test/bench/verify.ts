/**
 * Spoils 10,000 random lays, each so that it cannot be right (the reason stands beside each way of spoiling), and
 * counts how many the verifier rejects for that very fault; also counts how many of the unspoilt lays it accepts. Must be all of both.
 *
 *   npx esbuild test/bench/verify.ts --bundle --platform=node --format=esm --outfile=dist/bench-verify.mjs && node dist/bench-verify.mjs
 */
import { seededRandom } from '../../server/src/lay/random.ts';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';
import { rightLay, spoils } from '../lay/verify/spoilt.ts';

const runs = 10_000;
const random = seededRandom(20260);
const tally = new Map<string, { made: number; rejected: number }>();
let accepted = 0;
for (let run = 0; run < runs; run++) {
  const good = rightLay(random);
  if (verifyLay(good.problem, good.lay).length === 0) accepted++;
  const bad = spoils[run % spoils.length]!(good, random);
  const count = tally.get(bad.how) ?? { made: 0, rejected: 0 };
  count.made++;
  if (verifyLay(bad.problem, bad.lay).some((fault) => fault.kind === bad.fault)) count.rejected++;
  tally.set(bad.how, count);
}
let rejected = 0;
for (const [how, count] of tally) {
  rejected += count.rejected;
  console.log(`${how.padEnd(32)} rejected ${count.rejected} of ${count.made}`);
}
console.log(`right lays accepted: ${accepted} of ${runs}`);
console.log(`spoilt lays rejected: ${rejected} of ${runs}`);
process.exitCode = accepted === runs && rejected === runs ? 0 : 1;
