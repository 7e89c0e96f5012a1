import { edgeEnd } from '../geometry/edge.ts';
import { contains, containsPolyline, pointInside } from '../geometry/inside.ts';
import { flattenOutline } from '../geometry/flatten.ts';
import { distanceToLine } from '../geometry/distance.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { Edge, Outline, Point, Polygon, Polyline } from '../geometry/shape.ts';
import { ahead, between, distance, turnOf } from '../geometry/vector.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { takesFromEdge } from '../model/piece/darts.ts';
import type { InnerLine, Mark, Notch, PieceShape, StitchRow } from '../model/piece/piece.ts';
import { notchesToCut } from '../table/marks.ts';
import { edgeText, stitchedLineText } from '../table/names.ts';
import { clippedRuns } from './clip.ts';
import { ghostsOffLines } from './ghosts.ts';
import { circleSteps, down, edgePoints, edgeSteps, isSamePath, polylineSteps, segmentOf } from './path.ts';
import type { Path, Role } from './sheet.ts';

/** A line of a template, with straight lines that stand for it where room is looked for. y downwards. */
export interface Stroke {
  readonly role: Role;
  readonly name: string;
  readonly path: Path;
  readonly points: Polyline;
  readonly closed: boolean;
  readonly filled: boolean;
}

/** The lines of a template in one size. */
export interface Drawing {
  /** What is cut round, as a polygon, y downwards; the half of a piece on a fold. */
  readonly outline: Polygon;
  readonly strokes: readonly Stroke[];
  /** Ends of the fold, where the piece is drawn as half. */
  readonly fold: readonly [Point, Point] | undefined;
}

/** Whether two drawings have the very same lines, whatever these are called. */
export const isSameDrawing = ({ strokes: some }: Drawing, { strokes: others }: Drawing): boolean =>
  some.length === others.length && some.every(({ role, path }, index) => role === others[index]?.role && isSamePath(path, others[index].path));

/** Sizes of what only points something out, in millimetres (invented; a notch must fit in a narrow allowance). */
const notchDepth = 4;
const notchHalf = 2;
const markArm = 4;
const drillRadius = 1.5;
/** How far round a template its piece’s own outline is ghosted. */
const ghostReach = 14;

/** Lines of a piece that something is cut along. */
export interface CutAlong {
  /** All of them, be it that what is cut there is larger, and trimmed to its line later. */
  readonly all: ReadonlySet<string>;
  /** Those that have a template of their own, of just that line: they are ghosts on the others. */
  readonly exactly: ReadonlySet<string>;
}

/**
 * Draws what is cut along one line of a piece.
 *
 * @param along the line that is cut, as in a cut line
 * @param isMarked whether a mark is needed in this combination
 * @param foldedParts what is cut from this template folded
 */
export function drawingOf(shape: PieceShape, cut: Pick<CutLine, 'along' | 'windows' | 'large' | 'outline'>, others: CutAlong, isMarked: (mark: Mark) => boolean, foldedParts: readonly FoldedPart[] = []): Drawing {
  const { along = 'cutting', windows } = cut;
  const fold = foldOf(shape);
  // What is cut large has an outline of its own, opened out; the line that it is trimmed to is drawn in it.
  const main = cut.large === undefined ? mainLine(shape, along, fold) : innerMain(cut.outline, 'cut here, trim later', undefined);
  const isWhole = along === 'cutting' && cut.large === undefined;
  const within: Within = (points, closed) => isWhole || (closed ? contains(main.outline, points, 0.5) : containsPolyline(main.outline, points, 0.5));
  return {
    outline: main.outline,
    strokes: ghostsOffLines([
      ...main.strokes,
      ...(isWhole ? [] : nearOutline(shape.cutting, main.outline)),
      ...(along === 'stitching' && cut.large === undefined ? [] : stitchingStrokes(shape, others, within)),
      ...shape.lines.filter((line) => line.name !== along || cut.large !== undefined).flatMap((line) => innerStroke(line, windows, others, within)),
      ...(isWhole ? shape.stitchRows.filter((row) => !isDrawn(shape, row)).flatMap((row) => stitchStrokes(shape, row)) : []),
      ...(isWhole ? notchesToCut(shape).map((notch) => notchStroke(notch, `notch on ${edgeText(shape, notch.edge)}`)) : []),
      ...(isWhole && windows.length === 0 ? foldedParts : []).flatMap((part) => partFold(part, fold)),
      ...shape.marks.filter((mark) => isMarked(mark) && (isWhole || pointInside(down(mark.point), main.outline))).map(markStroke),
    ]),
    fold: main.fold,
  };
}

/** A part that is cut from a template folded at a line. */
export interface FoldedPart {
  readonly title: string;
  readonly ends: readonly [Point, Point];
}

