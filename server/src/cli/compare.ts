import { realpathSync, statSync } from 'node:fs';
import { unlink } from 'node:fs/promises';
import { basename, dirname, extname, join, relative, resolve, sep } from 'node:path';
import { usualOptions } from '../buying/plan.ts';
import { comparedCount } from '../compare/combinations.ts';
import { compare, type Comparison } from '../compare/comparison.ts';
import { comparisonPictures, isComparisonPicture } from '../formats/comparison-drawings.ts';
import { comparisonHtml } from '../formats/comparison-html.ts';
import { comparisonJson } from '../formats/comparison-json.ts';
import { comparisonMarkdown, comparisonText } from '../formats/comparison-markdown.ts';
import type { Pattern } from '../model/pattern.ts';
import { readTextSync } from '../platform/read-text.ts';
import { tooManyCombinations } from '../table/combinations.ts';
import { UsageError } from './files.ts';
import { revisionsOf } from './git.ts';
import { effortOf } from './lay-options.ts';
import { openSpec } from './open.ts';
import { writeOutput } from './output.ts';
import { patternAt, sourceAt } from './revision-pattern.ts';
import { plain, tell } from './terminal.ts';

export const comparisonFormats = ['terminal', 'markdown', 'html', 'json'] as const;
type ComparisonFormat = (typeof comparisonFormats)[number];

/** What is written by the ending of the file. */
const endings: Readonly<Record<string, ComparisonFormat>> = { '.md': 'markdown', '.html': 'html', '.json': 'json', '.txt': 'terminal', '': 'terminal' };

export interface CompareOptions {
  /** Whether a change is well, as long as the revision says that there is one. */
  readonly gate?: boolean;
  readonly format?: ComparisonFormat;
  readonly git?: string;
  readonly effort: string;
  readonly output?: string;
}

/** A spec that only one of two revisions has. */
interface Lone {
  readonly file: string;
  readonly is: 'added' | 'removed';
}

/** `piecewright compare`: 0 where nothing is different, 1 where something is, or where the revision says otherwise than what is made; as a gate 1 for that alone. */
export async function compareSpecs(named: readonly string[], options: CompareOptions): Promise<number> {
  const format = options.format ?? formatOf(options.output ?? '');
  const { comparisons, lone } = await comparisonsOf(named, options);
  if (format === 'markdown' && options.output !== undefined) await writeMarkdown(comparisons, options.output);
  else await writeOutput(rendered(comparisons, format), options.output);
  for (const { file, is } of lone) tell(`“${file}” was ${is}: there is nothing to compare it with.`);
  if (options.gate === true) return comparisons.every(({ discipline }) => discipline?.severity !== 'error') ? 0 : 1;
  return lone.length === 0 && comparisons.every((one) => one.same && one.discipline?.severity !== 'error') ? 0 : 1;
}

/** The comparisons of the specs that are named, and those specs that only one of two revisions has. */
export async function comparisonsOf(named: readonly string[], options: Pick<CompareOptions, 'git' | 'effort'>): Promise<{ readonly comparisons: readonly Comparison[]; readonly lone: readonly Lone[] }> {
  const effort = effortOf(options.effort);
  const pairs = options.git === undefined ? [await filePair(named)] : revisionPairs(named, options.git);
  const comparisons: Comparison[] = [];
  for (const pair of pairs) {
    if ('is' in pair) continue;
    const tooMany = tooManyCombinations(comparedCount(pair.old, pair.fresh));
    if (tooMany !== undefined) throw new UsageError(`${pair.fresh.world.root.path}: ${tooMany}`);
    comparisons.push(compare(pair.old, pair.fresh, { ...usualOptions, effort }));
  }
  return { comparisons, lone: pairs.filter((pair): pair is Lone => 'is' in pair) };
}

