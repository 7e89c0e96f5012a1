/** Things of two patterns that belong together, and those that only one of them has; all in their own order. */
export interface Matched<T> {
  readonly both: readonly (readonly [T, T])[];
  readonly gone: readonly T[];
  readonly come: readonly T[];
}

/**
 * Puts things of two lists together by rules, the strictest first: what one rule leaves over is for the next. A thing is
 * put together with the first one that fits.
 */
export function matched<T>(old: readonly T[], fresh: readonly T[], rules: readonly ((was: T, now: T) => boolean)[]): Matched<T> {
  const partner = new Map<T, T>();
  const taken = new Set<T>();
  for (const fits of rules) {
    for (const now of fresh) {
      if (partner.has(now)) continue;
      const was = old.find((one) => !taken.has(one) && fits(one, now));
      if (was === undefined) continue;
      partner.set(now, was);
      taken.add(was);
    }
  }
  return {
    both: fresh.flatMap((now) => {
      const was = partner.get(now);
      return was === undefined ? [] : [[was, now] as const];
    }),
    gone: old.filter((was) => !taken.has(was)),
    come: fresh.filter((now) => !partner.has(now)),
  };
}
