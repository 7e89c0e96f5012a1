import { extname } from 'node:path';
import { errataOf } from '../compare/errata.ts';
import { errataText } from '../formats/errata.ts';
import { comparisonsOf, type CompareOptions } from './compare.ts';
import { UsageError } from './files.ts';
import { writeOutput } from './output.ts';
import { tell } from './terminal.ts';

/** `piecewright errata`: a notice for those who have the earlier revision, or none where nothing matters to them; 1 where none can be trusted. */
export async function errata(named: readonly string[], options: Pick<CompareOptions, 'git' | 'effort' | 'output'>): Promise<number> {
  const { comparisons, lone } = await comparisonsOf(named, { ...options, cache: false });
  const [comparison] = comparisons;
  if (comparison === undefined || comparisons.length + lone.length > 1) throw new UsageError('A notice is about one spec that both revisions have: name it.');
  if (comparison.old.errors > 0 || comparison.new.errors > 0) {
    tell('No notice is written while one of the specs has errors: piecewright compare tells in which.');
    return 1;
  }
  const notice = errataOf(comparison);
  if (notice === undefined) {
    tell('Nothing has changed that matters to those who have the earlier revision.');
    return 0;
  }
  if (comparison.discipline?.severity === 'error') {
    tell(`No notice is written: its readers could not tell which copy they have. ${comparison.discipline.message}`);
    return 1;
  }
  await writeOutput(errataText(notice, extname(options.output ?? '').toLowerCase() === '.md' ? 'markdown' : 'text'), options.output);
  return 0;
}
