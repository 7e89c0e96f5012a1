import { intersection } from '../../geometry/boolean.ts';
import { pointInside } from '../../geometry/inside.ts';
import { boundsOfPoints, polygonArea } from '../../geometry/measure.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import { listed } from '../../table/figures.ts';
import type { Drawn, Placed } from '../arrange.ts';
import { widthOf } from '../letters/letters.ts';
import { boxSteps, circleSteps, polylineSteps } from '../path.ts';
import { pens } from '../pens.ts';
import { groupItem, textItem, type Box, type Item } from '../sheet.ts';
import { isTemplate } from '../sparing.ts';
import { overlap as overlaps } from '../room.ts';
import { templatesText, type TemplateSheet } from '../template-sheets.ts';
import { overlap, tileName, type Plate } from '../tiles.ts';
import { roomiestPoint } from './roomiest.ts';
import { shelved } from './shelves.ts';

interface Thumbnail {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  readonly figure: string;
}

const captionSize = 2.6;
const thumbnailHeight = 46;
const numberRadius = 2.4;

/**
 * A small picture of every sheet, and of how those in tiles join. Heights are of the pictures, one below the other.
 *
 * @param tallest how high that of tiles may be, millimetres
 */
export function sheetMap(sheets: readonly TemplateSheet[], width: number, tallest: number): readonly { readonly height: number; readonly items: readonly Item[] }[] {
  const single = sheets.filter(({ tile }) => tile === undefined).map(thumbnail);
  const plates = [...new Set(sheets.flatMap(({ tile }) => (tile === undefined ? [] : [tile.plate])))];
  const { placed } = shelved(single, width, 6);
  const rows = [...new Set(placed.map(({ y }) => y))].map((y) => {
    const row = placed.filter((one) => one.y === y);
    return { height: Math.max(...row.map(({ of }) => of.height)) + 5, items: row.map(({ of, x }) => groupItem('', of.items, { x, y: 0 }, { figure: of.figure })) };
  });
  return [...rows, ...plates.map((plate) => platePicture(plate, sheets.filter(({ tile }) => tile?.plate === plate), width, tallest))];
}

const outlined = (ring: Polygon, words: string): readonly Item[] => [
  { kind: 'fill', role: 'picture', name: '', path: polylineSteps(ring, true), tone: 0.88 },
  { kind: 'line', role: 'picture', name: words, path: polylineSteps(ring, true), pen: { width: 0.2, dashes: [], tone: 0 } },
];

/** A polygon round a template, or the box of anything else, as it lies. */
function hullOf({ drawn, x, y, turned }: Placed<Drawn>): Polygon {
  const ring: Polygon = isTemplate(drawn) ? drawn.hull : [{ x: 0, y: 0 }, { x: drawn.width, y: 0 }, { x: drawn.width, y: drawn.height }, { x: 0, y: drawn.height }];
  return ring.map((point) => (turned ? { x: x + point.y, y: y + drawn.width - point.x } : { x: x + point.x, y: y + point.y }));
}

/** A template's number, in a ring so that it is not taken for a tile's name. */
function numbered(at: Point, words: string): readonly Item[] {
  const disc = circleSteps(at, numberRadius);
  return [
    { kind: 'fill', role: 'picture', name: '', path: disc, tone: 1 },
    { kind: 'line', role: 'picture', name: words, path: disc, pen: { width: 0.2, dashes: [], tone: 0 } },
    textItem(words, { x: at.x, y: at.y + 0.95 }, { size: 2.7, weight: 'bold', align: 'middle', role: 'picture' }),
  ];
}

function thumbnail({ sheet, origin, placed, templates }: TemplateSheet): Thumbnail {
  const scale = Math.min(thumbnailHeight / sheet.height, 60 / sheet.width);
  const items: Item[] = [{ kind: 'line', role: 'picture', name: sheet.name, path: boxSteps({ x: 0, y: 0, width: sheet.width * scale, height: sheet.height * scale }), pen: pens.frame }];
  for (const one of placed) {
    const scaled = hullOf(one).map((point) => ({ x: (origin.x + point.x) * scale, y: (origin.y + point.y) * scale }));
    if (isTemplate(one.drawn)) {
      const words = String(one.drawn.template.number);
      items.push(...outlined(scaled, words), ...numbered(roomiestPoint(scaled), words));
    } else {
      const { minX, minY, maxX, maxY } = boundsOfPoints(scaled);
      items.push(...keyBox({ x: minX, y: minY, width: maxX - minX, height: maxY - minY }));
    }
  }
  const height = sheet.height * scale;
  const on = [...(placed.some(({ drawn }) => !isTemplate(drawn)) ? ['the key'] : []), ...(templates.length === 0 ? [] : [templatesText(templates).toLowerCase()])];
  items.push(textItem(sheet.name, { x: 0, y: height + captionSize + 0.8 }, { size: captionSize, role: 'picture', tag: 'Caption' }));
  return { width: Math.max(sheet.width * scale, 18), height: height + captionSize * 1.6, items, figure: `${sheet.name}, with ${listed(on)}.` };
}

