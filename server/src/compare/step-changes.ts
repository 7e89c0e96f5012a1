import { stepRows, type StepRow } from '../table/steps.ts';
import type { Display } from '../units/length.ts';
import type { Raw } from './change.ts';
import { bothUnits } from './lengths.ts';
import { matched } from './matched.ts';
import type { Pair } from './pair.ts';
import { closedUp, isPutOtherwise } from './said.ts';

/** What is done otherwise, or in another order. That a step has another number since one stands before it is no change of its own. */
export function stepChanges(pair: Pair): readonly Raw[] {
  const display = bothUnits(pair.fresh.pattern.display);
  const { both, gone, come } = matched(told(pair.was, display), told(pair.now, display), [
    (a, b) => a.text === b.text && isSame(a, b),
    (a, b) => a.text === b.text,
    (a, b) => a.does.length > 0 && isSame(a, b),
    (a, b) => closedUp(a.place.chunk.text) === closedUp(b.place.chunk.text),
    (a, b) => isPutOtherwise(a.text, b.text),
  ]);
  const common = { group: 'sew', subject: 'Order of work', what: 'step' } as const;
  const causes = (now: StepRow, was?: StepRow): Raw['causes'] => pair.causes.at('new', now.place, was?.place);
  const inPlace = keptInOrder(both.map(([was]) => was.number));
  return [
    ...both.filter(([a, b]) => a.text !== b.text || !isSame(a, b)).map(([a, b]): Raw => ({ ...common, kind: 'changed', was: wordsOf(a), now: wordsOf(b), causes: pair.causes.ofStep(b.place, a.place) })),
    ...both.filter((_, index) => !inPlace.has(index)).map(([a, b]): Raw => ({ ...common, what: 'place of a step', kind: 'changed', was: `step ${a.number}: ${a.text}`, now: `step ${b.number}: ${b.text}`, causes: causes(b, a) })),
    ...come.map((one): Raw => ({ ...common, kind: 'added', was: '', now: `${one.number}. ${wordsOf(one)}`, causes: causes(one) })),
    ...gone.map((one): Raw => ({ ...common, kind: 'removed', was: `${one.number}. ${wordsOf(one)}`, now: '', causes: pair.causes.at('old', one.place) })),
  ];
}

const told = (resolved: Pair['was'], display: Display): readonly StepRow[] => stepRows(resolved, display).map((row) => ({ ...row, text: closedUp(row.text) }));

const wordsOf = ({ text, does }: StepRow): string => (does.length === 0 ? text : `${text} (${does.map(({ title }) => title).join('; ')})`);

/** Whether the same is done, under the same names or the same titles. */
const isSame = (a: StepRow, b: StepRow): boolean => (['name', 'title'] as const).some((by) => a.does.map((one) => one[by]).join('\n') === b.does.map((one) => one[by]).join('\n'));

/** Which of some numbers can stay where they are when as few as possible are moved to put them in order: a longest row that rises. */
function keptInOrder(numbers: readonly number[]): ReadonlySet<number> {
  const rows = numbers.map((): readonly number[] => []);
  numbers.forEach((number, index) => {
    const before = rows.slice(0, index).filter((_, at) => (numbers[at] ?? 0) < number).sort((a, b) => b.length - a.length)[0] ?? [];
    rows[index] = [...before, index];
  });
  return new Set([...rows].sort((a, b) => b.length - a.length)[0]);
}
