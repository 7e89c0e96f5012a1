import { leavesOf } from '../syntax/leaves.ts';
import type { Dimension } from '../syntax/statements/elements.ts';
import type { DeclarationTree, Expression } from '../syntax/tree.ts';
import { formulasWithin } from '../syntax/walk.ts';
import type { Wanted } from './hover-lengths.ts';
import type { AnyNode } from './nodes.ts';

const formulaKinds = new Set(['number', 'reference', 'binary', 'negation', 'call', 'selection', 'group']);
export const isFormula = (node: AnyNode): node is AnyNode & Expression => typeof node.kind === 'string' && formulaKinds.has(node.kind);

/** What a formula of a declaration must give, by the place that it stands in: a bare number there takes that kind. */
export function wantedOf(tree: DeclarationTree, formula: Expression): Wanted {
  for (const leaf of leavesOf(tree)) {
    if (leaf.is === 'name' || leaf.is === 'word' || formula.start < leaf.formula.start || formula.end > leaf.formula.end) continue;
    return within(leaf.is === 'formula' ? wantedBy(leaf.dimension) : undefined, leaf.formula, formula);
  }
  return undefined;
}

const wantedBy = (dimension: Dimension): Wanted => (dimension === 'count' || dimension === 'ratio' ? undefined : dimension === 'length or share' ? 'length' : dimension);

/** What a part of a formula must give, from what the whole must. */
function within(wanted: Wanted, whole: Expression, part: Expression): Wanted {
  if (whole === part) return wanted;
  const next = formulasWithin(whole).find((one) => one.start <= part.start && part.end <= one.end);
  return next === undefined ? wanted : within(inside(wanted, whole), next, part);
}

function inside(wanted: Wanted, whole: Expression): Wanted {
  if (whole.kind === 'binary' && (whole.operator === '*' || whole.operator === '/')) return undefined;
  if (whole.kind === 'call' && whole.name.text === 'sqrt') return undefined;
  return whole.kind === 'call' && whole.name.text === 'around' ? 'length' : wanted;
}
