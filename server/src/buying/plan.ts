import { itemAt } from '../geometry/lists.ts';
import { panelSides, usableWidth } from '../model/stock/width.ts';
import type { Material } from '../model/stock/material.ts';
import type { Price } from '../model/stock/purchase.ts';
import { millimetresIn } from '../units/length.ts';
import { one, rational, zero, type Rational } from '../units/rational.ts';
import { leastLeftover, leftoversOf, type Leftover } from './leftovers.ts';
import { foldedQuestions, type FoldedQuestions } from './folded.ts';
import { partialQuestions } from './partial.ts';
import { edgeSlack, layersAlong, none, openQuestion, withCounts, type LaidQuestion, type LayQuestion } from './lays.ts';
import { panelBound } from './panel-bound.ts';
import { fillPanels } from './panels.ts';
import { boundOf, KeptLays, laying, layOut, type LaidOut, type LayCache } from './lay-out.ts';
import { beforeShrinking, costOfCount, costOfLength, micrometresDown, micrometresUp, roundedUpTo } from './purchase.ts';
import { totalOf, type HandCount, type MaterialNeed } from './requirements.ts';

export interface BuyingOptions {
  /** How the cloth is spread: open; folded, as the material asks for or else selvedge to selvedge; or what is shorter of both, but as the material asks for where it does. Panels and sheets are always open. */
  readonly lay: 'open' | 'folded' | 'shorter';
  /** Least gap between pieces, millimetres. */
  readonly gap: number;
  /** About how many seconds to look for a shorter lay, counted in steps, so that it is the same on every machine; 0 for the first lay. */
  readonly effort: number;
  /** Other widths that the cloth is sold in, to be set side by side with the material's own. */
  readonly widths: readonly OtherWidth[];
  /** The least side, in millimetres, of a leftover worth naming. */
  readonly leastLeftover: number;
}

export interface OtherWidth {
  /** Selvedge to selvedge, millimetres. */
  readonly nominal: Rational;
  /** What it costs, per what the material's own price is for; that of the material where it is not said. */
  readonly price: Rational | undefined;
}

/** What is taken wherever nobody says otherwise, so that every way out says the same. A table must come soon: more effort is for whoever asks. */
export const usualOptions: BuyingOptions = { lay: 'shorter', gap: 0, effort: 0.1, widths: [], leastLeftover };

/** What to buy of a material in one width of it. Lengths are of cloth as sold, before it shrinks, in millimetres. */
export interface WidthPlan {
  /** Selvedge to selvedge, or of a panel from side to side; undefined where only the usable width is known. */
  readonly nominal: Rational | undefined;
  readonly usable: Rational;
  readonly form: 'lengths' | 'panels' | 'sheets';
  /** The shortest so far: a length, or a number of panels; without the spare. */
  readonly shortest: Rational;
  /** What none can be under: a length, or a number of panels; without the spare. */
  readonly noneUnder: Rational;
  /** What squaring and fraying take of the length bought; none of panels. */
  readonly spare: Rational;
  /** What to ask the seller for: a length and its spare in whole steps, or a number of panels. */
  readonly buy: Rational;
  /** Whether even the best lay there can be would have to be bought the same; never where something is left out. */
  readonly certain: boolean;
  /** Undefined where no price is known, or something is left out. */
  readonly cost: Rational | undefined;
  readonly lays: readonly LaidQuestion[];
  /** For each of the lays, what is left of the cloth bought. */
  readonly leftovers: readonly (readonly Leftover[])[];
  /** Requirements that fit in no permitted way, and are not in the lays. */
  readonly unplaced: readonly number[];
}

/** What to buy of one material. */
export interface MaterialPlan {
  readonly need: MaterialNeed;
  /** The material's own width first; empty where no width is known. */
  readonly widths: readonly WidthPlan[];
  /** The cheapest of them where prices are known, else the material's own. */
  readonly best: WidthPlan | undefined;
  /** How far the search is, from 0 to 1. */
  readonly done: number;
}

