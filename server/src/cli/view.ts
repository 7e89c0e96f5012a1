import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { usualOptions } from '../buying/plan.ts';
import type { Pattern } from '../model/pattern.ts';
import { standaloneData, standalonePage, type PageParts } from '../preview/standalone.ts';
import { snapshotOf } from '../workspace/snapshot.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { effortOf } from './lay-options.ts';
import { isRefused, openSpec, tellWarnings } from './open.ts';
import { writeOutput } from './output.ts';
import { tell } from './terminal.ts';
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
    const [parts, effort] = [pageParts(), effortOf(options.effort)];
    return views(named, options.output, (pattern) => pageOf(pattern, options.choose, effort, () => parts));
  }
  const opened = await openSpec(named);
  // A choice that there is not is told before what is wrong with the spec.
  chosenCombinations(opened.pattern, options.choose, true);
  const effort = effortOf(options.effort);
  if (isRefused(opened, 'No page is written while the spec has errors: a wrong one would cost cloth.')) return 1;
  tellWarnings(opened);
  const page = pageOf(opened.pattern, options.choose, effort, pageParts);
  if (page === undefined) {
    tell(`“${named}” has no piece, so there is nothing to show.`);
    return 1;
  }
  await writeOutput(page, options.output);
  if (options.output !== undefined) tell(`Wrote ${options.output}.`);
  return 0;
}

/** Undefined where there is no piece to show. */
function pageOf(pattern: Pattern, choose: readonly string[], effort: number, parts: () => PageParts): string | undefined {
  const data = standaloneData(snapshotOf(pattern), chosenCombinations(pattern, choose, true), { ...usualOptions, effort });
  return data.data.pieces.length === 0 ? undefined : standalonePage(data, parts());
}

/** They are shipped beside the program. */
function pageParts(): PageParts {
  try {
    const read = (name: string): string => readFileSync(join(__dirname, name), 'utf8').trimEnd();
    return { script: read('preview.js'), style: read('preview.css') };
  } catch {
    throw new UsageError('The page’s script and style are not beside the program: install it anew.');
  }
}
