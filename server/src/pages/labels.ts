import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point } from '../geometry/shape.ts';
import { capitals, cutTo, linesOf, settable, widthOf } from './letters/letters.ts';
import type { Weight } from './letters/generated/faces.js';
import { placesBeside, type Place } from './beside.ts';
import { textExtent } from './extent.ts';
import { grown, Room } from './room.ts';
import { textItem, type Box, type TextItem } from './sheet.ts';
import type { Stroke } from './strokes.ts';

/** One paragraph of a label. */
export interface LabelLine {
  readonly words: string;
  /** As a part of the label’s size. */
  readonly scale: number;
  readonly weight: Weight;
}

/** Sizes of letters on templates, in millimetres, from what is read with ease to what can still be read (invented). */
const labelSizes = [7.5, 5.2, 4.4, 3.7, 3.1, 2.6, 2.2] as const;
/** No letters are smaller than six points (common practice, no source). */
const leastSize = 6 * 25.4 / 72;
/** The largest letters are for templates at least this wide and high. */
const roomy = 240;
const lineSize = 2.4;
const leading = 1.28;
const widest = 92;
/** What reaches down farther than this, millimetres, has its name beside its line alone: in its middle nobody would take the one for the other’s. */
const largestInside = 70;

interface Block {
  readonly width: number;
  readonly height: number;
  readonly draw: (at: Point) => readonly TextItem[];
}

/**
 * A label set in some width. A long one is cut: the label must leave room for its template.
 *
 * @param most lines of one paragraph
 */
export function labelBlock(lines: readonly LabelLine[], size: number, width: number, most = 6): Block {
  const set = lines.flatMap(({ words, scale, weight }) => {
    const own = Math.max(leastSize, size * scale);
    const all = linesOf(settable(words.slice(0, 600)), width, own, weight);
    const shown = all.length <= most ? all : [...all.slice(0, most - 1), cutTo(all.slice(most - 1).join(' '), width, own, weight)];
    return shown.map((text) => ({ text, size: own, weight, wide: widthOf(text, own, weight) }));
  });
  const high = set.reduce((sum, line) => sum + line.size * leading, 0);
  return {
    width: Math.max(0, ...set.map(({ wide }) => wide)),
    height: high,
    draw: ({ x, y }) => {
      let down = y;
      return set.map((line) => {
        down += line.size * leading;
        return textItem(line.text, { x, y: down - line.size * (leading - capitals) / 2 }, { size: line.size, weight: line.weight });
      });
    },
  };
}

/** A label where there is room for it, upright or turned; undefined where there is none. */
export function placedLabel(room: Room, lines: readonly LabelLine[]): readonly TextItem[] | undefined {
  for (const size of labelSizes) {
    if (size === labelSizes[0] && !room.isAtLeast(roomy)) continue;
    const level = (width: number): readonly TextItem[] | undefined => {
      const block = labelBlock(lines, size, Math.min(width, 21 * size));
      const box = room.placeFor(block.width, block.height, 1.4);
      if (box === undefined) return undefined;
      room.take(box);
      return block.draw(box);
    };
    // A narrow strip is read from its right side.
    const upright = (): readonly TextItem[] | undefined => {
      const block = labelBlock(lines, size, 21 * size);
      const box = room.placeFor(block.height, block.width, 1.4);
      if (box === undefined) return undefined;
      room.take(box);
      return turnedUp(block, box);
    };
    // Rather turned than broken into many short lines.
    const placed = level(widest) ?? level(56) ?? upright() ?? level(38) ?? level(26);
    if (placed !== undefined) return placed;
  }
  return undefined;
}

/** A block turned a quarter to the left into a box. */
function turnedUp(block: Block, box: Box): readonly TextItem[] {
  return block.draw({ x: 0, y: 0 }).map((item) => ({ ...item, at: { x: box.x + item.at.y, y: box.y + box.height - item.at.x }, turn: -90 }));
}

/**
 * Lines of text that are read together, for a template that lies turned a quarter to the left: those that run up would stand
 * on their heads, and run down in the same place.
 */
export function forTurned(block: readonly TextItem[]): readonly TextItem[] {
  const extents = block.flatMap((item) => (item.turn === -90 ? textExtent(item) ?? [] : []));
  if (extents.length === 0) return block;
  const [across, along] = [
    Math.min(...extents.map(({ x }) => x)) + Math.max(...extents.map(({ x, width }) => x + width)),
    Math.min(...extents.map(({ y }) => y)) + Math.max(...extents.map(({ y, height }) => y + height)),
  ];
  return block.map((item) => (item.turn === -90 ? { ...item, at: { x: across - item.at.x, y: along - item.at.y }, turn: 90 } : item));
}

/**
 * The names of inner lines, marks and folds, each beside what it names.
 *
 * @param all every line of the template, be it named or not
 */
export function nameLabels<Named extends Stroke>(room: Room, strokes: readonly Named[], all: readonly Stroke[], words: (stroke: Named) => string): readonly TextItem[] {
  return strokes.flatMap((stroke) => {
    const text = cutTo(settable(words(stroke)), 70, lineSize);
    // What is cut from other templates is all drawn alike: the name of one line must not be taken for that of the next.
    const alike = new Room([]);
    if (stroke.role === 'ghost') for (const one of all) if (one.role === 'ghost' && one.name !== stroke.name) alike.block(one.points, one.closed);
    return text === '' ? [] : nameLabel(room, alike, stroke, text);
  });
}