/** The first plan, at once. */
export function firstPlan(need: MaterialNeed, options: BuyingOptions, cache?: LayCache): MaterialPlan {
  return planning(need, options, cache).next().value;
}

/** The best plan within the effort. `onBetter` is handed every better one on the way and may end the search with `true`. */
export function planMaterial(need: MaterialNeed, options: BuyingOptions, cache?: LayCache, onBetter?: (plan: MaterialPlan) => boolean | void): MaterialPlan {
  const search = planning(need, options, cache);
  for (;;) {
    const { done, value } = search.next();
    if (done || onBetter?.(value) === true) return value;
  }
}

/**
 * The same step by step: yields a first plan at once, and then at short intervals the best so far. The search ends where
 * every width's purchase is certain.
 */
export function* planning(need: MaterialNeed, options: BuyingOptions, cache?: LayCache): Generator<MaterialPlan, MaterialPlan> {
  const searches = clothsOf(need.material, options.widths).map((cloth) => (cloth.form === 'lengths' ? lengthSearch : panelSearch)(need, cloth, options, cache));
  let plans = searches.map((search) => search.next().value);
  yield whole(need, plans, options.effort === 0 ? 1 : 0);
  for (const [index, search] of searches.entries()) {
    for (let turn = search.next(); ; turn = search.next()) {
      if (turn.value !== plans[index]) plans = plans.map((plan, at) => (at === index ? turn.value : plan));
      if (turn.done) break;
      yield whole(need, plans, (index + 0.5) / searches.length);
    }
  }
  return whole(need, plans, 1);
}

function whole(need: MaterialNeed, widths: readonly WidthPlan[], done: number): MaterialPlan {
  const complete = widths.filter((plan) => plan.unplaced.length === 0);
  const priced = complete.filter((plan): plan is WidthPlan & { cost: Rational } => plan.cost !== undefined);
  const cheapest = priced.length === 0 ? undefined : priced.reduce((a, b) => (b.cost.compare(a.cost) < 0 ? b : a));
  const own = widths[0];
  return { need, widths, best: cheapest ?? (own !== undefined && own.unplaced.length > 0 ? complete[0] ?? own : own), done };
}

// ------------------------------------------------------------------------------------------------ cloth

/** Cloth as it is cut: what shrinks has shrunk. */
interface Cloth {
  readonly form: WidthPlan['form'];
  readonly nominal: Rational | undefined;
  readonly usable: Rational;
  /** Millimetres across, as cut. */
  readonly width: number;
  /** Millimetres along, as cut; of a panel. */
  readonly length: number;
  readonly step: Rational;
  readonly spare: Rational;
  readonly shrinkage: Rational;
  readonly price: Price | undefined;
}

/** What selvedges take where the material doesn't say: 2 in, as in the model. */
const selvedges = millimetresIn.in.mul(2);

function clothsOf(material: Material, others: readonly OtherWidth[]): readonly Cloth[] {
  const { purchase, shrinkage, price } = material;
  const usable = usableOf(material);
  if (purchase.form !== 'lengths') {
    const [across, along] = panelSides(purchase, material.width);
    return [{
      form: purchase.form, nominal: across, usable: across, price, step: one, spare: material.spare, shrinkage: zero,
      width: across.mul(one.sub(shrinkage.across)).valueOf(),
      length: along.mul(one.sub(shrinkage.along)).valueOf(),
    }];
  }
  const inLengths = (nominal: Rational | undefined, wide: Rational, paid: Price | undefined): Cloth => ({
    form: 'lengths', nominal, usable: wide, width: wide.mul(one.sub(shrinkage.across)).valueOf(), length: Infinity, step: purchase.step, spare: material.spare, shrinkage: shrinkage.along, price: paid,
  });
  const lost = material.width !== undefined && material.usable !== undefined ? material.width.sub(material.usable) : selvedges;
  return [
    ...(usable === undefined ? [] : [inLengths(material.width, usable, price)]),
    ...others
      .filter(({ nominal }) => nominal.compare(lost) > 0 && material.width?.equals(nominal) !== true)
      .map((other) => inLengths(other.nominal, other.nominal.sub(lost), other.price === undefined || price === undefined ? price : { ...price, amount: other.price })),
  ];
}

