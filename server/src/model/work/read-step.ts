import { takesFromEdge } from '../piece/darts.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import type { Declaration, Name, Reference } from '../../syntax/tree.ts';
import { holds } from '../formulas/evaluate.ts';
import { failedToDraw, findDeclaration } from '../formulas/reference.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { say } from '../notes.ts';
import { cutsOf } from '../piece/cuts.ts';
import { foldedOf } from '../piece/folded.ts';
import type { PieceShape } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import type { Query } from '../query/query.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { finishesOf } from '../seams/finishes.ts';
import { seamOf } from '../seams/read-seam.ts';
import { drawnName } from '../seams/seam.ts';
import { edgesLeft, isFaulty } from '../seams/sewn-edges.ts';
import type { Task, WorkStep } from './work-step.ts';

/**
 * A step in the combination at hand, without what isn't wanted there; `not there` where the step itself isn't, undefined
 * where something of it can't be read, which is reported.
 */
export const workStepOf: Query<Declaration, WorkStep | 'not there' | undefined> = {
  name: 'work step',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'work step') return undefined;
    const scope = scopeOf(context, declaration);
    const isThere = tree.condition === undefined || holds(scope, tree.condition);
    if (isThere !== true) return isThere === undefined ? undefined : 'not there';
    const says = say(scope, tree.text);
    const read = tree.does.map((reference) => readTask(scope, reference));
    if (says === undefined || read.includes(undefined)) return undefined;
    if (read.length > 0 && read.every((one) => one === 'not wanted')) report(scope, 'step-idle', tree.text, { names: tree.does.map(({ path }) => path.map(({ text }) => text).join('.')) });
    return { place: placeIn(scope, tree.text), says, tasks: read.filter(isTask) };
  },
};

/** What isn't there, be it that a fault stands in its way; or that it isn't wanted in the combination at hand. */
type Missing = 'not there' | 'not wanted';

const isTask = (read: Task | Missing | undefined): read is Task => read !== undefined && read !== 'not there' && read !== 'not wanted';

/** A fault of what a name stands for is told where that is declared, so here it only isn't there. */
function readTask(scope: Scope, reference: Reference): Task | Missing | undefined {
  const [owner, part, ...more] = reference.path;
  const declaration = owner && findDeclaration(scope, owner, 'work');
  if (owner === undefined || declaration === undefined) return undefined;
  const { context } = scope;
  const place = placeIn(scope, reference);
  const { kind } = declaration.tree;
  if (kind === 'piece' && more.length === 0) return ofPiece(scope, declaration, part, place);
  if ((kind !== 'seam' && kind !== 'supply') || part !== undefined) {
    report(scope, 'wrong-thing', reference, { name: reference.path.map(({ text }) => text).join('.'), is: part === undefined ? `a ${kind}` : 'a measure', wanted: 'a seam, a supply, a piece or one of its edges' });
    return undefined;
  }
  if (kind === 'supply') return context.get(isWanted, declaration) ? { kind, supply: declaration, place } : 'not wanted';
  const seam = context.get(seamOf, declaration);
  return seam === undefined ? (isFaulty(context, declaration) ? 'not there' : 'not wanted') : { kind, seam, place };
}

function ofPiece(scope: Scope, declaration: NamedDeclaration, part: Name | undefined, place: Task['place']): Task | Missing | undefined {
  const { context } = scope;
  if (!context.get(isWanted, declaration)) return 'not wanted';
  const piece = context.get(shapeOf, declaration);
  const cuts = context.get(cutsOf, declaration);
  if (piece === undefined || cuts.length === 0) return 'not there';
  if (part === undefined) return { kind: 'piece', piece, place };
  const edges = [...piece.drawn.edges.map(({ name }) => name).filter((name) => name !== piece.fold), ...piece.lines.filter(({ use }) => use === 'window').map(({ name }) => name)];
  if (edges.includes(part.text)) {
    if (context.get(finishesOf, declaration).has(part.text)) return { kind: 'edge', piece, edge: part.text, place };
    // That nothing is said of it is told where it is left over.
    if (context.get(edgesLeft, declaration).some(({ edge }) => drawnName(edge) === part.text)) return 'not there';
    report(scope, 'nothing-to-do', part, { name: `${piece.name}.${part.text}`, what: 'edge' });
    return undefined;
  }
  const darts = piece.lines.filter(takesFromEdge).map(({ name }) => name);
  if (darts.includes(part.text)) return { kind: 'dart', piece, dart: part.text, place };
  const row = piece.stitchRows.find(({ name }) => name === part.text);
  if (row !== undefined) return { kind: 'stitches', piece, row, place };
  if (part.text === 'folded') return folding(scope, declaration, piece, part, place);
  if (part.text !== 'layers') {
    const made = [...darts, ...piece.stitchRows.map(({ name }) => name)];
    const is = drawnAs(piece, part.text);
    if (is !== undefined) {
      const finishes = context.get(finishesOf, declaration);
      const layers = cuts.some(({ layer }) => layer !== undefined) ? ['layers'] : [];
      const folds = context.get(foldedOf, declaration) === undefined ? [] : ['folded'];
      return nothingToDo(scope, piece, part, is, [...edges.filter((edge) => finishes.has(edge)), ...made, ...layers, ...folds]);
    }
    return failedToDraw(piece, part.text) ? 'not there' : unknownPart(scope, piece, part, [...edges, ...made, 'layers', 'folded']);
  }
  if (cuts.some(({ layer }) => layer !== undefined)) return { kind: 'layers', piece, place };
  // Those that can't be read, or aren't wanted here, may be layers.
  const { tree } = declaration;
  if (tree.kind === 'piece' && tree.body.statements.filter(({ kind }) => kind === 'cut' || kind === 'broken').length > cuts.length) return 'not there';
  report(scope, 'nothing-to-do', part, { name: piece.name, what: 'layers' });
  return undefined;
}

/** A fault in how it is folded is told where that is said. */
function folding(scope: Scope, declaration: NamedDeclaration, piece: PieceShape, part: Name, place: Task['place']): Task | 'not there' | undefined {
  if (scope.context.get(foldedOf, declaration) !== undefined) return { kind: 'folded', piece, place };
  const { tree } = declaration;
  if (tree.kind === 'piece' && tree.body.statements.some(({ kind }) => kind === 'folded' || kind === 'broken')) return 'not there';
  report(scope, 'nothing-to-do', part, { name: piece.name, what: 'folds' });
  return undefined;
}

const lineKinds = { line: 'a line', placement: 'a placement line', foldline: 'a fold line', window: 'a window' } as const;

/** What a line or mark is, of which no step makes anything by its name. */
function drawnAs({ lines, marks }: PieceShape, name: string): string | undefined {
  const line = lines.find((one) => one.name === name);
  const mark = marks.find((one) => one.name === name);
  return line === undefined ? mark && (mark.use === 'drill' ? 'a drill hole' : 'a mark') : lineKinds[line.use];
}

/** @param possible what a step may name of this piece */
function nothingToDo(scope: Scope, piece: PieceShape, part: Name, is: string, possible: readonly string[]): undefined {
  const wanted = `something that a step does${possible.length === 0 ? '' : ` (of “${piece.name}”: ${possible.join(', ')})`}`;
  report(scope, 'wrong-thing', part, { name: `${piece.name}.${part.text}`, is, wanted });
  return undefined;
}

function unknownPart(scope: Scope, piece: PieceShape, part: Name, known: readonly string[]): undefined {
  const near = nearestName(part.text, known);
  report(scope, 'unknown-part', part, { owner: piece.name, name: part.text, near, known }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, part), near, false)],
  });
  return undefined;
}