/** @param alike lines that are drawn as this one is */
function nameLabel(room: Room, alike: Room, stroke: Stroke, text: string): readonly TextItem[] {
  const width = widthOf(text, lineSize);
  const height = lineSize * 1.1;
  const places = placesFor(stroke, width, height).filter(({ box }) => alike.isBlank(grown(box, offAlike)));
  // A ghost is told by the legend, and a closed line has room on many sides.
  const close = (): readonly Place[] => (stroke.closed || stroke.role === 'ghost' ? [] : placesFor(stroke, width, height, closeGap));
  const clear = (off: (place: Place) => boolean): Place | undefined =>
    places.find((place) => off(place) && room.isFree(place.box, 0.4)) ?? places.find((place) => off(place) && room.isBlank(place.box)) ?? close().find((place) => off(place) && room.isBlank(place.box));
  const isOnSheet = ({ box }: Place): boolean => room.isOnSheet(grown(box, reach));
  const free = clear((place) => isOnSheet(place) && room.isOffJoins(place.box)) ?? clear(isOnSheet);
  // A ghost is told by the legend; any other name is written even over a line. No line is ever blotted out.
  const chosen = free ?? (stroke.role === 'ghost' ? undefined : places.find(isOnSheet) ?? places[0]);
  if (chosen === undefined) return [];
  const { box, turn } = chosen;
  room.take(box);
  const at = turn === 0 ? { x: box.x, y: box.y + lineSize * 0.82 } : { x: box.x + lineSize * 0.82, y: box.y + box.height };
  return [textItem(text, at, { size: lineSize, turn })];
}

/** How far a name keeps from lines that are drawn as its own is, millimetres (invented). */
const offAlike = 2.4;

/** How far a name keeps from its line, and how near it may come where other lines run close by, as topstitching 1/8 in beside a fold; millimetres. */
const [usualGap, closeGap] = [0.8, 0.25];

/** How far the tallest letters reach out of the box of a name, millimetres. */
const reach = 0.45;

/** A closed line or a single one that runs level and upright alone. */
const isSquare = ({ points, closed }: Stroke): boolean =>
  (closed || points.length === 2) && points.every(({ x, y }, index) => {
    const before = points.at(index - 1);
    return before === undefined || Math.abs(x - before.x) < 0.01 || Math.abs(y - before.y) < 0.01;
  });

/** @param gap between the line and its name */
function placesFor(stroke: Stroke, width: number, height: number, gap = usualGap): readonly Place[] {
  const { role, points, closed } = stroke;
  // Several of them run beside one another, all drawn alike: each name must stand next to its own.
  if (role === 'ghost' && !isSquare(stroke)) return placesBeside(points, closed, width, height, gap);
  const box = boundsOfPoints(points);
  const level = (x: number, y: number): Place => ({ box: { x, y, width, height }, turn: 0 });
  const upright = (x: number, y: number): Place => ({ box: { x, y, width: height, height: width }, turn: -90 });
  if (role === 'notch') {
    // Beside it, then before its tip.
    const [x, y] = [(box.minX + box.maxX - width) / 2, (box.minY + box.maxY - height) / 2];
    return [level(box.maxX + gap, y), level(box.minX - gap - width, y), level(x, box.maxY + gap), level(x, box.minY - gap - height)];
  }
  if (role === 'mark' || role === 'drill') {
    const y = (box.minY + box.maxY) / 2 - height / 2;
    return [level(box.maxX + gap, y), level(box.minX - gap - width, y), level((box.minX + box.maxX - width) / 2, box.minY - gap - height), level((box.minX + box.maxX - width) / 2, box.maxY + gap), level(box.maxX + gap, box.minY - height)];
  }
  if (closed) {
    const across = [0.5, 0.15, 0.85, 0.3, 0.7].map((share) => box.minX + (box.maxX - box.minX - width) * share);
    return [...across.map((x) => level(x, box.minY + gap)), ...across.map((x) => level(x, box.maxY - gap - height)), ...across.map((x) => level(x, box.minY - gap - height)), ...across.map((x) => level(x, box.maxY + gap))];
  }
  const shares = [0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95, 0.4, 0.6];
  if (box.maxX - box.minX >= box.maxY - box.minY) {
    const tilt = box.maxY - box.minY;
    return shares.flatMap((share) => {
      const x = box.minX + (box.maxX - box.minX - width) * share;
      if (tilt < 1) return [level(x, box.minY - gap - height), level(x, box.maxY + gap)];
      // Of a pleat or a dart its middle, too: the arrow at its end reaches beyond its lowest line.
      const within = role === 'line' && tilt < largestInside ? [0.6, 0.3].map((part) => level(x, box.minY + tilt * part)) : [];
      return [level(x, box.minY + gap), level(x, box.maxY - gap - height), ...within];
    });
  }
  return shares.flatMap((share) => {
    const y = box.minY + (box.maxY - box.minY - width) * share;
    return [upright(box.minX - gap - height, y), upright(box.maxX + gap, y)];
  });
}
