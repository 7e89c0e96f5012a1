import { join } from 'node:path';
import { escapeMarkup } from '../formats/escape.ts';
import { htmlPage } from '../formats/html-page.ts';
import type { FileReport } from '../formats/problems/problem-list.ts';
import { outcomes, programThreads } from './catalogue.ts';
import { specsBelow, UsageError } from './files.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { pretty } from './report.ts';
import { plain, tell } from './terminal.ts';
import { viewRole, viewWork, type MadeView, type ViewManner } from './view-job.ts';
import { Writing } from './writing.ts';

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
 * no page, or where one could not be made. A list that others use has none either.
 *
 * @throws UsageError where one can’t be written
 */
export async function views(named: string, output: string, manner: ViewManner): Promise<number> {
  const specs = await specsBelow(named);
  if (specs.some(({ path }) => fileOf(path) === index)) throw new UsageError('The page of “index.piece” would stand where the list of all pages does: give it another name.');
  const progress = progressOn(process.stderr, 'Writing pages', specs.length);
  const writing = new Writing();
  const entries: (Entry | undefined)[] = [];
  const faults: (readonly string[])[] = [];
  let done = 0;
  await outcomes(specs.map(({ spec }) => ({ spec, manner })), viewWork(), programThreads(viewRole), (at, outcome) => {
    progress.show(++done);
    const path = specs[at]?.path ?? '';
    const made = 'fault' in outcome ? outcome : outcome.result;
    entries[at] = entryOf(path, made);
    faults[at] = 'fault' in made ? [plain(`There is no page of “${path}”: ${made.fault}`)] : errorsIn(made).map((error) => pretty(error, process.stderr));
    // A page is large, so it is not held until all are made.
    if ('page' in made && made.page !== undefined) writing.add(join(output, fileOf(path)), made.page);
  });
  progress.end();
  const written = await writing.end();
  await writeOutput(listOf(entries.filter((one) => one !== undefined)), join(output, index));
  for (const fault of new Set(faults.flat())) process.stderr.write(`${fault}\n`);
  const isRefused = entries.some((one) => one?.isRefused === true);
  tell(`Wrote ${written === 1 ? 'one page' : `${written} pages`} to ${output}, and ${index}, which leads to ${written === 1 ? 'it' : 'them'}.${isRefused ? ' None is written of a spec with errors.' : ''}`);
  return faults.every((own) => own.length === 0) ? 0 : 1;
}

const errorsIn = ({ report }: MadeView): FileReport['problems'] => report.problems.filter(({ severity }) => severity === 'error');

/** Undefined where the list of all pages says nothing of it. */
function entryOf(path: string, made: MadeView | { readonly fault: string }): Entry | undefined {
  if ('fault' in made) return undefined;
  const isRefused = errorsIn(made).length > 0;
  return made.page !== undefined || (isRefused && made.isMade) ? { title: made.title ?? path, revision: made.revision ?? '', path, isRefused } : undefined;
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
