import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point } from '../geometry/shape.ts';
import { widthOf } from './letters/letters.ts';
import { overlap } from './room.ts';
import type { Box, GroupItem, Item, Path, TextItem } from './sheet.ts';

/** How far letters reach over the line that they stand on and below it, as a part of their size: of the typeface’s tallest and deepest. */
const [ascent, descent] = [1, 0.35];

/** The box round items, lines with their width; undefined where there is nothing to see. */
export function extentOf(items: readonly Item[]): Box | undefined {
  return items.reduce<Box | undefined>((all, item) => united(all, extentOfOne(item)), undefined);
}

function extentOfOne(item: Item): Box | undefined {
  switch (item.kind) {
    case 'line':
      return boxRound(pointsOf(item.path), item.pen.width / 2);
    case 'fill':
      return boxRound(pointsOf(item.path), 0);
    case 'text':
      return textExtent(item);
    case 'group': {
      const inner = extentOf(item.items);
      return inner && outOf(inner, item);
    }
  }
}

/** The box round one line of text. */
export function textExtent({ words, at, align, size, weight, turn }: TextItem): Box | undefined {
  if (words === '') return undefined;
  const width = widthOf(words, size, weight);
  const from = align === 'start' ? 0 : align === 'middle' ? -width / 2 : -width;
  const radians = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  const corners = [from, from + width].flatMap((along) => [ascent * size, -descent * size].map((up) => ({ x: at.x + cos * along + sin * up, y: at.y + sin * along - cos * up })));
  return boxRound(corners, 0);
}

/** A box within a group as it lies round the group; undefined where the group’s window hides it. */
export function outOf({ x, y, width, height }: Box, { turned, shift, window }: Pick<GroupItem, 'turned' | 'shift' | 'window'>): Box | undefined {
  const lain = turned ? { x: y + shift.x, y: shift.y - x - width, width: height, height: width } : { x: x + shift.x, y: y + shift.y, width, height };
  return window === undefined ? lain : shared(lain, window);
}

/** Items without those that lie wholly beside a window, groups that are left with nothing among them. */
export function seenThrough(items: readonly Item[], window: Box): readonly Item[] {
  return items.flatMap((item): readonly Item[] => {
    if (item.kind !== 'group') {
      const extent = extentOfOne(item);
      return extent !== undefined && overlap(extent, window) ? [item] : [];
    }
    const { turned, shift } = item;
    const [x, y] = [window.x - shift.x, window.y - shift.y];
    const inner = seenThrough(item.items, turned ? { x: -y - window.height, y: x, width: window.height, height: window.width } : { ...window, x, y });
    return inner.length === 0 ? [] : [{ ...item, items: inner }];
  });
}

/** Points of a path, those that only steer a curve among them: it lies within them. */
const pointsOf = (path: Path): readonly Point[] => path.flatMap((step) => (step.kind === 'close' ? [] : step.kind === 'cubic' ? [step.control1, step.control2, step.to] : [step.to]));

function boxRound(points: readonly Point[], by: number): Box | undefined {
  if (points.length === 0) return undefined;
  const { minX, minY, maxX, maxY } = boundsOfPoints(points);
  return { x: minX - by, y: minY - by, width: maxX - minX + 2 * by, height: maxY - minY + 2 * by };
}

function united(one: Box | undefined, other: Box | undefined): Box | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  const [x, y] = [Math.min(one.x, other.x), Math.min(one.y, other.y)];
  return { x, y, width: Math.max(one.x + one.width, other.x + other.width) - x, height: Math.max(one.y + one.height, other.y + other.height) - y };
}

function shared(one: Box, other: Box): Box | undefined {
  const [x, y] = [Math.max(one.x, other.x), Math.max(one.y, other.y)];
  const [width, height] = [Math.min(one.x + one.width, other.x + other.width) - x, Math.min(one.y + one.height, other.y + other.height) - y];
  return width < 0 || height < 0 ? undefined : { x, y, width, height };
}
