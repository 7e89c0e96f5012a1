import type { CornerStyle } from '../../geometry/offset-join.ts';
import { offsetOutline, type OffsetResult } from '../../geometry/offset.ts';
import type { Outline } from '../../geometry/shape.ts';
import { nearestName } from '../../problems/near.ts';
import { problem, replacement } from '../../problems/problem.ts';
import type { AllowanceJoin, AllowanceStatement, Name } from '../../syntax/tree.ts';
import { zero, type Rational } from '../../units/rational.ts';
import { evaluateAs, isTooFar } from '../formulas/evaluate.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { isLeftAlone } from '../formulas/slips.ts';
import { exactValue } from '../formulas/value.ts';
import type { AllowanceCorner, EdgeAllowance } from './piece.ts';

/** A mitre longer than four allowances is cut off straight, as in strokes of SVG (W3C, initial stroke-miterlimit 4). */
const usualCorner: AllowanceCorner & CornerStyle = { kind: 'mitre', limit: 4 };

export interface Allowances {
  readonly edges: ReadonlyMap<string, EdgeAllowance>;
  /** What the piece, or else its parent, says for all its edges; undefined where only the pattern does. */
  readonly general: EdgeAllowance | undefined;
}

/** The allowance of each edge: the edge's own, else the piece's, else the parent's, else the pattern's. */
export function allowancesOf(
  scope: Scope,
  outline: Outline,
  fold: string | undefined,
  statements: readonly AllowanceStatement[],
  inherited: Allowances,
): Allowances {
  const edges = outline.edges.map((edge) => edge.name);
  const own = new Map<string, EdgeAllowance>();
  let general: EdgeAllowance | undefined;
  for (const statement of statements) {
    if (statement.edge === undefined && statement.size !== undefined && isLeftAlone(scope, statement.size, edges, edgeAlone)) continue;
    const allowance = readAllowance(scope, statement);
    if (statement.edge === undefined) general = allowance ?? general;
    else if (hasEdge(scope, statement.edge, edges)) {
      if (statement.edge.text === fold) report(scope, 'fold-allowance', statement, { edge: fold });
      else if (allowance !== undefined) own.set(statement.edge.text, allowance);
    }
  }
  const given = (edge: string): EdgeAllowance | undefined =>
    edge === fold ? none : (own.get(edge) ?? general ?? inherited.edges.get(edge) ?? inherited.general);
  // The pattern is asked only where an edge needs it, or a piece that says everything itself would be told that it doesn't.
  const pattern = edges.some((edge) => given(edge) === undefined) ? patternAllowance(scope) : undefined;
  return {
    edges: new Map(edges.map((edge) => [edge, given(edge) ?? pattern ?? none])),
    general: general ?? inherited.general,
  };
}

/** `allowance top`, which doesn’t say how wide. */
const edgeAlone = (edge: string): { readonly is: string; readonly wanted: string } => ({ is: 'an edge', wanted: `how wide its allowance is, as in allowance ${edge} 1/2,` });

const none: EdgeAllowance = { size: zero, corner: usualCorner };

function patternAllowance(scope: Scope): EdgeAllowance | undefined {
  const written = scope.settings.allowance;
  if (written === undefined) {
    scope.context.report(problem('missing-allowance', { chunk: scope.declaration, start: scope.declaration.tree.start, end: scope.declaration.tree.start + 5 }, {}));
    return undefined;
  }
  return readAllowance(scopeOf(scope.context, written.declaration), written.node);
}

function readAllowance(scope: Scope, statement: AllowanceStatement): EdgeAllowance | undefined {
  const size = statement.size === undefined ? zero : sizeOf(scope, statement);
  return size && { size, corner: cornerStyle(scope, statement.join) };
}

function sizeOf(scope: Scope, statement: AllowanceStatement): Rational | undefined {
  if (statement.size === undefined) return zero;
  const value = evaluateAs(scope, statement.size, 'length');
  if (value === undefined || isTooFar(scope, value, statement.size, 'an allowance')) return undefined;
  if (value.amount.compare(0) >= 0) return value.amount;
  report(scope, 'too-small', statement.size, { what: 'An allowance', value: exactValue(value, scope.settings.display), least: 'nothing or more' });
  return undefined;
}

function cornerStyle(scope: Scope, join: AllowanceJoin | undefined): AllowanceCorner {
  switch (join?.kind) {
    case undefined:
      return usualCorner;
    case 'bevelled':
      return { kind: 'bevel' };
    case 'rounded':
      return { kind: 'round' };
    case 'turned':
      return { kind: 'turned' };
    case 'mitred': {
      const limit = join.limit && evaluateAs(scope, join.limit, 'number');
      return { kind: 'mitre', limit: limit?.amount.valueOf() ?? 4 };
    }
  }
}

/** Whether an outline has an edge of this name; reports where not, with the near miss. */
export function hasEdge(scope: Scope, name: Name, edges: readonly string[]): boolean {
  if (edges.includes(name.text)) return true;
  const near = nearestName(name.text, edges);
  const piece = scope.declaration.tree.kind === 'piece' ? scope.declaration.tree.name.text : '';
  report(scope, 'unknown-part', name, { owner: piece, name: name.text, near, known: edges.filter((edge) => !edge.endsWith('_twin')) }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, name), near, false)],
  });
  return false;
}

/** The outline moved outwards (or inwards, with `sign` -1) by its allowances. */
export function moveByAllowances(outline: Outline, allowances: ReadonlyMap<string, EdgeAllowance>, sign: 1 | -1): OffsetResult {
  return offsetOutline(
    outline,
    (edge) => sign * (allowances.get(edge)?.size.valueOf() ?? 0),
    (before, after) => (before === after ? withinEdge(allowances.get(before)) : cornerBetween(allowances.get(before), allowances.get(after))),
  );
}

/** Where two edges each say how their corners are made, the wider allowance decides, so that both its ends are alike. */
function cornerBetween(before: EdgeAllowance | undefined, after: EdgeAllowance | undefined): CornerStyle {
  const sides = [{ side: 'before', allowance: before }, { side: 'after', allowance: after }] as const;
  const widerFirst = after !== undefined && (before === undefined || after.size.compare(before.size) > 0) ? sides.toReversed() : sides;
  for (const { side, allowance } of widerFirst) {
    if (allowance === undefined || allowance.corner === usualCorner) continue;
    return allowance.corner.kind === 'turned' ? { kind: 'turned', side } : allowance.corner;
  }
  return usualCorner;
}

/** At a bend of one edge there is no side to lie on when it is turned back. */
const withinEdge = (allowance: EdgeAllowance | undefined): CornerStyle =>
  (allowance === undefined || allowance.corner.kind === 'turned' ? usualCorner : allowance.corner);
