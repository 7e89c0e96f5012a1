import { boundsOfPoints } from '../../geometry/measure.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import { listed } from '../../table/figures.ts';
import { widthOf } from '../letters/letters.ts';
import { boxSteps, circleSteps, polylineSteps } from '../path.ts';
import { pens } from '../pens.ts';
import { groupItem, textItem, type Box, type Item } from '../sheet.ts';
import { isTemplate, templatesText, type TemplateSheet } from '../template-sheets.ts';
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
const tallestPlate = 165;
const numberRadius = 2.4;

/** A small picture of every sheet, and of how those in tiles join. Heights are of the pictures, one below the other. */
export function sheetMap(sheets: readonly TemplateSheet[], width: number): readonly { readonly height: number; readonly items: readonly Item[] }[] {
  const single = sheets.filter(({ tile }) => tile === undefined).map(thumbnail);
  const plates = [...new Set(sheets.flatMap(({ tile }) => (tile === undefined ? [] : [tile.plate])))];
  const { placed } = shelved(single, width, 6);
  const rows = [...new Set(placed.map(({ y }) => y))].map((y) => {
    const row = placed.filter((one) => one.y === y);
    return { height: Math.max(...row.map(({ of }) => of.height)) + 5, items: row.map(({ of, x }) => groupItem('', of.items, { x, y: 0 }, { figure: of.figure })) };
  });
  return [...rows, ...plates.map((plate) => platePicture(plate, sheets.filter(({ tile }) => tile?.plate === plate), width))];
}

function outlined(ring: Polygon, words: string): readonly Item[] {
  const at = roomiestPoint(ring);
  return [
    { kind: 'fill', role: 'picture', name: '', path: polylineSteps(ring, true), tone: 0.88 },
    { kind: 'line', role: 'picture', name: words, path: polylineSteps(ring, true), pen: { width: 0.2, dashes: [], tone: 0 } },
    ...numbered(at, words),
  ];
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
  for (const { drawn, x, y, turned } of placed) {
    const ring: Polygon = isTemplate(drawn) ? drawn.hull : [{ x: 0, y: 0 }, { x: drawn.width, y: 0 }, { x: drawn.width, y: drawn.height }, { x: 0, y: drawn.height }];
    const placedRing = ring.map((point) => (turned ? { x: origin.x + x + point.y, y: origin.y + y + drawn.width - point.x } : { x: origin.x + x + point.x, y: origin.y + y + point.y }));
    const scaled = placedRing.map((point) => ({ x: point.x * scale, y: point.y * scale }));
    if (isTemplate(drawn)) items.push(...outlined(scaled, String(drawn.template.number)));
    else {
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
  textItem('key', { x: box.x + box.width / 2, y: box.y + box.height / 2 + 0.8 }, { size: 2.3, align: 'middle', role: 'picture' }),
];

/** A plate as it is once its tiles are joined, with the name and the sheet of each. */
function platePicture(plate: Plate, sheets: readonly TemplateSheet[], width: number): { readonly height: number; readonly items: readonly Item[] } {
  const windows = sheets.flatMap(({ tile, sheet }) => (tile === undefined ? [] : [{ window: tile.window, name: tileName(tile), sheet: sheet.name.split(':')[0] ?? '' }]));
  const [left, above] = [Math.min(...windows.map(({ window }) => window.x)), Math.min(...windows.map(({ window }) => window.y))];
  const [right, below] = [Math.max(...windows.map(({ window }) => window.x + window.width)), Math.max(...windows.map(({ window }) => window.y + window.height))];
  const scale = Math.min(width / (right - left), tallestPlate / (below - above), 0.3);
  const rings = plate.hulls.map((hull): Polygon => hull.map(({ x, y }) => ({ x: (x - left) * scale, y: (y - above) * scale })));
  const numbers = rings.map(roomiestPoint);
  const items: Item[] = rings.flatMap((ring, index) => outlined(ring, String(plate.placed[index]?.drawn.template.number ?? '')));
  const boxes = windows.map(({ window, name, sheet }) => ({ name, sheet, box: { x: (window.x - left) * scale, y: (window.y - above) * scale, width: window.width * scale, height: window.height * scale } }));
  for (const { name, box } of boxes) items.push({ kind: 'line', role: 'picture', name, path: boxSteps(box), pen: { width: 0.18, dashes: [1.2, 0.8], tone: 0.1 } });
  for (const { tile, placed } of sheets) {
    if (tile === undefined) continue;
    for (const { drawn, x, y } of placed) items.push(...keyBox({ x: (tile.window.x + x - left) * scale, y: (tile.window.y + y - above) * scale, width: drawn.width * scale, height: drawn.height * scale }));
  }
  for (const { name, sheet, box } of boxes) items.push(...tileLabel(name, sheet, box, overlap * scale, numbers));
  const figure = `${templatesText(plate.placed.map(({ drawn }) => drawn.template.number))} joined from tiles: ${windows.map(({ name, sheet }) => `${name} on ${sheet.toLowerCase()}`).join(', ')}.${sheets.filter(({ placed }) => placed.length > 0).map(({ sheet }) => ` The key is on ${(sheet.name.split(':')[0] ?? '').toLowerCase()}.`).join('')}`;
  return { height: (below - above) * scale + 6, items: [groupItem('', items, { x: 0, y: 0 }, { figure })] };
}

/** A tile's name and sheet over whatever is drawn there, in a corner of what it shares with no neighbour, clear of the templates' numbers. */
function tileLabel(name: string, sheet: string, box: Box, shared: number, numbers: readonly Point[]): readonly Item[] {
  const width = Math.max(widthOf(name, 3, 'bold'), widthOf(sheet, 2.2)) + 1.4;
  const height = 7;
  const [near, far] = [shared + 0.6, { x: box.width - shared - 0.6 - width, y: box.height - shared - 0.6 - height }];
  const places = [{ x: near, y: near }, { x: near, y: far.y }, { x: far.x, y: near }, { x: far.x, y: far.y }].map(({ x, y }) => ({ x: box.x + x, y: box.y + y }));
  const isClear = ({ x, y }: Point): boolean => numbers.every((one) => one.x + numberRadius < x || one.x - numberRadius > x + width || one.y + numberRadius < y || one.y - numberRadius > y + height);
  const at = places.find(isClear) ?? { x: box.x + near, y: box.y + near };
  return [
    { kind: 'fill', role: 'picture', name: '', path: boxSteps({ ...at, width, height }), tone: 1 },
    textItem(name, { x: at.x + 0.7, y: at.y + 3 }, { size: 3, weight: 'bold', role: 'picture' }),
    textItem(sheet, { x: at.x + 0.7, y: at.y + 6 }, { size: 2.2, role: 'picture', tag: 'Caption' }),
  ];
}
