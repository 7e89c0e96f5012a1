import type { BuyingList } from '../buying/list.ts';
import type { Manner } from '../buying/lays.ts';
import type { MaterialPlan, WidthPlan } from '../buying/plan.ts';
import { moneyText } from '../buying/purchase.ts';
import type { Display } from '../units/length.ts';
import { rational } from '../units/rational.ts';
import { buyingRows, type BuyingRow } from '../table/buying-rows.ts';
import { leftoverText, planSentence, planTexts, planWidth, unplacedText, type PlanTexts } from '../table/buying-text.ts';

/** What to buy as plain data: words as people read them, and lays in millimetres for whoever draws them. */
export interface BuyingData {
  readonly articles: number;
  readonly rows: readonly Omit<BuyingRow, 'place' | 'soldBy' | 'leftovers'>[];
  readonly materials: readonly MaterialData[];
}

export interface MaterialData {
  readonly name: string;
  readonly title: string;
  /** Index into `widths`; -1 where nothing could be planned. */
  readonly best: number;
  readonly widths: readonly WidthData[];
}

export interface WidthData extends PlanTexts {
  readonly width: string;
  readonly certain: boolean;
  /** Empty where no price is known. */
  readonly cost: string;
  readonly sentence: string;
  readonly leftOut: string;
  readonly lays: readonly LayData[];
}

export interface LayData {
  readonly manner: Manner;
  /** How far cloth that is folded in part lies double, from the fold; undefined of all else. */
  readonly doubleTo: number | undefined;
  readonly times: number;
  /** Millimetres of cloth as it is cut: across as laid, along, and what of that the pieces take. */
  readonly width: number;
  readonly length: number;
  readonly laid: number;
  readonly gap: number;
  readonly pieces: readonly { readonly title: string; readonly outline: readonly (readonly [number, number])[]; readonly onFold: boolean }[];
  /** Mirrored (y to -y), then turned by degrees counter-clockwise, then moved; x runs along the cloth. */
  readonly placements: readonly { readonly piece: number; readonly mirrored: boolean; readonly turn: number; readonly x: number; readonly y: number }[];
  readonly leftovers: readonly { readonly x: number; readonly y: number; readonly length: number; readonly width: number; readonly words: string }[];
}

export function buyingData(list: BuyingList, display: Display, currency: string | undefined): BuyingData {
  return {
    articles: list.articles,
    rows: buyingRows(list, display, currency).map(({ place: _, soldBy: _step, leftovers, ...row }) => ({ ...row, notes: [...row.notes, ...leftovers] })),
    materials: list.materials.map((plan) => materialData(plan, display, currency)),
  };
}

export function materialData(plan: MaterialPlan, display: Display, currency: string | undefined): MaterialData {
  const { material } = plan.need;
  return {
    name: material.name,
    title: material.title,
    best: plan.best === undefined ? -1 : plan.widths.indexOf(plan.best),
    widths: plan.widths.map((width) => ({
      ...planTexts(width, material, display),
      width: planWidth(width, material, display),
      certain: width.certain,
      cost: width.cost === undefined ? '' : moneyText(width.cost, currency),
      sentence: planSentence(width, material, display),
      leftOut: unplacedText(plan, width),
      lays: laysOf(width, display),
    })),
  };
}

function laysOf(plan: WidthPlan, display: Display): readonly LayData[] {
  return plan.lays.map((found, index) => ({
    manner: found.manner,
    doubleTo: found.problem.doubleTo === undefined ? undefined : micro(found.problem.doubleTo),
    times: found.times,
    width: micro(found.cloth.width),
    length: micro(found.cloth.length),
    laid: micro(found.lay.length),
    gap: found.problem.gap,
    pieces: found.problem.pieces.map((piece) => ({ title: piece.id, outline: piece.outline.map((point) => [micro(point.x), micro(point.y)] as const), onFold: piece.onFold })),
    placements: found.lay.placements.map((placement) => ({ ...placement, x: micro(placement.x), y: micro(placement.y) })),
    leftovers: (plan.leftovers[index] ?? []).map((leftover) => ({
      x: micro(leftover.x), y: micro(leftover.y), length: micro(leftover.length), width: micro(leftover.width), words: leftoverText(leftover, display),
    })),
  }));
}

const micro = (millimetres: number): number => rational(Math.round(millimetres * 1000), 1000).valueOf();
