import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { usualOptions } from '../buying/plan.ts';
import { reportOf, type FileReport } from '../formats/problems/problem-list.ts';
import { Analyst, type Pattern } from '../model/pattern.ts';
import { standaloneData, standalonePage, type PageParts } from '../preview/standalone.ts';
import type { Work } from '../workers/job.ts';
import { snapshotOf } from '../workspace/snapshot.ts';
import { chosenCombinations } from './combinations.ts';
import { readerIn, readSpec, toldPath, UsageError, type SpecPath } from './files.ts';
import { patternFrom, type TextReader } from './spec-texts.ts';
import { isMade } from './table-job.ts';

/** What a page shows. */
export interface ViewManner {
  readonly choose: readonly string[];
  readonly effort: number;
}

export interface ViewRequest {
  readonly spec: SpecPath;
  readonly manner: ViewManner;
}

/** What becomes of one spec. */
export interface MadeView {
  readonly report: FileReport;
  readonly title: string | undefined;
  readonly revision: string | undefined;
  /** Whether there is anything to cut or to buy. */
  readonly isMade: boolean;
  /** Undefined where it has errors, or no piece to show. */
  readonly page: string | undefined;
}

/** The name of the threads that make pages. */
export const viewRole = 'piecewright view';

/** Makes pages of specs, and reads what several use once. Where one can’t be made, why not; an error would lose its kind on the way. */
export function viewWork(): Work<ViewRequest, MadeView | { readonly fault: string }> {
  const readers = new Map<string, TextReader>();
  const analyst = new Analyst();
  return function* ({ spec, manner }) {
    try {
      const reader = readers.get(spec.folder) ?? readerIn(spec.folder);
      readers.set(spec.folder, reader);
      const { pattern } = patternFrom(readSpec(spec, reader), analyst);
      const { title, revision } = pattern.world.facts;
      const report = reportOf(pattern, toldPath(spec));
      const isRefused = report.problems.some(({ severity }) => severity === 'error');
      yield { report, title, revision, isMade: isMade(pattern), page: isRefused || !isMade(pattern) ? undefined : pageOf(pattern, manner) };
    } catch (error) {
      if (!(error instanceof UsageError)) throw error;
      yield { fault: error.message };
    }
  };
}

/** Undefined where there is no piece to show. */
export function pageOf(pattern: Pattern, { choose, effort }: ViewManner): string | undefined {
  const data = standaloneData(snapshotOf(pattern), chosenCombinations(pattern, choose, true), { ...usualOptions, effort });
  return data.data.pieces.length === 0 ? undefined : standalonePage(data, pageParts());
}

let known: PageParts | undefined;

/**
 * The page’s script and style.
 *
 * @throws UsageError where they are not beside the program, as they are shipped
 */
export function pageParts(): PageParts {
  try {
    const read = (name: string): string => readFileSync(join(__dirname, name), 'utf8').trimEnd();
    return (known ??= { script: read('preview.js'), style: read('preview.css') });
  } catch {
    throw new UsageError('The page’s script and style are not beside the program: install it anew.');
  }
}
