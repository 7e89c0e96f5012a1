import { statSync } from 'node:fs';
import { compare } from '../compare/comparison.ts';
import { errataOf } from '../compare/errata.ts';
import type { Pattern } from '../model/pattern.ts';
import type { WhatChanged } from '../pages/options.ts';
import { findSpecs, UsageError } from './files.ts';
import { commitOf, revisionReader } from './git.ts';
import { patternOf, type OpenedSpec } from './open.ts';
import { patternFrom, textsOf } from './spec-texts.ts';

/**
 * What has changed in a spec since another file of it, or since a revision of its git repository, for those who have that;
 * or a sentence why it can’t be told.
 *
 * @throws UsageError where there is no such file or revision
 */
export async function changesSince(since: string, { spec, pattern }: OpenedSpec): Promise<WhatChanged | string> {
  const comparison = compare(await earlier(since, spec), pattern);
  const { old, discipline } = comparison;
  if (old.errors > 0) return `The earlier “${since}” has errors, so nothing can be compared with it.`;
  if (discipline?.severity === 'error') return `Readers could not tell which copy they have. ${discipline.message}`;
  const notice = errataOf(comparison);
  const named = old.revision === undefined ? 'the copy without a revision' : `revision ${old.revision}`;
  return {
    heading: `What changed since ${named}`,
    opening: notice?.opening ?? `Nothing has changed that matters to those who have ${named}.`,
    tasks: notice?.tasks ?? [],
  };
}

async function earlier(since: string, spec: OpenedSpec['spec']): Promise<Pattern> {
  if (statSync(since, { throwIfNoEntry: false })?.isFile() === true) {
    const [old] = await findSpecs([since], process.cwd());
    if (old !== undefined) return patternOf(old);
  }
  const read = revisionReader(commitOf(since, spec.folder), spec.folder);
  const own = read(spec.path);
  if (own === undefined) throw new UsageError(`There is no “${spec.path}” in the revision “${since}”.`);
  return patternFrom(textsOf(spec.path, own, read)).pattern;
}