/** The line to fold at; of a piece that is drawn as half, what of it lies on the half. */
function partFold({ title, ends: [from, to] }: FoldedPart, fold: readonly [Point, Point] | undefined): readonly Stroke[] {
  const sides = fold === undefined ? [1, 1] : [turnOf(...fold, from), turnOf(...fold, to)];
  const [one = 0, other = 0] = sides;
  if (one < 0 && other < 0) return [];
  const crossing = one * other < 0 ? between(from, to, one / (one - other)) : undefined;
  const points = [one < 0 ? crossing ?? from : from, other < 0 ? crossing ?? to : to].map(down);
  return [{ role: 'partfold', name: `fold here for ${title}`, path: polylineSteps(points, false), points, closed: false, filled: false }];
}

type Within = (points: Polyline, closed: boolean) => boolean;

/** The stitching line edge by edge, where there is an allowance beside it; one run of all that follow one another where it has its own template. */
function stitchingStrokes(shape: PieceShape, { exactly }: CutAlong, within: Within): readonly Stroke[] {
  const edges = shape.stitching.edges.filter((edge) => {
    const allowance = shape.allowances.get(edge.name)?.size;
    return edge.name !== shape.fold && allowance !== undefined && allowance.n !== 0n && within(edgePoints(edge), false);
  });
  if (!exactly.has('stitching')) return edges.map((edge) => edgeStroke(edge, 'stitching', `stitching ${edgeText(shape, edge.name)}`));
  const runs: Edge[][] = [];
  for (const edge of edges) {
    const last = runs.at(-1)?.at(-1);
    if (last !== undefined && distance(edgeEnd(last), edge.start) < 1e-6) runs.at(-1)?.push(edge);
    else runs.push([edge]);
  }
  return runs.map((run) => edgesStroke(run, 'ghost', 'stitching line', false));
}

/** A line inside a piece, be it cut out, a template of its own, or only drawn; none where it lies beyond what is cut, or is one to cut along that nothing is cut along. Darts and pleats are always drawn. */
function innerStroke(line: InnerLine, windows: readonly string[], { all, exactly }: CutAlong, within: Within): readonly Stroke[] {
  const { name, use, points: drawn, closed } = line;
  const points = drawn.map(down);
  if (!within(points, closed) || (use === 'line' && !all.has(name) && !takesFromEdge(line))) return [];
  const title = line.pleat !== undefined ? `${line.title}: lay to the arrow` : line.isDart === true && !/\bdart$/i.test(line.title) ? `${line.title}: dart` : line.title;
  const isWindow = windows.includes(name);
  return [{ role: isWindow ? 'cutting' : exactly.has(name) ? 'ghost' : use, name: `${title}${isWindow ? ': cut out' : ''}`, path: polylineSteps(points, closed), points, closed, filled: false }];
}

/** Along lines that a template shows anyway nothing more is drawn. */
const isDrawn = ({ lines }: PieceShape, { distance, from }: StitchRow): boolean => distance.n === 0n && from.every((name) => lines.some((line) => line.name === name && line.use !== 'line'));

/** Topstitching and quilting: its name stands at the lines of the piece that it runs along, else at one of its own alone. */
function stitchStrokes(shape: PieceShape, row: StitchRow): readonly Stroke[] {
  const alongs = row.runs.map(({ points }) => lineAlong(shape, row, points));
  const middle = alongs.some((line) => line !== undefined) ? -1 : Math.floor(row.runs.length / 2);
  return row.runs.map(({ points: drawn, closed }, index) => {
    const points = drawn.map(down);
    const line = alongs[index];
    const name = line === undefined ? (index === middle ? row.title : '') : stitchedLineText(row.title, line.title);
    return { role: 'topstitch', name, path: polylineSteps(points, closed), points, closed, filled: false };
  });
}

/** The line of the piece that stitches run along, from wherever to wherever. */
function lineAlong({ lines }: PieceShape, { kind, distance: aside, from }: StitchRow, [first, ...others]: Polyline): InnerLine | undefined {
  const last = others.at(-1);
  if (first === undefined || last === undefined || (kind === 'topstitch' && aside.n !== 0n)) return undefined;
  return lines.find(({ name, points: [a, b] }) => from.includes(name) && a !== undefined && b !== undefined && [first, last].every((end) => Math.abs(turnOf(a, b, end)) < 0.01 * distance(a, b)));
}

function foldOf(shape: PieceShape): readonly [Point, Point] | undefined {
  const edge = shape.cutting.edges.find((one) => one.name === shape.fold);
  return edge && [edge.start, edgeEnd(edge)];
}

interface MainLine {
  readonly outline: Polygon;
  readonly strokes: readonly Stroke[];
  readonly fold: Drawing['fold'];
}

