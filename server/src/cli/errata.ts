import { extname, join, relative } from 'node:path';
import type { CatalogueComparison } from '../compare/catalogue.ts';
import type { Comparison } from '../compare/comparison.ts';
import { errataOf, type Errata } from '../compare/errata.ts';
import { errataText } from '../formats/errata.ts';
import { comparisonsOf, type CompareOptions } from './compare.ts';
import { UsageError } from './files.ts';
import { writeOutput } from './output.ts';
import { tell } from './terminal.ts';

export type ErrataOptions = Pick<CompareOptions, 'git' | 'effort' | 'output' | 'cache'>;

/**
 * `piecewright errata`: a notice for those who have the earlier revision, or none where nothing matters to them; 1 where none
 * can be trusted. Of several specs each has one, in a folder.
 */
export async function errata(named: readonly string[], options: ErrataOptions): Promise<number> {
  const catalogue = await comparisonsOf(named, options);
  const { comparisons: [comparison, ...more], lone, faults } = catalogue;
  if (comparison === undefined && lone.length + faults.length <= 1) throw new UsageError('A notice is about a spec that both revisions have: name one.');
  if (comparison === undefined || more.length + lone.length + faults.length > 0) return ofMany(catalogue, named, options);
  const found = noticeOf(comparison);
  if (found === 'nothing') tell('Nothing has changed that matters to those who have the earlier revision.');
  else if (typeof found === 'string') tell(found);
  else await writeOutput(errataText(found, extname(options.output ?? '').toLowerCase() === '.md' ? 'markdown' : 'text'), options.output);
  return typeof found === 'string' && found !== 'nothing' ? 1 : 0;
}

async function ofMany({ comparisons, faults }: CatalogueComparison, named: readonly string[], { git, output }: ErrataOptions): Promise<number> {
  if (output === undefined || extname(output) !== '') throw new UsageError('Of several specs each has a notice of its own: name a folder with --output.');
  let [written, refused] = [0, faults.length];
  for (const { file, why } of faults) tell(`${file}: ${why}`);
  for (const comparison of comparisons) {
    const found = noticeOf(comparison);
    const { file } = comparison.new;
    if (found === 'nothing') continue;
    if (typeof found === 'string') {
      tell(`${file}: ${found}`);
      refused++;
      continue;
    }
    // As it stands in the later folder, or in the repository.
    const inside = (git === undefined ? relative(named[1] ?? '.', file) : file).replaceAll('\\', '/').replace(/^(?:\.\.\/)+/, '');
    await writeOutput(errataText(found, 'markdown'), join(output, inside.replace(/piece$/, 'md')));
    written++;
  }
  tell(`Wrote ${written === 1 ? 'one notice' : `${written} notices`} to ${output}.`);
  return refused > 0 ? 1 : 0;
}

/** What there is to tell; `nothing` where nothing matters; or, in a sentence, why no notice can be trusted. */
function noticeOf(comparison: Comparison): Errata | string {
  if (comparison.old.errors > 0 || comparison.new.errors > 0) return 'No notice is written while one of the specs has errors: piecewright compare tells in which.';
  const notice = errataOf(comparison);
  if (notice === undefined) return 'nothing';
  return comparison.discipline?.severity === 'error' ? `No notice is written: its readers could not tell which copy they have. ${comparison.discipline.message}` : notice;
}
