import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { optimiseLittle } from '../../server/src/cli/catalogue.ts';
import { specsBelow } from '../../server/src/cli/files.ts';
import { tableJob } from '../../server/src/cli/table-job.ts';
import { generateCatalogue } from '../support/catalogue.ts';

/**
 * What one thread takes for the check, table and quick lay of specs of a catalogue, one after the other: processor time, which
 * other programs on the machine change less than they do the time that goes by. The fingerprint is of all results.
 *
 *   node test/bench/run.mjs catalogue-thread [SPECS [FILE [EFFORT]]]
 *
 * All results are written to the file, to be compared with those of another revision of the program.
 */

const [count, file, effort] = [Number(process.argv[2] ?? 150), process.argv[3], Number(process.argv[4] ?? 0)];
const home = mkdtempSync(join(tmpdir(), 'piecewright-bench-'));
try {
  for (const [path, text] of generateCatalogue(count)) {
    mkdirSync(dirname(join(home, path)), { recursive: true });
    writeFileSync(join(home, path), text);
  }
  process.chdir(home);
  optimiseLittle();
  const job = tableJob();
  const results: string[] = [];
  const begun = process.cpuUsage();
  const specs = await specsBelow('.');
  for (const { spec } of specs) {
    const { result } = job.read({ spec, manner: { format: 'markdown', by: 'material', choose: [], all: false, articles: 1, effort } }).compute();
    results.push(JSON.stringify({ ...result, table: result.table?.text }));
  }
  const { user, system } = process.cpuUsage(begun);
  const seconds = (user + system) / 1e6;
  console.log(`${specs.length} specs, ${seconds.toFixed(2)} s of processor time, ${(specs.length / seconds).toFixed(0)} specs a second in one thread; results ${createHash('sha256').update(results.join('\n')).digest('hex').slice(0, 16)}`);
  if (file !== undefined) writeFileSync(file, `${results.join('\n')}\n`);
} finally {
  rmSync(home, { recursive: true, force: true });
}
