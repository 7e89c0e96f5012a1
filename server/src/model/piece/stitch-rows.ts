import { flattenEdge } from '../../geometry/flatten.ts';
import { contains, lengthInside } from '../../geometry/inside.ts';
import { edgeEnd, polylineEdge } from '../../geometry/edge.ts';
import { edgeLength, polylineLength } from '../../geometry/measure.ts';
import { offsetOutline } from '../../geometry/offset.ts';
import { leftPart, rowsWithin, stretchesWithin } from '../../geometry/parallels.ts';
import type { Edge, Outline, Point, Polyline } from '../../geometry/shape.ts';
import { cross, minus, unit } from '../../geometry/vector.ts';
import type { Name, PieceDeclaration, QuiltStatement, TopstitchStatement } from '../../syntax/tree.ts';
import { zero } from '../../units/rational.ts';
import { isTooFar, positiveLength } from '../formulas/evaluate.ts';
import { showFinely } from '../../units/length.ts';
import { placeIn, report, type Scope } from '../query/scope.ts';
import { titleText } from '../titles.ts';
import { hasEdge } from './allowances.ts';
import { takenByDarts } from './darts.ts';
import type { InnerLine, PieceShape, StitchFact, StitchRow } from './piece.ts';
import { polygonOf } from './polygons.ts';

/** What stitches are drawn on: a piece but for its stitches. */
export type StitchGround = Pick<PieceShape, 'cutting' | 'stitching' | 'whole' | 'fold' | 'lines'>;

/** Rows nearer to one another than this, in millimetres, or more than so many on one piece, are taken for a slip (invented). */
const nearest = 1;
const mostRows = 500;

/** What stands in the way of stitches. */
type Fault = { readonly kind: 'no room' } | { readonly kind: 'too close' } | { readonly kind: 'not there' };

/** A piece's own topstitching and quilting, and what it takes over of it from another, drawn along its own edges. */
export function stitchRowsOf(scope: Scope, tree: PieceDeclaration, ground: StitchGround, inherited: readonly StitchFact[]): readonly StitchRow[] {
  const own: StitchRow[] = [];
  const taken = new Set(['cutting', 'stitching', ...ground.stitching.edges.map(({ name }) => name), ...ground.lines.map(({ name }) => name)]);
  const statements = tree.body.statements.filter((one): one is TopstitchStatement | QuiltStatement => one.kind === 'topstitch' || one.kind === 'quilt');
  for (const statement of statements) {
    if (taken.has(statement.name.text)) {
      report(scope, 'duplicate-name', statement.name, { name: statement.name.text });
      continue;
    }
    taken.add(statement.name.text);
    const fact = readStitches(scope, statement, ground);
    const row = fact && drawn(fact, ground);
    if (fact === undefined || row === undefined) continue;
    if ('runs' in row) own.push(row);
    else reportFault(scope, statement, fact, row);
  }
  // What was said of an edge that a copy has no more, or has no room for, is not said of the copy.
  return [...inherited.filter(({ name }) => !taken.has(name)).flatMap((fact) => {
    const row = drawn(fact, ground);
    return 'runs' in row ? [row] : [];
  }), ...own];
}

function readStitches(scope: Scope, statement: TopstitchStatement | QuiltStatement, { stitching, fold, lines }: StitchGround): StitchFact | undefined {
  const common = { name: statement.name.text, title: titleText(statement.title, statement.name), kind: statement.kind, place: placeIn(scope, statement.name) };
  if (statement.kind === 'topstitch' && statement.lines !== undefined) {
    const known = lines.map(({ name }) => name);
    const along = statement.lines.map((name) => (hasEdge(scope, name, known) ? name.text : undefined)).filter((name) => name !== undefined);
    return along.length < statement.lines.length ? undefined : { ...common, distance: zero, from: [...new Set(along)] };
  }
  const distance = statement.distance && positiveLength(scope, statement.distance, statement.kind === 'topstitch' ? 'A distance' : 'A distance between rows');
  const from = statement.kind === 'topstitch' ? readEdges(scope, statement.edges ?? [], stitching.edges.map(({ name }) => name).filter((name) => name !== fold), lines) : readLine(scope, statement.line, lines);
  if (distance === undefined || statement.distance === undefined || from === undefined || isTooFar(scope, distance, statement.distance, 'a distance')) return undefined;
  return { ...common, distance: distance.amount, from };
}

/** Edges, straight fold lines and windows by their names; `all` is every edge. */
function readEdges(scope: Scope, names: readonly Name[], edges: readonly string[], lines: readonly InnerLine[]): readonly string[] | undefined {
  const others = lines.filter((line) => line.use === 'window' || isStraightFold(line)).map(({ name }) => name);
  const known = names.map((name) => {
    if (name.text === 'all' && !edges.includes('all')) return edges;
    const line = lines.find((one) => one.name === name.text);
    if (line !== undefined && !others.includes(name.text)) {
      report(scope, 'wrong-thing', name, { name: name.text, is: line.use === 'foldline' ? 'a fold line with a bend' : 'a line inside the piece', wanted: 'an edge, a straight fold line or a window' });
      return undefined;
    }
    return hasEdge(scope, name, [...edges, ...others]) ? [name.text] : undefined;
  });
  return known.includes(undefined) ? undefined : [...new Set(known.flatMap((one) => one ?? []))];
}