const usableOf = (material: Material): Rational | undefined => (usableWidth(material) === undefined ? undefined : material.usable);

// ------------------------------------------------------------------------------------------------ lengths

/** More placements than this are not planned at once: a batch is split into alike lays instead. */
const mostPlacements = 1500;

interface Spread {
  /** The lay that is repeated, and the one that is left over. */
  readonly parts: readonly { readonly question: LayQuestion; readonly times: number }[];
  readonly bound: number;
  readonly gap: number;
  readonly unplaced: readonly number[];
  /** How many times as long as laid the cloth is: twice where it is folded end to end. */
  readonly layers: 1 | 2;
}

/** Spreads on which effort is spent: those with the shortest first lays. */
const mostSearched = 3;

function* lengthSearch(need: MaterialNeed, cloth: Cloth, options: BuyingOptions, cache: LayCache | undefined): Generator<WidthPlan, WidthPlan> {
  const { tried, noneUnder } = firstTried(need, cloth, options, cache);
  const plan = (): WidthPlan => {
    const shortest = tried.reduce((a, b) => (lengthOf(b) < lengthOf(a) ? b : a));
    return lengthPlan(shortest, Math.min(noneUnder, lengthOf(shortest)), cloth, options);
  };
  let best = plan();
  yield best;
  if (options.effort === 0) return best;
  for (const one of [...tried].sort((a, b) => lengthOf(a) - lengthOf(b)).slice(0, mostSearched)) {
    for (const [part, { question }] of one.spread.parts.entries()) {
      // A spread that cannot be shorter than what there is already is not worth looking at.
      if (best.certain || buyOf(one.spread.bound, cloth).compare(best.buy) >= 0) continue;
      const withPart = (laidOut: LaidOut): Tried => ({ ...one, laid: one.laid.map((other, at) => (at === part ? laidOut : other)) });
      const enough = (laidOut: LaidOut): boolean => buyOf(lengthOf(withPart(laidOut)), cloth).equals(buyOf(noneUnder, cloth));
      for (const better of laying(question.problem, options.effort, cache, enough)) {
        if (better.lay.length < itemAt(one.laid, part).lay.length) {
          one.laid = withPart(better).laid;
          best = plan();
        }
        yield best;
      }
    }
  }
  return best;
}

/** A spread with the shortest lays so far of its parts. */
interface Tried {
  readonly spread: Spread;
  laid: readonly LaidOut[];
}

/**
 * What is tried, and what none of it can be under. Where the material asks for no fold, open cloth comes first: opened out, what
 * lies on cloth folded lengthwise lies on open cloth as well, though with no gap across the fold. So folding is not looked at
 * where an open lay is bought as short as any can be.
 */
function firstTried(need: MaterialNeed, cloth: Cloth, options: BuyingOptions, cache: LayCache | undefined): { readonly tried: readonly Tried[]; readonly noneUnder: number } {
  const { lay, gap } = options;
  const open = spreadOf(openQuestion(need, cloth.width, gap), gap, cache);
  const alone = lay === 'folded' || need.material.fold !== undefined || gap > 0 ? [] : firstLays([open], [], cache);
  if (alone.some((one) => isCertain(one, open.bound, cloth))) return { tried: alone, noneUnder: open.bound };
  const { spreads, noneUnder } = spreadsOf(need, cloth, options, open, cache);
  return { tried: firstLays(spreads, alone, cache), noneUnder };
}

