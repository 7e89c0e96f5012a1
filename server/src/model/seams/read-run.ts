import { lengthInside } from '../../geometry/inside.ts';
import { edgeLength } from '../../geometry/measure.ts';
import type { Edge } from '../../geometry/shape.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement, type Fix } from '../../problems/problem.ts';
import type { Bound, Name, RunPart } from '../../syntax/tree.ts';
import { allDefined, evaluate, evaluateAs } from '../formulas/evaluate.ts';
import { failedToDraw, findOf } from '../formulas/reference.ts';
import { foldedEdge, foldedOf, saysFolded } from '../piece/folded.ts';
import type { PieceShape } from '../piece/piece.ts';
import { polygonOf } from '../piece/polygons.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { lengthOfLine } from '../piece/size.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';
import { stretchLength, type Run, type Stretch, type Way } from './seam.ts';

/** A run of edges as written; undefined where a fault stands in the way, which is reported. */
export function readRun(scope: Scope, parts: readonly RunPart[], way: 'with' | 'onto', isSecond: boolean): Run | 'not wanted' | undefined {
  const mayBe = way === 'with' ? 'edges' : isSecond ? 'one line' : 'folded';
  const read = parts.map((part) => readPart(scope, part, mayBe, parts.length === 1));
  if (read.includes('not wanted')) return 'not wanted';
  const found = allDefined(read);
  const first = parts[0];
  const last = parts.at(-1);
  if (found === undefined || first === undefined || last === undefined) return undefined;
  const place = { ...placeIn(scope, first), end: last.end };
  const line = found.find(isLine);
  if (line !== undefined) return { place, stretches: [], line, length: sewnLength(line) };
  const stretches = found.filter(isStretch);
  const directed = withWays(scope, parts, stretches);
  return directed && { place, stretches: directed, length: directed.reduce((sum, one) => sum + stretchLength(one), 0) };
}

/** How much of a line a seam can take: of one that runs on to the cutting line, what lies within the stitching line. */
const sewnLength = ({ piece, line }: Laid): number => (line.closed ? lengthOfLine(piece, line).valueOf() : lengthInside(line.points, polygonOf(piece.whole.stitching)));

type Laid = NonNullable<Run['line']>;
type Read = Stretch | Laid | 'not wanted';
const isLine = (one: Read): one is Laid => one !== 'not wanted' && 'line' in one;
const isStretch = (one: Read): one is Stretch => one !== 'not wanted' && 'edge' in one;

/** What may stand in a run but edges and parts of them. */
type MayBe = 'edges' | 'one line' | 'folded';

function readPart(scope: Scope, part: RunPart, mayBe: MayBe, isAlone: boolean): Read | undefined {
  const [owner, name, more] = part.edge.path;
  const declaration = owner && findOf(scope, owner, 'piece');
  if (owner === undefined || declaration === undefined) return undefined;
  if (!scope.context.get(isWanted, declaration)) return 'not wanted';
  const piece = scope.context.get(shapeOf, declaration);
  if (piece === undefined) return undefined;
  if (name === undefined || more !== undefined) {
    report(scope, 'wrong-thing', part.edge, { name: part.edge.path.map(({ text }) => text).join('.'), is: name === undefined ? 'a piece' : 'a measure', wanted: `one of its edges, such as ${owner.text}.${piece.stitching.edges[0]?.name ?? 'top'},` });
    return undefined;
  }
  const edge = piece.whole.stitching.edges.find((one) => one.name === name.text);
  if (edge !== undefined) return part.folded === true ? readFolded(scope, part, piece, edge, mayBe) : readStretch(scope, part, piece, edge);
  const line = piece.lines.find((one) => one.name === name.text);
  if (line !== undefined && mayBe === 'one line' && isAlone) return { piece, line };
  if (line !== undefined || !failedToDraw(piece, name.text)) reportEdge(scope, piece, name, line !== undefined, mayBe);
  return undefined;
}

function reportEdge(scope: Scope, piece: PieceShape, name: Name, isLine: boolean, mayName: MayBe): void {
  if (isLine || name.text === piece.fold) {
    const owned = `${piece.name}.${name.text}`;
    report(scope, 'wrong-thing', name, { name: name.text, is: isLine ? 'a line inside the piece' : 'on the fold', wanted: isLine ? edgeNotLine(owned, mayName) : 'an edge' }, {
      fixes: isLine && mayName !== 'one line' ? laidOn(scope, owned) : [],
    });
    return;
  }
  const known = [...piece.whole.stitching.edges, ...(mayName === 'one line' ? piece.lines : [])].map((one) => one.name);
  const near = nearestName(name.text, known);
  report(scope, 'unknown-part', name, { owner: piece.name, name: name.text, near, known: known.filter((one) => !one.endsWith('_twin')) }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, name), near, false)],
  });
}

function edgeNotLine(line: string, mayName: MayBe): string {
  if (mayName === 'one line') return 'an edge, or this one line alone (another seam for the next line)';
  return mayName === 'folded' ? 'an edge (a line that something is laid on stands behind “onto”)' : `an edge (to lay something on this line, write “onto ${line}”)`;
}

/** Lays what else a seam names on a line, where that stands alone on its side. */
function laidOn({ declaration }: Scope, line: string): readonly Fix[] {
  const { tree, text } = declaration;
  const [first, last] = tree.kind === 'seam' ? [tree.first[0], tree.second.at(-1)] : [];
  if (tree.kind !== 'seam' || first === undefined || last === undefined) return [];
  const [start, middle] = [tree.first, tree.second].map((run) => text.slice(run[0]?.start, run.at(-1)?.end).trim());
  const other = start === line ? middle : middle === line ? start : undefined;
  return other === undefined ? [] : [replacement(`Write “onto ${line}”`, { chunk: declaration, start: first.start, end: last.end }, `${other} onto ${line}`, false)];
}

