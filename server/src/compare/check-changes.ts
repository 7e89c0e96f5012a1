import { printStatement } from '../syntax/print-statement.ts';
import type { Outcome } from '../model/checks/designer-checks.ts';
import type { Resolved } from '../model/pattern.ts';
import type { FoundProblem } from '../model/query/variants.ts';
import type { Place } from '../problems/place.ts';
import type { Cause, Raw } from './change.ts';
import { inMessage, inStatement, isSameButForNames } from './but-for-names.ts';
import { matched } from './matched.ts';
import type { Pair } from './pair.ts';
import type { Spec } from './spec.ts';

interface Check {
  readonly text: string;
  /** What kind of rule it is, so that one whose names are others is not told twice. */
  readonly rule: string;
  readonly outcome: Outcome;
  readonly place: Place;
}

/**
 * Checks that broke or healed, came or went, or that ask for something else: a weaker one passes as the earlier one did, be it
 * by its own words or by a value that it names.
 *
 * @param others all other changes: what a value changes that is told there was not changed for the check
 */
export function checkChanges({ was, now, old, fresh, causes }: Pair, others: readonly Raw[]): readonly Raw[] {
  const told = new Set(others.flatMap((change) => change.causes.map(placeText)));
  const { both, come, gone } = matched(checksOf(was), checksOf(now), [
    (a, b) => a.text === b.text,
    (a, b) => a.rule === b.rule && a.outcome === b.outcome,
    (a, b) => a.rule === b.rule,
  ]);
  return [
    ...both.flatMap(([a, b]): readonly Raw[] => {
      if (a.outcome !== b.outcome) return [{ group: 'checks', kind: 'changed', subject: b.text, what: 'check', was: a.outcome, now: b.outcome, causes: causes.ofCheck(b.place, a.place) }];
      if (isSameButForNames(a.text, b.text, { old, fresh }, inStatement)) {
        const values = causes.behindCheck(b.place).filter(({ text, before }) => before !== undefined && !isSameButForNames(before, text, { old, fresh }, inStatement));
        return values.length === 0 || values.some((cause) => told.has(placeText(cause))) ? [] : [{ group: 'checks', kind: 'changed', subject: 'Check', what: `what it asks for, ${b.outcome} as before`, was: '', now: b.text, causes: values }];
      }
      return [{ group: 'checks', kind: 'changed', subject: 'Check', what: `rule, ${b.outcome} as before`, was: a.text, now: b.text, causes: causes.at('new', b.place) }];
    }),
    ...come.map((check): Raw => ({ group: 'checks', kind: 'added', subject: check.text, what: 'check', was: '', now: check.outcome, causes: causes.at('new', check.place) })),
    ...gone.map((check): Raw => ({ group: 'checks', kind: 'removed', subject: check.text, what: 'check', was: check.outcome, now: '', causes: causes.at('old', check.place) })),
  ];
}

const placeText = ({ side, file, line }: Cause): string => `${side} ${file} ${String(line)}`;

const checksOf = ({ checks }: Resolved): readonly Check[] => checks.map(({ declaration, outcome }) => ({
  text: printStatement(declaration.tree, ''), rule: declaration.tree.rule.kind, outcome, place: { chunk: declaration, start: declaration.tree.start, end: declaration.tree.end },
}));

/** Problems that appeared or went, in all combinations; those of checks are told as checks, and how a size is shown is no change of it. */
export function problemChanges(old: Spec, fresh: Spec): readonly (Raw & { readonly when: string | undefined })[] {
  const of = ({ pattern }: Spec): readonly FoundProblem[] => pattern.problems.filter(({ code }) => !['check-failed', 'revision-not-raised', 'rounded-size'].includes(code));
  const { come, gone } = matched(of(old), of(fresh), [(a, b) => textOf(a) === textOf(b), (a, b) => isSameButForNames(textOf(a), textOf(b), { old, fresh }, inMessage)]);
  const tell = (problem: FoundProblem, kind: 'added' | 'removed'): Raw & { readonly when: string | undefined } => {
    const side = kind === 'added' ? 'new' : 'old';
    const line = (side === 'new' ? fresh : old).lineAt(problem.place);
    const text = problem.message;
    return { group: 'problems', kind, subject: problem.severity, what: problem.code, was: kind === 'removed' ? text : '', now: kind === 'added' ? text : '', causes: line === undefined ? [] : [{ side, ...line }], when: problem.when };
  };
  const told = [...come.map((one) => tell(one, 'added')), ...gone.map((one) => tell(one, 'removed'))];
  return [...new Map(told.map((one) => [JSON.stringify(one), one])).values()];
}

const textOf = ({ code, message, severity, when }: FoundProblem): string => [code, severity, message.replace(/\s+/g, ' '), when ?? ''].join('\n');
