import type { BuyingList } from '../buying/list.ts';
import { isSingle, type LaidQuestion } from '../buying/lays.ts';
import type { MaterialPlan, WidthPlan } from '../buying/plan.ts';
import { turned } from '../lay/bounds/outline.ts';
import type { LayPoint, Placement } from '../lay/problem.ts';
import { itemAt } from '../geometry/lists.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Display } from '../units/length.ts';
import { buyingRows, type BuyingRow } from '../table/buying-rows.ts';
import { bordersOf } from '../table/lay-borders.ts';
import { leftoverText, laidText, lengthText, planSentence, planWidth, unplacedText } from '../table/buying-text.ts';
import type { DrawnLay, MaterialLays, PlacedPiece, PreviewPurchase, WidthLays } from './lays-data.ts';
import { polylinePath } from '../formats/svg-path.ts';
import { isHanded, keyOf, layTitle, roomiest } from '../formats/lay-svg.ts';

/** The lays of one material as the preview draws them. */
export function materialLays(plan: MaterialPlan, state: MaterialLays['state'], display: Display, keys: ReadonlyMap<CutLine, string>): MaterialLays {
  const { name, title } = plan.need.material;
  return { name, title, state, widths: plan.widths.map((width, index) => widthLays(plan, width, index, display, keys)) };
}

/** The first width is the material’s own; others are told apart by their size. */
function widthKey(name: string, { nominal, usable }: WidthPlan, index: number): string {
  return index === 0 ? name : `${name} ${(nominal ?? usable).toFraction()}`;
}

function widthLays(plan: MaterialPlan, width: WidthPlan, index: number, display: Display, keys: ReadonlyMap<CutLine, string>): WidthLays {
  const key = widthKey(plan.need.material.name, width, index);
  return {
    key,
    width: planWidth(width, plan.need.material, display),
    sentence: planSentence(width, plan.need.material, display),
    leftOut: unplacedText(plan, width),
    lays: width.lays.map((found, at) => drawnLay(plan, width, found, at, key, display, keys)),
    pieces: keyOf(width, plan.need.requirements),
  };
}

function drawnLay(plan: MaterialPlan, width: WidthPlan, found: LaidQuestion, index: number, key: string, display: Display, keys: ReadonlyMap<CutLine, string>): DrawnLay {
  const title = layTitle(found, index, width, plan.need.material, display);
  const { near, far, farWords, isFoldedAcross, foldedIn } = bordersOf(found, width);
  const text = `${laidText(found.lay.length, display)} laid`;
  const leftovers = (width.leftovers[index] ?? []).map((leftover) => ({ x: leftover.x, y: leftover.y, length: leftover.length, width: leftover.width, text: leftoverText(leftover, display) }));
  const { placements } = found.lay;
  return {
    key: `${key} ${index}`,
    title,
    description: [
      `${plan.need.material.title}, ${title}`,
      `${lengthText(found.cloth.length, display)} long, ${lengthText(found.cloth.width, display)} across as laid`,
      `${placements.length} ${placements.length === 1 ? 'piece' : 'pieces'}, ${text}`,
      leftovers.length === 0 ? 'nothing of size left over' : `left over ${leftovers.map((one) => one.text).join(', ')}`,
    ].join('; '),
    cloth: found.cloth,
    laid: { length: found.lay.length, text },
    near,
    far,
    isFoldedAcross,
    farWords,
    foldedIn: foldedIn ?? null,
    pieces: placements.map((placement) => placedPiece(plan, found, placement, display, keys)),
    leftovers,
  };
}

function placedPiece({ need }: MaterialPlan, found: LaidQuestion, placement: Placement, display: Display, keys: ReadonlyMap<CutLine, string>): PlacedPiece {
  const piece = itemAt(found.problem.pieces, placement.piece);
  const number = itemAt(found.requirementOf, placement.piece);
  const requirement = itemAt(need.requirements, number);
  const placed = (points: readonly LayPoint[]): readonly LayPoint[] =>
    turned(points, placement.mirrored, placement.turn).map(({ x, y }) => ({ x: x + placement.x, y: y + placement.y }));
  const ring = placed(piece.outline);
  const box = boundsOfPoints(ring);
  const isFlipped = placement.mirrored && isSingle(found, placement.piece) && isHanded(requirement);
  const { direction } = need.material;
  return {
    cut: keys.get(requirement.line) ?? '',
    piece: requirement.line.piece.name,
    title: requirement.title,
    number: number + 1,
    note: piece.onFold ? 'on fold' : isFlipped ? 'flipped' : '',
    at: `at ${lengthText(Math.max(0, box.minX), display)} along and ${lengthText(Math.max(0, box.minY), display)} across`,
    path: [ring, ...(piece.onFold ? [] : requirement.holes.map(placed))].map((points) => polylinePath(points, true)).join(''),
    grain: direction === 'any' ? null : direction,
    room: roomiest(ring),
  };
}

// ------------------------------------------------------------------------------------------------ buying

/** The buying list as rows: every material in every width that it was planned in, supplies, and the sum. */
export function purchasesOf(list: BuyingList, display: Display, currency: string | undefined): readonly PreviewPurchase[] {
  const materials = list.materials.flatMap((plan): readonly PreviewPurchase[] => {
    const { name } = plan.need.material;
    const row = (best: WidthPlan | undefined): BuyingRow | undefined =>
      buyingRows({ ...list, materials: [{ ...plan, best }], supplies: [], cost: undefined }, display, currency)[0];
    const widths = plan.widths.length === 0 ? [undefined] : plan.widths;
    return widths.flatMap((width, index) => {
      const found = row(width);
      const isCheapest = width !== undefined && costsLeast(plan, width);
      return found === undefined ? [] : [purchase(found, 'material', name, width === undefined ? name : widthKey(name, width, index), isCheapest)];
    });
  });
  const others = buyingRows(list, display, currency).slice(list.materials.length).map((row, index) => {
    const kind = index < list.supplies.length ? 'supply' : 'all';
    return purchase(row, kind, row.item, row.item, false);
  });
  return [...materials, ...others];
}

/** Whether no other width costs less and some other more; those that cannot hold every piece don’t count. */
function costsLeast({ widths }: MaterialPlan, { cost, unplaced }: WidthPlan): boolean {
  if (cost === undefined || unplaced.length > 0) return false;
  const others = widths.filter((other) => other.unplaced.length === 0).flatMap((other) => (other.cost === undefined ? [] : [other.cost.compare(cost)]));
  return others.every((order) => order >= 0) && others.some((order) => order > 0);
}

function purchase({ place: _, ...row }: BuyingRow, kind: PreviewPurchase['kind'], name: string, key: string, isCheapest: boolean): PreviewPurchase {
  return { ...row, key: `${kind} ${key}`, kind, name, isCheapest };
}