/** All of an edge as it lies once its piece is folded. */
function readFolded(scope: Scope, part: RunPart, piece: PieceShape, edge: Edge, mayBe: MayBe): Stretch | undefined {
  const name = `${piece.name}.${edge.name}`;
  if (mayBe !== 'folded') {
    report(scope, 'wrong-thing', part, { name, is: 'folded', wanted: 'an edge that lies open (what is folded is laid “onto” something, and stands before that word)' });
    return undefined;
  }
  const folded = scope.context.get(foldedOf, piece.declaration);
  if (folded === undefined) {
    if (!saysFolded(piece)) report(scope, 'wrong-thing', part, { name: piece.name, is: 'a piece that isn’t folded', wanted: 'one that says along which lines, as in folded middle,' });
    return undefined;
  }
  return { piece, edge: edge.name, place: placeIn(scope, part), from: 0, to: edgeLength(edge), way: undefined, folded: foldedEdge(folded, edge) };
}

function readStretch(scope: Scope, part: RunPart, piece: PieceShape, edge: Edge): Stretch | undefined {
  const whole = edgeLength(edge);
  const own = { piece, edge: edge.name, place: placeIn(scope, part) };
  if (part.from === undefined || part.to === undefined) return { ...own, from: 0, to: whole, way: undefined };
  const [a, b] = [placeOn(scope, part.from, edge, whole), placeOn(scope, part.to, edge, whole)];
  if (a === undefined || b === undefined) return undefined;
  if (a === b) {
    report(scope, 'empty-stretch', part, { edge: edge.name });
    return undefined;
  }
  const [from, to] = edge.measuredFrom === 'start' ? [a, b] : [whole - a, whole - b];
  return { ...own, from: Math.min(from, to), to: Math.max(from, to), way: from < to ? 1 : -1 };
}

/** How far along an edge a bound lies, from the end that the edge is measured from. */
function placeOn(scope: Scope, bound: Bound, edge: Edge, whole: number): number | undefined {
  if (bound.place === undefined) return bound.endOf === 'end' ? whole : 0;
  const value = evaluate(scope, bound.place);
  const along = value?.dimension === 'number' ? value.amount.valueOf() * whole : value && evaluateAs(scope, bound.place, 'length')?.amount.valueOf();
  if (along === undefined || (along >= -slack && along <= whole + slack)) return along;
  report(scope, 'off-seam', bound, { edge: edge.name, length: lengthText(scope, whole) });
  return undefined;
}

/** Rounding errors, in millimetres. */
const slack = 1e-6;

/** Which way each edge is run along, where its neighbours in the run tell; reports edges that don't go on from one another. */
function withWays(scope: Scope, parts: readonly RunPart[], stretches: readonly Stretch[]): readonly Stretch[] | undefined {
  const ways: Way[] = stretches.map(({ way }) => way);
  for (const [index, stretch] of stretches.entries()) {
    const next = stretches[index + 1];
    if (next === undefined || next.piece !== stretch.piece) continue;
    const follows = wayBetween(stretch, next);
    const part = parts[index + 1];
    if (follows === undefined) {
      if (part !== undefined) report(scope, 'run-broken', part, { piece: next.piece.name, edge: next.edge, before: stretch.edge, copies: copiesOf(next.piece) });
      return undefined;
    }
    if (follows === 'either') continue;
    if ((ways[index] ?? follows) !== follows || (ways[index + 1] ?? follows) !== follows) {
      if (part !== undefined) report(scope, 'run-broken', part, { piece: next.piece.name, edge: next.edge, before: stretch.edge, copies: copiesOf(next.piece) });
      return undefined;
    }
    ways[index] = follows;
    ways[index + 1] = follows;
  }
  return stretches.map((stretch, index) => ({ ...stretch, way: ways[index] }));
}

/** How many of a piece its text says are cut, where that is more than one: a run that goes on from one copy to the next needs each to have a name. */
function copiesOf({ declaration: { tree } }: PieceShape): string | undefined {
  const counts = tree.kind === 'piece' ? tree.body.statements.flatMap((one) => (one.kind === 'cut' && one.count.kind === 'number' ? [one.count.digits] : [])) : [];
  return counts.find((count) => Number(count) > 1);
}

/** How the outline leads from one edge to another that begins where it ends; either way where it does so at both ends. */
function wayBetween(one: Stretch, next: Stretch): 1 | -1 | 'either' | undefined {
  const { edges } = one.piece.whole.stitching;
  const length = (name: string): number => edgeLength(edges.find((edge) => edge.name === name) ?? { name, start: { x: 0, y: 0 }, segments: [], measuredFrom: 'start' });
  if (one.edge === next.edge) {
    // Two parts of one edge.
    if (Math.abs(one.to - next.from) < slack) return 1;
    return Math.abs(one.from - next.to) < slack ? -1 : undefined;
  }
  const [a, b] = [edges.findIndex(({ name }) => name === one.edge), edges.findIndex(({ name }) => name === next.edge)];
  const startsAtEdge = (stretch: Stretch): boolean => stretch.from < slack;
  const endsAtEdge = (stretch: Stretch): boolean => stretch.to > length(stretch.edge) - slack;
  const onwards = (a + 1) % edges.length === b && endsAtEdge(one) && startsAtEdge(next);
  const back = (b + 1) % edges.length === a && startsAtEdge(one) && endsAtEdge(next);
  if (onwards && back) return 'either';
  return onwards ? 1 : back ? -1 : undefined;
}
