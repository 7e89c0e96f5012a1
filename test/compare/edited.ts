import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare, type Comparison } from '../../server/src/compare/comparison.ts';
import type { errataOf } from '../../server/src/compare/errata.ts';
import { pointsOf } from '../../server/src/compare/summary.ts';
import type { Pattern } from '../../server/src/model/pattern.ts';

/** A part of a spec that is there, and what stands there instead. */
export type Edit = readonly [part: string | RegExp, instead: string];

/**
 * A spec with the first place of each part written otherwise, one edit after the other.
 *
 * @throws where an edit changes nothing, so that no test compares a spec with itself
 */
export const edited = (spec: string, ...edits: readonly Edit[]): string => edits.reduce((text, [part, instead]) => {
  const now = text.replace(part, instead);
  if (now === text) throw new Error(`“${part}” is not in the spec, or stays as it is.`);
  return now;
}, spec);

/** What two specs say otherwise, with the least effort for their lays. */
export const compared = (was: Pattern, now: Pattern): Comparison => compare(was, now, { ...usualOptions, effort: 0 });

/** What the summary lists at one of its points; empty where it has no such point. */
export const pointOf = (comparison: Comparison, what: string): readonly string[] => pointsOf(comparison).find((one) => one.what === what)?.items ?? [];

/** What a notice asks for, by its headings; empty where there is no notice. */
export const tasksOf = (notice: ReturnType<typeof errataOf>): Readonly<Record<string, readonly string[]>> => Object.fromEntries(notice?.tasks.map(({ heading, items }) => [heading, items]) ?? []);
