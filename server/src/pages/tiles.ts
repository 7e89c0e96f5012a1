import { intersection } from '../geometry/boolean.ts';
import type { Point, Polygon } from '../geometry/shape.ts';
import { boundsOfPoints, polygonArea } from '../geometry/measure.ts';
import { arranged, type Area, type Placed } from './arrange.ts';
import { circleSteps, segmentOf } from './path.ts';
import { pens } from './pens.ts';
import { outOf, seenThrough, textExtent } from './extent.ts';
import { capitals, widthOf } from './letters/letters.ts';
import { Room } from './room.ts';
import { groupItem, textItem, type Box, type GroupItem, type Item, type Path } from './sheet.ts';
import type { DrawnTemplate } from './template-item.ts';

/** How much two neighbouring tiles have in common, millimetres: enough for tape, and to see both drawings agree. */
export const overlap = 15;

/** What a plate has round its templates, millimetres, so that a line at its border is whole and beside the frame. */
const border = 1;

/** What is too large for a sheet, laid out to be cut into tiles: one template, or several side by side. */
export interface Plate {
  readonly width: number;
  readonly height: number;
  readonly placed: readonly Placed<DrawnTemplate>[];
  /** Polygons round each of the templates, in the same order. */
  readonly hulls: readonly Polygon[];
}

/** A part of a plate on a sheet of its own. */
export interface Tile {
  readonly plate: Plate;
  /** From 1. */
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
  /** The part of the plate that it shows. */
  readonly window: Box;
  /** Whether the sheet lies across. */
  readonly landscape: boolean;
  /** On which sides it has neighbours. */
  readonly joined: { readonly right: boolean; readonly left: boolean; readonly below: boolean; readonly above: boolean };
}

interface Window {
  readonly row: number;
  readonly column: number;
  readonly window: Box;
}

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly landscape: boolean;
  /** Those that hold something. */
  readonly used: readonly Window[];
}

/** How many windows of a length are needed, each sharing the overlap with the next. */
const partsOf = (length: number, window: number): number => (length <= window + 1e-6 ? 1 : Math.ceil((length - overlap) / (window - overlap) - 1e-6));

/** How wide so many tiles are together. */
const joinedLength = (parts: number, window: number): number => parts * (window - overlap) + overlap;

/**
 * Cuts templates that no sheet can hold into tiles, on sheets that stand or lie: each by itself, or all of them side by
 * side, whichever takes fewer sheets. Tiles with nothing on them are left out.
 */
export function tilesOf(large: readonly DrawnTemplate[], standing: Area, lying: Area | undefined): readonly Tile[] {
  if (large.length === 0) return [];
  const areas = [{ area: standing, landscape: false }, ...(lying === undefined ? [] : [{ area: lying, landscape: true }])];
  const layouts = (plate: Plate): readonly Layout[] => areas.map(({ area, landscape }) => ({ plate, area, grid: gridFor(plate, area, landscape) }));
  const apart = large.map((one) => fewest(layouts(plateOf(one)).map((layout) => [layout]))).flat();
  const together = (toSpare: number): readonly (readonly Layout[])[] => (large.length === 1 ? [] : areas.flatMap(({ area, landscape }) => platesTogether(large, area, toSpare).map((plate): readonly Layout[] => [{ plate, area, grid: gridFor(plate, area, landscape) }])));
  const best = fewest([apart, ...together(0)]).map(offLines);
  // Templates that fill their tiles can't be shifted: they may lie side by side in a little less, if that takes no more sheets.
  const others = best.some(runsAlong) ? together(spared).filter((all) => sheetsOf(all) <= sheetsOf(best)).map((all) => all.map(offLines)) : [];
  return (others.find((all) => !all.some(runsAlong)) ?? best).flatMap(({ plate, grid }) => cut(plate, grid));
}

/** A plate and how it is cut into tiles. */
interface Layout {
  readonly plate: Plate;
  readonly area: Area;
  readonly grid: Grid;
}

const sheetsOf = (layouts: readonly Layout[]): number => layouts.reduce((sum, { grid }) => sum + grid.used.length, 0);
const fewest = (all: readonly (readonly Layout[])[]): readonly Layout[] => all.reduce((best, one) => (sheetsOf(one) < sheetsOf(best) ? one : best));

/** How near the edge of a tile no line may run along it, millimetres: it would be lost where the sheet is cut there (invented). */
const besideEdge = 0.8;
/** How far tiles are shifted for that, in steps, millimetres. */
const shifts = [0, ...Array.from({ length: 24 }, (_, index) => [(index + 1) / 2, -(index + 1) / 2]).flat()] as const;
/** What is shorter is not taken for a line along an edge. */
const shortest = 2;