function readLine(scope: Scope, name: Name, lines: readonly InnerLine[]): readonly string[] | undefined {
  const line = lines.find((one) => one.name === name.text);
  if (line === undefined) return hasEdge(scope, name, lines.map((one) => one.name)) ? [name.text] : undefined;
  if (straightOf(line) !== undefined) return [name.text];
  report(scope, 'wrong-thing', name, { name: name.text, is: line.closed ? 'a closed line' : 'a line with a bend', wanted: 'a straight line' });
  return undefined;
}

const isStraightFold = (line: InnerLine): boolean => line.use === 'foldline' && straightOf(line) !== undefined;

function straightOf({ closed, points: [a, b, more] }: InnerLine): readonly [Point, Point] | undefined {
  return closed || a === undefined || b === undefined || more !== undefined ? undefined : [a, b];
}

function reportFault(scope: Scope, statement: TopstitchStatement | QuiltStatement, { distance, from }: StitchFact, { kind }: Fault): void {
  if (kind === 'not there') return;
  report(scope, 'no-room-to-stitch', statement.distance ?? statement.name, { distance: showFinely(distance, scope.settings.display), from, isQuilt: statement.kind === 'quilt', isClose: kind === 'too close' });
}

// ------------------------------------------------------------------------------------------------ drawing

/** Lines with how long what is sewn along them is, in millimetres, on both halves of a piece on a fold. */
interface Runs {
  readonly runs: StitchRow['runs'];
  readonly length: number;
}

function drawn(fact: StitchFact, ground: StitchGround): StitchRow | Fault {
  const runs = fact.kind === 'quilt' ? quilted(fact, ground) : topstitched(fact, ground);
  return 'runs' in runs ? { ...fact, ...runs } : runs;
}

function topstitched({ from, distance }: StitchFact, ground: StitchGround): Runs | Fault {
  const by = distance.valueOf();
  if (by === 0) return together(from.map((name) => alongLine(ground.lines.find((line) => line.name === name), ground)));
  const edges = new Set(ground.stitching.edges.map(({ name }) => name).filter((name) => name !== ground.fold && from.includes(name)));
  const lines = from.filter((name) => !edges.has(name)).map((name) => ground.lines.find((line) => line.name === name));
  const parts = [
    ...(edges.size === 0 ? [] : [insideEdges(edges, by, ground)]),
    ...lines.map((line) => (line === undefined ? { kind: 'not there' as const } : line.closed ? roundWindow(line, by, ground) : besideFold(line, by, ground))),
  ];
  return together(parts);
}

function together(parts: readonly (Runs | Fault)[]): Runs | Fault {
  const fault = parts.find((part): part is Fault => 'kind' in part);
  const runs = parts.filter((part): part is Runs => 'runs' in part);
  return fault ?? { runs: runs.flatMap((part) => part.runs), length: runs.reduce((sum, { length }) => sum + length, 0) };
}

/** Inside some edges of the stitching line, which is where the piece is finished: those one after the other in one run. */
function insideEdges(named: ReadonlySet<string>, by: number, { stitching, fold, lines }: StitchGround): Runs | Fault {
  const moved = offsetOutline(stitching, (name) => (named.has(name) ? -by : 0), () => ({ kind: 'mitre', limit: 4 }));
  if (moved.kind !== 'ok' || moved.others.length > 0) return { kind: 'no room' };
  const edges = moved.outline.edges.map((edge) => withoutStep(edge, moved.steps));
  const isNamed = ({ name }: Edge): boolean => named.has(name) || named.has(name.replace(/_2$/, ''));
  if ([...named].some((name) => !edges.some((edge) => edge.name === name))) return { kind: 'no room' };
  const length = edges.filter(isNamed).reduce((sum, edge) => sum + edgeLength(edge), 0) - [...named].reduce((sum, name) => sum + takenByDarts({ stitching, lines }, name), 0);
  return { runs: runsOf({ edges }, isNamed), length: fold === undefined ? length : 2 * length };
}

/** Where an edge runs on too straight into one that stays where it is, the outline steps back to that: no stitches go there. */
function withoutStep(edge: Edge, steps: readonly (readonly [before: string, after: string])[]): Edge {
  return steps.some(([before]) => before === edge.name) ? { ...edge, segments: edge.segments.slice(0, -1) } : edge;
}

function runsOf({ edges }: Outline, isNamed: (edge: Edge) => boolean): StitchRow['runs'] {
  const first = edges.findIndex((edge, index) => isNamed(edge) && !isNamed(edges.at(index - 1) ?? edge));
  // All of them: it goes round.
  if (first < 0) return [{ points: polygonOf({ edges }), closed: true }];
  const runs: Point[][] = [];
  let isOpen = false;
  for (const edge of [...edges.slice(first), ...edges.slice(0, first)]) {
    if (!isNamed(edge)) isOpen = false;
    else if (isOpen) runs.at(-1)?.push(...flattenEdge(edge).slice(1));
    else {
      runs.push([...flattenEdge(edge)]);
      isOpen = true;
    }
  }
  return runs.map((points) => ({ points, closed: false }));
}

