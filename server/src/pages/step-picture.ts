import { simplified } from '../buying/simplify.ts';
import { distancePointToPolyline } from '../geometry/distance.ts';
import { boundsOfPoints, polylineLength } from '../geometry/measure.ts';
import type { Point, Polyline } from '../geometry/shape.ts';
import { between, distance, minus, plus, times, unit } from '../geometry/vector.ts';
import type { DrawnPiece, StepDrawing } from '../table/step-drawings.ts';
import { shelved } from './booklet/shelves.ts';
import { capitals, cutTo, settable, widthOf } from './letters/letters.ts';
import { polylineSteps } from './path.ts';
import type { Pen } from './pens.ts';
import { groupItem, textItem, type Item, type TextItem } from './sheet.ts';

/** What a step sews, on its pieces: small enough for several beside one another. Millimetres. */
export interface StepPicture {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  /** `Step 4: a Front seam, b Back seam`. */
  readonly caption: string;
  /** What it shows, for whoever doesn't see it. */
  readonly words: string;
}

/** Sizes of the pictures, in millimetres (invented, looked at in print): the largest piece, the least that can be told apart, the letters. */
const most = { width: 48, height: 16 };
const least = { long: 9, short: 4.5 };
const letter = 2.5;
/** Between pieces, and round a piece for the letters beside its lines. */
const gap = 3;
const around = 3.2;
const widest = 100;

/** Told apart by weight, and topstitching by its dashes (ISO 128-2: the more it matters, the heavier). */
const heavy: Pen = { width: 0.9, dashes: [], tone: 0 };
/** Topstitching and quilting, in pairs of dashes as on a template. */
const heavyDashed: Pen = { width: 0.5, dashes: [0.9, 0.8, 0.9, 2], tone: 0 };
const outline: Pen = { width: 0.18, dashes: [], tone: 0 };
const other: Pen = { width: 0.18, dashes: [1, 0.7], tone: 0 };

export function stepPicture({ number, parts, pieces }: StepDrawing): StepPicture {
  const scale = Math.min(...pieces.map((piece) => {
    const { width, height } = extent(piece);
    return Math.min(most.width / width, most.height / height);
  }));
  const boxes = pieces.map((piece) => pieceBox(piece, scale));
  const { placed, height } = shelved(boxes, widest, gap);
  const named = parts.map((part) => (part.letter === '' ? part.title : `${part.letter} ${part.title}`));
  return {
    width: Math.max(...placed.map(({ of, x }) => x + of.width)), height,
    items: placed.map(({ of, x, y }) => groupItem('', of.items, { x, y })),
    caption: `Step ${number}: ${named.join(', ')}`,
    words: `Step ${number}, heavy lines: ${parts.map((part) => (part.letter === '' ? part.words : `${part.letter} ${part.words}`)).join('; ')}.`,
  };
}