/** Where the test squares or the legend lie. */
const keyBox = (box: Box): readonly Item[] => [
  { kind: 'line', role: 'picture', name: 'key', path: boxSteps(box), pen: pens.join },
  ...(box.width < 6 || box.height < 3.2 ? [] : [textItem('key', { x: box.x + box.width / 2, y: box.y + box.height / 2 + 0.8 }, { size: 2.3, align: 'middle', role: 'picture' })]),
];

interface MappedTile {
  readonly name: string;
  readonly sheet: string;
  readonly row: number;
  readonly window: Box;
}

/** A tile on the map is no lower than this: its name must have room on it. */
const lowestTile = 17;
const betweenParts = 9;

/**
 * A plate as it is once its tiles are joined, with the name and the sheet of each. One of many rows is parted: the rows that
 * follow stand beside those before.
 */
function platePicture(plate: Plate, sheets: readonly TemplateSheet[], width: number, tallest: number): { readonly height: number; readonly items: readonly Item[] } {
  const tiles = sheets.flatMap(({ tile, sheet }): MappedTile[] => (tile === undefined ? [] : [{ window: tile.window, row: tile.row, name: tileName(tile), sheet: sheet.name.split(':')[0] ?? '' }]));
  const whole = boxOfTiles(tiles);
  const rows = [...new Set(tiles.map(({ row }) => row))].sort((a, b) => a - b);
  const scaleFor = (parts: readonly (readonly MappedTile[])[]): number =>
    Math.min(0.3, (width - betweenParts * (parts.length - 1)) / (parts.length * whole.width), tallest / Math.max(...parts.map((part) => boxOfTiles(part).height)));
  let parts: readonly (readonly MappedTile[])[] = [tiles];
  for (let count = 2; count <= rows.length && scaleFor(parts) * (tiles[0]?.window.height ?? 0) < lowestTile; count++) {
    const most = Math.ceil(rows.length / count);
    const parted = Array.from({ length: Math.ceil(rows.length / most) }, (_, index) => tiles.filter(({ row }) => rows.slice(index * most, (index + 1) * most).includes(row)));
    if (scaleFor(parted) > scaleFor(parts)) parts = parted;
  }
  const scale = scaleFor(parts);
  const across = whole.width * scale + betweenParts;
  const figure = `${templatesText(plate.placed.map(({ drawn }) => drawn.template.number))} joined from tiles: ${tiles.map(({ name, sheet }) => `${name} on ${sheet.toLowerCase()}`).join(', ')}.${sheets.filter(({ placed }) => placed.some(({ drawn }) => !isTemplate(drawn))).map(({ sheet }) => ` The key is on ${(sheet.name.split(':')[0] ?? '').toLowerCase()}.`).join('')}`;
  const items = parts.map((part, index) => groupItem('', partItems(plate, sheets, part, whole.x, scale), { x: index * across, y: 0 }));
  return { height: Math.max(...parts.map((part) => boxOfTiles(part).height)) * scale + 6, items: [groupItem('', items, { x: 0, y: 0 }, { figure })] };
}

function boxOfTiles(tiles: readonly MappedTile[]): Box {
  const [x, y] = [Math.min(...tiles.map(({ window }) => window.x)), Math.min(...tiles.map(({ window }) => window.y))];
  return { x, y, width: Math.max(...tiles.map(({ window }) => window.x + window.width)) - x, height: Math.max(...tiles.map(({ window }) => window.y + window.height)) - y };
}

/** What lies on some rows of a plate’s tiles. */
function partItems(plate: Plate, sheets: readonly TemplateSheet[], tiles: readonly MappedTile[], left: number, scale: number): readonly Item[] {
  const { x, y: above, width, height } = boxOfTiles(tiles);
  const corners: Polygon = [{ x, y: above }, { x: x + width, y: above }, { x: x + width, y: above + height }, { x, y: above + height }];
  const scaled = (ring: Polygon): Polygon => ring.map((point) => ({ x: (point.x - left) * scale, y: (point.y - above) * scale }));
  const beside = sheets.flatMap(({ tile, placed }) => (tile === undefined || !tiles.some(({ window }) => window === tile.window) ? [] : placed.map((one) => ({ ...one, x: one.x + tile.window.x, y: one.y + tile.window.y }))));
  const shapes = [
    ...plate.hulls.map((hull, index) => ({ words: String(plate.placed[index]?.drawn.template.number ?? ''), ring: hull })),
    ...beside.flatMap((one) => (isTemplate(one.drawn) ? [{ words: String(one.drawn.template.number), ring: hullOf(one) }] : [])),
  ].flatMap(({ words, ring }) => intersection([corners], [polygonArea(ring) < 0 ? [...ring].reverse() : ring]).map((seen) => ({ words, ring: scaled(seen) })));
  const keys = beside.flatMap(({ drawn, x: from, y }): Box[] => (isTemplate(drawn) ? [] : [{ x: (from - left) * scale, y: (y - above) * scale, width: drawn.width * scale, height: drawn.height * scale }]));
  const boxes = tiles.map(({ window, name, sheet }) => ({ name, sheet, box: { x: (window.x - left) * scale, y: (window.y - above) * scale, width: window.width * scale, height: window.height * scale } }));
  const numbers = numbersOn(shapes.map(({ ring }) => ring), (discs) => boxes.every(({ name, sheet, box }) => placeForTileLabel(name, sheet, box, overlap * scale, [...keys, ...discs]) !== undefined));
  const taken = [...keys, ...numbers.map(discBox)];
  return [
    ...shapes.flatMap(({ ring, words }) => outlined(ring, words)),
    ...boxes.map(({ name, box }): Item => ({ kind: 'line', role: 'picture', name, path: boxSteps(box), pen: { width: 0.18, dashes: [1.2, 0.8], tone: 0.1 } })),
    ...keys.flatMap(keyBox),
    ...boxes.flatMap(({ name, sheet, box }) => tileLabel(name, sheet, box, overlap * scale, taken)),
    // Over the joins, so that none runs through a number.
    ...shapes.flatMap(({ words }, index) => numbered(numbers[index] ?? { x: 0, y: 0 }, words)),
  ];
}

