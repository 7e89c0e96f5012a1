import { arranged, fits, itemsAsPlaced, type Area, type Drawn, type Placed } from './arrange.ts';
import { legendBlock, legendBlocks, rolesOf } from './legend.ts';
import { settable, widthOf } from './letters/letters.ts';
import type { PageOptions } from './options.ts';
import { boxSteps } from './path.ts';
import { pens } from './pens.ts';
import { groupItem, textItem, type Item, type Sheet } from './sheet.ts';
import { hasSquares, isLegend, isTemplate, sparing } from './sparing.ts';
import { drawTemplate, type Headline } from './template-item.ts';
import type { Template } from './templates.ts';
import { templatesOn, tileItems, tileName, tilesOf, type Tile } from './tiles.ts';

/** Room for what a sheet says of itself, under what is on it. */
const footer = 6;

/** A sheet with what is on it, for whoever lists the sheets or draws a map of them. */
export interface TemplateSheet {
  readonly sheet: Sheet;
  /** Upper left corner of the printable part. */
  readonly origin: { readonly x: number; readonly y: number };
  readonly placed: readonly Placed<Drawn>[];
  readonly tile: Tile | undefined;
  /** Numbers of the templates that are on it, or a part of them. */
  readonly templates: readonly number[];
}

/** Which template stands where: `Sheet 3`, or for a template in tiles `Sheets 4–9`. */
export type WhereTemplates = ReadonlyMap<number, string>;

interface Format {
  readonly width: number;
  readonly height: number | undefined;
  readonly margin: number;
}

const areaOf = ({ width, height, margin }: Format): Area => ({ width: width - 2 * margin, height: height === undefined ? undefined : height - 2 * margin - footer });
const lying = ({ width, height, margin }: Format): Format => ({ width: height ?? width, height: width, margin });

/** Every template at true scale: small ones together on as few sheets as the planner finds, each whole; those larger than a sheet in tiles. */
export function templateSheets(templates: readonly Template[], headline: Headline, options: PageOptions): readonly TemplateSheet[] {
  if (templates.length === 0) return [];
  const drawn = templates.map((template) => drawTemplate(template, headline));
  const explained = [rolesOf(templates), headline.sizes.length > 1 && templates.some(({ variants }) => variants.length > 1) ? headline.sizes : []] as const;
  const legend = legendBlock(...explained);
  const upright: Format = { width: options.paper.width, height: options.paper.height, margin: options.margin };
  const formats = upright.height === undefined || options.orientation === 'portrait' ? [upright] : options.orientation === 'landscape' ? [lying(upright)] : [upright, lying(upright)];
  const small = drawn.filter((one) => fits(one, areaOf(upright)));
  const large = drawn.filter((one) => !small.includes(one));
  const sets = formats.map((format) => ({ format, sets: arranged<Drawn>([legend, ...small], areaOf(format)) }));
  const fewest = sets.reduce((best, one) => (one.sets.length < best.sets.length ? one : best));
  // The sheet with the test squares is the first to be printed.
  const found = [...fewest.sets].sort((a, b) => Number(hasSquares(b)) - Number(hasSquares(a)));
  const [first = upright, second] = formats;
  const tiles = tilesOf(large, areaOf(first), second && areaOf(second));
  const { sheets, onTiles } = sparing(found, tiles, [[legend], legendBlocks(...explained)], areaOf(fewest.format));
  const besideOf = (tile: Tile): readonly Placed<Drawn>[] => onTiles.get(tile) ?? [];
  const ordered = [...tiles].sort((a, b) => Number(hasSquares(besideOf(b))) - Number(hasSquares(besideOf(a))));
  const items = tileItems(ordered);
  const all = sheets.length + tiles.length;
  return [
    ...sheets.map((placed, index) => arrangedSheet(placed, fewest.format, headline, index + 1, all)),
    ...ordered.map((tile, index) => tileSheet(tile, items[index] ?? [], tile.landscape && second !== undefined ? second : first, headline, sheets.length + index + 1, all, besideOf(tile))),
  ];
}

