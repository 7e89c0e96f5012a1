import { simplified } from '../buying/simplify.ts';
import { boundsOfPoints, type Bounds } from '../geometry/measure.ts';
import type { Polygon } from '../geometry/shape.ts';
import type { TableDocument } from '../table/document.ts';
import { stepPicture } from '../pages/step-picture.ts';
import { sizeText } from '../table/figures.ts';
import { stepsOf } from '../table/step-drawings.ts';
import type { TemplateRow } from '../table/templates.ts';
import { escapeMarkup } from './escape.ts';
import { layPicture } from './lay-svg.ts';
import { inlineSvg } from './svg/svg.ts';
import { polylinePath } from './svg-path.ts';

/** An inline SVG element and what stands below it. */
export interface Picture {
  readonly svg: string;
  readonly caption: readonly string[];
  /** Of a template. */
  readonly number?: number;
}

/** The longer side of a small drawing, and the room round it for its sizes, in pixels. */
const longest = 130;
export const margin = 18;
const textSize = 11;

/** Every template drawn small, with its size: of several sizes the first that has it is drawn, and all are told. */
export function templatePictures({ tables }: TableDocument): readonly Picture[] {
  const rows = new Map<string, { readonly first: TemplateRow; readonly sizes: string[] }>();
  for (const table of tables) {
    const name = tables.length === 1 ? '' : `${table.combination.find(({ choice }) => choice === 'size')?.option ?? ''}: `;
    for (const row of table.templates) {
      const key = `${row.pieceName} ${row.line}`;
      const entry = rows.get(key) ?? { first: row, sizes: [] };
      entry.sizes.push(`${name}${sizeText(row.size)}`);
      rows.set(key, entry);
    }
  }
  return [...rows.values()].map(({ first, sizes }) => ({
    svg: templateSvg(first),
    number: first.number,
    caption: [`Template ${first.number}: ${first.piece}, ${first.line}${first.note === '' ? '' : `, ${first.note}`}; ${sizes.join('; ')}; for ${first.forMaterials.join(', ')}`],
  }));
}

/** Heights of the page's letters to a millimetre: a little smaller in print than in a booklet, larger on a screen (looked at). */
const ems = 0.3;

/** What each step sews. */
export const stepPictures = ({ tables }: TableDocument): readonly Picture[] => stepsOf(tables).map((drawing) => {
  const { width, height, items, caption, words } = stepPicture(drawing);
  return { svg: inlineSvg({ label: words, width, height, items }, ems), caption: [caption] };
});

function templateSvg({ outline, holes, size, number, piece }: TemplateRow): string {
  const box = boundsOfPoints(outline);
  const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
  const scale = longest / Math.max(wide, high, 1);
  const [width, height] = [round(wide * scale + 2 * margin), round(high * scale + 2 * margin)];
  const label = `Template ${number}, ${piece}: ${sizeText(size)}`;
  const middle = round(margin + (high * scale) / 2);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeMarkup(label)}" font-family="sans-serif" font-size="${textSize}" fill="#000000">`,
    `<path d="${ringPath(outline, box, scale)}" fill="none" stroke="#000000" stroke-width="1.2" stroke-linejoin="round"/>`,
    ...holes.map((hole) => `<path d="${ringPath(hole, box, scale)}" fill="none" stroke="#000000" stroke-width="0.8" stroke-dasharray="4 2"/>`),
    `<text x="${round(width / 2)}" y="${round(height - 5)}" text-anchor="middle">${escapeMarkup(size.width.text)}</text>`,
    `<text x="12" y="${middle}" text-anchor="middle" transform="rotate(-90 12 ${middle})">${escapeMarkup(size.height.text)}</text>`,
    '</svg>',
  ].join('');
}

/** The ring in pixels, y downwards. */
export const ringPath = (ring: Polygon, box: Bounds, scale: number): string =>
  polylinePath(simplified(ring, finest / scale).map(({ x, y }) => ({ x: tenth(margin + (x - box.minX) * scale), y: tenth(margin + (box.maxY - y) * scale) })), true);

/** A fifth of a pixel is seen by nobody. */
const finest = 0.2;
const tenth = (value: number): number => Math.round(value * 10) / 10;

const round = (value: number): number => Math.round(value * 100) / 100;

/** The lays that are to be bought for, one drawing for each material and size. */
export function layPictures({ tables }: TableDocument): readonly Picture[] {
  return tables.flatMap((table) => {
    const size = tables.length === 1 ? '' : `, ${table.combination.find(({ choice }) => choice === 'size')?.option ?? ''}`;
    return table.plans.flatMap((plan) => {
      const { best } = plan;
      if (best === undefined || best.lays.length === 0) return [];
      const { svg, lines: [title = '', ...lines] } = layPicture(plan, best, table.display);
      return [{ svg, caption: [`${title}${size}`, ...lines] }];
    });
  });
}
