import { difference, intersection } from '../geometry/boolean.ts';
import { isCircle } from '../geometry/circle.ts';
import { boundsOfPoints, polygonArea } from '../geometry/measure.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { Display } from '../units/length.ts';
import { sidesText } from '../units/sides.ts';
import { figure } from './figures.ts';
import { lineText } from './names.ts';

/** Smaller parts than this, in square millimetres, are what rounding leaves. */
const leastPart = 1;

/**
 * What to cut out, and where it lies from the left and the lower end of the layer. Only what lies on the layer is told:
 * a window that reaches past the edge opens it there, and one that reaches right across parts it.
 */
export function windowNotes(line: CutLine, display: Display): readonly string[] {
  const layer = boundsOfPoints(line.outline);
  const notes = line.holes.flatMap((hole, index) => {
    const name = lineText(line.piece, line.windows[Math.min(index, line.windows.length - 1)] ?? '');
    return intersection([line.outline], [counterClockwise(hole)]).filter((part) => polygonArea(part) > leastPart).map((part) => {
      const box = boundsOfPoints(part);
      const size = sidesText(isCircle(part), figure(box.maxX - box.minX, display), figure(box.maxY - box.minY, display));
      return `cut out ${name}: ${size}, ${figure(box.minX - layer.minX, display)} from the left, ${figure(box.minY - layer.minY, display)} from below`;
    });
  });
  const parts = line.holes.length === 0 ? 1 : difference([line.outline], line.holes.map(counterClockwise)).filter((ring) => polygonArea(ring) > leastPart).length;
  return parts > 1 ? [...notes, `in ${parts} parts`] : notes;
}

const counterClockwise = (ring: CutLine['outline']): CutLine['outline'] => (polygonArea(ring) < 0 ? [...ring].reverse() : ring);
