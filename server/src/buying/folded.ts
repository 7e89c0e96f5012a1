import { itemAt } from '../geometry/lists.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { boxAsLaid } from '../lay/bounds/outline.ts';
import type { LayPiece, LayPoint, LayProblem } from '../lay/problem.ts';
import { boundOf, type LayCache } from './lay-out.ts';
import { fitsIn, laidWhole, mostPieces, none, questionOf, type LayQuestion, type Way } from './lays.ts';
import { totalOf, type Half, type HandCount, type MaterialNeed, type Requirement } from './requirements.ts';

/** The questions to ask of folded cloth, and a length as laid, in millimetres, that no such lay can be under, whichever of them it answers. */
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
 * Pieces in two layers, folded selvedge to selvedge or end to end. Each placement is cut through both layers, and gives one as drawn and
 * one mirrored; what is drawn as half gives one when it lies on the fold, which is y = 0 or x = 0, and two when it is opened
 * out and cut through both layers. So many of it may lie on the fold and the rest elsewhere: each such sharing is a question of
 * its own. `width` is that of the cloth before it is folded, millimetres.
 */
export function foldedQuestions(need: MaterialNeed, width: number, gap: number, cache?: LayCache, fold: 'folded' | 'crosswise' = 'folded'): FoldedQuestions {
  const cloth: Cloth = { width: fold === 'folded' ? width / 2 : width, gap, fold };
  const ways = need.requirements.map((requirement) => waysOf(requirement, cloth));
  const sharings = ways.reduce((product, some) => product * some.all, 1);
  const asked = (chosen: readonly number[]): LayQuestion => across(cloth, questionOf(fold, cloth, fitting(cloth, ways, ways.map((some, index) => some.way(chosen[index] ?? 0))), need));
  if (sharings <= mostSharings) {
    const bounded = everyChoice(ways.map((some) => some.all)).map((chosen) => {
      const question = asked(chosen);
      return { question, bound: sharings === 1 ? 0 : boundOf(question.problem, cache) };
    });
    const noneUnder = sharings === 1 ? boundOf(itemAt(bounded, 0).question.problem, cache) : Math.min(...bounded.map(({ bound }) => bound));
    const least = Math.min(...bounded.map(({ question }) => question.unplaced.length));
    const likeliest = bounded.filter(({ question }) => question.unplaced.length === least).sort((a, b) => a.bound - b.bound).map(({ question }) => question);
    return { questions: likeliest.slice(0, isLarge(need) ? fewQuestions : mostSharings), noneUnder };
  }
  const noneUnder = boundOf(apart(need, ways, cloth), cache);
  const chosen = [...sharingsByLength(ways, fold === 'folded' ? noneUnder : cloth.width), ways.map(() => 0), ways.map((some) => some.all - 1), ways.map((some) => Math.floor(some.all / 2))];
  const different = chosen.filter((one, index) => chosen.findIndex((other) => other.join() === one.join()) === index);
  const all = different.map(asked);
  const least = Math.min(...all.map(({ unplaced }) => unplaced.length));
  return { questions: all.filter(({ unplaced }) => unplaced.length === least).slice(0, isLarge(need) ? fewQuestions : mostSharings), noneUnder };
}

interface Cloth {
  /** As folded, millimetres. */
  readonly width: number;
  readonly gap: number;
  readonly fold: 'folded' | 'crosswise';
}

const across = ({ fold }: Cloth, question: LayQuestion): LayQuestion => (fold === 'folded' ? question : { ...question, problem: { ...question.problem, fold: 'across' } });

/** Only so many halves lie side by side on a fold across the cloth; what has no other way and no room there is left out, the last first. */
function fitting(cloth: Cloth, ways: readonly Ways[], chosen: readonly Way[]): readonly Way[] {
  if (cloth.fold === 'folded') return chosen;
  let room = cloth.width + cloth.gap;
  return chosen.map((way, index) => {
    const onFold = way.pieces.find((piece) => piece.onFold);
    if (onFold === undefined) return way;
    room -= totalOf(onFold.count) * (itemAt(ways, index).long + cloth.gap);
    return room >= -1e-6 ? way : { pieces: [], spare: 0 };
  });
}

const isLarge = (need: MaterialNeed): boolean => need.requirements.reduce((sum, { count }) => sum + totalOf(count), 0) > manyPieces;