/** How much narrower a plate is made, millimetres, so that its tiles can be shifted. */
const spared = 2;

/** Whether a line runs along an edge at which tiles are joined. */
function runsAlong({ plate, grid: { used, columns, rows } }: Layout): boolean {
  const { upright, level } = linesAlong(plate);
  const isNear = (places: readonly number[], edge: number): boolean => places.some((place) => Math.abs(place - edge) < besideEdge);
  return used.some(({ row, column, window: { x, y, width, height } }) =>
    (column > 0 && isNear(upright, x)) || (column < columns - 1 && isNear(upright, x + width)) || (row > 0 && isNear(level, y)) || (row < rows - 1 && isNear(level, y + height)));
}

/** The same with tiles shifted so that no line runs along an edge, as far as what is to spare leaves room for that and no more sheets are needed. */
function offLines(layout: Layout): Layout {
  const { plate, area, grid } = layout;
  const lines = linesAlong(plate);
  const shiftFor = (places: readonly number[], count: number, size: number, length: number): number => {
    const spare = (joinedLength(count, size) - length) / 2;
    if (count === 1) return 0;
    const edges = Array.from({ length: count - 1 }, (_, index) => (index + 1) * (size - overlap) - spare).flatMap((edge) => [edge, edge + overlap]);
    const clearance = (by: number): number => Math.min(besideEdge, ...edges.flatMap((edge) => places.map((place) => Math.abs(place - edge - by))));
    if (clearance(0) >= besideEdge) return 0;
    return shifts.filter((by) => Math.abs(by) <= spare).reduce((best, by) => (clearance(by) > clearance(best) ? by : best), 0);
  };
  const shift = { x: shiftFor(lines.upright, grid.columns, area.width, plate.width), y: shiftFor(lines.level, grid.rows, area.height ?? plate.height, plate.height) };
  if (shift.x === 0 && shift.y === 0) return layout;
  const shifted = gridFor(plate, area, grid.landscape, shift);
  return shifted.used.length > grid.used.length ? layout : { ...layout, grid: shifted };
}

/** Where on a plate lines run upright, across it, and level, down it. */
function linesAlong({ placed }: Plate): { readonly upright: readonly number[]; readonly level: readonly number[] } {
  const [upright, level] = [new Set<number>(), new Set<number>()];
  for (const one of placed) {
    for (const { points, closed } of one.drawn.lines) {
      points.forEach((point, index) => {
        const before = index > 0 || closed ? points.at(index - 1) : undefined;
        if (before === undefined) return;
        const [from, to] = [onPlate(one, before), onPlate(one, point)];
        const [across, down] = [Math.abs(from.x - to.x), Math.abs(from.y - to.y)];
        if (across < besideEdge / 2 && down >= shortest) upright.add((from.x + to.x) / 2);
        if (down < besideEdge / 2 && across >= shortest) level.add((from.y + to.y) / 2);
      });
    }
  }
  return { upright: [...upright], level: [...level] };
}

/** A point of a template as it lies on its plate. */
const onPlate = ({ drawn, x, y, turned }: Placed<DrawnTemplate>, point: Point): Point =>
  (turned ? { x: x + point.y, y: y + drawn.width - point.x } : { x: x + point.x, y: y + point.y });

const plateOf = (drawn: DrawnTemplate): Plate => plateWith([{ drawn, x: 0, y: 0, turned: false }]);

function plateWith(bare: readonly Placed<DrawnTemplate>[]): Plate {
  const placed = bare.map((one) => ({ ...one, x: one.x + border, y: one.y + border }));
  return {
    placed,
    width: Math.max(...placed.map(({ drawn, x, turned }) => x + (turned ? drawn.height : drawn.width))) + border,
    height: Math.max(...placed.map(({ drawn, y, turned }) => y + (turned ? drawn.width : drawn.height))) + border,
    hulls: placed.map((one) => one.drawn.hull.map((point) => onPlate(one, point))),
  };
}

/** More tiles side by side than this nobody joins with care (invented). */
const mostColumns = 8;

/**
 * All templates on one plate, as many tiles wide as makes sense.
 *
 * @param toSpare by so much narrower than its tiles are together, millimetres
 */
function platesTogether(large: readonly DrawnTemplate[], { width }: Area, toSpare: number): readonly Plate[] {
  const narrowest = Math.max(...large.map((one) => Math.min(one.width, one.height)));
  const least = partsOf(narrowest + 2 * border + toSpare, width);
  const most = Math.min(mostColumns, Math.max(least, partsOf(large.reduce((sum, one) => sum + one.width, 2 * border), width)));
  return Array.from({ length: most - least + 1 }, (_, index) => plateWith(arranged(large, { width: joinedLength(least + index, width) - 2 * border - toSpare, height: undefined })[0] ?? []));
}

