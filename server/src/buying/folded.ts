import { itemAt } from '../geometry/lists.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { LayPiece, LayProblem } from '../lay/problem.ts';
import { boundOf, type LayCache } from './lay-out.ts';
import { fitsIn, laidWhole, mostPieces, none, questionOf, type LayQuestion, type Way } from './lays.ts';
import { totalOf, type HandCount, type MaterialNeed, type Requirement } from './requirements.ts';

/** The questions to ask of folded cloth, and a length, in millimetres, that no folded lay can be under, whichever of them it answers. */
export interface FoldedQuestions {
  /** The likeliest first; never empty. */
  readonly questions: readonly LayQuestion[];
  readonly noneUnder: number;
}

/** More sharings between the fold and both layers than this are not all looked at. */
const mostSharings = 12;
/** Questions asked, where few pieces and where many are laid. */
const fewQuestions = 3;
const manyPieces = 100;

/**
 * Pieces in two layers, folded selvedge to selvedge. Each placement is cut through both layers, and gives one as drawn and
 * one mirrored; what is drawn as half gives one when it lies on the fold, which is y = 0, and two when it is opened out and
 * cut through both layers. So many of it may lie on the fold and the rest elsewhere: each such sharing is a question of
 * its own. `width` is that of the cloth before it is folded, millimetres.
 */
export function foldedQuestions(need: MaterialNeed, width: number, gap: number, cache?: LayCache): FoldedQuestions {
  const cloth = { width: width / 2, gap };
  const ways = need.requirements.map((requirement) => waysOf(requirement, cloth.width));
  const sharings = ways.reduce((product, some) => product * some.all, 1);
  const asked = (chosen: readonly number[]): LayQuestion => questionOf('folded', cloth, ways.map((some, index) => some.way(chosen[index] ?? 0)), need);
  if (sharings <= mostSharings) {
    const bounded = everyChoice(ways.map((some) => some.all)).map((chosen) => {
      const question = asked(chosen);
      return { question, bound: sharings === 1 ? 0 : boundOf(question.problem, cache) };
    });
    const noneUnder = sharings === 1 ? boundOf(itemAt(bounded, 0).question.problem, cache) : Math.min(...bounded.map(({ bound }) => bound));
    const likeliest = [...bounded].sort((a, b) => a.bound - b.bound).map(({ question }) => question);
    return { questions: likeliest.slice(0, isLarge(need) ? fewQuestions : mostSharings), noneUnder };
  }
  const noneUnder = boundOf(apart(need, ways, cloth), cache);
  const chosen = [...sharingsByLength(ways, noneUnder), ways.map(() => 0), ways.map((some) => some.all - 1), ways.map((some) => Math.floor(some.all / 2))];
  const different = chosen.filter((one, index) => chosen.findIndex((other) => other.join() === one.join()) === index);
  return { questions: different.slice(0, isLarge(need) ? fewQuestions : mostSharings).map(asked), noneUnder };
}

const isLarge = (need: MaterialNeed): boolean => need.requirements.reduce((sum, { count }) => sum + totalOf(count), 0) > manyPieces;

/** The ways in which a requirement may be cut: with ever fewer of it on the fold. */
interface Ways {
  readonly all: number;
  readonly way: (number: number) => Way;
  /** What is drawn as half, where there is a choice of ways. */
  readonly half: LayPiece | undefined;
}

function waysOf(requirement: Requirement, width: number): Ways {
  const { count, half } = requirement;
  const needed = totalOf(count);
  const throughBoth = (pairs: number): readonly LayPiece[] => laidWhole(requirement, { ...none, either: pairs }, width);
  const pairs = pairsFor(count);
  const onFold = half === undefined || needed > mostPieces ? undefined : onFoldOf(requirement, width);
  if (onFold === undefined || needed === 0) return { all: 1, half: undefined, way: () => ({ pieces: throughBoth(pairs), spare: 2 * pairs - needed }) };
  const all = throughBoth(1).length === 0 ? 1 : Math.ceil(needed / 2) + 1;
  const way = (opened: number): Way => {
    const folded = Math.max(0, needed - 2 * opened);
    const pieces = [...(folded === 0 ? [] : [{ ...onFold, count: { ...none, either: folded } }]), ...throughBoth(opened)];
    return { pieces, spare: folded + 2 * opened - needed };
  };
  return { all, way, half: all > 1 ? { ...onFold, onFold: false, anyTurn: requirement.anyTurn, turns: [...onFold.turns, ...(half?.turnsOpenedOut ?? [])], count: { ...none, either: needed } } : undefined };
}

function onFoldOf({ title: id, half }: Requirement, width: number): LayPiece | undefined {
  return half !== undefined && fitsIn(half.outline, width, Infinity) ? { id, outline: half.outline, count: none, turns: half.turns, onFold: true } : undefined;
}

/** How many pairs give at least so many of each hand. */
const pairsFor = ({ asDrawn, mirrored, either }: HandCount): number => Math.max(asDrawn, mirrored, Math.ceil((asDrawn + mirrored + either) / 2));

/** Every choice of one number under each of the given ones, the first slowest. */
const everyChoice = (sizes: readonly number[]): readonly (readonly number[])[] =>
  sizes.reduce<readonly (readonly number[])[]>((choices, size) => choices.flatMap((choice) => Array.from({ length: size }, (_, next) => [...choice, next])), [[]]);

/**
 * A question that every folded lay answers, however it shares: a piece opened out is two halves side by side, so nothing is
 * longer with all halves apart and free to lie anywhere. Those two touch, so no gap is kept.
 */
function apart(need: MaterialNeed, ways: readonly Ways[], cloth: { readonly width: number }): LayProblem {
  const halves = ways.map(({ half, way }): Way => (half === undefined ? way(0) : { pieces: [half], spare: 0 }));
  return questionOf('folded', { width: cloth.width, gap: 0 }, halves, need).problem;
}

/** Sharings that fill the fold as far as a length goes, beginning with the longest on it or with the shortest. */
function sharingsByLength(ways: readonly Ways[], length: number): readonly (readonly number[])[] {
  const longOf = ({ half }: Ways): number => {
    const box = boundsOfPoints(half?.outline ?? []);
    return half === undefined ? 0 : box.maxX - box.minX;
  };
  const free = [...ways.entries()].filter(([, { all }]) => all > 1).sort(([, a], [, b]) => longOf(b) - longOf(a));
  return [free, [...free].reverse()].map((order) => {
    const chosen = ways.map((some) => some.all - 1);
    let room = length;
    for (const [index, some] of order) {
      const { all, way } = some;
      const taken = (opened: number): number => longOf(some) * (way(opened).pieces.find((piece) => piece.onFold)?.count.either ?? 0);
      // The fewest opened out that the room on the fold allows.
      let [fits, tooFew] = [all - 1, -1];
      while (fits - tooFew > 1) {
        const middle = Math.floor((fits + tooFew) / 2);
        if (taken(middle) <= room) fits = middle;
        else tooFew = middle;
      }
      chosen[index] = fits;
      room -= taken(fits);
    }
    return chosen;
  });
}
