import { difference, intersection, union } from '../geometry/boolean.ts';
import { polygonArea } from '../geometry/measure.ts';
import type { Polygon } from '../geometry/shape.ts';
import type { CutLine } from '../model/piece/cut-line.ts';

/** Smaller parts than this, in square millimetres, are what rounding leaves. */
const leastPart = 1;

/**
 * The layers that a layer lies on, the uppermost first: of those that are on its side of the same cloth already, each that
 * it touches with some part that nothing above covers. None where it lies on the cloth alone.
 */
export function layersBeneath(layer: CutLine, cuts: readonly CutLine[]): readonly CutLine[] {
  const earlier = cuts.slice(0, cuts.indexOf(layer)).filter((other) => other.layer?.shell === layer.layer?.shell && other.layer?.side === layer.layer?.side);
  const beneath: CutLine[] = [];
  let open = regionOf(layer);
  for (const other of earlier.reverse()) {
    const region = regionOf(other);
    if (areaOf(intersection(open, region)) < leastPart) continue;
    beneath.push(other);
    open = difference(open, region);
  }
  return beneath;
}

/** What is left of a cut line around its windows. */
const regionOf = ({ outline, holes }: CutLine): readonly Polygon[] =>
  holes.length === 0 ? [outline] : difference([outline], union(holes.map((hole) => (polygonArea(hole) < 0 ? [...hole].reverse() : hole))));

const areaOf = (rings: readonly Polygon[]): number => rings.reduce((sum, ring) => sum + polygonArea(ring), 0);