interface Box {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

const extent = ({ outline: ring }: DrawnPiece): { readonly width: number; readonly height: number } => {
  const { minX, minY, maxX, maxY } = boundsOfPoints(ring);
  return { width: Math.max(maxX - minX, 1e-6), height: Math.max(maxY - minY, 1e-6) };
};

/** One piece with its title below. A small one is drawn larger than to scale, a narrow one wider, so that its edges are told apart. */
function pieceBox(piece: DrawnPiece, common: number): Box {
  const box = boundsOfPoints(piece.outline);
  const { width, height } = extent(piece);
  const scale = Math.max(common, least.long / Math.max(width, height));
  const [across, up] = [width, height].map((side) => Math.max(scale, least.short / side)) as [number, number];
  const aside = Math.max(around, beside + 0.5 + roomFor(piece));
  const own = { width: width * across + 2 * aside, height: height * up + 2 * around };
  const title = cutTo(settable(piece.title), Math.max(own.width, 30), letter);
  // A text is set in other letters on a screen, which may be wider.
  const full = Math.max(own.width, widthOf(title, letter) * 1.15);
  const left = (full - own.width) / 2 + aside;
  const toPaper = ({ x, y }: Point): Point => ({ x: left + (x - box.minX) * across, y: around + (box.maxY - y) * up });
  const path = (points: Polyline, pen: Pen, closed = false): Item => ({ kind: 'line', role: 'picture', name: '', path: polylineSteps(drawn(points.map(toPaper), closed), closed), pen });
  return {
    width: full, height: own.height + letter * 1.2,
    items: [
      path(piece.outline, outline, true),
      ...piece.others.map((points) => path(points, other)),
      ...piece.lines.map(({ points, isDashed }) => path(points, isDashed ? heavyDashed : heavy)),
      ...letterItems(piece.lines.map(({ letter: words, points }) => ({ words, points: points.map(toPaper) }))),
      textItem(title, { x: full / 2, y: own.height + letter * 0.8 }, { size: letter, align: 'middle', role: 'picture' }),
    ],
  };
}

/** The widest that letters beside one line may be: where all of them stand together. */
const roomFor = ({ lines }: DrawnPiece): number => widthOf([...new Set(lines.map(({ letter: words }) => words))].join(' '), letter, 'bold') * 1.15;

/** No finer than is seen, so that curves take few signs. */
const drawn = (points: Polyline, closed: boolean): Polyline => (closed ? simplified(points, 0.03) : points.length < 3 ? points : thinned(points, 0.15));

/** An open run without the points that lie nearer than this to the one before. */
function thinned(points: Polyline, apart: number): Polyline {
  let before = points[0];
  return points.filter((point, index) => {
    if (index > 0 && index < points.length - 1 && before !== undefined && distance(point, before) < apart) return false;
    before = point;
    return true;
  });
}

/** Where a letter stands beside a line. */
interface Spot {
  readonly at: Point;
  /** Which way it lies from its line. */
  readonly out: Point;
}

/** Letters of lines that have the same middle. */
interface Letter {
  readonly middle: Spot;
  readonly points: Polyline;
  readonly words: string[];
}

/** How far from its line a letter begins, and how near to one another two of the same say nothing more. */
const beside = 1;
const apart = 4;

/** Beside the middle of each line, outside of the piece, or where no heavy line and no other letter is in the way; of lines that lie on one another, together. */
function letterItems(lines: readonly { readonly words: string; readonly points: Polyline }[]): readonly Item[] {
  const letters: Letter[] = [];
  for (const { words, points } of lines) {
    const middle = words === '' ? undefined : middleOf(points);
    if (middle === undefined || letters.some((one) => one.words.includes(words) && distance(one.middle.at, middle.at) < apart)) continue;
    const same = letters.find((one) => distance(one.middle.at, middle.at) < 0.5);
    if (same === undefined) letters.push({ middle, points, words: [words] });
    else same.words.push(words);
  }
  return letters.reduce<readonly TextItem[]>((placed, { middle, points, words }) => {
    const items = spotsFor(middle, points).map((spot) => letterItem(spot, words.join(' ')));
    const read = items.find((item) => isRead(item, lines, placed)) ?? items[0];
    return read === undefined ? placed : [...placed, read];
  }, []);
}

function letterItem({ at, out }: Spot, words: string): TextItem {
  const isAside = Math.abs(out.x) > 0.5;
  const far = isAside ? beside : beside + (letter * capitals) / 2;
  return textItem(words, { x: at.x + out.x * far, y: at.y + out.y * far + (letter * capitals) / 2 }, { size: letter, weight: 'bold', align: isAside ? (out.x > 0 ? 'start' : 'end') : 'middle', role: 'picture' });
}

/** Where letters may stand, the best first: beside the middle of a line, on the other side of it, or at its corners, first of all at the far end of a dart or pleat. */
function spotsFor(middle: Spot, points: Polyline): readonly Spot[] {
  const [first, last] = [points[0], points.at(-1)];
  const ends = first === undefined || last === undefined ? middle.at : between(first, last, 0.5);
  const far = [...points].sort((a, b) => distance(b, ends) - distance(a, ends)).slice(0, 2);
  const ways: readonly Point[] = [{ x: 0, y: 1 }, { x: 1, y: 0 }, { x: -1, y: 0 }, { x: 0, y: -1 }];
  return [middle, { at: middle.at, out: times(middle.out, -1) }, ...far.flatMap((at) => ways.map((out) => ({ at, out })))];
}

/** Whether no heavy line runs through a letter, and no other letter stands there. */
function isRead(item: TextItem, lines: readonly { readonly points: Polyline }[], placed: readonly TextItem[]): boolean {
  const { left, right, top, bottom } = letterBox(item);
  if (placed.map(letterBox).some((one) => one.left < right && left < one.right && one.top < bottom && top < one.bottom)) return false;
  const inside = [0, 0.25, 0.5, 0.75, 1].flatMap((across) => [top, (top + bottom) / 2, bottom].map((y): Point => ({ x: left + (right - left) * across, y })));
  return lines.every(({ points }) => inside.every((point) => distancePointToPolyline(point, points) > heavy.width / 2));
}

/** From the tops of the capitals to the line that they stand on. */
function letterBox({ words, at, align }: TextItem): { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number } {
  const width = widthOf(words, letter, 'bold');
  const left = align === 'middle' ? at.x - width / 2 : align === 'end' ? at.x - width : at.x;
  return { left, right: left + width, top: at.y - letter * capitals, bottom: at.y };
}

/** Outlines run with the piece on their left, and paper's y runs down. */
function middleOf(points: Polyline): Spot | undefined {
  let left = polylineLength(points) / 2;
  for (let index = 1; index < points.length; index++) {
    const [from, to] = [points[index - 1], points[index]];
    if (from === undefined || to === undefined) return undefined;
    const long = distance(from, to);
    if (long >= left && long > 0) {
      const along = unit(minus(to, from));
      return { at: plus(from, times(along, left)), out: { x: -along.y, y: along.x } };
    }
    left -= long;
  }
  return undefined;
}
