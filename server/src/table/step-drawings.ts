import { stretchesWithin } from '../geometry/parallels.ts';
import { edgeLength, measuring } from '../geometry/measure.ts';
import { partOfEdge } from '../geometry/part.ts';
import type { Polygon, Polyline } from '../geometry/shape.ts';
import { movePolyline } from '../geometry/transform.ts';
import type { Resolved } from '../model/pattern.ts';
import { takesFromEdge } from '../model/piece/darts.ts';
import type { InnerLine, PieceShape, StitchRow } from '../model/piece/piece.ts';
import { polygonOf } from '../model/piece/polygons.ts';
import { foldMirroring, openedOut } from '../model/piece/whole.ts';
import { sewnParts } from '../model/seams/opening.ts';
import { drawnName, sewnLength, type Run, type Seam } from '../model/seams/seam.ts';
import { leftBetween } from '../model/seams/sewn-edges.ts';
import type { NumberedStep } from '../model/work/order.ts';
import type { Task } from '../model/work/work-step.ts';
import type { Place } from '../problems/place.ts';
import type { Display } from '../units/length.ts';
import { runWords } from './run-words.ts';
import { openWords } from './sewing.ts';
import { stepRows } from './steps.ts';
import { besides, stitchText } from './stitches.ts';

/** What a step sews, finishes or closes, on the pieces that it is of. */
export interface StepDrawing {
  readonly number: number;
  readonly parts: readonly DrawnPart[];
  readonly pieces: readonly DrawnPiece[];
  readonly place: Place;
}

export interface DrawnPart {
  /** `a`, beside each of its lines; empty where the step has one part alone. */
  readonly letter: string;
  readonly title: string;
  /** `Gusset: left, sewn to Front: side left`: the same for whoever doesn't see it. */
  readonly words: string;
}

/** A piece by its stitching line, opened out; millimetres, y upwards. */
export interface DrawnPiece {
  readonly title: string;
  readonly outline: Polygon;
  /** Darts, pleats and windows that nothing is done to in this step, and places that a pocket is sewn to by some of its edges. */
  readonly others: readonly Polyline[];
  /** Those that are dashed are topstitching or quilting. */
  readonly lines: readonly { readonly letter: string; readonly points: Polyline; readonly isDashed: boolean }[];
}

/** Those of the steps in which there is a line to show, in their order. */
export function stepDrawings(resolved: Resolved, display: Display): readonly StepDrawing[] {
  const rows = stepRows(resolved, display);
  return resolved.steps.flatMap((step, index) => {
    const shown = step.tasks.flatMap((task, at) => {
      const lines = linesOf(task, resolved);
      return lines.length === 0 ? [] : [{ task, lines, title: rows[index]?.does[at]?.title ?? '' }];
    });
    return shown.length === 0 ? [] : [drawing(step, shown, resolved, display)];
  });
}

/** Of several sizes, each step as it is in the first that has it. */
export function stepsOf(tables: readonly { readonly stepDrawings: readonly StepDrawing[] }[]): readonly StepDrawing[] {
  const drawings = new Map<string, StepDrawing>();
  for (const one of tables.flatMap((table) => table.stepDrawings)) if (!drawings.has(one.place.chunk.text)) drawings.set(one.place.chunk.text, one);
  return [...drawings.values()];
}

interface Shown {
  readonly task: Task;
  readonly title: string;
  readonly lines: readonly OnPiece[];
}

/** A line of a piece. */
interface OnPiece {
  readonly piece: PieceShape;
  /** Of an inner line. */
  readonly name?: string;
  readonly points: Polyline;
  readonly isDashed?: true;
  /** Of a place that what is laid there isn't sewn to all the way round. */
  readonly isPlace?: true;
}

function drawing({ number, place }: NumberedStep, shown: readonly Shown[], resolved: Resolved, display: Display): StepDrawing {
  const letterOf = (index: number): string => (shown.length === 1 ? '' : letters(index));
  const lines = shown.flatMap((one, index) => one.lines.map((line) => ({ ...line, letter: letterOf(index) })));
  const pieces = [...new Set(lines.map(({ piece }) => piece))].map((piece): DrawnPiece => {
    const own = lines.filter((line) => line.piece === piece);
    const places = new Set(own.flatMap(({ name, isPlace }) => (isPlace === true && name !== undefined ? [name] : [])));
    const isShown = ({ name }: InnerLine): boolean => own.some((line) => line.name === name);
    return {
      title: piece.title,
      outline: polygonOf(piece.whole.stitching),
      others: piece.lines.filter((line) => places.has(line.name) || ((takesFromEdge(line) || line.use === 'window') && !isShown(line))).flatMap((line) => opened(piece, line)),
      lines: own.filter(({ isPlace }) => isPlace !== true).map(({ letter, points, isDashed = false }) => ({ letter, points, isDashed })),
    };
  });
  return {
    number, place, pieces,
    parts: shown.map(({ task, title }, index) => ({ letter: letterOf(index), title, words: wordsOf(task, title, resolved, display) })),
  };
}

/** `a` to `z`, then `aa`. */
const letters = (index: number): string => `${index < 26 ? '' : letters(Math.floor(index / 26) - 1)}${String.fromCharCode(97 + (index % 26))}`;

