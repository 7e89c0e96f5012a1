import { pointInside } from '../../geometry/inside.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import { roomiestPoint } from './roomiest.ts';
import { polylineSteps } from '../path.ts';
import type { Pen } from '../pens.ts';
import { textItem, type Item } from '../sheet.ts';
import { hatching, type Look } from './hatch.ts';
import { widthOf } from '../letters/letters.ts';

const border: Pen = { width: 0.3, dashes: [], tone: 0 };

/**
 * A shape filled as its material looks, with words in it where it is widest: smaller in a small one, and in one too small
 * for any on top of it, where nothing else says what it is. Points of a sheet, y downwards.
 */
export function filledShape(rings: readonly Polygon[], look: Look, words: string, size: number, isNamedElsewhere: boolean): readonly Item[] {
  const [outline = []] = rings;
  const path = rings.flatMap((ring) => polylineSteps(ring, true));
  const at = roomiestPoint(outline);
  const blankFor = (own: number): Polygon => boxAround(at, widthOf(words, own, 'bold') + 1.2, own * 1.05);
  const fitting = [size, size * 0.8].find((own) => blankFor(own).every((corner) => pointInside(corner, outline)));
  const own = fitting ?? size * 0.8;
  const name = textItem(words, { x: at.x, y: at.y + own * 0.33 }, { size: own, weight: 'bold', align: 'middle', role: 'picture' });
  return [
    ...(look.tone < 1 ? [{ kind: 'fill', role: 'picture', name: '', path, tone: look.tone } as const] : []),
    ...look.lines.map(({ angle, apart, pen }): Item => ({ kind: 'line', role: 'picture', name: '', path: hatching(rings, angle, apart), pen })),
    { kind: 'line', role: 'picture', name: words, path, pen: border },
    ...(fitting !== undefined ? [{ kind: 'fill', role: 'picture', name: '', path: polylineSteps(blankFor(own), true), tone: 1 } as const, name] : isNamedElsewhere ? [] : [name]),
  ];
}

const boxAround = ({ x, y }: Point, width: number, height: number): Polygon => {
  const [w, h] = [width / 2, height / 2];
  return [{ x: x - w, y: y - h }, { x: x + w, y: y - h }, { x: x + w, y: y + h }, { x: x - w, y: y + h }];
};

/** Rings scaled, with the upper left corner of the first at 0, 0. */
export function scaledRings(rings: readonly Polygon[], scale: number): { readonly rings: readonly Polygon[]; readonly width: number; readonly height: number } {
  const box = boundsOfPoints(rings[0] ?? []);
  return {
    rings: rings.map((ring) => ring.map(({ x, y }) => ({ x: (x - box.minX) * scale, y: (y - box.minY) * scale }))),
    width: (box.maxX - box.minX) * scale, height: (box.maxY - box.minY) * scale,
  };
}