/** First lays of the spreads, but for those that can't be shorter than one laid already; those that are known are not laid again. */
function firstLays(spreads: readonly Spread[], known: readonly Tried[], cache: LayCache | undefined): readonly Tried[] {
  const tried = [...known];
  for (const spread of spreads) {
    if (tried.some((other) => other.spread === spread || lengthOf(other) <= spread.bound)) continue;
    tried.push({ spread, laid: spread.parts.map(({ question }) => layOut(question.problem, 0, cache)) });
  }
  return tried;
}

function spreadsOf(need: MaterialNeed, cloth: Cloth, { lay, gap }: BuyingOptions, open: Spread, cache: LayCache | undefined): { readonly spreads: readonly Spread[]; readonly noneUnder: number } {
  if (lay === 'open') return { spreads: [open], noneUnder: open.bound };
  const { questions, noneUnder } = foldedAsAsked(need, cloth, gap, cache);
  const folded = questions.map((question) => spreadOf(question, gap, cache));
  if (lay === 'folded') return { spreads: folded, noneUnder };
  // A manner that leaves more pieces out than the other is no answer to it.
  const more = itemAt(questions, 0).unplaced.length - open.unplaced.length;
  if (more > 0) return { spreads: [open], noneUnder: open.bound };
  return more < 0 || need.material.fold !== undefined ? { spreads: folded, noneUnder } : { spreads: [open, ...folded], noneUnder: Math.min(open.bound, noneUnder) };
}

/** The fold that the material asks for, else selvedge to selvedge. */
function foldedAsAsked(need: MaterialNeed, { width }: Cloth, gap: number, cache: LayCache | undefined): FoldedQuestions {
  const { fold } = need.material;
  if (fold === undefined || fold.way === 'lengthwise') return foldedQuestions(need, width, gap, cache);
  // Opened out, every folded lay is an open one as long, though pieces on either side of the fold keep no gap there.
  const opened = boundOf(openQuestion(need, width + edgeSlack, 0).problem, cache);
  if (fold.way === 'partial') return { questions: partialQuestions(need, width, fold.depth.valueOf(), gap), noneUnder: opened };
  const { questions, noneUnder } = foldedQuestions(need, width, gap, cache, 'crosswise');
  return { questions, noneUnder: Math.max(layersAlong('crosswise') * noneUnder, opened) };
}

function spreadOf(question: LayQuestion, gap: number, cache: LayCache | undefined): Spread {
  const layers = layersAlong(question.manner);
  return { parts: partsOf(question), bound: layers * boundOf(question.problem, cache), unplaced: question.unplaced, gap, layers };
}

/** The question itself where it is small enough, else lays of alike content and what is left over after them. */
function partsOf(question: LayQuestion): Spread['parts'] {
  const counts = question.problem.pieces.map((piece) => piece.count);
  const placements = counts.reduce((sum, count) => sum + totalOf(count), 0);
  const lays = Math.ceil(placements / mostPlacements);
  if (lays <= 1) return [{ question, times: 1 }];
  const each = counts.map((count) => mapped(count, (some) => Math.floor(some / lays)));
  if (each.every((count) => totalOf(count) === 0)) {
    // Very many kinds, few of each: half the kinds at a time.
    const half = (first: boolean): HandCount[] => counts.map((count, index) => (index < counts.length / 2 === first ? count : none));
    return [...partsOf(withCounts(question, half(true))), ...partsOf(withCounts(question, half(false)))];
  }
  const rest = counts.map((count) => mapped(count, (some) => some % lays));
  const parts = [{ question: withCounts(question, each), times: lays }];
  return rest.every((count) => totalOf(count) === 0) ? parts : [...parts, ...partsOf(withCounts(question, rest))];
}

const mapped = ({ asDrawn, mirrored, either }: HandCount, change: (count: number) => number): HandCount => ({
  asDrawn: change(asDrawn), mirrored: change(mirrored), either: change(either),
});