/** The ways in which a requirement may be cut: with ever fewer of it on the fold. */
interface Ways {
  readonly all: number;
  readonly way: (number: number) => Way;
  /** What is drawn as half, where there is a choice of ways. */
  readonly half: LayPiece | undefined;
  /** How much of the fold it takes, millimetres. */
  readonly long: number;
}

/** Turns in which what is cut through both layers lies as it may in the one that a fold across the cloth has turned round, too. */
function turnable(requirement: Requirement): Requirement {
  const { turns, anyTurn } = requirement;
  return anyTurn ? requirement : { ...requirement, turns: turns.filter((turn) => turns.includes((540 - turn) % 360)) };
}

export const halfFor = (requirement: Requirement, fold: Cloth['fold']): Requirement['half'] => (fold === 'folded' ? requirement.half : requirement.halfAcross);

/** How long an outline is along the cloth, or a half along its fold, millimetres. */
export function lengthAlong(outline: readonly LayPoint[]): number {
  const { minX, maxX } = boundsOfPoints(outline);
  return maxX - minX;
}

function waysOf(asked: Requirement, { width, fold }: Cloth): Ways {
  const requirement = fold === 'folded' ? asked : turnable(asked);
  const { count } = requirement;
  const half = halfFor(requirement, fold);
  const long = half === undefined ? 0 : lengthAlong(half.outline);
  const needed = totalOf(count);
  const throughBoth = (pairs: number): readonly LayPiece[] => laidWhole(requirement, { ...none, either: pairs }, width);
  const pairs = pairsFor(count);
  const onFold = half === undefined || needed > mostPieces ? undefined : onFoldOf(requirement.title, half, width);
  if (onFold === undefined || needed === 0) return { all: 1, half: undefined, long, way: () => ({ pieces: throughBoth(pairs), spare: 2 * pairs - needed }) };
  const all = throughBoth(1).length === 0 ? 1 : Math.ceil(needed / 2) + 1;
  const way = (opened: number): Way => {
    const folded = Math.max(0, needed - 2 * opened);
    const pieces = [...(folded === 0 ? [] : [{ ...onFold, count: { ...none, either: folded } }]), ...throughBoth(opened)];
    return { pieces, spare: folded + 2 * opened - needed };
  };
  return { all, way, long, half: all > 1 ? { ...onFold, onFold: false, anyTurn: requirement.anyTurn, turns: [...onFold.turns, ...(half?.turnsOpenedOut ?? [])], count: { ...none, either: needed } } : undefined };
}

/** A half as it lies on the fold; undefined where the cloth is too narrow for it. */
export function onFoldOf(id: string, half: Half, width: number): LayPiece | undefined {
  return fitsIn(boxAsLaid(half.outline, false, half.turns[0] ?? 0), width, Infinity) ? { id, outline: half.outline, count: none, turns: half.turns, onFold: true } : undefined;
}

/** How many pairs give at least so many of each hand. */
export const pairsFor = ({ asDrawn, mirrored, either }: HandCount): number => Math.max(asDrawn, mirrored, Math.ceil((asDrawn + mirrored + either) / 2));

/** Every choice of one number under each of the given ones, the first slowest. */
const everyChoice = (sizes: readonly number[]): readonly (readonly number[])[] =>
  sizes.reduce<readonly (readonly number[])[]>((choices, size) => choices.flatMap((choice) => Array.from({ length: size }, (_, next) => [...choice, next])), [[]]);

/**
 * A question that every folded lay answers, however it shares: a piece opened out is two halves side by side, so nothing is
 * longer with all halves apart and free to lie anywhere. Those two touch, so no gap is kept.
 */
function apart(need: MaterialNeed, ways: readonly Ways[], cloth: Cloth): LayProblem {
  const halves = ways.map(({ half, way }): Way => (half === undefined ? way(0) : { pieces: [half], spare: 0 }));
  return questionOf(cloth.fold, { width: cloth.width, gap: 0 }, halves, need).problem;
}

/** Sharings that fill the fold as far as a length goes, beginning with the longest on it or with the shortest. */
function sharingsByLength(ways: readonly Ways[], length: number): readonly (readonly number[])[] {
  const free = [...ways.entries()].filter(([, { all }]) => all > 1).sort(([, a], [, b]) => b.long - a.long);
  return [free, [...free].reverse()].map((order) => {
    const chosen = ways.map((some) => some.all - 1);
    let room = length;
    for (const [index, some] of order) {
      const { all, way } = some;
      const taken = (opened: number): number => some.long * (way(opened).pieces.find((piece) => piece.onFold)?.count.either ?? 0);
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
