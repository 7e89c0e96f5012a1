import type { Place } from '../../problems/place.ts';
import { nearestName } from '../../problems/near.ts';
import type { EdgeFinishStatement, Reference } from '../../syntax/tree.ts';
import type { Rational } from '../../units/rational.ts';
import { positiveLength } from '../formulas/evaluate.ts';
import { findOf } from '../formulas/reference.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { hasEdge } from '../piece/allowances.ts';
import type { PieceShape } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { declarationOf } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';

/** What becomes of an edge that is sewn to no other, or of the rim of a window. */
export interface Finish {
  readonly kind: EdgeFinishStatement['finish'];
  /** Of a hem, how wide it finishes, in millimetres. */
  readonly size: Rational | undefined;
  /** What the edge is bound with, or takes, or what runs through its hem. */
  readonly supply: NamedDeclaration | undefined;
  /** The edge of another piece in whose hem it is caught. */
  readonly hem: { readonly piece: PieceShape; readonly edge: string } | undefined;
  /** Whether it names one, be it one that there is not. */
  readonly namesSupply: boolean;
  /** Whether it is said of all edges at once. */
  readonly ofAll: boolean;
  readonly place: Place;
}

/** What a piece says of its edges, by the names that they are drawn under; a copy takes over what is said of edges that it still has. */
export const finishesOf: Query<NamedDeclaration, ReadonlyMap<string, Finish>> = {
  name: 'finishes',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    const shape = tree.kind === 'piece' ? context.get(shapeOf, declaration) : undefined;
    if (tree.kind !== 'piece' || shape === undefined) return new Map();
    const scope = scopeOf(context, declaration);
    const edges = shape.drawn.edges.map(({ name }) => name).filter((name) => name !== shape.fold);
    const windows = shape.lines.filter(({ use }) => use === 'window').map(({ name }) => name);
    const parent = tree.parent && context.get(declarationOf, tree.parent.name.text);
    const finishes = new Map<string, Finish>([...(parent === undefined ? [] : context.get(finishesOf, parent))].filter(([edge]) => edges.includes(edge) || windows.includes(edge)));
    const own = new Set<string>();
    const statements = tree.body.statements.filter((one) => one.kind === 'edge finish');
    // What is said of all edges holds for those of which nothing else is said, wherever it stands.
    for (const statement of [...statements].sort((a, b) => Number(b.edge.text === 'all') - Number(a.edge.text === 'all'))) {
      const isAll = statement.edge.text === 'all' && !edges.includes('all');
      const finish = readFinish(scope, statement);
      const isWindow = !isAll && windows.includes(statement.edge.text);
      if (!isAll && (isUndrawnWindow(shape, statement.edge.text) || !hasEdge(scope, statement.edge, [...edges, ...windows]))) continue;
      if (statement.finish === 'hemmed' && isWindow) {
        report(scope, 'wrong-thing', statement.edge, { name: statement.edge.text, is: 'a window', wanted: 'an edge' });
        continue;
      }
      if (own.has(statement.edge.text)) report(scope, 'repeated-fact', statement, { what: `What becomes of “${statement.edge.text}”` });
      else for (const edge of isAll ? edges : [statement.edge.text]) finishes.set(edge, finish);
      own.add(statement.edge.text);
    }
    return finishes;
  },
};

/** A window that couldn't be drawn has a problem of its own. */
const isUndrawnWindow = ({ declaration: { tree }, lines }: PieceShape, name: string): boolean =>
  tree.kind === 'piece' && !lines.some((line) => line.name === name) && tree.body.statements.some((one) => one.kind === 'line' && one.use === 'window' && one.name.text === name);

/** What a fault stands in the way of is left out: the edge is spoken of all the same. */
function readFinish(scope: Scope, statement: EdgeFinishStatement): Finish {
  const size = statement.size && positiveLength(scope, statement.size, 'A hem');
  const supply = statement.supply && findOf(scope, statement.supply, 'supply');
  return { kind: statement.finish, size: size?.amount, supply, hem: statement.hem && hemOf(scope, statement.hem), namesSupply: statement.supply !== undefined, ofAll: statement.edge.text === 'all', place: placeIn(scope, statement) };
}

/** The edge that a reference such as `front.top` names. */
function hemOf(scope: Scope, reference: Reference): Finish['hem'] {
  const [owner, name, more] = reference.path;
  const declaration = owner && findOf(scope, owner, 'piece');
  const piece = declaration === undefined || !scope.context.get(isWanted, declaration) ? undefined : scope.context.get(shapeOf, declaration);
  if (owner === undefined || piece === undefined) return undefined;
  const edges = piece.drawn.edges.map((edge) => edge.name).filter((edge) => edge !== piece.fold);
  if (name === undefined || more !== undefined || !edges.includes(name.text)) {
    if (name === undefined) report(scope, 'wrong-thing', reference, { name: owner.text, is: 'a piece', wanted: `one of its edges, such as ${owner.text}.${edges[0] ?? 'top'},` });
    else report(scope, 'unknown-part', more ?? name, { owner: piece.name, name: (more ?? name).text, near: nearestName(name.text, edges), known: edges });
    return undefined;
  }
  return { piece, edge: name.text };
}
