import { isSingle, type LaidQuestion } from '../../buying/lays.ts';
import type { MaterialPlan, WidthPlan } from '../../buying/plan.ts';
import type { MaterialNeed } from '../../buying/requirements.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import { turned } from '../../lay/bounds/outline.ts';
import type { Display } from '../../units/length.ts';
import { bordersOf } from '../../table/lay-borders.ts';
import { laidText, lengthText, spreadText } from '../../table/buying-text.ts';
import { cutTo, settable, widthOf } from '../letters/letters.ts';
import { boxSteps, segmentOf } from '../path.ts';
import { pens, type Pen } from '../pens.ts';
import { groupItem, textItem, type Box, type Item } from '../sheet.ts';
import type { Look } from './hatch.ts';
import { filledShape } from './piece-picture.ts';

export interface Picture {
  /** What it shows, in words. */
  readonly words: string;
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

const tallest = 62;
const largestScale = 0.3;
const size = 2.6;

/**
 * One lay drawn as large as fits: the length of the cloth runs to the right with the fold or near selvedge below, or where
 * that is larger, downwards with it on the left.
 */
export function layPicture(plan: WidthPlan, { need }: MaterialPlan, found: LaidQuestion, numbers: ReadonlyMap<string, number>, look: Look, width: number, display: Display): Picture {
  const { cloth, lay } = found;
  const length = Math.max(1, lay.length, Number.isFinite(cloth.length) ? cloth.length : 0);
  const [level, upright] = [Math.min(width / length, tallest / cloth.width), Math.min(width / cloth.width, tallest / length, largestScale)];
  const isUpright = upright > level;
  const scale = Math.max(level, upright);
  const [wide, high] = isUpright ? [cloth.width * scale, length * scale] : [length * scale, cloth.width * scale];
  const top = 9;
  const at = ({ x, y }: Point): Point => (isUpright ? { x: y * scale, y: top + x * scale } : { x: x * scale, y: top + high - y * scale });
  const title = cutTo(settable(titleOf(plan, need, found, isUpright, display)), width, 3, 'bold');
  const items: Item[] = [
    textItem(title, { x: 0, y: 3.2 }, { size: 3, weight: 'bold', tag: 'Caption', role: 'picture' }),
    ...edgeTexts(plan, found, isUpright, { x: 0, y: top, width: wide, height: high }),
    { kind: 'line', role: 'picture', name: 'cloth', path: boxSteps({ x: 0, y: top, width: wide, height: high }), pen: { width: 0.25, dashes: [], tone: 0 } },
  ];
  const { near, isFoldedAcross, foldedIn } = bordersOf(found, plan);
  const along = (y: number, pen: Pen, name: string): Item => ({ kind: 'line', role: 'picture', name, path: segmentOf(at({ x: 0, y }), at({ x: length, y })), pen });
  const lines: Item[] = [];
  if (near === 'fold') lines.push(along(0, pens.fold, 'fold'));
  if (isFoldedAcross) lines.push({ kind: 'line', role: 'picture', name: 'fold', path: segmentOf(at({ x: 0, y: 0 }), at({ x: 0, y: cloth.width })), pen: pens.fold });
  if (foldedIn !== undefined) lines.push(along(foldedIn, { width: 0.25, dashes: [2, 1], tone: 0 }, 'selvedge'));
  return { words: wordsOf(titleOf(plan, need, found, isUpright, display), need, found), width: Math.max(wide, widthOf(title, 3, 'bold')), height: top + high + 6, items: [...items, ...pieceItems(need, found, numbers, look, at), ...lines] };
}

function titleOf({ form }: WidthPlan, { material }: MaterialNeed, found: LaidQuestion, isUpright: boolean, display: Display): string {
  const name = form === 'lengths' ? spreadText(found, display) : form === 'panels' ? 'panel' : 'sheet';
  const times = found.times > 1 ? `, ${found.times} alike` : '';
  const across = found.manner === 'open' ? 'across' : 'across as folded';
  return `${material.title}: ${name}${times}, ${laidText(found.lay.length, display)} laid, ${lengthText(found.cloth.width, display)} ${across}${material.direction === 'one way' ? `, top of the print ${isUpright ? 'below' : 'to the right'}` : ''}`;
}

/** Pieces named in the words of one lay; whoever wants all reads the cutting table. */
const mostNamed = 20;

/** What lies on it, in the order of its pieces. */
function wordsOf(title: string, { requirements }: MaterialNeed, { lay, requirementOf }: LaidQuestion): string {
  const counts = new Map<string, number>();
  for (const of of lay.placements.map(({ piece }) => requirementOf[piece] ?? -1).sort((a, b) => a - b)) {
    const name = requirements[of]?.title;
    if (name !== undefined) counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  const all = [...counts].map(([name, count]) => `${name} ${count} ×`);
  return `${title}. On it lie: ${all.slice(0, mostNamed).join(', ')}${all.length > mostNamed ? ` and ${all.length - mostNamed} more` : ''}.`;
}

/** What the cloth's edges are: the far one, and the one that lies below or on the left. */
function edgeTexts(plan: WidthPlan, found: LaidQuestion, isUpright: boolean, { x, y, width, height }: Box): readonly Item[] {
  const { near: beside, farWords } = bordersOf(found, plan);
  const [far, near] = plan.form !== 'lengths' ? ['', ''] : [farWords, beside];
  const look = { size: 2.2, tone: 0.3, role: 'picture' } as const;
  if (isUpright) return [textItem(near, { x, y: y - 1 }, look), textItem(far, { x: width, y: y - 1 }, { ...look, align: 'end' })];
  return [textItem(far, { x, y: y - 1 }, look), textItem(near, { x, y: y + height + 2.8 }, look)];
}

/** @param at where a point of the cloth is drawn */
function pieceItems({ requirements }: MaterialNeed, found: LaidQuestion, numbers: ReadonlyMap<string, number>, look: Look, at: (point: Point) => Point): readonly Item[] {
  return found.lay.placements.flatMap(({ piece: index, mirrored, turn, x, y }) => {
    const piece = found.problem.pieces[index];
    const requirement = requirements[found.requirementOf[index] ?? -1];
    if (piece === undefined || requirement === undefined) return [];
    const ring: Polygon = turned(piece.outline, mirrored, turn).map((point) => at({ x: point.x + x, y: point.y + y }));
    const flipped = mirrored && isSingle(found, index) && requirement.line.wayUp !== 'either';
    return [groupItem(requirement.title, filledShape([ring], look, `${numbers.get(requirement.line.piece.name) ?? ''}${flipped ? ' F' : ''}`, size, false), { x: 0, y: 0 })];
  });
}
