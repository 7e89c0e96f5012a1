import type { Snapshot } from '../workspace/snapshot.ts';
import { nameAt, usesIn } from './names.ts';

export interface Highlight {
  readonly start: number;
  readonly end: number;
  /** Where the name is made, as against used. */
  readonly declares: boolean;
}

/** The uses of the name at an offset in the snapshot's own file. */
export function highlights(snapshot: Snapshot, offset: number): readonly Highlight[] {
  const found = nameAt(snapshot, offset);
  if (found === undefined) return [];
  return usesIn(snapshot, found.target).filter((use) => use.file === snapshot.path).map(({ start, end, declares }) => ({ start, end, declares }));
}