function arrangedSheet(placed: readonly Placed<Drawn>[], format: Format, headline: Headline, number: number, all: number): TemplateSheet {
  const area = areaOf(format);
  const origin = { x: format.margin, y: format.margin };
  const length = Math.max(0, ...placed.map(({ drawn, y, turned }) => y + (turned ? drawn.width : drawn.height)));
  const height = format.height ?? Math.ceil(length + 2 * format.margin + footer);
  const items = placedItems(placed, origin);
  return {
    sheet: { kind: 'templates', name: `Sheet ${number}`, width: format.width, height, items: [...items, ...footerItems(`Sheet ${number} of ${all}`, '', { x: format.margin, y: height - format.margin, width: area.width }, headline)] },
    origin, placed, tile: undefined, templates: wholeOn(placed),
  };
}

const wholeOn = (placed: readonly Placed<Drawn>[]): readonly number[] => placed.flatMap(({ drawn }) => (isTemplate(drawn) ? [drawn.template.number] : []));

const placedItems = (placed: readonly Placed<Drawn>[], origin: TemplateSheet['origin']): readonly Item[] =>
  placed.map((one) => {
    const { drawn, x, y, turned } = one;
    return groupItem('', itemsAsPlaced(one), { x: origin.x + x, y: origin.y + y + (turned ? drawn.width : 0) }, { turned, figure: isLegend(drawn) ? drawn.words : undefined });
  });

/** @param beside what lies on it whole, beside what it is a part of */
function tileSheet(tile: Tile, items: readonly Item[], format: Format, headline: Headline, number: number, all: number, beside: readonly Placed<Drawn>[]): TemplateSheet {
  const origin = { x: format.margin, y: format.margin };
  const { window } = tile;
  const height = format.height ?? Math.ceil(window.height + 2 * format.margin + footer);
  const frame: Item = { kind: 'line', role: 'frame', name: 'frame', path: boxSteps({ x: origin.x, y: origin.y, width: window.width, height: window.height }), pen: pens.frame };
  const templates = [...templatesOn(tile), ...wholeOn(beside)].sort((a, b) => a - b);
  const these = templatesText(templates);
  const place = tileName(tile);
  return {
    sheet: {
      kind: 'tile', name: `Sheet ${number}: ${these.toLowerCase()}, tile ${place}`, width: format.width, height,
      items: [
        groupItem('', items, origin), ...placedItems(beside, origin), frame,
        ...footerItems(`Sheet ${number} of ${all}`, `Tile ${place}, ${these.toLowerCase()}: cut the left and upper margins off, lay on the ticked lines`, { x: format.margin, y: height - format.margin, width: window.width }, headline),
      ],
    },
    origin, placed: beside, tile, templates,
  };
}

export const templatesText = (numbers: readonly number[]): string =>
  (numbers.length === 1 ? `Template ${numbers.join('')}` : `Templates ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1) ?? ''}`);

/** What a sheet says of itself, so that one that fell out of the pile is put back. */
function footerItems(sheet: string, more: string, { x, y, width }: { readonly x: number; readonly y: number; readonly width: number }, { title, revision }: Headline): readonly Item[] {
  const size = 2.6;
  const right = `Print at 100 %   ${sheet}`;
  const name = settable(`${title}${revision === undefined ? '' : `, revision ${revision}`}`);
  const room = width - widthOf(right, size, 'bold') - 6;
  const left = `${cutWords(name, more === '' ? room : room * 0.35, size)}${more === '' ? '' : `   ${more}`}`;
  const at = y - 0.8;
  return [
    textItem(cutWords(left, room, size), { x, y: at }, { size, tone: 0.2 }),
    textItem(right, { x: x + width, y: at }, { size, weight: 'bold', align: 'end' }),
  ];
}

function cutWords(words: string, width: number, size: number): string {
  if (words.length < 300 && widthOf(words, size) <= width) return words;
  let cut = words.slice(0, 300);
  while (cut !== '' && widthOf(`${cut}…`, size) > width) cut = cut.slice(0, -1);
  return `${cut}…`;
}