function wordsOf(task: Task, title: string, resolved: Resolved, display: Display): string {
  if (task.kind === 'stitches') return `${title}: ${besides(task.piece, task.row)}, ${stitchText(task.piece, task.row, display)}, dashed`;
  if (task.kind !== 'seam') return title;
  const { first, second } = runWords(task.seam, resolved, display);
  const open = openWords(task.seam, display);
  return `${title}: ${first}, ${task.seam.way === 'with' ? 'sewn to' : 'laid on'} ${second}${open === '' ? '' : `, ${open}`}`;
}

/** What is drawn of a task: nothing of layers, folds and whole pieces, which are no line. */
function linesOf(task: Task, { pieces, seams }: Resolved): readonly OnPiece[] {
  switch (task.kind) {
    case 'seam':
      return runsToDraw(task.seam).flatMap((run) => linesOfRun(task.seam, run));
    case 'edge':
      return finishedLines(task.piece, task.edge, seams);
    case 'dart':
      return namedLines(task.piece, task.dart);
    case 'stitches':
      return stitchLines(task.piece, task.row);
    case 'supply':
      return pieces.filter(({ cuts }) => cuts.length > 0).flatMap(({ shape, finishes }) =>
        [...finishes].filter(([, { supply }]) => supply === task.supply).flatMap(([edge]) => finishedLines(shape, edge, seams)));
    case 'layers':
    case 'folded':
    case 'piece':
      return [];
  }
}

/** The picture shows a piece between its seams, so rows of quilting end there. */
function stitchLines(piece: PieceShape, { kind, runs: whole }: StitchRow): readonly OnPiece[] {
  const mirror = foldMirroring(piece);
  const runs = kind === 'topstitch' ? whole : whole.flatMap(({ points: [a, b] }) => (a === undefined || b === undefined ? [] : stretchesWithin(polygonOf(piece.stitching), [a, b], 0).map((points) => ({ points, closed: false }))));
  return runs.flatMap(({ points, closed }) => {
    const run = closed ? [...points, ...points.slice(0, 1)] : points;
    return [run, ...(mirror === undefined ? [] : [movePolyline(mirror, run)])].map((one) => ({ piece, points: one, isDashed: true as const }));
  });
}

/** Of edges that are sewn to their own like on a second copy one picture is drawn: as the one copy is that the opening is measured on. */
function runsToDraw({ first, second, opening }: Seam): readonly Run[] {
  const named = (run: Run): ReadonlySet<string> => new Set(run.stretches.map(({ piece, edge }) => `${piece.name}.${drawnName(edge)}`));
  const [a, b] = [named(first), named(second)];
  return opening.from !== undefined && a.size === b.size && [...a].every((name) => b.has(name)) ? [second] : [first, second];
}

/** Where it is sewn; all of it where it isn't known where it stays open. */
function linesOfRun(seam: Seam, run: Run): readonly OnPiece[] {
  const { stretches, line } = run;
  if (line !== undefined) {
    // Drawn heavy all the way round, a pocket would be sewn shut.
    const isPlace = line.line.closed && sewnLength(seam) < seam.second.length - Math.max(seam.within, measuring);
    return namedLines(line.piece, line.line.name).map((one) => (isPlace ? { ...one, isPlace } : one));
  }
  return (sewnParts(seam, run) ?? stretches).flatMap(({ piece, edge: name, from, to }) => {
    const edge = piece.whole.stitching.edges.find((one) => one.name === name);
    return edge === undefined ? [] : [{ piece, points: partOfEdge(edge, from, to) }];
  });
}

/** What is finished of an edge, on both halves of its piece: the rest of one that a seam takes in part; or a window. */
function finishedLines(piece: PieceShape, name: string, seams: readonly Seam[]): readonly OnPiece[] {
  const stretches = seams.flatMap(({ way, first, second }) => [...first.stretches, ...(way === 'with' ? second.stretches : [])]).filter((one) => one.piece.name === piece.name);
  const rest = piece.whole.stitching.edges.filter((edge) => drawnName(edge.name) === name).flatMap((edge) =>
    leftBetween(edgeLength(edge), stretches.filter((one) => one.edge === edge.name)).map(({ from, to }) => ({ piece, points: partOfEdge(edge, from, to) })));
  // What is finished though a seam takes all of it, such as a bound seam, is all of it.
  return rest.length === 0 ? namedLines(piece, name) : rest;
}

/** An edge on both halves of its piece, or a line inside it. */
function namedLines(piece: PieceShape, name: string): readonly OnPiece[] {
  const line = piece.lines.find((one) => one.name === name);
  if (line !== undefined) return opened(piece, line).map((points) => ({ piece, name, points }));
  return piece.whole.stitching.edges.filter((edge) => drawnName(edge.name) === name).map((edge) => ({ piece, points: partOfEdge(edge, 0, edgeLength(edge)) }));
}

/** A line as it lies on the opened-out piece; a closed one comes back to where it began. */
function opened(piece: PieceShape, { points, closed }: InnerLine): readonly Polyline[] {
  if (closed) return openedOut(piece, points).map((ring) => [...ring, ...ring.slice(0, 1)]);
  const mirror = foldMirroring(piece);
  return mirror === undefined ? [points] : [points, movePolyline(mirror, points)];
}