function rendered(comparisons: readonly Comparison[], format: ComparisonFormat): string {
  if (format === 'json') return comparisonJson(comparisons);
  if (format === 'html') return comparisonHtml(comparisons);
  if (format === 'markdown') return comparisons.map((one) => comparisonMarkdown(one)).join('\n');
  const texts = comparisons.map((one) => (comparisons.length === 1 ? comparisonText(one) : `${one.new.file}\n${comparisonText(one)}`));
  return texts.map((text) => `${text.split('\n').map(plain).join('\n')}\n`).join('\n');
}

function formatOf(output: string): ComparisonFormat {
  const format = endings[extname(output).toLowerCase()];
  if (format === undefined) throw new UsageError(`Nothing is known to be written as “${extname(output)}”: use .html, .md, .json or .txt, or name a --format.`);
  return format;
}

/** Markdown with its drawings as files beside it: `report.md` has `report-1.svg` and so on. */
async function writeMarkdown(comparisons: readonly Comparison[], output: string): Promise<void> {
  const stem = basename(output, extname(output));
  const texts: string[] = [];
  let count = 0;
  for (const comparison of comparisons) {
    const first = count + 1;
    for (const { svg } of comparisonPictures(comparison.outlines)) await writeOutput(`${svg}\n`, join(dirname(output), `${stem}-${++count}.svg`));
    // Brackets would end the address (CommonMark 0.31.2, section 6.3).
    texts.push(comparisonMarkdown(comparison, (index) => `${encodeURIComponent(stem).replace(/[()]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}-${first + index}.svg`));
  }
  await writeOutput(texts.join('\n'), output);
  await removeDrawings((number) => join(dirname(output), `${stem}-${number}.svg`), count + 1);
}

/** Takes away the drawings of an earlier report that had more of them, and no file that is none. */
async function removeDrawings(at: (number: number) => string, first: number): Promise<void> {
  for (let number = first; ; number++) {
    const read = readTextSync(at(number));
    if (read === undefined || !('text' in read) || !isComparisonPicture(read.text)) return;
    await unlink(at(number));
  }
}

type PatternPair = { readonly old: Pattern; readonly fresh: Pattern };

async function filePair(named: readonly string[]): Promise<PatternPair> {
  const [before, after, ...more] = named;
  if (before === undefined || after === undefined || more.length > 0) throw new UsageError('Name two specs, the earlier one first; or one with --git, as in --git main..HEAD bag.piece.');
  return { old: (await openSpec(before)).pattern, fresh: (await openSpec(after)).pattern };
}

// ------------------------------------------------------------------------------------------------ revisions

/** The specs named, or all below the current folder, in both revisions; what is the same in both is left out unless it was named. */
function revisionPairs(named: readonly string[], range: string): readonly (PatternPair | Lone)[] {
  const folder = process.cwd();
  const { old, fresh } = revisionsOf(range, folder);
  const within = named.length === 0 ? [''] : named.map((name) => pathWithin(folder, name));
  const paths = [...new Set(within.flatMap((one) => [...old.specs(one), ...fresh.specs(one)]))].sort();
  if (paths.length === 0) throw new UsageError(`There is no spec ${named.length === 0 ? 'in this folder' : `“${named.join('”, “')}”`} in either revision.`);
  return paths.map((path) => {
    const [before, after] = [sourceAt(old, path), sourceAt(fresh, path)];
    if (before === undefined || after === undefined) return { file: path, is: before === undefined ? 'added' : 'removed' };
    return { old: patternAt(old, before), fresh: patternAt(fresh, after) };
  });
}

/** By the folder's own path, with forward slashes. */
function pathWithin(folder: string, name: string): string {
  const full = resolve(folder, name);
  const real = statSync(full, { throwIfNoEntry: false }) === undefined ? full : realpathSync(full);
  const path = relative(full.startsWith(folder) ? folder : realpathSync(folder), full.startsWith(folder) ? full : real).split(sep).join('/');
  if (path.startsWith('..')) throw new UsageError(`“${name}” lies outside this folder: run it there.`);
  return path;
}
