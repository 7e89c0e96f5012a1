import { comparedCount } from '../compare/combinations.ts';
import { compare, unchanged, type Comparison } from '../compare/comparison.ts';
import { usualOptions } from '../buying/plan.ts';
import { tooManyCombinations } from '../table/combinations.ts';
import { isComparison } from './comparison-shape.ts';
import { readerIn, readSpec, UsageError, type SpecPath } from './files.ts';
import { revisionReader } from './git.ts';
import type { Job } from './kept-results.ts';
import { contentOf, patternFrom, textsOf, type SpecTexts, type TextReader } from './spec-texts.ts';

/** Where one of two specs is read: in its folder, one of two states of which is `within` it, or in a revision of it. */
export type Side = { readonly spec: SpecPath; readonly within: string } | { readonly commit: string; readonly folder: string; readonly path: string };

/** Two specs to compare. */
export interface PairRequest {
  readonly old: Side;
  readonly fresh: Side;
  readonly effort: number;
}

/** The name of the threads that compare. */
export const compareRole = 'piecewright compare';

/** Compares specs two by two, and reads what several use once. */
export function compareJob(): Job<PairRequest, Comparison> {
  const textsAt = sideTexts();
  return {
    role: compareRole,
    read: ({ old, fresh, effort }) => {
      const [before, after] = [textsAt(old), textsAt(fresh)];
      const isSame = contentOf(before, withinOf(old)) === contentOf(after, withinOf(fresh));
      return {
        content: JSON.stringify([contentOf(before), contentOf(after), withinOf(old), withinOf(fresh), effort]),
        compute: () => {
          const was = patternFrom(before);
          if (isSame) return { result: unchanged(was.pattern, after.path), isWhole: was.isWhole };
          const now = patternFrom(after);
          const tooMany = tooManyCombinations(comparedCount(was.pattern, now.pattern));
          if (tooMany !== undefined) throw new UsageError(`${after.path}: ${tooMany}`);
          return { result: compare(was.pattern, now.pattern, { ...usualOptions, effort }), isWhole: was.isWhole && now.isWhole };
        },
      };
    },
    isResult: isComparison,
  };
}

const withinOf = (side: Side): string => ('spec' in side ? side.within : '');

function sideTexts(): (side: Side) => SpecTexts {
  const readers = new Map<string, TextReader>();
  const reader = (key: string, open: () => TextReader): TextReader => {
    const known = readers.get(key) ?? open();
    readers.set(key, known);
    return known;
  };
  return (side) => {
    if ('spec' in side) return readSpec(side.spec, reader(side.spec.folder, () => readerIn(side.spec.folder)));
    const read = reader(`${side.commit}:${side.folder}`, () => revisionReader(side.commit, side.folder));
    const own = read(side.path);
    if (own === undefined) throw new UsageError(`There is no file “${side.path}” in that revision any more.`);
    return textsOf(side.path, own, read);
  };
}
