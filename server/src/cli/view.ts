import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { usualOptions } from '../buying/plan.ts';
import { standaloneData, standalonePage, type PageParts } from '../preview/standalone.ts';
import { snapshotOf } from '../workspace/snapshot.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { effortOf } from './lay-options.ts';
import { isRefused, openSpec, tellWarnings } from './open.ts';
import { writeOutput } from './output.ts';
import { tell } from './terminal.ts';

export interface ViewOptions {
  readonly choose: readonly string[];
  readonly output?: string;
  readonly effort: string;
}

/** `piecewright view`: writes the preview as one page that stands by itself, with every size and option that is not chosen; 1 where the spec has errors. */
export async function view(named: string, options: ViewOptions): Promise<number> {
  const opened = await openSpec(named);
  const combinations = chosenCombinations(opened.pattern, options.choose, true);
  const effort = effortOf(options.effort);
  if (isRefused(opened, 'No page is written while the spec has errors: a wrong one would cost cloth.')) return 1;
  tellWarnings(opened);
  const data = standaloneData(snapshotOf(opened.pattern), combinations, { ...usualOptions, effort });
  if (data.data.pieces.length === 0) {
    tell(`“${named}” has no piece, so there is nothing to show.`);
    return 1;
  }
  await writeOutput(standalonePage(data, pageParts()), options.output);
  if (options.output !== undefined) tell(`Wrote ${options.output}.`);
  return 0;
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
