import type { LayPiece, LayPoint, LayProblem } from '../../../server/src/lay/problem.ts';
import type { Random } from '../../../server/src/lay/random.ts';
import { box } from '../rectangles/boxes.ts';

/** A problem together with a length some lay of it is known to have. */
export interface Case {
  readonly problem: LayProblem;
  readonly length: number;
}

const whole = (random: Random, low: number, high: number): number => low + Math.floor(random() * (high - low + 1));

/**
 * A piece of cloth cut up without waste: its own length is a lay of the parts. Straight cuts across a
 * part make rectangles; some parts are cut again along a diagonal or a slanting line.
 */
export function cutCloth(random: Random): Case {
  const width = whole(random, 2, 40) * 5;
  const length = whole(random, 2, 40) * 5;
  const parts = [{ x0: 0, y0: 0, x1: length, y1: width }];
  for (let cut = whole(random, 0, 14); cut > 0; cut--) {
    const at = whole(random, 0, parts.length - 1);
    const { x0, y0, x1, y1 } = parts[at]!;
    if (random() < 0.5 && x1 - x0 > 1) {
      const x = whole(random, x0 + 1, x1 - 1);
      parts.splice(at, 1, { x0, y0, x1: x, y1 }, { x0: x, y0, x1, y1 });
    } else if (y1 - y0 > 1) {
      const y = whole(random, y0 + 1, y1 - 1);
      parts.splice(at, 1, { x0, y0, x1, y1: y }, { x0, y0: y, x1, y1 });
    }
  }
  const slanting = random() < 0.5;
  const outlines = parts.flatMap(({ x0, y0, x1, y1 }): readonly (readonly LayPoint[])[] => {
    const corners = box(x0, y0, x1, y1) as readonly [LayPoint, LayPoint, LayPoint, LayPoint];
    if (!slanting || random() < 0.5) return [corners];
    const [a, b, c, d] = corners;
    if (random() < 0.5) return [[a, b, c], [a, c, d]];
    const low = { x: x0 + (x1 - x0) * 0.25, y: y0 };
    const high = { x: x0 + (x1 - x0) * 0.75, y: y1 };
    return [[a, low, high, d], [low, b, c, high]];
  });
  return { problem: { width, gap: 0, pieces: outlines.map((outline) => asPiece(outline, random)) }, length };
}

/** Turned back by its drawn turn the part fits where it was cut, so that turn must stay permitted. */
function asPiece(outline: readonly LayPoint[], random: Random): LayPiece {
  const quarter = whole(random, 0, 3);
  const turns = [[0], [0, 180], [0, 90, 180, 270]][whole(random, 0, 2)]!;
  const back = turns.length === 4 ? quarter : 0;
  const drawn = outline.map(({ x, y }) => [{ x, y }, { x: y, y: -x }, { x: -x, y: -y }, { x: -y, y: x }][back]!);
  const either = random() < 0.3;
  const count = { asDrawn: either ? 0 : 1, mirrored: 0, either: either ? 1 : 0 };
  return { id: 'part', outline: drawn, count, turns, onFold: false };
}

/** Rectangles of any sizes, some large against the width, with or without a gap, some on the fold. */
export function anyRectangles(random: Random): LayProblem {
  const width = whole(random, 50, 400);
  const gap = [0, 0, 2, 7.5][whole(random, 0, 3)]!;
  const pieces = Array.from({ length: whole(random, 0, 9) }, (): LayPiece => {
    const onFold = random() < 0.15;
    const outline = box(0, 0, whole(random, 4, 2 * width) / 2, whole(random, 4, 2 * width) / 2);
    const turns = onFold ? [0, 180] : [[0], [0, 180], [0, 90], [90]][whole(random, 0, 3)]!;
    const count = { asDrawn: whole(random, 0, 3), mirrored: whole(random, 0, 2), either: whole(random, 0, 2) };
    return { id: 'rectangle', outline, count, turns, onFold };
  });
  return { width, gap, pieces };
}
