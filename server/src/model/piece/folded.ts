import { intersection, union } from '../../geometry/boolean.ts';
import { foldedReach, foldLayers, type Fold, type Turn } from '../../geometry/fold.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import { flattenEdge } from '../../geometry/flatten.ts';
import type { Edge, Polygon } from '../../geometry/shape.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import { openingOf } from '../../syntax/tokens.ts';
import type { FoldedStatement, Name } from '../../syntax/tree.ts';
import { measured } from '../../units/rational.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { declarationOf } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import type { InnerLine, PieceShape } from './piece.ts';
import { polygonOf } from './polygons.ts';
import { shapeOf } from './shape.ts';
import type { Size } from './size.ts';

/** A piece as it is folded before it is sewn. */
export interface Folded {
  /** What it is folded along, in this order. */
  readonly lines: readonly InnerLine[];
  /** The same with what they turn over. */
  readonly turns: readonly Turn[];
  /** Of the upright box round it, between its stitching lines. */
  readonly size: Size;
  /** The same of where what the last fold turns over lies on the rest: a pocket's room. */
  readonly room: Size;
}

/** Undefined where a piece isn't folded, or a fault stands in the way. A copy is folded as its parent, where it has those lines. */
export const foldedOf: Query<NamedDeclaration, Folded | undefined> = {
  name: 'folded',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    const shape = tree.kind === 'piece' ? context.get(shapeOf, declaration) : undefined;
    if (tree.kind !== 'piece' || shape === undefined) return undefined;
    const scope = scopeOf(context, declaration);
    const [statement, ...others] = tree.body.statements.filter((one): one is FoldedStatement => one.kind === 'folded');
    for (const repeated of others) report(scope, 'repeated-fact', repeated, { what: 'How it is folded' });
    if (statement !== undefined) return foldAll(scope, shape, statement.lines.map((name) => ({ name, line: lineOf(scope, shape, name) })));
    const parent = tree.parent && context.get(declarationOf, tree.parent.name.text);
    const inherited = parent === undefined ? undefined : context.get(foldedOf, parent);
    const own = inherited?.lines.map(({ name }) => shape.lines.find((line) => line.name === name));
    return own === undefined || own.includes(undefined) ? undefined : foldAll(scope, shape, own.map((line) => ({ name: tree.name, line })));
  },
};

/** How long an edge is once its piece is folded, in millimetres: from one end of where it then lies to the other. */
export const foldedEdge = ({ turns }: Folded, edge: Edge): number => foldedReach(flattenEdge(edge), turns);

function foldAll(scope: Scope, shape: PieceShape, folds: readonly { readonly name: Name; readonly line: InnerLine | undefined }[]): Folded | undefined {
  let fold: Pick<Fold, 'stays' | 'turned'> = { stays: [polygonOf(shape.whole.stitching)], turned: [] };
  const turns: Turn[] = [];
  for (const { name, line } of folds) {
    const [a, b] = line?.points ?? [];
    if (a === undefined || b === undefined) return undefined;
    const next = foldLayers([...fold.stays, ...fold.turned], [a, b]);
    if (next === undefined) {
      report(scope, 'fold-misses', name, { line: line?.name ?? '', piece: shape.name });
      return undefined;
    }
    turns.push({ along: [a, b], turnsLeft: next.turnsLeft });
    fold = next;
  }
  const { stays, turned } = fold;
  return { lines: folds.flatMap(({ line }) => line ?? []), turns, size: boxOf([...stays, ...turned]), room: boxOf(intersection(union(stays), union(turned))) };
}

function boxOf(polygons: readonly Polygon[]): Size {
  const points = polygons.flat();
  const { minX, minY, maxX, maxY } = points.length === 0 ? { minX: 0, minY: 0, maxX: 0, maxY: 0 } : boundsOfPoints(points);
  return { width: measured(maxX - minX), height: measured(maxY - minY), exact: false, plain: false, circle: false };
}

/** A straight line of the piece. */
function lineOf(scope: Scope, shape: PieceShape, name: Name): InnerLine | undefined {
  const line = shape.lines.find((one) => one.name === name.text);
  if (line !== undefined && !line.closed && line.points.length === 2) return line;
  if (line !== undefined) report(scope, 'wrong-thing', name, { name: name.text, is: line.closed ? 'a closed line' : 'a line with a bend', wanted: 'a straight line' });
  else if (!isUndrawn(shape, name.text)) {
    const known = shape.lines.filter(({ use }) => use === 'foldline').map((one) => one.name);
    const near = nearestName(name.text, shape.lines.map((one) => one.name));
    report(scope, 'unknown-part', name, { owner: shape.name, name: name.text, near, known }, { fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, name), near, false)] });
  }
  return undefined;
}

/** A line that couldn't be drawn, or read, has a problem of its own. */
const isUndrawn = ({ declaration: { tree } }: PieceShape, name: string): boolean => tree.kind === 'piece' && tree.body.statements.some((one) =>
  (one.kind === 'line' ? one.name.text === name : one.kind === 'broken' && openingOf(one.text)?.name === name));

/** Whether a piece's own text says that it is folded, be it with a fault. */
export const saysFolded = ({ declaration: { tree } }: PieceShape): boolean => tree.kind === 'piece' && tree.body.statements.some(({ kind }) => kind === 'folded');
