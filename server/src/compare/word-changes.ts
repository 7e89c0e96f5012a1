import type { Note } from '../model/notes.ts';
import { cautionsFor } from '../table/cautions.ts';
import { differing, type Raw } from './change.ts';
import { matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { isPutOtherwise, notesIn } from './said.ts';

/** Title, notes and cautions of the whole pattern. */
export function wordChanges(pair: Pair): readonly Raw[] {
  const { old, fresh, was, now, causes } = pair;
  const changes: Raw[] = [];
  const common = { group: 'words', subject: 'The pattern' } as const;
  differing(changes, { ...common, what: 'title', causes: causes.ofFact('pattern') }, old.pattern.world.facts.title ?? '', fresh.pattern.world.facts.title ?? '');
  const [cautions, cautionsNow] = [cautionsFor(was), cautionsFor(now)];
  return [
    ...changes,
    ...noteChanges(pair),
    ...cautionsNow.filter((one) => !cautions.includes(one)).map((one): Raw => ({ ...common, kind: 'added', what: 'caution', was: '', now: one, causes: [] })),
    ...cautions.filter((one) => !cautionsNow.includes(one)).map((one): Raw => ({ ...common, kind: 'removed', what: 'caution', was: one, now: '', causes: [] })),
  ];
}

function noteChanges({ old, fresh, was, now, causes }: Pair): readonly Raw[] {
  const { display } = fresh.pattern;
  const told = (notes: readonly Note[], resolved: Pair['was']): readonly { readonly note: Note; readonly text: string }[] => notes.map((note) => ({ note, text: notesIn([note], resolved, display).join(' ') }));
  const { both, gone, come } = matched(told(old.pattern.world.facts.notes, was), told(fresh.pattern.world.facts.notes, now), [(a, b) => a.text === b.text, (a, b) => isPutOtherwise(a.text, b.text)]);
  const changes: Raw[] = [];
  const common = { group: 'words', subject: 'The pattern', what: 'note' } as const;
  for (const [a, b] of both) differing(changes, { ...common, causes: causes.ofNotes([b.note], [a.note]) }, a.text, b.text);
  for (const { note, text } of come) changes.push({ ...common, kind: 'added', was: '', now: text, causes: causes.ofNotes([note], []) });
  for (const { note, text } of gone) changes.push({ ...common, kind: 'removed', was: text, now: '', causes: causes.ofNotes([], [note]) });
  return changes;
}
