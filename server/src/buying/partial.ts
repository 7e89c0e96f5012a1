import { itemAt } from '../geometry/lists.ts';
import { areaOf } from '../lay/bounds/outline.ts';
import type { LayPiece } from '../lay/problem.ts';
import { lengthAlong, onFoldOf, pairsFor } from './folded.ts';
import { edgeSlack, laidWhole, mostPieces, none, questionOf, type LayQuestion, type Way } from './lays.ts';
import { totalOf, type HandCount, type MaterialNeed, type Requirement } from './requirements.ts';

/** Sharings that are laid out, the likeliest. */
const mostQuestions = 4;
/** Sharings of few pieces are all looked at; of more, each requirement by turns. */
const mostLookedAt = 500;
const mostRounds = 5;
/** Numbers of pairs, and on the fold, that are tried for one requirement. */
const mostPairs = 8;
const mostOnFold = 6;

/** Cloth with one selvedge folded in: how wide it lies double and single, millimetres. */
interface Bands {
  readonly double: number;
  readonly single: number;
  readonly gap: number;
}

/** One way of sharing a requirement between the fold, both layers and the single one, with what it takes of either band. */
interface Sharing {
  readonly way: Way;
  /** Square millimetres. */
  readonly inDouble: number;
  readonly inSingle: number;
  /** Of the fold, millimetres. */
  readonly onFold: number;
}

/**
 * Pieces on cloth that lies double from the fold so far, and single beyond: what is cut through both layers gives one of
 * each hand, what is drawn as half may lie on the fold, and the single layer takes what is needed in one hand or left over.
 * How pieces are shared decides the length; sharings that fill both bands evenly come first. All leave the fewest out.
 *
 * @param width of the cloth before it is folded, millimetres
 * @param depth how wide it lies double
 */
export function partialQuestions(need: MaterialNeed, width: number, depth: number, gap: number): readonly LayQuestion[] {
  const double = Math.min(depth, width / 2);
  const bands: Bands = { double, single: width - 2 * double, gap };
  const sharings = need.requirements.map((requirement) => sharingsOf(requirement, bands));
  const product = sharings.reduce((all, some) => all * some.length, 1);
  const chosen = product <= mostLookedAt ? everyChoice(sharings) : [true, false].map((fromDouble) => evenly(sharings, bands, fromDouble));
  const likeliest = [...chosen].sort((a, b) => lengthOf(a, bands) - lengthOf(b, bands)).slice(0, mostQuestions);
  return likeliest.map((some) => {
    const question = questionOf('partial', { width: width - double, gap }, some.map(({ way }) => way), need);
    return { ...question, problem: { ...question.problem, width: width - double + 2 * edgeSlack, doubleTo: double + edgeSlack } };
  });
}

/** Every way in which a requirement fits; one that holds nothing where there is none. */
function sharingsOf(requirement: Requirement, { double, single, gap }: Bands): readonly Sharing[] {
  const { count, half, outline, title } = requirement;
  const needed = totalOf(count);
  const nothing: Sharing = { way: { pieces: [], spare: 0 }, inDouble: 0, inSingle: 0, onFold: 0 };
  if (needed === 0 || !(needed <= mostPieces)) return [nothing];
  const folded = half === undefined ? undefined : onFoldOf(title, half, double);
  const long = half === undefined ? 0 : lengthAlong(half.outline) + gap;
  const area = areaOf(outline);
  const all = spread(pairsFor(count), mostPairs).flatMap((pairs) => {
    const most = folded === undefined ? 0 : Math.max(0, needed - 2 * pairs);
    return spread(most, mostOnFold).flatMap((onFold): readonly Sharing[] => {
      const { rest, spare } = restOf(count, onFold, pairs);
      const both = laidWhole(requirement, { ...none, either: pairs }, double);
      const singles = laidWhole(requirement, rest, single - gap).map((piece): LayPiece => ({ ...piece, single: true }));
      if ((pairs > 0 && both.length === 0) || (totalOf(rest) > 0 && singles.length === 0)) return [];
      const halves = folded === undefined || onFold === 0 ? [] : [{ ...folded, count: { ...none, either: onFold } }];
      return [{ way: { pieces: [...halves, ...both, ...singles], spare }, inDouble: area * (pairs + onFold / 2), inSingle: area * totalOf(rest), onFold: onFold * long }];
    });
  });
  return all.length === 0 ? [nothing] : all;
}

/** What is still needed beside so many on the fold and so many pairs, one of either hand in each; and what those cut beyond the need. */
function restOf({ asDrawn, mirrored, either }: HandCount, onFold: number, pairs: number): { readonly rest: HandCount; readonly spare: number } {
  const left = { asDrawn: asDrawn - pairs, mirrored: mirrored - pairs };
  // What is drawn as half is of either hand.
  const free = onFold + Math.max(0, -left.asDrawn) + Math.max(0, -left.mirrored);
  return { rest: { asDrawn: Math.max(0, left.asDrawn), mirrored: Math.max(0, left.mirrored), either: Math.max(0, either - free) }, spare: Math.max(0, free - either) };
}

/** Whole numbers from 0 to the most, not many of them. */
const spread = (most: number, parts: number): readonly number[] =>
  [...new Set(Array.from({ length: Math.min(most, parts) + 1 }, (_, part) => Math.round((most * part) / Math.max(1, Math.min(most, parts)))))];

/** About how long the longer band gets, millimetres; what is cut beyond the need decides between alike ones. */
function lengthOf(some: readonly Sharing[], { double, single }: Bands): number {
  const sum = (of: (one: Sharing) => number): number => some.reduce((total, one) => total + of(one), 0);
  const taken = sum(({ inDouble }) => inDouble);
  const beyond = sum(({ inSingle }) => inSingle);
  return Math.max(taken / double, beyond === 0 ? 0 : beyond / single, sum(({ onFold }) => onFold)) + 1e-6 * sum(({ way }) => way.spare);
}

const everyChoice = (sharings: readonly (readonly Sharing[])[]): readonly (readonly Sharing[])[] =>
  sharings.reduce<readonly (readonly Sharing[])[]>((choices, some) => choices.flatMap((choice) => some.map((one) => [...choice, one])), [[]]);

/** The sharing of each requirement by turns that makes the longer band shortest, until nothing changes. */
function evenly(sharings: readonly (readonly Sharing[])[], bands: Bands, fromDouble: boolean): readonly Sharing[] {
  let chosen = sharings.map((some) => itemAt(some, fromDouble ? some.length - 1 : 0));
  for (let round = 0; round < mostRounds; round++) {
    const before = chosen;
    for (const [index, some] of sharings.entries()) {
      const tried = some.map((one) => chosen.map((other, at) => (at === index ? one : other)));
      chosen = [...tried].reduce((best, one) => (lengthOf(one, bands) < lengthOf(best, bands) ? one : best), chosen);
    }
    if (chosen === before) break;
  }
  return chosen;
}
