import type { Comparison } from './comparison.ts';
import { matched } from './matched.ts';
import { everyPoint } from './summary.ts';

/** A spec that only one of two states of a catalogue has. */
export interface Lone {
  readonly file: string;
  readonly is: 'added' | 'removed';
}

/** Two states of a catalogue side by side; everything in the order of paths. */
export interface CatalogueComparison {
  readonly comparisons: readonly Comparison[];
  readonly lone: readonly Lone[];
  /** Specs that stand elsewhere than they did. */
  readonly moved: readonly { readonly was: string; readonly now: string }[];
  /** Specs that could not be compared, and why. */
  readonly faults: readonly { readonly file: string; readonly why: string }[];
}

/** A spec as it is looked for under another path. */
export interface Movable {
  readonly text: string;
  readonly title: string | undefined;
}

/** Specs that stand elsewhere than they did: those of the same text, then those that alone have a title. */
export function movedSpecs<Spec extends Movable>(gone: readonly Spec[], come: readonly Spec[]): ReturnType<typeof matched<Spec>> {
  const [before, after] = [gone, come].map((specs) => specs.reduce((counts, { title }) => counts.set(title, (counts.get(title) ?? 0) + 1), new Map<string | undefined, number>()));
  return matched(gone, come, [
    (was, now) => was.text === now.text,
    (was, now) => was.title !== undefined && was.title === now.title && before?.get(was.title) === 1 && after?.get(was.title) === 1,
  ]);
}

/** Whether there is nothing to tell of two patterns but that they are the same. */
export const isUnchanged = ({ same, discipline, old, new: fresh }: Comparison): boolean => same && discipline === undefined && old.errors === 0 && fresh.errors === 0;

/** Something to mind, in several specs. */
export interface CataloguePoint {
  readonly what: string;
  /** By spec, what of it; empty where the spec as a whole is meant. */
  readonly of: readonly { readonly spec: string; readonly items: readonly string[] }[];
}

/** What is to be minded over all specs: what may go wrong first, then what to do, in the order of a single comparison. */
export function cataloguePoints({ comparisons, faults, lone, moved }: CatalogueComparison): readonly CataloguePoint[] {
  // Of one alone all stands below.
  if (lone.length + moved.length + faults.length === 0 && comparisons.filter((one) => !isUnchanged(one)).length === 1) return [];
  const whole = (specs: readonly Comparison[]): CataloguePoint['of'] => specs.map((one) => ({ spec: specName(one), items: [] }));
  const found = comparisons.filter(({ same }) => !same).map((one) => ({ spec: specName(one), points: everyPoint(one) }));
  const points: readonly CataloguePoint[] = [
    { what: 'Could not be compared', of: faults.map(({ file, why }) => ({ spec: file, items: [why] })) },
    { what: 'Changed without a higher revision', of: whole(comparisons.filter(({ discipline }) => discipline?.severity === 'error')) },
    { what: 'With errors, so compared in part', of: whole(comparisons.filter(({ old, new: fresh }) => old.errors + fresh.errors > 0)) },
    ...(found[0]?.points ?? []).map(({ what }, index) => ({ what, of: found.map(({ spec, points }) => ({ spec, items: points[index]?.items ?? [] })).filter(({ items }) => items.length > 0) })),
    ...(['added', 'removed'] as const).map((is) => ({ what: is === 'added' ? 'Added' : 'Removed', of: lone.filter((one) => one.is === is).map(({ file }) => ({ spec: file, items: [] })) })),
    { what: 'Moved', of: moved.map(({ was, now }) => ({ spec: `${was} → ${now}`, items: [] })) },
  ];
  return points.filter(({ of }) => of.length > 0);
}

/** How many specs there are of each kind. */
export function catalogueHeadline({ comparisons, lone, moved, faults }: CatalogueComparison): string {
  const changed = comparisons.filter((one) => !isUnchanged(one)).length;
  const counts = [
    [faults.length, 'could not be compared'], [changed, 'changed'], [lone.filter(({ is }) => is === 'added').length, 'added'], [lone.filter(({ is }) => is === 'removed').length, 'removed'],
    [moved.length, 'moved'], [comparisons.length - changed, 'without change'],
  ] as const;
  const all = comparisons.length + lone.length + faults.length;
  if (changed + lone.length + moved.length + faults.length === 0) return `${all} specs: no change`;
  return `${all} spec${all === 1 ? '' : 's'}: ${counts.filter(([count]) => count > 0).map(([count, what]) => `${count} ${what}`).join(', ')}`;
}

/** A spec by its title and by its path, since titles may be the same. */
export const specName = ({ new: { title, file } }: Comparison): string => (title === file ? file : `${title} (${file})`);
