import { itemAt } from '../geometry/lists.ts';
import { areaOf } from '../lay/bounds/outline.ts';
import { lowerBound } from '../lay/bounds/bound.ts';
import type { Lay } from '../lay/problem.ts';
import { edgeSlack, none, withCounts, type LaidQuestion, type LayQuestion } from './lays.ts';
import { layBoxes, layOut, type LayCache } from './lay-out.ts';
import { totalOf, type HandCount } from './requirements.ts';

/** The ends of a panel may be overrun by as much as its edges. */
const endSlack = edgeSlack;

/**
 * Fills panels one after another, each a strip of limited length: from the largest piece down, as many of each as fit
 * beside those already chosen. A filling is repeated as long as the need lasts.
 *
 * @param asked all that is requested; every piece fits a panel
 * @param length of a panel along the grain, millimetres
 */
export function fillPanels(asked: LayQuestion, length: number, effort: number, cache?: LayCache): { readonly panels: readonly LaidQuestion[]; readonly unplaced: readonly number[] } {
  const panels: LaidQuestion[] = [];
  let remaining = asked.problem.pieces.map((piece) => piece.count);
  while (remaining.some((count) => totalOf(count) > 0)) {
    const filled = fillOne(asked, remaining, length, effort, cache);
    if (filled === undefined) break;
    const { chosen, laid } = filled;
    const times = Math.min(...remaining.flatMap((left, index) => hands.flatMap((hand) => {
      const each = itemAt(chosen, index)[hand];
      return each > 0 ? [Math.floor(left[hand] / each)] : [];
    })));
    panels.push({ ...laid, times });
    remaining = remaining.map((left, index) => combined(left, itemAt(chosen, index), -times));
  }
  const unplaced = remaining.flatMap((count, index) => (totalOf(count) > 0 ? [itemAt(asked.requirementOf, index)] : []));
  return { panels, unplaced };
}

/** With more pieces than this, a first filling goes by boxes alone. */
const fewPieces = 8;

const hands = ['asDrawn', 'mirrored', 'either'] as const;

const combined = (one: HandCount, other: HandCount, times: number): HandCount => ({
  asDrawn: one.asDrawn + times * other.asDrawn,
  mirrored: one.mirrored + times * other.mirrored,
  either: one.either + times * other.either,
});

/** One panel's filling; undefined where not a single piece was got on to it. */
function fillOne(asked: LayQuestion, remaining: readonly HandCount[], length: number, effort: number, cache: LayCache | undefined): { chosen: readonly HandCount[]; laid: LaidQuestion } | undefined {
  const attempt = (counts: readonly HandCount[]): LaidQuestion | undefined => {
    const question = withCounts(asked, counts);
    if (lowerBound(question.problem).length > length + endSlack) return undefined;
    const quick = layBoxes(question.problem);
    const isSmall = counts.reduce((sum, count) => sum + totalOf(count), 0) <= fewPieces;
    const fits = (one: Lay): boolean => one.length <= length + endSlack;
    const lay = (quick !== undefined && fits(quick)) || (effort === 0 && !isSmall) ? quick : layOut(question.problem, effort, cache, (one) => fits(one.lay)).lay;
    return lay !== undefined && fits(lay) ? { ...question, lay, times: 1, cloth: { width: question.problem.width, length } } : undefined;
  };
  const all = attempt(remaining);
  if (all !== undefined) return { chosen: remaining, laid: all };

  const bySize = asked.problem.pieces.map((piece, index) => ({ index, area: areaOf(piece.outline) })).sort((a, b) => b.area - a.area || a.index - b.index);
  let chosen: readonly HandCount[] = remaining.map(() => none);
  let laid: LaidQuestion | undefined;
  for (const { index } of bySize) {
    for (const hand of hands) {
      // What fits many fits fewer, so halving finds the most.
      let [fits, tooMany] = [0, itemAt(remaining, index)[hand] + 1];
      while (tooMany - fits > 1) {
        const tried = Math.floor((fits + tooMany) / 2);
        const lay = attempt(chosen.map((count, at) => (at === index ? { ...count, [hand]: tried } : count)));
        if (lay === undefined) tooMany = tried;
        else [fits, laid] = [tried, lay];
      }
      if (fits > 0) chosen = chosen.map((count, at) => (at === index ? { ...count, [hand]: fits } : count));
    }
  }
  return laid && { chosen, laid };
}
