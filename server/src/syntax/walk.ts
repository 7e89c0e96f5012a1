import { leavesOf } from './leaves.ts';
import type { Role } from './statements/elements.ts';
import type { DeclarationTree, Expression, Name } from './tree.ts';

export type { Role } from './statements/elements.ts';

/** A use of a name: what stands before it in `path` is the piece or choice that it belongs to. */
export interface NameUse {
  readonly name: Name;
  readonly role: Role;
  /** Whether it gets its name here. */
  readonly declares: boolean;
  /** The path before it: `cover` for the `top` of `cover.top`. */
  readonly path: readonly Name[];
  /** Whether it stands in a text for people, on which nothing rests. */
  readonly isTold?: true;
}

/** Every name in a declaration, in the order of the text, with the part it plays. */
export function namesIn(tree: DeclarationTree): readonly NameUse[] {
  const uses: NameUse[] = [];
  for (const leaf of leavesOf(tree)) {
    if (leaf.is === 'name') uses.push({ name: leaf.name, role: leaf.role, declares: leaf.declares, path: leaf.path });
    else if (leaf.is === 'measured') {
      const told: NameUse[] = [];
      inFormula(leaf.formula, told);
      uses.push(...told.map((use): NameUse => ({ ...use, isTold: true })));
    } else if (leaf.is !== 'word') inFormula(leaf.formula, uses);
  }
  return uses;
}

/** Without recursion: brackets may be nested as deep as the parser could read. */
function inFormula(formula: Expression, uses: NameUse[]): void {
  const ahead: (Expression | NameUse)[] = [formula];
  for (let next = ahead.pop(); next !== undefined; next = ahead.pop()) {
    if ('kind' in next) ahead.push(...[...ownNames(next)].reverse());
    else uses.push(next);
  }
}

/** Nothing has a name of more parts: of those that stand further behind only the first owners are kept, since each would hold all before it. */
const mostOwners = 8;

/** The names that a formula itself says, and the formulas that it is made of, in the order of the text. */
function ownNames(node: Expression): readonly (Expression | NameUse)[] {
  switch (node.kind) {
    case 'reference':
      return node.path.map((name, index) => used(name, 'any', node.path.slice(0, Math.min(index, mostOwners))));
    case 'call':
      return [used(node.name, 'function'), ...node.arguments];
    case 'selection':
      return node.arms.flatMap(({ value, choice, option }) => [
        value, ...(choice === undefined ? [] : [used(choice, 'choice')]), ...(option === undefined ? [] : [used(option, 'option', choice === undefined ? [] : [choice])]),
      ]);
    default:
      return formulasWithin(node);
  }
}

const used = (name: Name, role: Role, path: readonly Name[] = []): NameUse => ({ name, role, declares: false, path });

/** The formulas that a formula is made of, in the order of the text. */
export function formulasWithin(node: Expression): readonly Expression[] {
  switch (node.kind) {
    case 'number':
    case 'reference':
      return [];
    case 'binary':
      return [node.left, node.right];
    case 'negation':
      return [node.operand];
    case 'group':
      return [node.inner];
    case 'call':
      return node.arguments;
    case 'selection':
      return node.arms.map(({ value }) => value);
  }
}

const cache = new WeakMap<DeclarationTree, readonly NameUse[]>();

/** {@link namesIn}, worked out once for a tree. */
export function nameUses(tree: DeclarationTree): readonly NameUse[] {
  let uses = cache.get(tree);
  if (uses === undefined) cache.set(tree, (uses = namesIn(tree)));
  return uses;
}
