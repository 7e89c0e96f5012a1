import type { DeclarationTree, Expression } from '../syntax/tree.ts';
import type { Wanted } from './hover-lengths.ts';
import { nodesOf, type AnyNode } from './nodes.ts';

const formulaKinds = new Set(['number', 'reference', 'binary', 'negation', 'call', 'selection', 'group']);
export const isFormula = (node: AnyNode): node is AnyNode & Expression => typeof node.kind === 'string' && formulaKinds.has(node.kind);

/** Statements and rules whose formulas are plain numbers, or of a kind that only their other side tells. */
const plain = new Set(['revision', 'issued', 'cut', 'count', 'price', 'shrinks', 'comparison']);

/** What a formula of a declaration must give, by the place that it stands in: a bare number there takes that kind. */
export function wantedOf(tree: DeclarationTree, formula: Expression): Wanted {
  const around = [...nodesOf(tree)].find(({ node }) => node === formula)?.around ?? [];
  const first = around.findIndex(isFormula);
  const chain = [...(first < 0 ? [] : around.slice(first).filter(isFormula)), formula];
  const outermost = chain[0] ?? formula;
  return chain.slice(0, -1).reduce<Wanted>(wantedInside, wantedBy(around.at(first < 0 ? -1 : first - 1), outermost));
}

/** What the statement, shape or clause that a whole formula stands in takes it for. */
function wantedBy(holder: AnyNode | undefined, formula: Expression): Wanted {
  if (holder === undefined || plain.has(String(holder.kind))) return undefined;
  if (holder.kind === 'value' && 'of' in holder) return holder.of === 'length' || holder.of === 'area' || holder.of === 'angle' ? holder.of : undefined;
  if (holder.kind === 'grain') return 'angle';
  // Angles of a part of a circle and the limit of a mitre have no node of their own around them.
  if ('part' in holder && holds(holder.part, formula)) return 'angle';
  if ('join' in holder && holds(holder.join, formula)) return undefined;
  return 'length';
}

const holds = (value: unknown, formula: Expression): boolean => typeof value === 'object' && value !== null && Object.values(value).includes(formula);

/** What a part of a formula must give, from what the whole must. */
function wantedInside(wanted: Wanted, whole: Expression): Wanted {
  if (whole.kind === 'binary' && (whole.operator === '*' || whole.operator === '/')) return undefined;
  if (whole.kind === 'call' && whole.name.text === 'sqrt') return undefined;
  return whole.kind === 'call' && whole.name.text === 'around' ? 'length' : wanted;
}
