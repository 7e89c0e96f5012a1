/**
 * How long the main job takes: reading, checking and the cutting table of a large spec, in one thread, once warm. Prints
 * medians of processor time (which counts the threads that collect garbage) and of wall time, and the least wall time,
 * which a busy machine disturbs least.
 *
 *   npm run bench [-- LINES …]
 */
import { renderTable } from '../../server/src/formats/format.ts';
import { cuttingTable } from '../../server/src/table/table.ts';
import { Analyst } from '../../server/src/model/pattern.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { generateSpec } from '../support/generate.ts';

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

interface Timing {
  readonly wall: number;
  readonly processor: number;
}

function timed(job: () => void): Timing {
  const wall = performance.now();
  const before = process.cpuUsage();
  job();
  const used = process.cpuUsage(before);
  return { wall: performance.now() - wall, processor: (used.user + used.system) / 1000 };
}

const sizes = process.argv.slice(2).map(Number).filter((size) => size > 0);
console.log('lines    read    check   table   all (ms, median processor time)   all (ms wall: median, least)');
for (const lines of sizes.length > 0 ? sizes : [2000, 19_900]) {
  const text = generateSpec(lines);
  const errors = new Analyst().analyse(parseFile('large.piece', text), () => undefined).problems.filter(({ severity }) => severity === 'error');
  if (errors[0] !== undefined) throw new Error(`The spec of ${lines} lines is refused, so there is nothing to measure: ${errors[0].message}`);
  const runs = lines > 5000 ? 7 : 25;
  const parts: Record<'read' | 'check' | 'table' | 'all', Timing[]> = { read: [], check: [], table: [], all: [] };
  for (let run = 0; run < runs + 3; run++) {
    let file = parseFile('', '');
    let pattern = new Analyst().analyse(file, () => undefined);
    const read = timed(() => { file = parseFile('large.piece', text); });
    const check = timed(() => { pattern = new Analyst().analyse(file, () => undefined); });
    const table = timed(() => { renderTable([cuttingTable(pattern, new Map())], 'markdown', 'piece'); });
    // The first runs warm the engine up.
    if (run < 3) continue;
    parts.read.push(read);
    parts.check.push(check);
    parts.table.push(table);
    parts.all.push({ wall: read.wall + check.wall + table.wall, processor: read.processor + check.processor + table.processor });
  }
  const shown = (timings: readonly Timing[]): string => median(timings.map((one) => one.processor)).toFixed(1).padStart(7);
  console.log(`${String(lines).padEnd(6)} ${shown(parts.read)} ${shown(parts.check)} ${shown(parts.table)} ${shown(parts.all)} ${' '.repeat(27)} ${median(parts.all.map((one) => one.wall)).toFixed(1).padStart(7)} ${Math.min(...parts.all.map((one) => one.wall)).toFixed(1).padStart(7)}`);
}
