import type { Snapshot } from '../workspace/snapshot.ts';
import { nameAt, usesInAll, type Use } from './names.ts';

/**
 * Every use of the name at an offset, in all files of the pattern and of other patterns.
 *
 * @param others the snapshots of other patterns that use the same files
 */
export function references(snapshot: Snapshot, others: readonly Snapshot[], offset: number, withDeclaration: boolean): readonly Use[] {
  const found = nameAt(snapshot, offset);
  if (found === undefined) return [];
  return usesInAll(snapshot, others, found.target).filter((use) => withDeclaration || !use.declares);
}