/** @param shift of the tiles, from where what is to spare is the same at both ends */
function gridFor(plate: Plate, area: Area, landscape: boolean, shift: Point = { x: 0, y: 0 }): Grid {
  const height = area.height ?? plate.height;
  const [columns, rows] = [partsOf(plate.width, area.width), partsOf(plate.height, height)];
  // What is to spare goes to both ends alike.
  const left = (joinedLength(columns, area.width) - plate.width) / 2 - shift.x;
  const above = (joinedLength(rows, height) - plate.height) / 2 - shift.y;
  const windows = Array.from({ length: rows * columns }, (_, index): Window => {
    const [row, column] = [Math.floor(index / columns), index % columns];
    return { row, column, window: { x: column * (area.width - overlap) - left, y: row * (height - overlap) - above, width: area.width, height } };
  });
  return { columns, rows, landscape, used: windows.filter(({ window }) => plate.hulls.some((hull) => meets(window, hull))) };
}

function meets(window: Box, hull: Polygon): boolean {
  const { minX, minY, maxX, maxY } = boundsOfPoints(hull);
  // Of the many windows on a plate a template reaches into few.
  if (minX >= window.x + window.width || maxX <= window.x || minY >= window.y + window.height || maxY <= window.y) return false;
  return intersection([cornersOf(window)], [polygonArea(hull) < 0 ? [...hull].reverse() : hull]).length > 0;
}

const cornersOf = ({ x, y, width, height }: Box): Polygon => [{ x, y }, { x: x + width, y }, { x: x + width, y: y + height }, { x, y: y + height }];

function cut(plate: Plate, { columns, rows, landscape, used }: Grid): readonly Tile[] {
  const isUsed = (row: number, column: number): boolean => used.some((one) => one.row === row && one.column === column);
  return used.map(({ row, column, window }): Tile => ({
    plate, row: row + 1, column: column + 1, rows, columns, window, landscape,
    joined: { right: isUsed(row, column + 1), left: isUsed(row, column - 1), below: isUsed(row + 1, column), above: isUsed(row - 1, column) },
  }));
}

/** Numbers of the templates that reach on to a tile. */
export const templatesOn = ({ plate: { hulls, placed }, window }: Tile): readonly number[] =>
  placed.flatMap(({ drawn }, index) => (meets(window, hulls[index] ?? []) ? [drawn.template.number] : [])).sort((a, b) => a - b);

/** What stands on the tiles of plates, each with its upper left corner at 0, 0; nothing that lies beside its window. */
export function tileItems(tiles: readonly Tile[]): readonly (readonly Item[])[] {
  const plates = new Map<Plate, { readonly templates: readonly TemplateOnPlate[]; readonly room: Room }>();
  for (const { plate } of tiles) {
    if (plates.has(plate)) continue;
    const templates = plateTemplates(plate, tiles.filter((tile) => tile.plate === plate));
    plates.set(plate, { templates, room: roomOn(plate, templates) });
  }
  return tiles.map((tile) => {
    const { templates = [], room = new Room([]) } = plates.get(tile.plate) ?? {};
    const { window } = tile;
    const over = tiles.filter((other) => other !== tile && other.plate === tile.plate && other.row >= tile.row && other.column >= tile.column).map((other) => other.window);
    const seen = templates.flatMap(({ name, item, main }) => withoutCutWords(seenThrough([item], window), window, over).map((one) => (main === tile ? one : withFigure(one, `${name}: what is on tile ${tileName(tile)}.`))));
    return [
      groupItem(`Tile ${tileName(tile)}`, seen, { x: -window.x, y: -window.y }, { window: { x: 0, y: 0, width: window.width, height: window.height } }),
      ...joins(tile, room),
    ];
  });
}

const isWithin = (box: Box, window: Box): boolean =>
  box.x >= window.x && box.y >= window.y && box.x + box.width <= window.x + window.width && box.y + box.height <= window.y + window.height;

/** Items without words that a window cuts, where a sheet that is laid over it has them whole. */
function withoutCutWords(items: readonly Item[], window: Box, over: readonly Box[], around: readonly GroupItem[] = []): readonly Item[] {
  return items.flatMap((item): readonly Item[] => {
    if (item.kind === 'group') return [{ ...item, items: withoutCutWords(item.items, window, over, [item, ...around]) }];
    if (item.kind !== 'text') return [item];
    const box = around.reduce<Box | undefined>((one, group) => one && outOf(one, group), textExtent(item));
    return box !== undefined && !isWithin(box, window) && over.some((one) => isWithin(box, one)) ? [] : [item];
  });
}

