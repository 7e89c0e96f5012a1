/** Whether a pattern's revision tells its readers of a change. */
export interface Discipline {
  readonly severity: 'error' | 'note';
  readonly code: 'revision-not-raised' | 'revision-lowered' | 'revision-missing' | 'revision-raised-without-change';
  readonly message: string;
}

/** What to say of the revisions of two patterns; undefined where there is nothing to say. */
export function disciplineOf(was: string | undefined, now: string | undefined, isAnotherPattern: boolean): Discipline | undefined {
  if (was !== undefined && now !== undefined && Number(now) < Number(was)) {
    return { severity: 'error', code: 'revision-lowered', message: `The revision went back from ${was} to ${now}: a reader can’t tell which copy is the later one.` };
  }
  const isRaised = now !== undefined && (was === undefined || Number(now) > Number(was));
  if (isAnotherPattern && now === undefined) return { severity: 'error', code: 'revision-missing', message: 'The pattern has changed, and it has no revision to tell its copies apart.' };
  if (isAnotherPattern && !isRaised) return { severity: 'error', code: 'revision-not-raised', message: `The pattern has changed, and its revision is still ${now ?? ''}: raise it, so that nobody cuts from a stale copy.` };
  if (!isAnotherPattern && isRaised) return { severity: 'note', code: 'revision-raised-without-change', message: `The revision was raised${was === undefined ? '' : ` from ${was}`} to ${now}, and nothing that is made has changed.` };
  return undefined;
}
