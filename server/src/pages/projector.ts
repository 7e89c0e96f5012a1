import { arranged, itemsAsPlaced, type Drawn, type Placed } from './arrange.ts';
import type { FileUnit } from '../units/length.ts';
import { boxSteps, segmentOf } from './path.ts';
import { pens, type Pen } from './pens.ts';
import { legendBlock, rolesOf } from './legend.ts';
import { groupItem, textItem, type Item, type Sheet } from './sheet.ts';
import { drawTemplate, type Headline } from './template-item.ts';
import type { Template } from './templates.ts';

const margin = 20;
/** Tables and mats that a projector is hung over are about so wide, millimetres (common practice, no source). */
const usualWidths = [600, 900, 1200, 1800, 2400];
/** A page may be 14,400 units of 1/72 in long (ISO 32000-1, annex C). */
const longest = (14_400 * 25.4) / 72;

const grid: Pen = { width: 0.15, dashes: [], tone: 0.7 };
const strong: Pen = { width: 0.3, dashes: [], tone: 0.5 };

/** All templates on one page at true scale over a grid of 5 cm or 2 in, to be projected on to cloth. */
export function projectorSheet(templates: readonly Template[], headline: Headline, unit: FileUnit): Sheet {
  const drawn: readonly Drawn[] = [legendBlock(rolesOf(templates), headline.sizes.length > 1 ? headline.sizes : []), ...templates.map((template) => drawTemplate(template, headline))];
  const needed = Math.max(...drawn.map(({ width, height }) => Math.min(width, height)));
  const widths = usualWidths.filter((width) => width >= needed);
  const tries = (widths.length === 0 ? [Math.ceil(needed)] : widths).map((width) => placedOn(drawn, width));
  const short = tries.filter(({ height }) => height + 2 * margin <= longest);
  // As near to a square as can be: it is moved about least.
  const { placed, width, height } = (short.length === 0 ? tries.slice(-1) : short).reduce((best, one) => (Math.max(one.width, one.height) < Math.max(best.width, best.height) ? one : best));
  const [wide, high] = [width + 2 * margin, height + 2 * margin];
  return {
    kind: 'projector', name: 'For projectors', width: wide, height: high,
    items: [...gridItems(wide, high, unit), ...placed.map((one) => groupItem('', itemsAsPlaced(one), { x: margin + one.x, y: margin + one.y + (one.turned ? one.drawn.width : 0) }, { turned: one.turned }))],
  };
}

function placedOn(drawn: readonly Drawn[], width: number): { readonly placed: readonly Placed<Drawn>[]; readonly width: number; readonly height: number } {
  const [placed = []] = arranged(drawn, { width, height: undefined });
  const right = Math.max(...placed.map(({ drawn: one, x, turned }) => x + (turned ? one.height : one.width)));
  return { placed, width: Math.ceil(right), height: Math.ceil(Math.max(...placed.map(({ drawn: one, y, turned }) => y + (turned ? one.width : one.height)))) };
}

function gridItems(width: number, height: number, unit: FileUnit): readonly Item[] {
  const step = unit === 'in' ? 50.8 : 50;
  const items: Item[] = [{ kind: 'line', role: 'frame', name: 'page', path: boxSteps({ x: 0.2, y: 0.2, width: width - 0.4, height: height - 0.4 }), pen: pens.frame }];
  const words = (count: number): string => (unit === 'in' ? `${count * 2} in` : `${count * 5} cm`);
  for (let count = 1; count * step < width; count++) {
    items.push({ kind: 'line', role: 'frame', name: 'grid', path: segmentOf({ x: count * step, y: 0 }, { x: count * step, y: height }), pen: count % 2 === 0 ? strong : grid });
    if (count % 2 === 0) items.push(textItem(words(count), { x: count * step + 1, y: 5 }, { size: 3.5, tone: 0.4, role: 'frame' }));
  }
  for (let count = 1; count * step < height; count++) {
    items.push({ kind: 'line', role: 'frame', name: 'grid', path: segmentOf({ x: 0, y: count * step }, { x: width, y: count * step }), pen: count % 2 === 0 ? strong : grid });
    if (count % 2 === 0) items.push(textItem(words(count), { x: 1, y: count * step - 1 }, { size: 3.5, tone: 0.4, role: 'frame' }));
  }
  return items;
}
