import { isCount, ofThePattern, type Cause, type Change, type Group } from './change.ts';
import type { Affected, Comparison } from './comparison.ts';

/** What matters to whoever makes it, in a few lines: what to do, and to what. */
export interface Point {
  readonly what: string;
  readonly items: readonly string[];
}

/** What the groups of changes are called. */
export const groupNames: Readonly<Record<Group, string>> = {
  cut: 'Cut', buy: 'Buy', template: 'Templates', sew: 'Sew', mark: 'Mark', material: 'Materials and supplies', words: 'Words', choices: 'Sizes and choices', checks: 'Checks', problems: 'Problems',
};

/** The first line of a comparison: `no change`, or the patterns and their revisions. */
export function headline({ same, old, new: fresh, discipline }: Comparison): string {
  if (same) return 'no change';
  const revision = (one: string | undefined): string => (one === undefined ? 'no revision' : `revision ${one}`);
  const raised = old.revision === fresh.revision ? `${revision(fresh.revision)}${discipline?.severity === 'error' ? ', not raised' : ''}` : `${revision(old.revision)} → ${revision(fresh.revision)}`;
  return `${fresh.title}: ${raised}`;
}

/** Which pieces to recut, what to buy otherwise, which templates to reprint; empty where there is none of it. */
export const pointsOf = (comparison: Comparison): readonly Point[] => everyPoint(comparison).filter(({ items }) => items.length > 0);

/** The same with points that there is nothing of, so that all comparisons have the same ones. */
export function everyPoint({ changes, affected }: Comparison): readonly Point[] {
  const of = (group: Group, keep: (change: Change) => boolean = () => true): readonly Change[] => changes.filter((change) => change.group === group && keep(change));
  const anew = (group: Group, keep: (one: Affected) => boolean): readonly string[] =>
    affected.filter((one) => one.group === group && keep(one)).map((one) => `${one.subject}${one.what === '' ? '' : ` (${one.what})`}${whenWords(one)}`);
  return [
    { what: 'Sizes and choices', items: of('choices').map((change) => `${change.subject}: ${changeText(change)}`) },
    { what: 'Recut', items: anew('cut', ({ kind, what }) => kind === 'changed' && !isCount(what)) },
    { what: 'Cut in another number', items: of('cut', ({ what }) => isCount(what)).map((change) => `${change.subject} (${change.what.replace(/: count$/, '')}): ${change.was} → ${change.now}${whenWords(change)}`) },
    { what: 'Cut otherwise, and what is cut serves', items: of('cut', ({ serves }) => serves === true).map((change) => `${change.subject} (${change.what}): ${change.was} → ${change.now}${whenWords(change)}`) },
    { what: 'Cut anew', items: anew('cut', ({ kind }) => kind === 'added') },
    { what: 'No longer cut', items: anew('cut', ({ kind }) => kind === 'removed') },
    { what: 'Buy otherwise', items: boughtOtherwise(of('buy')) },
    { what: 'Mark again what is not cut anew', items: markedAgain(affected.filter(({ group }) => group === 'mark')) },
    { what: 'Reprint', items: anew('template', ({ kind }) => kind !== 'removed') },
    { what: 'Broken checks', items: of('checks', ({ now, was }) => now === 'failed' && was !== 'failed').map(({ subject }) => subject) },
    { what: 'Healed checks', items: of('checks', ({ now, was }) => was === 'failed' && now === 'passed').map(({ subject }) => subject) },
  ];
}

/** Marks on cloth that may be kept, by the piece and where it is so. */
function markedAgain(changes: readonly Affected[]): readonly string[] {
  const pieces = new Map<string, { readonly subject: string; readonly when: string | undefined; readonly marks: Set<string> }>();
  for (const { subject, when, what } of changes) {
    const key = JSON.stringify([subject, when]);
    const { marks } = pieces.get(key) ?? { marks: new Set<string>() };
    pieces.set(key, { subject, when, marks: marks.add(what) });
  }
  return [...pieces.values()].map((one) => `${one.subject} (${[...one.marks].join(', ')})${whenWords(one)}`);
}

/** One item for what is of another size and bought in another amount. */
function boughtOtherwise(changes: readonly Change[]): readonly string[] {
  const items = new Map<string, Change[]>();
  for (const change of changes) items.set(JSON.stringify([change.subject, change.when]), [...(items.get(JSON.stringify([change.subject, change.when])) ?? []), change]);
  return [...items.values()].flatMap((alike) => {
    const [first] = alike;
    if (first === undefined) return [];
    const texts = alike.map((change) => (alike.length > 1 && change.what === 'amount' ? `to buy ${changeText(change)}` : changeText(change)));
    return [`${first.subject}: ${texts.join(', ')}${whenWords(first)}`];
  });
}

/** That nothing is cut, bought, printed or sewn otherwise, where only checks or problems differ. */
export const nothingMade = ({ changes, same }: Comparison): readonly string[] =>
  (!same && !changes.some(({ group }) => ofThePattern.includes(group)) ? ['Nothing that is cut, bought, printed or sewn has changed.'] : []);

export const causePlace = ({ side, file, line }: Cause): string => `${file}:${line}${side === 'old' ? ' as it was' : ''}`;

/** `was → now`, or the one of them that there is. */
export function changeText({ kind, was, now }: Change): string {
  if (kind === 'added') return `now ${now}`;
  return kind === 'removed' ? `no longer ${was}` : was === '' ? now : `${was} → ${now}`;
}

export const whenWords = ({ when }: Pick<Change, 'when'>): string => (when === undefined ? '' : `, only when ${when}`);
