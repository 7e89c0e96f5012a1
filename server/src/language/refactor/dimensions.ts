import { productDimension, quotientDimension, type Dimension } from '../../model/formulas/value.ts';
import type { World } from '../../model/names/world.ts';
import { leavesOf } from '../../syntax/leaves.ts';
import type { Dimension as Place } from '../../syntax/statements/elements.ts';
import type { Comparison, DeclarationTree, Expression } from '../../syntax/tree.ts';

/** What a formula in the text must give: a bare number there takes this kind. Undefined where it may stay bare. */
export type Wanted = Exclude<Dimension, 'bare'> | undefined;

/** A formula of a statement, and what its place asks for. */
export interface Placed {
  readonly expression: Expression;
  readonly wanted: Wanted;
}

/**
 * What a formula gives, told from its words and from what kinds its names are; undefined where it can't be told. Where
 * the arms of a choice differ, what isn't bare counts.
 */
export function dimensionOf(world: World, node: Expression): Dimension | undefined {
  switch (node.kind) {
    case 'number':
      return node.unit === undefined ? 'bare' : node.unit === '%' ? 'number' : node.unit === 'deg' ? 'angle' : 'length';
    case 'reference':
      return referenceDimension(world, node.path.map((name) => name.text));
    case 'group':
      return dimensionOf(world, node.inner);
    case 'negation':
      return dimensionOf(world, node.operand);
    case 'selection':
      return firstKind(node.arms.map((arm) => dimensionOf(world, arm.value)));
    case 'call': {
      const kind = firstKind(node.arguments.map((argument) => dimensionOf(world, argument)));
      return node.name.text === 'around' || (node.name.text === 'sqrt' && kind === 'area') ? 'length' : kind;
    }
    case 'binary': {
      const left = dimensionOf(world, node.left);
      const right = dimensionOf(world, node.right);
      if (left === undefined || right === undefined) return undefined;
      if (node.operator === '*') return productDimension(left, right);
      return node.operator === '/' ? quotientDimension(left, right) : firstKind([left, right]);
    }
  }
}

function firstKind(dimensions: readonly (Dimension | undefined)[]): Dimension | undefined {
  return dimensions.includes(undefined) ? undefined : (dimensions.find((one) => one !== 'bare') ?? 'bare');
}

function referenceDimension(world: World, [first = '', part, ofPart]: readonly string[]): Dimension | undefined {
  const tree = world.names.get(first)?.tree;
  switch (tree?.kind) {
    case 'value':
      return tree.of === 'count' || tree.of === 'ratio' ? 'number' : tree.of;
    case 'thing':
    case 'material':
      return 'length';
    case 'seam':
      return part === 'fullness' ? 'number' : 'length';
    case 'supply':
      return part === 'count' ? 'number' : 'length';
    case 'piece':
      return part === 'area' || ofPart === 'area' ? 'area' : 'length';
    default:
      return first === 'pi' ? 'number' : undefined;
  }
}

/**
 * What each part of a formula must give, from the whole to its parts: a bare number beside a length in a sum is a
 * length, one that multiplies it isn't.
 */
export function* placedParts(world: World, { expression, wanted }: Placed): Generator<Placed> {
  yield { expression, wanted };
  const own = dimensionOf(world, expression);
  const inner: Wanted = own === 'bare' || own === undefined ? wanted : own;
  switch (expression.kind) {
    case 'group':
      yield* placedParts(world, { expression: expression.inner, wanted: wanted ?? inner });
      return;
    case 'negation':
      yield* placedParts(world, { expression: expression.operand, wanted: wanted ?? inner });
      return;
    case 'selection':
      // Each arm alone meets what the place asks for, whatever the others are.
      for (const arm of expression.arms) yield* placedParts(world, { expression: arm.value, wanted: wanted ?? inner });
      return;
    case 'call': {
      const kind = firstKind(expression.arguments.map((argument) => dimensionOf(world, argument)));
      const asked: Wanted = expression.name.text === 'around' ? 'length' : expression.name.text === 'sqrt' ? (kind === 'bare' ? undefined : kind) : kind === 'bare' ? inner : kind;
      for (const argument of expression.arguments) yield* placedParts(world, { expression: argument, wanted: asked });
      return;
    }
    case 'binary': {
      const isSum = expression.operator === '+' || expression.operator === '-';
      for (const operand of [expression.left, expression.right]) yield* placedParts(world, { expression: operand, wanted: isSum ? inner : undefined });
    }
  }
}

/** Every formula of a declaration with what its place asks for, in the order of the text. */
export function placedFormulas(world: World, tree: DeclarationTree): readonly Placed[] {
  // A step has no names, and is the file's own in whatever unit.
  if (tree.kind === 'step') return [];
  return leavesOf(tree).flatMap((leaf) => {
    if (leaf.is === 'formula') return [{ expression: leaf.formula, wanted: wantedAt(world, leaf.formula, leaf.dimension) }];
    return leaf.is === 'compared' ? [{ expression: leaf.formula, wanted: wantedBeside(world, leaf.comparison) }] : [];
  });
}

function wantedAt(world: World, formula: Expression, dimension: Place): Wanted {
  if (dimension === 'length or share') return dimensionOf(world, formula) === 'number' ? 'number' : 'length';
  return dimension === 'count' || dimension === 'ratio' ? 'number' : dimension;
}

/** Both sides of a comparison are of one kind. */
function wantedBeside(world: World, { left, right }: Comparison): Wanted {
  const kind = firstKind([dimensionOf(world, left), dimensionOf(world, right)]);
  return kind === 'bare' ? undefined : kind;
}
