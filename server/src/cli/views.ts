import { join } from 'node:path';
import { escapeMarkup } from '../formats/escape.ts';
import { htmlPage } from '../formats/html-page.ts';
import { reportOf } from '../formats/problems/problem-list.ts';
import type { Pattern } from '../model/pattern.ts';
import { readerIn, readSpec, specsBelow, toldPath, UsageError } from './files.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { pretty } from './report.ts';
import { patternFrom, type TextReader } from './spec-texts.ts';
import { isMade } from './table-job.ts';
import { tell } from './terminal.ts';

/** A spec in the list of all pages. */
interface Entry {
  readonly title: string;
  readonly revision: string;
  /** Below the folder, with forward slashes. */
  readonly path: string;
  /** Whether it has errors, and so no page. */
  readonly isRefused: boolean;
}

const index = 'index.html';

/**
 * A page of each spec of a folder, where it stands in its own, and one that leads to all of them; 1 where a spec has errors, and so
 * no page. A list that others use has none either.
 *
 * @param pageOf the page of a pattern; undefined where there is nothing to show
 * @throws UsageError where one can’t be written
 */
export async function views(named: string, output: string, pageOf: (pattern: Pattern) => string | undefined): Promise<number> {
  const specs = await specsBelow(named);
  if (specs.some(({ path }) => fileOf(path) === index)) throw new UsageError('The page of “index.piece” would stand where the list of all pages does: give it another name.');
  const progress = progressOn(process.stderr, 'Writing pages', specs.length);
  const readers = new Map<string, TextReader>();
  const entries: Entry[] = [];
  const errors: string[] = [];
  for (const [at, { spec, path }] of specs.entries()) {
    const reader = readers.get(spec.folder) ?? readerIn(spec.folder);
    readers.set(spec.folder, reader);
    const { pattern } = patternFrom(readSpec(spec, reader));
    const { facts } = pattern.world;
    const faults = reportOf(pattern, toldPath(spec)).problems.filter(({ severity }) => severity === 'error');
    errors.push(...faults.map((fault) => pretty(fault, process.stderr)));
    const isRefused = faults.length > 0;
    const page = isRefused ? undefined : pageOf(pattern);
    if (page !== undefined) await writeOutput(page, join(output, fileOf(path)));
    if (page !== undefined || (isRefused && isMade(pattern))) entries.push({ title: facts.title ?? path, revision: facts.revision ?? '', path, isRefused });
    progress.show(at + 1);
  }
  progress.end();
  await writeOutput(listOf(entries), join(output, index));
  for (const error of new Set(errors)) process.stderr.write(`${error}\n`);
  const written = entries.filter(({ isRefused }) => !isRefused).length;
  tell(`Wrote ${written === 1 ? 'one page' : `${written} pages`} to ${output}, and ${index}, which leads to ${written === 1 ? 'it' : 'them'}.${errors.length === 0 ? '' : ' None is written of a spec with errors.'}`);
  return errors.length === 0 ? 0 : 1;
}

const fileOf = (path: string): string => path.replace(/piece$/, 'html');

function listOf(entries: readonly Entry[]): string {
  const link = ({ title, path }: Entry): string => `<a href="${escapeMarkup(fileOf(path).split('/').map(encodeURIComponent).join('/'))}">${escapeMarkup(title)}</a>`;
  const row = (entry: Entry): string =>
    `<tr><th scope="row">${entry.isRefused ? `${escapeMarkup(entry.title)} (has errors, so there is no page)` : link(entry)}</th><td>${escapeMarkup(entry.revision)}</td><td>${escapeMarkup(entry.path)}</td></tr>`;
  return htmlPage('Patterns', `<article>
<h1>Patterns</h1>
<section>
<table>
<thead><tr><th scope="col">Pattern</th><th scope="col">Revision</th><th scope="col">File</th></tr></thead>
<tbody>
${entries.map(row).join('\n')}
</tbody>
</table>
</section>
</article>`);
}
