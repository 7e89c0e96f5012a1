import { isSingle, type LaidQuestion } from '../buying/lays.ts';
import type { MaterialPlan, WidthPlan } from '../buying/plan.ts';
import type { Requirement } from '../buying/requirements.ts';
import { distancePointToBoundary } from '../geometry/distance.ts';
import { pointInside } from '../geometry/inside.ts';
import { itemAt, sides } from '../geometry/lists.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { turned } from '../lay/bounds/outline.ts';
import type { LayPoint, Placement } from '../lay/problem.ts';
import type { Material } from '../model/stock/material.ts';
import type { Display } from '../units/length.ts';
import { bordersOf, type Border, type LayBorders } from '../table/lay-borders.ts';
import { alongText } from '../table/names.ts';
import { leftoverText, laidText, planSentence, planWidth, spreadText, unplacedText } from '../table/buying-text.ts';
import { escapeMarkup } from './escape.ts';

export interface LaySheetTexts {
  /** Title of the pattern, and what was chosen. */
  readonly heading: string;
  /** Lines under the drawing, such as cautions and the revision. */
  readonly footer: readonly string[];
}

/** Sizes of the sheet's own parts, in pixels. */
const margin = 28;
const textSize = 12;
const lineHeight = 17;
const narrowestSheet = 760;

/** How high and how long a lay is drawn. */
interface DrawnSize {
  readonly shortest: number;
  readonly tallest: number;
  readonly long: number;
}
const large: DrawnSize = { shortest: 190, tallest: 430, long: 1250 };
const small = { shortest: 70, tallest: 130, long: 560, narrowest: 400 };

/**
 * The lays of one material in one width as a standalone SVG drawing, not to scale but with a scale bar: the length of the
 * cloth runs to the right. Nothing in it is told by colour alone. It has no style sheet, no script and no link, and
 * everything in it that comes from a spec is escaped.
 */
export function laySheet({ need }: MaterialPlan, plan: WidthPlan, display: Display, { heading, footer }: LaySheetTexts): string {
  const scale = scaleFor(plan.lays, large);
  const body = plan.lays.map((found, index) => drawLay(found, index, plan, need, display, scale));
  const width = Math.max(narrowestSheet, ...body.map((one) => one.width)) + 2 * margin;
  const columns = Math.floor((width - 2 * margin) / (textSize * 0.52));
  const { material } = need;
  const unplaced = unplacedText({ need, widths: [], best: undefined, done: 1 }, plan);
  const head = [
    `${material.title}, ${planWidth(plan, material, display)}`,
    `${need.articles === 1 ? 'For one article' : `For ${need.articles} articles`}: ${planSentence(plan, material, display)}`,
    ...(unplaced === '' ? [] : [`Attention: ${unplaced}.`]),
  ].flatMap((line) => wrapped(line, columns));
  const key = [...printLines(need), ...keyOf(plan, need.requirements), ...leftoverLines(plan, display)].flatMap((line) => wrapped(line, columns));
  const foot = footer.flatMap((line) => wrapped(line, columns));

  const parts: string[] = [];
  let y = margin + 16;
  parts.push(`<text x="${margin}" y="${y}" font-size="17" font-weight="bold">${escapeMarkup(heading)}</text>`);
  y += 8;
  for (const line of head) parts.push(text(margin, (y += lineHeight), line));
  for (const one of body) {
    y += 14;
    parts.push(`<g transform="translate(${margin} ${round(y)})">${one.markup}</g>`);
    y += one.height;
  }
  y += 18;
  parts.push(scaleBar(margin, y, scale, display));
  y += 16;
  for (const line of [...key, '', ...foot]) parts.push(text(margin, (y += lineHeight), line));
  const height = round(y + margin);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}" height="${height}" viewBox="0 0 ${round(width)} ${height}" role="img">`,
    `<title>${escapeMarkup(`${heading}: ${head.join('; ')}`)}</title>`,
    `<rect width="100%" height="100%" fill="#ffffff"/>`,
    `<g font-family="sans-serif" font-size="${textSize}" fill="#000000">`,
    ...parts.filter((part) => part !== ''),
    `</g>`,
    `</svg>`,
    '',
  ].join('\n');
}