interface TemplateOnPlate {
  readonly name: string;
  readonly item: Item;
  /** The tile that has its label; where it has none the first that has any of it. */
  readonly main: Tile | undefined;
}

/** The templates of a plate, their words kept off the joins so that each can be read on one sheet. */
function plateTemplates(plate: Plate, tiles: readonly Tile[]): readonly TemplateOnPlate[] {
  const bands = tiles.flatMap(({ window: { x, y, width, height }, joined }): Box[] => [
    ...(joined.right ? [{ x: x + width - overlap, y, width: overlap, height }] : []),
    ...(joined.below ? [{ x, y: y + height - overlap, width, height: overlap }] : []),
  ]);
  return plate.placed.map(({ drawn, x, y, turned }) => {
    const inIt = (box: Box): Box => (turned ? { x: drawn.width - (box.y - y) - box.height, y: box.x - x, width: box.height, height: box.width } : { ...box, x: box.x - x, y: box.y - y });
    const item = groupItem('', drawn.itemsOff(bands.map(inIt), tiles.map(({ window }) => inIt(window)), turned), { x, y: y + (turned ? drawn.width : 0) }, { turned });
    const having = tiles.flatMap((tile) => {
      const seen = seenThrough([item], tile.window);
      return seen.length === 0 ? [] : [{ tile, isMain: says(seen, drawn.lastWords) }];
    });
    return { name: drawn.name, item, main: (having.find(({ isMain }) => isMain) ?? having[0])?.tile };
  });
}

/** The templates of a plate as they are drawn across all of its tiles. */
export const plateItems = (plate: Plate, tiles: readonly Tile[]): readonly Item[] => plateTemplates(plate, tiles).map(({ item }) => item);

const says = (items: readonly Item[], words: string): boolean => items.some((item) => (item.kind === 'group' ? says(item.items, words) : item.kind === 'text' && item.words === words));

/** A template told in other words where it can’t be seen. */
const withFigure = (item: Item, figure: string): Item =>
  (item.kind !== 'group' ? item : item.figure === undefined ? { ...item, items: item.items.map((one) => withFigure(one, figure)) } : { ...item, figure });

/** Where on a plate there is no line and no word. */
function roomOn({ placed }: Plate, templates: readonly TemplateOnPlate[]): Room {
  const room = new Room([]);
  for (const one of placed) {
    for (const { points, closed } of one.drawn.lines) room.block(points.map((point) => onPlate(one, point)), closed);
  }
  const take = (items: readonly Item[], around: readonly GroupItem[]): void => {
    for (const item of items) {
      if (item.kind === 'group') take(item.items, [item, ...around]);
      if (item.kind !== 'text') continue;
      const extent = around.reduce<Box | undefined>((box, group) => box && outOf(box, group), textExtent(item));
      if (extent !== undefined) room.take(extent);
    }
  };
  take(templates.map(({ item }) => item), []);
  return room;
}

/** `B3`: second row, third column. */
export const tileName = ({ row, column }: Pick<Tile, 'row' | 'column'>): string => `${rowLetter(row - 1)}${column}`;

const markRadius = 2.5;
/** How far the arms of a mark reach from its middle. */
const markReach = markRadius + 1.5;
const markLetters = 2.4;
const markAside = 3.2;
/** Where along a join its two marks are looked for, as a part of its length: first a quarter from each end. */
const markShares = [0.25, 0.2, 0.3, 0.16, 0.34, 0.38, 0.13, 0.42, 0.46] as const;

interface JoinMark {
  readonly at: Point;
  readonly words: string;
  /** Where the letters stand, in the middle of them. */
  readonly letters: Point;
}

/** The same on both tiles: it hangs on the plate alone. Off every line where that can be; else its letters are. */
function markIn(room: Room, words: string, places: readonly Point[]): JoinMark {
  const wide = widthOf(words, markLetters, 'bold');
  // Over it or under it, a little aside where a line runs along the join.
  const tries = places.flatMap((at) => [0, markAside, -markAside].flatMap((by) => [at.y - markReach - 0.5, at.y + markReach + 0.7 + markLetters * capitals].map((y): JoinMark => ({ at, words, letters: { x: at.x + by, y } }))));
  const areLettersFree = ({ letters: { x, y } }: JoinMark): boolean => room.isBlank({ x: x - wide / 2 - 0.4, y: y - markLetters * 0.8, width: wide + 0.8, height: markLetters * 0.9 });
  const isFree = (mark: JoinMark): boolean => areLettersFree(mark) && room.isBlank({ x: mark.at.x - markReach, y: mark.at.y - markReach, width: 2 * markReach, height: 2 * markReach });
  return tries.find(isFree) ?? tries.find(areLettersFree) ?? { at: places[0] ?? { x: 0, y: 0 }, words, letters: tries[0]?.letters ?? { x: 0, y: 0 } };
}

