import { contains } from '../geometry/inside.ts';
import { distancePointToBoundary } from '../geometry/distance.ts';
import { boundsOfPoints, type Bounds } from '../geometry/measure.ts';
import type { Point, Polygon, Polyline } from '../geometry/shape.ts';
import { movePolyline } from '../geometry/transform.ts';
import { between, distance, turnOf } from '../geometry/vector.ts';
import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { foldMirroring } from '../model/piece/whole.ts';
import { isCloth } from '../model/stock/material.ts';
import { irons } from '../syntax/statements/vocabulary.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { layersBeneath } from './beneath.ts';
import { figure } from './figures.ts';
import { keptFor } from './per-display.ts';

/** One step of fusing or basting a layer on to a shell. */
export interface FusingRow {
  readonly pieceName: string;
  readonly step: number;
  readonly piece: string;
  readonly layer: string;
  /** The cloth that it goes on. */
  readonly onto: string;
  /** The layers between it and that cloth which it lies on, the uppermost first; empty where it lies on the cloth alone. */
  readonly over: readonly string[];
  readonly side: 'wrong' | 'right';
  /** `fuse` for what has glue, `baste` for what has none, `apply` for cloth that goes on cloth. */
  readonly how: 'fuse' | 'baste' | 'apply';
  /** What the materials ask for while doing so: `at low heat`, `without steam`, `with clips`. */
  readonly care: readonly string[];
  /** On the cloth as it is cut, whatever lies between: `edge to edge`, `1/2 in inside every edge`. */
  readonly where: string;
  readonly count: number;
  readonly place: Place;
}

/** Layers in the order written: a piece's layers from its cloth outwards. */
export function fusingRows(resolved: Resolved, display: Display, articles: number): readonly FusingRow[] {
  const rows: FusingRow[] = [];
  for (const { shape, cuts } of resolved.pieces) {
    let step = 0;
    for (const line of cuts) {
      const shell = line.layer === undefined ? undefined : cuts[line.layer.shell];
      if (line.layer === undefined || shell === undefined) continue;
      step++;
      const beneath = layersBeneath(line, cuts);
      rows.push({
        step,
        pieceName: shape.name,
        piece: shape.title,
        layer: line.material.title,
        onto: shell.material.title,
        over: [...new Set(beneath.map((one) => one.material.title))],
        side: line.layer.side,
        how: line.material.faces === 'glued' ? 'fuse' : isCloth(line.material) ? 'apply' : 'baste',
        care: careFor(line, [shell, ...beneath]),
        where: whereOn(line, shell, display),
        count: Math.min(Number(line.count.n), Number(shell.count.n)) * articles,
        place: line.place,
      });
    }
  }
  return rows;
}

/** How hot, and how held, by what bears the least of it. */
function careFor(layer: CutLine, under: readonly CutLine[]): readonly string[] {
  const treatments = [layer, ...under].map((line) => line.material.treatment);
  if (layer.material.faces !== 'glued') return treatments.some(({ hold }) => hold === 'clips') ? ['with clips, no pins'] : [];
  const coolest = irons.find((iron) => treatments.some((one) => one.iron === iron));
  return [
    ...(coolest === undefined ? [] : coolest === 'none' ? ['without heat'] : [`at ${coolest} heat`]),
    ...(treatments.some(({ steam }) => steam === false) ? ['without steam'] : []),
  ];
}

/** Two lines that are nearer than this, in millimetres, are flush. */
const flush = 0.05;

/** Where a layer lies on what it goes on, as both are cut. Worked out once for a layer: its shell is as old as it is. */
export const whereOn = (layer: CutLine, shell: CutLine, display: Display): string => places(layer, display)(shell);

const places = keptFor((layer: CutLine, display: Display) => {
  const found = new WeakMap<CutLine, string>();
  return (shell: CutLine): string => {
    const before = found.get(shell);
    if (before !== undefined) return before;
    const words = placeOn(layer, shell, display);
    found.set(shell, words);
    return words;
  };
});

function placeOn(layer: CutLine, shell: CutLine, display: Display): string {
  const open = evenGap(layer, shell, []);
  if (open !== undefined) return evenly(open, display);
  const darts = dartsOf(shell);
  const closed = darts.length === 1 ? ', its dart closed' : ', its darts closed';
  const gap = darts.length === 0 ? undefined : evenGap(layer, shell, darts);
  if (gap !== undefined) return `${evenly(gap, display)}${closed}`;
  const [drawn, sewn] = [boundsOfPoints(shell.outline), boundsOfPoints(besideDarts(shell.outline, darts))];
  const inner = boundsOfPoints(layer.outline);
  // A layer that has such a peak itself is held against the other one.
  const isClosed = !isSameBox(drawn, sewn) && isSameBox(inner, boundsOfPoints(besideDarts(layer.outline, darts)));
  return isClosed ? `${fromSides(inner, sewn, display)}${closed}` : fromSides(inner, drawn, display);
}