/** A small drawing of the lays for a page that says the rest in its own text, and the lines that say it. */
export function layPicture({ need }: MaterialPlan, plan: WidthPlan, display: Display): { readonly svg: string; readonly lines: readonly string[] } {
  const scale = scaleFor(plan.lays, small);
  const body = plan.lays.map((found, index) => drawLay(found, index, plan, need, display, scale));
  const width = round(Math.max(small.narrowest, ...body.map((one) => one.width)) + 2);
  const parts: string[] = [];
  let y = 0;
  for (const one of body) {
    parts.push(`<g transform="translate(1 ${round(y)})">${one.markup}</g>`);
    y += one.height + 6;
  }
  parts.push(scaleBar(1, y + 4, scale, display));
  const height = round(y + 12);
  const title = `${need.material.title}, ${planWidth(plan, need.material, display)}`;
  return {
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeMarkup(title)}">\n<g font-family="sans-serif" font-size="${textSize}" fill="#000000">\n${parts.join('\n')}\n</g>\n</svg>`,
    lines: [title, ...printLines(need), ...keyOf(plan, need.requirements), ...leftoverLines(plan, display)],
  };
}

/** Pixels for a millimetre: long lays get as much room as their width needs to be read. */
function scaleFor(lays: readonly LaidQuestion[], { shortest, tallest, long }: DrawnSize): number {
  const longest = Math.max(1, ...lays.map((found) => found.cloth.length));
  const widest = Math.max(1, ...lays.map((found) => found.cloth.width));
  return Math.max(shortest / widest, Math.min(tallest / widest, long / longest));
}

const round = (value: number): number => Math.round(value * 100) / 100 || 0;

const text = (x: number, y: number, words: string, more = ''): string =>
  words === '' ? '' : `<text x="${round(x)}" y="${round(y)}"${more}>${escapeMarkup(words)}</text>`;