function mainLine(shape: PieceShape, along: string, fold: readonly [Point, Point] | undefined): MainLine {
  if (along === 'cutting' || along === 'stitching') {
    const outline = shape[along];
    const edge = outline.edges.find((one) => one.name === shape.fold);
    return {
      outline: flattenOutline(outline).polygon.map(down),
      strokes: [...outlineStrokes(outline, 'cutting', `${along} line`, shape.fold), ...(edge === undefined ? [] : [edgeStroke(edge, 'fold', 'fold')])],
      fold: edge && [down(edge.start), down(edgeEnd(edge))],
    };
  }
  const line: InnerLine | undefined = shape.lines.find((one) => one.name === along);
  return innerMain(line?.points ?? [], line?.title ?? along, fold);
}

/** An inner line that is cut along: the sides of it that lie on the fold are no cut. */
function innerMain(points: Polyline, name: string, fold: readonly [Point, Point] | undefined): MainLine {
  const outline = points.map(down);
  const count = points.length;
  const onFold = points.map((point, index) => {
    const next = points[(index + 1) % count];
    return fold !== undefined && next !== undefined && [point, next].every((one) => Math.abs(distanceToLine(one, ...fold)) < 0.01);
  });
  if (!onFold.includes(true)) return { outline, strokes: [{ role: 'cutting', name, path: polylineSteps(outline, true), points: outline, closed: true, filled: false }], fold: undefined };
  const first = onFold.lastIndexOf(true) + 1;
  const run: Point[] = [];
  for (let step = 0; step <= count && !(step > 0 && onFold[(first + step - 1) % count] === true); step++) run.push(outline[(first + step) % count] ?? { x: 0, y: 0 });
  const ends: readonly [Point, Point] = [run.at(-1) ?? { x: 0, y: 0 }, run[0] ?? { x: 0, y: 0 }];
  return {
    outline,
    strokes: [
      { role: 'cutting', name, path: polylineSteps(run, false), points: run, closed: false, filled: false },
      { role: 'fold', name: 'fold', path: segmentOf(...ends), points: ends, closed: false, filled: false },
    ],
    fold: ends,
  };
}

/** The edges of an outline as one run, but for the one on the fold. */
function outlineStrokes(outline: Outline, role: Role, name: string, fold: string | undefined): readonly Stroke[] {
  const at = outline.edges.findIndex((edge) => edge.name === fold);
  const edges = [...outline.edges.slice(at + 1), ...outline.edges.slice(0, Math.max(0, at))];
  return [edgesStroke(edges, role, name, at < 0)];
}

function edgesStroke(edges: readonly Edge[], role: Role, name: string, closed: boolean): Stroke {
  const steps = edges.flatMap((edge, index) => edgeSteps(edge).slice(index === 0 ? 0 : 1));
  const points = edges.flatMap((edge, index) => edgePoints(edge).slice(index === 0 ? 0 : 1));
  return { role, name, path: closed ? [...steps, { kind: 'close' }] : steps, points: closed ? points.slice(0, -1) : points, closed, filled: false };
}

/** As much of the cutting line as lies near what is cut: where it runs is seen, and the template needs no more room. */
function nearOutline(cutting: Outline, outline: Polygon): readonly Stroke[] {
  const { minX, minY, maxX, maxY } = boundsOfPoints(outline);
  const near = { x: minX - ghostReach, y: minY - ghostReach, width: maxX - minX + 2 * ghostReach, height: maxY - minY + 2 * ghostReach };
  return clippedRuns(flattenOutline(cutting).polygon.map(down), true, near).map((points): Stroke => ({ role: 'ghost', name: 'cutting line', path: polylineSteps(points, false), points, closed: false, filled: false }));
}

const edgeStroke = (edge: Edge, role: Role, name: string): Stroke => ({ role, name, path: edgeSteps(edge), points: edgePoints(edge), closed: false, filled: false });

function notchStroke(notch: Notch, name: string): Stroke {
  const along = { x: -notch.inward.y, y: notch.inward.x };
  const corners = [ahead(notch.point, along, notchHalf), ahead(notch.point, notch.inward, notchDepth), ahead(notch.point, along, -notchHalf)].map(down);
  return { role: 'notch', name, path: polylineSteps(corners, true), points: corners, closed: true, filled: true };
}

/** A cross where the mark is; round a snap its own circle, round a drill hole a small one. */
function markStroke(mark: Mark): Stroke {
  const at = down(mark.point);
  const radius = mark.use === 'drill' ? drillRadius : mark.snap === undefined ? undefined : mark.snap.valueOf() / 2;
  const arm = mark.use === 'drill' ? drillRadius + 1 : Math.max(markArm, (radius ?? 0) + 1);
  const cross = [...segmentOf({ x: at.x - arm, y: at.y }, { x: at.x + arm, y: at.y }), ...segmentOf({ x: at.x, y: at.y - arm }, { x: at.x, y: at.y + arm })];
  const box = [{ x: at.x - arm, y: at.y - arm }, { x: at.x + arm, y: at.y - arm }, { x: at.x + arm, y: at.y + arm }, { x: at.x - arm, y: at.y + arm }];
  return { role: mark.use, name: mark.title, path: radius === undefined ? cross : [...cross, ...circleSteps(at, radius)], points: box, closed: true, filled: false };
}
