import { choiceTitle, optionTitle } from '../model/names/choice-titles.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Raw } from './change.ts';
import type { Spec } from './spec.ts';

/** Sizes and choices that there were not, or are not any more, and those that are called otherwise. */
export function choiceChanges({ pattern: was, lineAt: oldLine }: Spec, { pattern: now, lineAt: newLine }: Spec): readonly Raw[] {
  const line = (pattern: Pattern, lineAt: Spec['lineAt'], choice: string, side: 'old' | 'new'): Raw['causes'] => {
    const declaration = pattern.world.choices.get(choice)?.declaration;
    const at = declaration && lineAt({ chunk: declaration, start: declaration.tree.start, end: declaration.tree.end });
    return at === undefined ? [] : [{ side, ...at }];
  };
  return [...new Set([...now.choices.keys(), ...was.choices.keys()])].flatMap((choice) => {
    const causes = now.choices.has(choice) ? line(now, newLine, choice, 'new') : line(was, oldLine, choice, 'old');
    return [...titleChanges(choice, was, now, causes), ...optionChanges(choice, was, now, causes)];
  });
}

/** A choice, and options of it, that are called otherwise than they were. */
function titleChanges(choice: string, { world: was, choices: before }: Pattern, { world: now, choices: after }: Pattern, causes: Raw['causes']): readonly Raw[] {
  if (!before.has(choice) || !after.has(choice)) return [];
  const options = (after.get(choice) ?? []).filter((option) => before.get(choice)?.includes(option) === true);
  const titles: readonly (readonly [what: string, was: string, now: string])[] = [
    ['title', choiceTitle(was, choice), choiceTitle(now, choice)], ...options.map((option) => ['title of an option', optionTitle(was, choice, option), optionTitle(now, choice, option)] as const),
  ];
  return titles.filter(([, earlier, later]) => earlier !== later).map(([what, earlier, later]): Raw => ({ group: 'words', kind: 'changed', subject: choiceTitle(now, choice), what, was: earlier, now: later, causes }));
}

/** Options by their titles; each that can’t be chosen any more by itself, since whoever has chosen it is concerned. */
function optionChanges(choice: string, was: Pattern, now: Pattern, causes: Raw['causes']): readonly Raw[] {
  const [before, after] = [was.choices.get(choice), now.choices.get(choice)];
  const titles = ({ world }: Pattern, options: readonly string[] | undefined): string => (options ?? []).map((option) => optionTitle(world, choice, option)).join(', ');
  const common = { group: 'choices', subject: choiceTitle((after === undefined ? was : now).world, choice), causes } as const;
  const [earlier, later] = [titles(was, before), titles(now, after)];
  if (before === undefined || after === undefined) return [{ ...common, kind: before === undefined ? 'added' : 'removed', what: 'options', was: earlier, now: later }];
  const [gone, come] = [before.filter((option) => !after.includes(option)), after.filter((option) => !before.includes(option))];
  return [
    ...(come.length === 0 ? [] : [{ ...common, kind: 'changed', what: 'options', was: earlier, now: later } as const]),
    ...gone.map((option): Raw => ({ ...common, kind: 'removed', what: 'option', was: optionTitle(was.world, choice, option), now: '' })),
  ];
}