function lengthOf({ spread, laid }: Tried): number {
  const lays = spread.parts.reduce((sum, { times }) => sum + times, 0);
  return spread.layers * spread.parts.reduce((sum, { times }, index) => sum + times * itemAt(laid, index).lay.length, 0) + Math.max(0, lays - 1) * spread.gap;
}

/** What must be bought for a length of cloth as it is cut: the spare is squared off and frays before it is cut. */
const buyOf = (length: number, { step, spare, shrinkage }: Cloth): Rational =>
  length <= 0 ? zero : roundedUpTo(step, beforeShrinking(micrometresUp(length), shrinkage).add(spare));

/** Whether all is laid, and would have to be bought as long whatever the lay. */
const isCertain = (one: Tried, noneUnder: number, cloth: Cloth): boolean =>
  one.spread.unplaced.length === 0 && buyOf(lengthOf(one), cloth).equals(buyOf(Math.min(noneUnder, lengthOf(one)), cloth));

function lengthPlan(tried: Tried, noneUnder: number, cloth: Cloth, options: BuyingOptions): WidthPlan {
  const { spread, laid } = tried;
  const length = lengthOf(tried);
  const buy = buyOf(length, cloth);
  const left = Math.max(0, buy.sub(cloth.spare).mul(one.sub(cloth.shrinkage)).valueOf() - length);
  const lays = spread.parts.map(({ question, times }, index): LaidQuestion => {
    const { lay } = itemAt(laid, index);
    // What is left of the cloth bought lies at the end of the last lay.
    const isLast = index === spread.parts.length - 1 && times === 1;
    return { ...question, lay, times, cloth: { width: question.problem.width, length: lay.length + (isLast ? left / spread.layers : 0) } };
  });
  return {
    nominal: cloth.nominal,
    usable: cloth.usable,
    form: 'lengths',
    spare: cloth.spare,
    shortest: beforeShrinking(micrometresUp(length), cloth.shrinkage),
    noneUnder: beforeShrinking(micrometresDown(noneUnder), cloth.shrinkage),
    buy,
    certain: isCertain(tried, noneUnder, cloth),
    cost: spread.unplaced.length === 0 ? costOfLength(cloth.price, buy) : undefined,
    lays,
    leftovers: lays.map((laid) => leftoversOf(laid, options.leastLeftover)),
    unplaced: spread.unplaced,
  };
}

// ------------------------------------------------------------------------------------------------ panels

/** Share of the effort that each of the many attempts at filling a panel gets. */
const attemptShare = 1 / 50;

function* panelSearch(need: MaterialNeed, cloth: Cloth, options: BuyingOptions, cache: LayCache = new KeptLays()): Generator<WidthPlan, WidthPlan> {
  // What is tried for one panel is tried for the next.
  const question = openQuestion(need, cloth.width, options.gap, cloth.length);
  const least = panelBound(question.problem, cloth.length);
  const plan = (effort: number): WidthPlan => {
    const { panels, unplaced } = fillPanels(question, cloth.length, effort, cache);
    const count = panels.reduce((sum, { times }) => sum + times, 0);
    const leftOut = [...question.unplaced, ...unplaced];
    return {
      nominal: cloth.nominal, usable: cloth.usable, form: cloth.form, spare: cloth.spare,
      shortest: rational(count), noneUnder: rational(Math.min(least, count)), buy: rational(count),
      certain: leftOut.length === 0 && count <= least,
      cost: leftOut.length === 0 ? costOfCount(cloth.price, count) : undefined,
      lays: panels,
      leftovers: panels.map((laid) => leftoversOf(laid, options.leastLeftover)),
      unplaced: leftOut,
    };
  };
  const first = plan(0);
  yield first;
  if (first.certain || options.effort === 0) return first;
  const better = plan(options.effort * attemptShare);
  return better.buy.compare(first.buy) < 0 && better.unplaced.length <= first.unplaced.length ? better : first;
}

