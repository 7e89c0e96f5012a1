import { boundsOfPoints } from '../../geometry/measure.ts';
import type { Polygon } from '../../geometry/shape.ts';
import { boxSteps, polylineSteps } from '../path.ts';
import { pens } from '../pens.ts';
import { groupItem, textItem, type Item } from '../sheet.ts';
import { isTemplate, type TemplateSheet } from '../template-sheets.ts';
import { tileName, type Plate } from '../tiles.ts';
import { roomiestPoint } from './roomiest.ts';
import { shelved } from './shelves.ts';

interface Thumbnail {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

const captionSize = 2.6;
const thumbnailHeight = 46;
const tallestPlate = 150;

/** A small picture of every sheet, and of how those in tiles join. Heights are of the pictures, one below the other. */
export function sheetMap(sheets: readonly TemplateSheet[], width: number): readonly { readonly height: number; readonly items: readonly Item[] }[] {
  const single = sheets.filter(({ tile }) => tile === undefined).map(thumbnail);
  const plates = [...new Set(sheets.flatMap(({ tile }) => (tile === undefined ? [] : [tile.plate])))];
  const { placed } = shelved(single, width, 6);
  const rows = [...new Set(placed.map(({ y }) => y))].map((y) => {
    const row = placed.filter((one) => one.y === y);
    return { height: Math.max(...row.map(({ of }) => of.height)) + 5, items: row.map(({ of, x }) => groupItem('', of.items, { x, y: 0 })) };
  });
  return [...rows, ...plates.map((plate) => platePicture(plate, sheets.filter(({ tile }) => tile?.plate === plate), width))];
}

function outlined(ring: Polygon, words: string): readonly Item[] {
  const at = roomiestPoint(ring);
  return [
    { kind: 'fill', role: 'picture', name: '', path: polylineSteps(ring, true), tone: 0.88 },
    { kind: 'line', role: 'picture', name: words, path: polylineSteps(ring, true), pen: { width: 0.2, dashes: [], tone: 0 } },
    textItem(words, { x: at.x, y: at.y + 1 }, { size: 2.9, weight: 'bold', align: 'middle', role: 'picture' }),
  ];
}

function thumbnail({ sheet, origin, placed }: TemplateSheet): Thumbnail {
  const scale = Math.min(thumbnailHeight / sheet.height, 60 / sheet.width);
  const items: Item[] = [{ kind: 'line', role: 'picture', name: sheet.name, path: boxSteps({ x: 0, y: 0, width: sheet.width * scale, height: sheet.height * scale }), pen: pens.frame }];
  for (const { drawn, x, y, turned } of placed) {
    const ring: Polygon = isTemplate(drawn) ? drawn.hull : [{ x: 0, y: 0 }, { x: drawn.width, y: 0 }, { x: drawn.width, y: drawn.height }, { x: 0, y: drawn.height }];
    const placedRing = ring.map((point) => (turned ? { x: origin.x + x + point.y, y: origin.y + y + drawn.width - point.x } : { x: origin.x + x + point.x, y: origin.y + y + point.y }));
    const scaled = placedRing.map((point) => ({ x: point.x * scale, y: point.y * scale }));
    if (isTemplate(drawn)) items.push(...outlined(scaled, String(drawn.template.number)));
    else {
      const box = boundsOfPoints(scaled);
      items.push({ kind: 'line', role: 'picture', name: 'key', path: polylineSteps(scaled, true), pen: pens.join });
      items.push(textItem('key', { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 + 0.8 }, { size: 2.3, align: 'middle', role: 'picture' }));
    }
  }
  const height = sheet.height * scale;
  items.push(textItem(sheet.name, { x: 0, y: height + captionSize + 0.8 }, { size: captionSize, role: 'picture', tag: 'Caption' }));
  return { width: Math.max(sheet.width * scale, 18), height: height + captionSize * 1.6, items };
}

/** A plate as it is once its tiles are joined, with the name and the sheet of each. */
function platePicture(plate: Plate, sheets: readonly TemplateSheet[], width: number): { readonly height: number; readonly items: readonly Item[] } {
  const windows = sheets.flatMap(({ tile, sheet }) => (tile === undefined ? [] : [{ window: tile.window, name: tileName(tile), sheet: sheet.name.split(':')[0] ?? '' }]));
  const [left, above] = [Math.min(...windows.map(({ window }) => window.x)), Math.min(...windows.map(({ window }) => window.y))];
  const [right, below] = [Math.max(...windows.map(({ window }) => window.x + window.width)), Math.max(...windows.map(({ window }) => window.y + window.height))];
  const scale = Math.min(width / (right - left), tallestPlate / (below - above), 0.3);
  const items: Item[] = plate.hulls.flatMap((hull, index) => outlined(hull.map(({ x, y }) => ({ x: (x - left) * scale, y: (y - above) * scale })), String(plate.placed[index]?.drawn.template.number ?? '')));
  for (const { window, name, sheet } of windows) {
    const box = { x: (window.x - left) * scale, y: (window.y - above) * scale, width: window.width * scale, height: window.height * scale };
    items.push({ kind: 'line', role: 'picture', name, path: boxSteps(box), pen: { width: 0.18, dashes: [1.2, 0.8], tone: 0.1 } });
    items.push(textItem(name, { x: box.x + 1.6, y: box.y + 4.2 }, { size: 3, weight: 'bold', role: 'picture' }));
    items.push(textItem(sheet, { x: box.x + 1.6, y: box.y + 7.2 }, { size: 2.2, role: 'picture', tag: 'Caption' }));
  }
  return { height: (below - above) * scale + 6, items };
}
