import { isCount, isRecut, type Change, type Group } from './change.ts';
import type { Affected, Comparison } from './comparison.ts';

/** One thing to do, and to what. */
interface Task {
  readonly heading: string;
  readonly items: readonly string[];
}

/** A notice for those who have an earlier revision, in words of its tables and pages. */
export interface Errata {
  readonly title: string;
  readonly opening: string;
  readonly tasks: readonly Task[];
  readonly cautions: readonly string[];
}

/** What whoever has the earlier revision must do otherwise; undefined where that is nothing: money and places in the spec are not told. */
export function errataOf({ changes, affected, renamed, cautions, old, new: fresh }: Comparison): Errata | undefined {
  const items = (group: Group, keep: (change: Change) => boolean, text: (change: Change) => string): readonly string[] =>
    [...new Set(changes.filter((change) => change.group === group && keep(change)).map((change) => `${text(change)}${onlyFor(change)}`))];
  const tasks: readonly Task[] = [
    { heading: 'These can’t be chosen any more', items: items('choices', ({ kind }) => kind === 'removed', ({ subject, was }) => `${subject}: ${was}`) },
    { heading: 'Print these templates again', items: templates(affected, ({ kind }) => kind !== 'removed') },
    { heading: 'These templates are not needed any more', items: templates(affected, ({ kind }) => kind === 'removed') },
    { heading: 'Cut these pieces again', items: items('cut', isRecut, piece) },
    { heading: 'Cut another number of these', items: items('cut', ({ what }) => isCount(what), piece) },
    { heading: 'Cut these otherwise; what is cut already serves', items: items('cut', ({ serves }) => serves === true, piece) },
    { heading: 'Cut these as well, and mark and sew them as the new pages say', items: items('cut', ({ kind }) => kind === 'added', ({ subject, what, now }) => `${subject}, from ${what}: ${now}`) },
    { heading: 'Don’t cut these any more', items: items('cut', ({ kind }) => kind === 'removed', ({ subject, what, was }) => `${subject}, from ${what}: ${was}`) },
    { heading: 'Buy these amounts in place of the earlier ones', items: boughtOtherwise(changes.filter((change) => change.group === 'buy' && isBought(change))) },
    { heading: 'Sew these otherwise', items: items('sew', () => true, plainly) },
    { heading: 'Mark these otherwise', items: items('mark', () => true, plainly) },
    { heading: 'Mind what has changed about materials and supplies', items: items('material', (change) => !['price', 'spare'].includes(change.what) && !(change.what === 'count' && changes.some((one) => isAmount(one) && one.subject === change.subject && one.when === change.when)), plainly) },
    { heading: 'Read these words anew', items: items('words', ({ subject, what, kind }) => !(subject === 'The pattern' && what === 'title') && !(what === 'caution' && kind === 'removed'), plainly) },
  ].filter((task) => task.items.length > 0);
  if (tasks.length === 0) return undefined;
  const called = renamed.filter((one) => one.of === 'title').map(({ was, now }) => `${now}, which was ${was}`);
  return {
    title: `${fresh.title}: what changed since ${revisionText(old)}`,
    opening: `This is for you if you have ${revisionText(old)}. It says what to do otherwise in ${revisionText(fresh)}; whatever is not named here is made as before. Before you cut, put the earlier pages away.`,
    tasks: called.length === 0 ? tasks : [...tasks, { heading: 'These have another title', items: called }],
    cautions,
  };
}

/** By what they are called alone, so that each is told once for all sizes. */
const templates = (affected: Comparison['affected'], keep: (one: Affected) => boolean): readonly string[] =>
  affected.filter((one) => one.group === 'template' && keep(one)).map((one) => `${one.subject}, ${one.what}${onlyFor(one)}`);

const revisionText = ({ revision }: Comparison['old']): string => (revision === undefined ? 'the copy without a revision' : `revision ${revision}`);

/** Where only the cost is another, there is nothing to do. */
const isBought = ({ amounts }: Change): boolean => amounts === undefined || amounts.was !== amounts.now;

const isAmount = (change: Change): boolean => change.group === 'buy' && change.what === 'amount' && isBought(change);

/** What is of another size and bought in another amount is one thing to buy. */
function boughtOtherwise(changes: readonly Change[]): readonly string[] {
  const keyOf = ({ subject, when }: Change): string => JSON.stringify([subject, when]);
  return [...new Set(changes.map(keyOf))].map((key) => {
    const alike = changes.filter((change) => keyOf(change) === key);
    const part = (which: 'was' | 'now') => (change: Change): string => {
      const text = change.amounts?.[which] ?? change[which];
      return text !== '' && alike.length > 1 && change.what === 'amount' ? `to buy ${text}` : text;
    };
    const [before, after] = [alike.map(part('was')), alike.map(part('now'))].map((parts) => parts.filter((text) => text !== '').join(', '));
    const [{ subject } = { subject: '' }] = alike;
    return `${subject}: ${after === '' ? 'none any more' : after}${before === '' ? '' : `, in place of ${before}`}${alike[0] === undefined ? '' : onlyFor(alike[0])}`;
  });
}

/** `Body, from Canvas: size 4 in × 7 in, in place of 4 in × 6 in`. */
function piece({ subject, what, was, now }: Change): string {
  const split = what.lastIndexOf(': ');
  const [from, respect] = split < 0 ? ['', what] : [`, from ${what.slice(0, split)}`, what.slice(split + 2)];
  const [, other] = /^the same, (.*)/.exec(now) ?? [];
  return `${subject}${from}: ${respect} ${other === undefined ? inPlace(was, now) : `${was} as before, ${other}`}`;
}

const plainly = ({ subject, what, was, now }: Change): string => `${subject}, ${what}: ${inPlace(was, now)}`;

const inPlace = (was: string, now: string): string => (was === '' ? now : now === '' ? `no longer ${was}` : `${now}, in place of ${was}`);

const onlyFor = ({ when }: Pick<Change, 'when'>): string => (when === undefined ? '' : ` (only where ${when})`);
