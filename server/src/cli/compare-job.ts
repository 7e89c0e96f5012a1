import { comparedCount } from '../compare/combinations.ts';
import { compare, unchanged, type Comparison } from '../compare/comparison.ts';
import { usualOptions } from '../buying/plan.ts';
import { tooManyCombinations } from '../table/combinations.ts';
import { isComparison } from './comparison-shape.ts';
import { readerIn, readSpec, UsageError, type SpecPath } from './files.ts';
import { revisionReader } from './git.ts';
import { fingerprintNow, fingerprintOf, isFingerprinted, type Fingerprinted } from './fingerprint.ts';
import type { Job } from './kept-results.ts';
import { readContentOf } from './read-content.ts';
import { record } from './shapes.ts';
import { patternFrom, textsOf, type SpecTexts, type TextReader } from './spec-texts.ts';

/** Where one of two specs is read: in its folder, one of two states of which is `within` it, or in a revision of it. */
export type Side = { readonly spec: SpecPath; readonly within: string } | { readonly commit: string; readonly folder: string; readonly path: string };

/** Two specs to compare. */
export interface PairRequest {
  readonly old: Side;
  readonly fresh: Side;
  readonly effort: number;
}

/** What came of it, with what the fingerprints in it follow from. */
export interface ComparedPair {
  readonly comparison: Comparison;
  readonly printed: { readonly old: Fingerprinted; readonly new: Fingerprinted };
}

/** The name of the threads that compare. */
export const compareRole = 'piecewright compare';

/** Compares specs two by two, and reads what several use once. */
export function compareJob(): Job<PairRequest, ComparedPair> {
  const textsAt = sideTexts();
  return {
    role: compareRole,
    read: ({ old, fresh, effort }) => {
      const [before, after] = [textsAt(old), textsAt(fresh)];
      const [withinOld, withinNew] = [withinOf(old), withinOf(fresh)];
      const isSame = readContentOf(before, 'as said', withinOld) === readContentOf(after, 'as said', withinNew);
      return {
        // A change is told with the lines that it comes from, and with what stood there in the other.
        content: JSON.stringify([readContentOf(before, 'with places', '', after), readContentOf(after, 'with places', '', before), withinOld, withinNew, effort]),
        renew: (earlier) => withFingerprints(earlier, before, after),
        compute: () => {
          const was = patternFrom(before);
          const printed = fingerprintOf(was.pattern);
          const alike = isSame ? fingerprintNow({ ...printed, used: printed.used.map((path) => (path.startsWith(withinOld) ? withinNew + path.slice(withinOld.length) : path)) }, after) : undefined;
          if (alike !== undefined) {
            const comparison = unchanged(was.pattern, after.path);
            return { result: { comparison: { ...comparison, new: { ...comparison.new, digest: alike.digest } }, printed: { old: printed, new: alike } }, isWhole: was.isWhole };
          }
          const now = patternFrom(after);
          const tooMany = tooManyCombinations(comparedCount(was.pattern, now.pattern));
          if (tooMany !== undefined) throw new UsageError(`${after.path}: ${tooMany}`);
          return { result: { comparison: compare(was.pattern, now.pattern, { ...usualOptions, effort }), printed: { old: printed, new: fingerprintOf(now.pattern) } }, isWhole: was.isWhole && now.isWhole };
        },
      };
    },
    isResult: record<ComparedPair>({ comparison: isComparison, printed: record<ComparedPair['printed']>({ old: isFingerprinted, new: isFingerprinted }) }),
  };
}

/** The same with the fingerprints of what the texts say now: all words of a list count there. */
function withFingerprints({ comparison, printed }: ComparedPair, before: SpecTexts, after: SpecTexts): ComparedPair | undefined {
  const [old, fresh] = [fingerprintNow(printed.old, before), fingerprintNow(printed.new, after)];
  if (old === undefined || fresh === undefined) return undefined;
  return { comparison: { ...comparison, old: { ...comparison.old, digest: old.digest }, new: { ...comparison.new, digest: fresh.digest } }, printed: { old, new: fresh } };
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