/** A line broken between words so that none is much longer than `columns`. */
function wrapped(line: string, columns: number): readonly string[] {
  const lines: string[] = [];
  for (const word of line.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= columns) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

// ------------------------------------------------------------------------------------------------ one lay

interface Drawn {
  readonly markup: string;
  readonly width: number;
  readonly height: number;
}

function drawLay(found: LaidQuestion, index: number, plan: WidthPlan, need: MaterialPlan['need'], display: Display, scale: number): Drawn {
  const { cloth, lay } = found;
  const [long, across] = [cloth.length * scale, cloth.width * scale];
  // Selvedges need room for their name.
  const top = plan.form === 'lengths' ? 36 : 20;
  const borders = bordersOf(found, plan);
  // The fold, or the near selvedge, lies at the bottom of the drawing.
  const at = (point: LayPoint): LayPoint => ({ x: point.x * scale, y: top + across - point.y * scale });
  const parts = [text(0, 12, layTitle(found, index, plan, need.material, display), ' font-weight="bold"')];
  if (plan.form === 'lengths') {
    parts.push(text(0, top - 5, borders.farWords, ' font-size="10"'), text(0, top + across + 13, borders.near, ' font-size="10"'));
  }
  parts.push(`<rect x="0" y="${top}" width="${round(long)}" height="${round(across)}" fill="#ffffff" stroke="#000000" stroke-width="0.75"/>`);
  for (const leftover of plan.leftovers[index] ?? []) {
    const corner = at({ x: leftover.x, y: leftover.y + leftover.width });
    const [w, h] = [leftover.length * scale, leftover.width * scale];
    parts.push(`<rect x="${round(corner.x + 2)}" y="${round(corner.y + 2)}" width="${round(w - 4)}" height="${round(h - 4)}" fill="none" stroke="#555555" stroke-width="0.9" stroke-dasharray="2 3"/>`);
    parts.push(labelIn(corner.x + w / 2, corner.y + h / 2, w - 8, h - 8, [`left over ${leftoverText(leftover, display)}`, leftoverText(leftover, display)], ' fill="#333333" font-size="11"', 11));
  }
  for (const placement of lay.placements) parts.push(drawPiece(found, placement, need, at, scale));
  parts.push(edgeLines(borders, long, top, across, scale));
  const end = at({ x: lay.length, y: 0 });
  if (plan.form === 'lengths') {
    if (cloth.length - lay.length > 0.5) parts.push(`<path d="M${round(end.x)} ${round(top)}V${round(top + across)}" stroke="#000000" stroke-width="1" stroke-dasharray="7 4"/>`);
    parts.push(text(Math.max(lay.length * scale, 130), top + across + 13, `${laidText(lay.length, display)} laid`, ' font-size="10" text-anchor="end"'));
  }
  return { markup: parts.filter((part) => part !== '').join('\n'), width: long, height: top + across + 18 };
}

export function layTitle(found: LaidQuestion, index: number, plan: WidthPlan, material: Material, display: Display): string {
  const times = found.times === 1 ? '' : `, ${found.times} alike`;
  const name = plan.form === 'lengths' ? 'Lay' : plan.form === 'panels' ? 'Panel' : 'Sheet';
  const numbered = plan.form !== 'lengths' || plan.lays.length > 1 || found.times > 1 ? `${name} ${index + 1}${times}` : name;
  return [...(plan.form === 'lengths' ? [`${numbered}: ${spreadText(found, display)}`] : [numbered]), ...faceWords(found, material)].join(', ');
}

/** Which face the lay is seen on, where that makes a difference. */
function faceWords({ manner }: LaidQuestion, { faces }: Material): readonly string[] {
  if (faces === 'alike') return [];
  if (faces === 'glued') return [manner === 'open' ? 'seen on the glued side' : 'glued sides together'];
  return [manner === 'open' ? 'seen on the right side' : 'right sides together'];
}

/** Selvedges are drawn double, a fold with a dash and a dot, and a selvedge that is folded in as dashes on the cloth. */
function edgeLines({ near, far, isFoldedAcross, foldedIn }: LayBorders, long: number, top: number, across: number, scale: number): string {
  const bottom = top + across;
  const line = (y: number, more: string): string => `<path d="M0 ${round(y)}H${round(long)}" stroke="#000000" fill="none" ${more}/>`;
  const side = (border: Border, y: number, out: number): string =>
    border === 'edge' ? '' : border === 'fold' ? line(y, foldLine) : line(y, 'stroke-width="1.6"') + line(y + 3 * out, 'stroke-width="0.7"');
  const inner = foldedIn === undefined ? '' : line(bottom - foldedIn * scale, 'stroke-width="1.2" stroke-dasharray="9 5"');
  return side(far, top, -1) + side(near, bottom, 1) + inner + (isFoldedAcross ? `<path d="M0 ${round(top)}V${round(bottom)}" stroke="#000000" fill="none" ${foldLine}/>` : '');
}

const foldLine = 'stroke-width="3" stroke-dasharray="14 3 3 3"';

function drawPiece(found: LaidQuestion, placement: Placement, need: MaterialPlan['need'], at: (point: LayPoint) => LayPoint, scale: number): string {
  const piece = itemAt(found.problem.pieces, placement.piece);
  const number = itemAt(found.requirementOf, placement.piece);
  const requirement = itemAt(need.requirements, number);
  const placed = (points: readonly LayPoint[]): readonly LayPoint[] =>
    turned(points, placement.mirrored, placement.turn).map((point) => at({ x: point.x + placement.x, y: point.y + placement.y }));
  const ring = placed(piece.outline);
  const parts = [`<path d="${pathOf(ring)}" fill="#f0f0f0" stroke="#000000" stroke-width="1.1" stroke-linejoin="round"/>`];
  if (!piece.onFold) for (const hole of requirement.holes) parts.push(`<path d="${pathOf(placed(hole))}" fill="#ffffff" stroke="#000000" stroke-width="0.8" stroke-dasharray="4 2"/>`);
  const flipped = placement.mirrored && isSingle(found, placement.piece) && isHanded(requirement);
  const notes = `${piece.onFold ? ', on fold' : ''}${flipped ? ', flipped' : ''}`;
  const short = `${number + 1}${flipped ? ' F' : ''}`;
  const room = roomiest(ring);
  parts.push(labelIn(room.x, room.y, room.across, room.high, [`${number + 1} ${requirement.title}${notes}`, `${number + 1}${notes.replace(',', '')}`, short], ' fill="#000000"', textSize) || smallLabel(room, short));
  if (need.material.direction !== 'any') parts.push(grainArrow(room, need.material.direction === 'one way', scale));
  const words = `${requirement.title}${notes}`;
  return `<g><title>${escapeMarkup(words)}</title>${parts.filter((part) => part !== '').join('')}</g>`;
}

/** No piece goes without its number: where there is no room for it, it lies over the border. */
const smallLabel = (room: Room, short: string): string =>
  text(room.x, room.y + 2.8, short, ' text-anchor="middle" font-size="8" fill="#000000" stroke="#ffffff" stroke-width="2" paint-order="stroke"');

/** Whether it matters which way up it lies. */
export const isHanded = ({ line }: Requirement): boolean => line.wayUp !== 'either';

const pathOf = (ring: readonly LayPoint[]): string => `M${ring.map((point) => `${round(point.x)} ${round(point.y)}`).join('L')}Z`;

export interface Room {
  readonly x: number;
  readonly y: number;
  /** Free width and height around the point, pixels. */
  readonly across: number;
  readonly high: number;
}

/** The place in a shape that is farthest from its border, on a coarse grid, with the free room around it. */
export function roomiest(ring: readonly LayPoint[]): Room {
  const box = boundsOfPoints(ring);
  const steps = 12;
  let best = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  let most = pointInside(best, ring) ? distancePointToBoundary(best, ring) * 1.05 : -1;
  for (let i = 1; i < steps; i++) {
    for (let k = 1; k < steps; k++) {
      const point = { x: box.minX + ((box.maxX - box.minX) * i) / steps, y: box.minY + ((box.maxY - box.minY) * k) / steps };
      const room = pointInside(point, ring) ? distancePointToBoundary(point, ring) : -1;
      if (room > most * 1.02 + 0.01) [best, most] = [point, room];
    }
  }
  return { ...best, across: 2 * reach(best, ring, 'x'), high: 2 * reach(best, ring, 'y') };
}

/** How far it is from a point to the border, along one axis, on the nearer side. */
function reach(from: LayPoint, ring: readonly LayPoint[], axis: 'x' | 'y'): number {
  const other = axis === 'x' ? 'y' : 'x';
  let least = Infinity;
  for (const [a, b] of sides(ring)) {
    if (a[other] > from[other] === b[other] > from[other]) continue;
    const crossing = a[axis] + ((b[axis] - a[axis]) * (from[other] - a[other])) / (b[other] - a[other]);
    least = Math.min(least, Math.abs(crossing - from[axis]));
  }
  return Number.isFinite(least) ? least : 0;
}

/** The first of some texts that fits, level or else upright; nothing where none does. */
function labelIn(x: number, y: number, across: number, high: number, texts: readonly string[], style: string, size: number): string {
  for (const words of texts) {
    const wide = words.length * size * 0.56 + 4;
    if (wide <= across && size * 1.2 <= high) return text(x, y + size * 0.35, words, ` text-anchor="middle"${style}`);
    if (wide <= high && size * 1.2 <= across) {
      return text(x, y, words, ` text-anchor="middle"${style} transform="rotate(-90 ${round(x)} ${round(y)})" dominant-baseline="central"`);
    }
  }
  return '';
}

/** An arrow along the cloth: two heads where a piece may lie either way up, one where it may not. */
function grainArrow(room: Room, oneWay: boolean, scale: number): string {
  const half = Math.min(room.across * 0.38, 60, Math.max(14, 70 * scale));
  if (half < 7 || room.high < 2.4 * textSize) return '';
  const y = round(room.y + textSize * 0.95);
  const [left, right] = [round(room.x - half), round(room.x + half)];
  const head = (x: number, way: 1 | -1): string => `M${round(x - 4 * way)} ${round(y - 2.5)}L${x} ${y}L${round(x - 4 * way)} ${round(y + 2.5)}`;
  return `<path d="M${left} ${y}H${right}${head(right, 1)}${oneWay ? '' : head(left, -1)}" fill="none" stroke="#000000" stroke-width="0.9"/>`;
}

// ------------------------------------------------------------------------------------------------ key and scale

/** One line for each piece: its number, its name, and how often it lies in these lays and which way. */
export function keyOf(plan: WidthPlan, requirements: readonly Requirement[]): readonly string[] {
  return requirements.flatMap((requirement, number) => {
    let [drawn, flipped, onFold, throughBoth] = [0, 0, 0, 0];
    for (const found of plan.lays) {
      for (const placement of found.lay.placements) {
        if (found.requirementOf[placement.piece] !== number) continue;
        if (itemAt(found.problem.pieces, placement.piece).onFold) onFold += found.times;
        else if (!isSingle(found, placement.piece)) throughBoth += found.times;
        else if (placement.mirrored) flipped += found.times;
        else drawn += found.times;
      }
    }
    if (drawn + flipped + onFold + throughBoth === 0) return [];
    const spare = plan.lays.flatMap((found) => found.spares).filter((one) => one.requirement === number).reduce((sum, one) => sum + one.count, 0);
    const isOpen = plan.lays.every((found) => found.manner === 'open');
    const where = isOpen ? '' : ' in the single layer';
    const single = isHanded(requirement)
      ? [drawn > 0 ? `${drawn} as drawn${where}` : '', flipped > 0 ? `${flipped} flipped (F)${where}` : '']
      : [drawn + flipped > 0 ? `${drawn + flipped}${isOpen ? ', either side up' : where}` : ''];
    const words = [onFold > 0 ? `${onFold} on the fold` : '', throughBoth > 0 ? `${throughBoth} through both layers` : '', ...single, spare > 0 ? `${spare} to spare` : ''];
    const along = requirement.line.along === undefined ? 'its own size' : requirement.line.along === 'cutting' ? '' : `along the ${alongText(requirement.line)}`;
    return [`${number + 1}  ${requirement.title}: ${[...words, along].filter((word) => word !== '').join(', ')}`];
  });
}

/** Where the top of a print is, since a lay is drawn with the length of its cloth to the right. */
const printLines = ({ material }: MaterialPlan['need']): readonly string[] => (material.direction === 'one way' ? ['The top of the print lies to the right.'] : []);

function leftoverLines(plan: WidthPlan, display: Display): readonly string[] {
  const words = plan.leftovers.flat().map((leftover) => leftoverText(leftover, display));
  return words.length === 0 ? [] : [`Left over, dotted, across the cloth × along it: ${words.join(', ')}`];
}

function scaleBar(x: number, y: number, scale: number, display: Display): string {
  const [unit, words] = display.unit === 'in' ? [304.8, '12 in'] : [250, '25 cm'];
  const end = round(x + unit * scale);
  return `<path d="M${x} ${round(y - 4)}v8M${x} ${round(y)}H${end}M${end} ${round(y - 4)}v8" fill="none" stroke="#000000" stroke-width="1.2"/>${text(end + 6, y + 4, `${words} of cloth`, ' font-size="11"')}`;
}