const discBox = ({ x, y }: Point): Box => ({ x: x - numberRadius, y: y - numberRadius, width: 2 * numberRadius, height: 2 * numberRadius });

/**
 * Where the numbers of templates stand: where a template has most room, or else as near to that as leaves room for what
 * else is written.
 *
 * @param leaveRoom whether all else can be written beside numbers in these boxes
 */
function numbersOn(rings: readonly Polygon[], leaveRoom: (discs: readonly Box[]) => boolean): readonly Point[] {
  return rings.reduce<readonly Point[]>((before, ring) => {
    const best = roomiestPoint(ring);
    const discs = before.map(discBox);
    const isGood = (at: Point): boolean => !discs.some((one) => overlaps(one, discBox(at))) && leaveRoom([...discs, discBox(at)]);
    return [...before, isGood(best) ? best : pointsWithin(ring, best).find(isGood) ?? best];
  }, []);
}

/** Points of a shape, those first that are nearest to one. */
function pointsWithin(ring: Polygon, { x, y }: Point): readonly Point[] {
  const { minX, minY, maxX, maxY } = boundsOfPoints(ring);
  const steps = 24;
  const shares = Array.from({ length: steps - 1 }, (_, index) => (index + 1) / steps);
  return shares.flatMap((across) => shares.map((down): Point => ({ x: minX + (maxX - minX) * across, y: minY + (maxY - minY) * down })))
    .filter((point) => pointInside(point, ring))
    .sort((one, other) => Math.hypot(one.x - x, one.y - y) - Math.hypot(other.x - x, other.y - y));
}

const tileLabelHeight = 7;
const tileLabelWidth = (name: string, sheet: string): number => Math.max(widthOf(name, 3, 'bold'), widthOf(sheet, 2.2)) + 1.4;

/** Where a tile's name and sheet stand clear of what is taken: in a corner of what it shares with no neighbour, or else between two; undefined where there is no room. */
function placeForTileLabel(name: string, sheet: string, box: Box, shared: number, taken: readonly Box[]): Point | undefined {
  const [width, height] = [tileLabelWidth(name, sheet), tileLabelHeight];
  const [above, below] = [box.y + shared + 0.6, box.y + box.height - shared - 0.6 - height];
  // Where that has no room, up to the border on the left and on the right.
  const places = [shared + 0.6, 0.6].flatMap((inset) => {
    const [left, right] = [box.x + inset, box.x + box.width - inset - width];
    return [[0, 0], [0, 1], [1, 0], [1, 1], [0, 0.5], [1, 0.5], [0.5, 0], [0.5, 1]].map(([across = 0, down = 0]) => ({ x: left + (right - left) * across, y: above + (below - above) * down }));
  });
  return places.find((place) => !taken.some((one) => overlaps(one, { ...place, width, height })));
}

/** A tile's name and sheet over whatever is drawn there, clear of the templates' numbers and of the key. */
function tileLabel(name: string, sheet: string, box: Box, shared: number, taken: readonly Box[]): readonly Item[] {
  const at = placeForTileLabel(name, sheet, box, shared, taken) ?? { x: box.x + shared + 0.6, y: box.y + shared + 0.6 };
  return [
    { kind: 'fill', role: 'picture', name: '', path: boxSteps({ ...at, width: tileLabelWidth(name, sheet), height: tileLabelHeight }), tone: 1 },
    textItem(name, { x: at.x + 0.7, y: at.y + 3 }, { size: 3, weight: 'bold', role: 'picture' }),
    textItem(sheet, { x: at.x + 0.7, y: at.y + 6 }, { size: 2.2, role: 'picture', tag: 'Caption' }),
  ];
}