/** A gap that is the same all round; below nothing where the layer stands out. */
function evenly(gap: number, display: Display): string {
  // Corners that are cut off, and curves, are out by a little; a gap that is a step but for that is one.
  const step = display.step.valueOf();
  const near = Math.round(gap / step) * step;
  const even = Math.abs(near - gap) < 2 * flush ? near : gap;
  if (Math.abs(even) < flush) return 'edge to edge';
  return even > 0 ? `${figure(even, display)} inside every edge` : `standing out ${figure(-even, display)} all round`;
}

function fromSides(inner: Bounds, outer: Bounds, display: Display): string {
  const { left, right, top, bottom } = { left: inner.minX - outer.minX, right: outer.maxX - inner.maxX, top: outer.maxY - inner.maxY, bottom: inner.minY - outer.minY };
  if (Math.abs(left - right) < flush && Math.abs(top - bottom) < flush) return `centred: ${listGaps([['left and right', left], ['top and bottom', top]], display)}`;
  const sides: readonly (readonly [string, number])[] = Math.abs(left - right) < flush ? [['left and right', left]] : [['the left', left], ['the right', right]];
  const ends: readonly (readonly [string, number])[] = Math.abs(top - bottom) < flush ? [['top and bottom', top]] : [['the top', top], ['the bottom', bottom]];
  const words = listGaps([...ends, ...sides], display);
  return Math.abs(left - right) < flush ? words : `${words} (seen from the right side)`;
}

const isSameBox = (one: Bounds, other: Bounds): boolean => (['minX', 'maxX', 'minY', 'maxY'] as const).every((side) => Math.abs(one[side] - other[side]) < flush);

/** The darts of what is cut: those of the half that isn't drawn, too. */
function dartsOf({ piece }: CutLine): readonly Polyline[] {
  const drawn = piece.lines.filter(({ isDart }) => isDart === true).map(({ points }) => points);
  const mirror = foldMirroring(piece);
  return mirror === undefined ? drawn : drawn.flatMap((points) => [points, movePolyline(mirror, points)]);
}

/** What is left of an outline without the peaks over its darts, which are taken in once those are closed. */
const besideDarts = (outline: Polygon, darts: readonly Polyline[]): Polygon => outline.filter((point) => !darts.some((dart) => isBetweenLegs(dart, point)));

const isSamePolygon = (one: Polygon, other: Polygon): boolean => one.length === other.length && one.every(({ x, y }, index) => x === other[index]?.x && y === other[index].y);

/**
 * The one distance that a layer keeps from the whole edge of its shell, below nothing where it stands out; undefined where it has several.
 *
 * @param closed darts between whose legs nothing is measured: closed, they take that in
 */
function evenGap(layer: CutLine, shell: CutLine, closed: readonly Polyline[]): number | undefined {
  if (isSamePolygon(layer.outline, shell.outline)) return 0;
  for (const [inside, outside, sign] of [[layer, shell, 1], [shell, layer, -1]] as const) {
    if (!contains(outside.outline, inside.outline, flush)) continue;
    // Between two points that are as far away as each other a straight side may still come nearer, or lead away.
    const places = inside.outline.flatMap((point, index) => [point, between(point, inside.outline[(index + 1) % inside.outline.length] ?? point, 0.5)])
      .filter((point) => !closed.some((dart) => isBetweenLegs(dart, point)));
    if (places.length === 0) return undefined;
    const gaps = places.map((point) => distancePointToBoundary(point, outside.outline));
    const [least, most] = [Math.min(...gaps), Math.max(...gaps)];
    if (most - least < 2 * flush) return sign * (least + most) / 2;
  }
  return undefined;
}

/** Whether a point lies between the legs of a dart, be it beyond their ends; on a leg it doesn't. */
function isBetweenLegs([one, tip, other]: Polyline, point: Point): boolean {
  if (one === undefined || tip === undefined || other === undefined) return false;
  const side = Math.sign(turnOf(tip, one, other));
  const leg = distance(tip, one);
  return side * turnOf(tip, one, point) > leg * onLeg && side * turnOf(tip, point, other) > leg * onLeg;
}

/** Nearer to a leg than this, in millimetres, is on it. */
const onLeg = 0.001;

function listGaps(gaps: readonly (readonly [string, number])[], display: Display): string {
  const flushWith = gaps.filter(([, gap]) => Math.abs(gap) < flush).map(([side]) => side.replace(/^top/, 'the top').replace(/^left/, 'the left'));
  const inside = gaps.filter(([, gap]) => gap >= flush).map(([side, gap]) => `${figure(gap, display)} inside ${side}`);
  const beyond = gaps.filter(([, gap]) => gap <= -flush).map(([side, gap]) => `${figure(-gap, display)} beyond ${side}`);
  return [...(flushWith.length === 0 ? [] : [`flush with ${flushWith.join(' and ')}`]), ...inside, ...beyond].join(', ');
}
