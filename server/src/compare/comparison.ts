import type { LayCache } from '../buying/lay-out.ts';
import { usualOptions, type BuyingOptions } from '../buying/plan.ts';
import { choiceTitle, optionTitle } from '../model/names/choice-titles.ts';
import type { Pattern } from '../model/pattern.ts';
import type { OptionWords } from '../model/query/variants.ts';
import { cautionsFor } from '../table/cautions.ts';
import { isRecut, ofThePattern, type Change, type Raw } from './change.ts';
import { checkChanges, problemChanges } from './check-changes.ts';
import { choiceChanges } from './choice-changes.ts';
import { comparedCombinations, sharedChoices, type SharedChoices } from './combinations.ts';
import { folded, foldedData } from './fold.ts';
import { outlineChanges, type OutlineChange } from './outlines.ts';
import { pairOf, type Pair } from './pair.ts';
import { pieceChanges } from './piece-changes.ts';
import { disciplineOf, type Discipline } from './revision.ts';
import { movedTitles, renamedIn, type Renaming } from './renamings.ts';
import { newPieceChanges } from './new-piece-changes.ts';
import { openingChanges } from './opening-changes.ts';
import { seamChanges } from './seam-changes.ts';
import { sewingChanges } from './sewing-changes.ts';
import { specOf } from './spec.ts';
import { stepChanges } from './step-changes.ts';
import { stockChanges, type Planning } from './stock-changes.ts';
import { wordChanges } from './word-changes.ts';

/** What one of two patterns is known by. */
export interface Identity {
  readonly file: string;
  readonly title: string;
  readonly revision: string | undefined;
  readonly digest: string;
  /** How many errors it has, failed checks aside: what can't be worked out is compared with nothing. */
  readonly errors: number;
}

/** A piece or template that is to be cut or printed otherwise, or a mark to be made again on what is cut. */
export type Affected = Pick<Change, 'group' | 'kind' | 'subject' | 'what' | 'when'>;

/** What is different in what two patterns say to cut, buy, print and sew: plain data, in words. */
export interface Comparison {
  readonly old: Identity;
  readonly new: Identity;
  /** Whether nothing is different: neither in what is made nor in checks and problems. */
  readonly same: boolean;
  readonly changes: readonly Change[];
  /** The same without what differs from size to size and from line to line: what of it is to be done anew, and when. */
  readonly affected: readonly Affected[];
  /** Other names for the same things, which change nothing. */
  readonly renamed: readonly Renaming[];
  readonly discipline: Discipline | undefined;
  /** Outlines that are others, for drawings. */
  readonly outlines: readonly OutlineChange[];
  /** What is to be minded in making the later pattern; none where it is the same. */
  readonly cautions: readonly string[];
}

/** Compares two patterns, in all sizes and choices that both have; how they are written and ordered makes no difference, but for the order of steps. */
export const compare = (oldPattern: Pattern, newPattern: Pattern, options: BuyingOptions = usualOptions, lays: LayCache = new Map()): Comparison =>
  comparisonOf(oldPattern, newPattern, { options, lays });

/** The same without what cloth to buy, which takes work: for whoever asks while writing. */
export const compareWithoutLays = (oldPattern: Pattern, newPattern: Pattern): Comparison => comparisonOf(oldPattern, newPattern, undefined);

function comparisonOf(oldPattern: Pattern, newPattern: Pattern, planning: Planning | undefined): Comparison {
  const [old, fresh] = [specOf(oldPattern), specOf(newPattern)];
  const choices = sharedChoices(oldPattern, newPattern);
  const renamed = new Map<string, Renaming>();
  const found = comparedCombinations(choices).map((combination) => {
    const pair = pairOf(old, fresh, combination);
    for (const one of renamedIn(pair)) renamed.set(JSON.stringify(one), one);
    return { combination, changes: changesIn(pair, planning), all: outlineChanges(pair), cautions: cautionsFor(pair.now) };
  });
  const worldOf = (choice: string): Pattern['world'] => (newPattern.choices.has(choice) ? newPattern : oldPattern).world;
  const words: OptionWords = (choice, option) => `${choiceTitle(worldOf(choice), choice)} is ${optionTitle(worldOf(choice), choice, option)}`;
  const changes = [...folded([{ combination: new Map(), changes: choiceChanges(old, fresh) }], new Map(), words), ...folded(found, choices, words), ...problemChanges(old, fresh)];
  const isAnotherPattern = changes.some(({ group }) => ofThePattern.includes(group));
  return {
    old: identityOf(oldPattern), new: identityOf(newPattern), changes, affected: affectedIn(found, choices, words), renamed: [...renamed.values()],
    same: changes.length === 0,
    outlines: foldedData(found, choices, words),
    cautions: changes.length === 0 ? [] : [...new Set(found.flatMap(({ cautions }) => cautions))],
    discipline: disciplineOf(oldPattern.world.facts.revision, newPattern.world.facts.revision, isAnotherPattern),
  };
}

/** What {@link compare} says of a pattern and of the same one in another file, without working it out. */
export function unchanged(pattern: Pattern, file: string): Comparison {
  const old = identityOf(pattern);
  return { old, new: { ...old, file, title: pattern.world.facts.title ?? file }, changes: [], affected: [], renamed: [], same: true, outlines: [], cautions: [], discipline: undefined };
}

/** Of a piece that is cut otherwise only that it is, be it in one respect or in several; numbers are told apart. Of marks those on cloth that may be kept. */
function affectedIn(found: Parameters<typeof folded>[0], choices: SharedChoices, words: OptionWords): readonly Affected[] {
  const bare = found.map(({ combination, changes }) => ({
    combination,
    changes: [...new Map(changes.filter(({ group, serves }) => (group === 'cut' && serves !== true) || group === 'template' || (group === 'mark' && serves === true)).map((change): readonly [string, Raw] => {
      const { group, kind, subject, what } = change;
      const one: Raw = { group, kind, subject, what: isRecut(change) ? '' : what, was: '', now: '', causes: [] };
      return [JSON.stringify(one), one];
    })).values()],
  }));
  return folded(bare, choices, words).map(({ group, kind, subject, what, when }) => ({ group, kind, subject, what, when }));
}

function changesIn(pair: Pair, planning: Planning | undefined): readonly Raw[] {
  const changes = [...movedTitles(pair), ...pieceChanges(pair), ...sewingChanges(pair), ...newPieceChanges(pair), ...seamChanges(pair), ...openingChanges(pair), ...stepChanges(pair), ...stockChanges(pair, planning), ...wordChanges(pair)];
  return [...changes, ...checkChanges(pair, changes)];
}

function identityOf({ world, digest, problems }: Pattern): Identity {
  const { facts, root } = world;
  return { file: root.path, title: facts.title ?? root.path, revision: facts.revision, digest, errors: problems.filter(({ severity, code }) => severity === 'error' && code !== 'check-failed').length };
}