/** Ticks of a join, millimetres: on the side that the neighbour comes to lie on. */
const tickApart = 10;
const tickLong = 1.2;
/** How far ticks keep from letters, millimetres. */
const tickAside = 0.6;

/** A join with its ticks, so that it is taken for no line of a template; none runs into letters. */
function joinPath(from: Point, to: Point, letters: readonly Box[]): Path {
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  const along = { x: (to.x - from.x) / long, y: (to.y - from.y) / long };
  // An upright join has its neighbour to the right, a level one below.
  const aside = { x: along.y * tickLong, y: along.x * tickLong };
  return [...segmentOf(from, to), ...Array.from({ length: Math.floor(long / tickApart + 0.5) }, (_, index) => {
    const at = { x: from.x + along.x * (index + 0.5) * tickApart, y: from.y + along.y * (index + 0.5) * tickApart };
    const end = { x: at.x + aside.x, y: at.y + aside.y };
    const isInLetters = letters.some(({ x, y, width, height }) => end.x > x - tickAside && at.x < x + width + tickAside && end.y > y - tickAside && at.y < y + height + tickAside);
    return isInLetters ? [] : segmentOf(at, end);
  }).flat()];
}

/** Where the neighbours’ edges come to lie, and marks that lie on one another once two tiles are joined. */
function joins({ window: { x: left, y: above, width, height }, row: rowNumber, column: columnNumber, joined }: Tile, room: Room): readonly Item[] {
  const [row, column] = [rowNumber - 1, columnNumber - 1];
  const items: Item[] = [];
  const written: Box[] = [];
  const line = (from: [number, number], to: [number, number]): void => {
    items.push({ kind: 'line', role: 'join', name: 'join', path: joinPath({ x: from[0], y: from[1] }, { x: to[0], y: to[1] }, written), pen: pens.join });
  };
  const mark = (words: string, places: readonly Point[]): void => {
    const { at, letters } = markIn(room, words, places.map((place) => ({ x: left + place.x, y: above + place.y })));
    const [x, y] = [at.x - left, at.y - above];
    const cross = [...segmentOf({ x: x - markReach, y }, { x: x + markReach, y }), ...segmentOf({ x, y: y - markReach }, { x, y: y + markReach })];
    items.push({ kind: 'line', role: 'join', name: `join ${words}`, path: [...circleSteps({ x, y }, markRadius), ...cross], pen: pens.mark });
    // Over the mark or under it, so that it stays in the strip that both sheets share.
    const text = textItem(words, { x: letters.x - left, y: letters.y - above }, { size: markLetters, weight: 'bold', align: 'middle', role: 'join' });
    items.push(text);
    const extent = textExtent(text);
    if (extent !== undefined) written.push(extent);
  };
  // The same mark has the same letters on both tiles, and the same place on the template.
  const ends = (from: number): readonly number[] => markShares.map((share) => Math.abs(from - share));
  const across = (first: number, x: number): void => [0, 1].forEach((from, index) => mark(`${rowLetter(row)}${first + 1}–${first + 2}${'ab'[index] ?? ''}`, ends(from).map((share) => ({ x, y: height * share }))));
  const downwards = (upper: number, y: number): void => [0, 1].forEach((from, index) => mark(`${rowLetter(upper)}–${rowLetter(upper + 1)}${column + 1}${'ab'[index] ?? ''}`, ends(from).map((share) => ({ x: width * share, y }))));
  if (joined.right) across(column, width - overlap / 2);
  if (joined.left) across(column - 1, overlap / 2);
  if (joined.below) downwards(row, height - overlap / 2);
  if (joined.above) downwards(row - 1, overlap / 2);
  if (joined.right) line([width - overlap, 0], [width - overlap, height]);
  if (joined.below) line([0, height - overlap], [width, height - overlap]);
  return items;
}

/** Rows are letters, as on a map: A, B, … Z, AA. */
const rowLetter = (row: number): string => (row < 26 ? String.fromCharCode(65 + row) : rowLetter(Math.floor(row / 26) - 1) + rowLetter(row % 26));
