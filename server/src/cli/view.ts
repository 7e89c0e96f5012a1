import { statSync } from 'node:fs';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { effortOf } from './lay-options.ts';
import { isRefused, openSpec, tellWarnings } from './open.ts';
import { writeOutput } from './output.ts';
import { tell } from './terminal.ts';
import { pageOf, pageParts } from './view-job.ts';
import { views } from './views.ts';

export interface ViewOptions {
  readonly choose: readonly string[];
  readonly output?: string;
  readonly effort: string;
}

/** `piecewright view`: writes the preview as one page that stands by itself, with every size and option that is not chosen, or a page of each spec in a folder; 1 where a spec has errors. */
export async function view(named: string, options: ViewOptions): Promise<number> {
  if (statSync(named, { throwIfNoEntry: false })?.isDirectory() === true) {
    if (options.output === undefined) throw new UsageError(`“${named}” is a folder: name one to write its pages to with --output.`);
    // That they are missing is told once.
    pageParts();
    return views(named, options.output, { choose: options.choose, effort: effortOf(options.effort) });
  }
  const opened = await openSpec(named);
  // A choice that there is not is told before what is wrong with the spec.
  chosenCombinations(opened.pattern, options.choose, true);
  const effort = effortOf(options.effort);
  if (isRefused(opened, 'No page is written while the spec has errors: a wrong one would cost cloth.')) return 1;
  tellWarnings(opened);
  const page = pageOf(opened.pattern, { choose: options.choose, effort });
  if (page === undefined) {
    tell(`“${named}” has no piece, so there is nothing to show.`);
    return 1;
  }
  await writeOutput(page, options.output);
  if (options.output !== undefined) tell(`Wrote ${options.output}.`);
  return 0;
}