/** Along a line itself, as far as the seams; the whole line is drawn. */
function alongLine(line: InnerLine | undefined, ground: StitchGround): Runs | Fault {
  if (line === undefined) return { kind: 'not there' };
  const { points, closed } = line;
  const straight = straightOf(line);
  const length = closed ? polylineLength([...points, ...points.slice(0, 1)]) : lengthInside(points, polygonOf(ground.stitching));
  const isTwice = ground.fold !== undefined && (straight === undefined || !isOnFold(straight, ground));
  return { runs: [{ points, closed }], length: isTwice ? 2 * length : length };
}

/** Outside of a window, which is opened in the cloth. */
function roundWindow({ points }: InnerLine, by: number, { stitching, fold }: StitchGround): Runs | Fault {
  const [first, ...rest] = points;
  const moved = first === undefined ? undefined : offsetOutline({ edges: [polylineEdge('rim', [first, ...rest, first], 'start')] }, () => by, () => ({ kind: 'mitre', limit: 4 }));
  if (moved?.kind !== 'ok') return { kind: 'no room' };
  const ring = polygonOf(moved.outline);
  if (!contains(polygonOf(stitching), ring, 0.02)) return { kind: 'no room' };
  const length = polylineLength([...ring, ...ring.slice(0, 1)]);
  return { runs: [{ points: ring, closed: true }], length: fold === undefined ? length : 2 * length };
}

/** Beside a fold, on both sides of it as the piece lies open: one row of stitches once it is folded. */
function besideFold(line: InnerLine, by: number, ground: StitchGround): Runs | Fault {
  const straight = straightOf(line);
  if (straight === undefined) return { kind: 'not there' };
  const whole = polygonOf(ground.whole.stitching);
  const sides = [by, -by].flatMap((off) => stretchesWithin(whole, straight, off));
  if (sides.length === 0) return { kind: 'no room' };
  const length = stretchesWithin(whole, straight, 0).reduce((sum, run) => sum + polylineLength(run), 0);
  const isTwice = ground.fold !== undefined && !crossesFold(straight, ground);
  return { runs: onDrawnHalf(sides, ground).map((points) => ({ points, closed: false })), length: isTwice ? 2 * length : length };
}

/** Whether a line of a piece drawn as half is its own mirror image: it runs square through the fold, or along it. */
function crossesFold([a, b]: readonly [Point, Point], ground: StitchGround): boolean {
  const fold = foldOf(ground);
  if (fold === undefined) return true;
  const along = unit(minus(fold[1], fold[0]));
  const way = unit(minus(b, a));
  const isSquare = Math.abs(along.x * way.x + along.y * way.y) < 1e-6;
  return isSquare || (Math.abs(cross(along, way)) < 1e-6 && Math.abs(cross(along, minus(a, fold[0]))) < 0.01);
}

/** Rows through all that is cut, since cloth is quilted before its edges are sewn. On a piece drawn as half they are mirrored like all that is drawn. */
function quilted({ from: [name], distance }: StitchFact, ground: StitchGround): Runs | Fault {
  const line = ground.lines.find((one) => one.name === name);
  const straight = line && straightOf(line);
  const by = distance.valueOf();
  if (straight === undefined) return { kind: 'not there' };
  if (by < nearest) return { kind: 'too close' };
  const rows = rowsWithin(polygonOf(ground.whole.cutting), straight, by);
  if (rows.length > mostRows) return { kind: 'too close' };
  if (rows.length < 2) return { kind: 'no room' };
  const runs = onDrawnHalf(rows.flat(), ground);
  const length = runs.reduce((sum, run) => sum + polylineLength(run) * (ground.fold === undefined || isOnFold(run, ground) ? 1 : 2), 0);
  return { runs: runs.map((points) => ({ points, closed: false })), length };
}

/** Whether a straight run lies on the fold of a piece that is drawn as half, so that it is there once. */
function isOnFold(run: Polyline, ground: StitchGround): boolean {
  const fold = foldOf(ground);
  return fold !== undefined && run.every((point) => Math.abs(cross(unit(minus(fold[1], fold[0])), minus(point, fold[0]))) < 0.01);
}

function foldOf({ cutting, fold }: StitchGround): readonly [Point, Point] | undefined {
  const edge = cutting.edges.find(({ name }) => name === fold);
  return edge && [edge.start, edgeEnd(edge)];
}

/** Of straight runs across the opened-out piece, what lies on the half that is drawn: left of its fold, as outlines run. */
function onDrawnHalf(runs: readonly Polyline[], ground: StitchGround): readonly Polyline[] {
  const fold = foldOf(ground);
  if (fold === undefined) return runs;
  return runs.flatMap(([a, b]) => {
    const part = a === undefined || b === undefined ? undefined : leftPart([a, b], fold);
    return part === undefined ? [] : [part];
  });
}
