import { productDimension, quotientDimension, type Dimension } from '../../model/formulas/value.ts';
import type { World } from '../../model/names/world.ts';
import type { Condition, DeclarationTree, Expression, Position, Shape } from '../../syntax/tree.ts';

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
  const found: Placed[] = [];
  const add = (wanted: Wanted, ...expressions: readonly (Expression | undefined)[]): void => {
    for (const expression of expressions) if (expression !== undefined) found.push({ expression, wanted });
  };
  const positions = (...all: readonly (Position | undefined)[]): void => {
    for (const one of all) add('length', one?.x, one?.y);
  };
  const condition = (node: Condition | undefined): void => {
    if (node === undefined) return;
    if (node.kind === 'logical') [node.left, node.right].forEach(condition);
    else if (node.kind === 'not') condition(node.operand);
    else if (node.kind === 'condition group') condition(node.inner);
    else if (node.kind === 'comparison') {
      const kind = firstKind([dimensionOf(world, node.left), dimensionOf(world, node.right)]);
      add(kind === 'bare' ? undefined : kind, node.left, node.right);
    }
  };
  const shape = (node: Shape): void => {
    switch (node.kind) {
      case 'rectangle':
        add('length', node.width, node.height);
        positions(node.anchor?.position);
        break;
      case 'round':
        add('length', node.width, node.height);
        add('angle', node.part?.from, node.part?.to);
        positions(node.anchor?.position);
        break;
      case 'polygon':
      case 'open':
        positions(...node.points);
        break;
      case 'inset':
        add('length', node.distance, ...node.except.map((one) => one.distance));
        break;
      case 'across':
        add('length', node.at);
        break;
      case 'path':
        positions(node.from);
        for (const step of node.steps.statements) {
          if (step.kind === 'broken' || step.kind === 'close step') continue;
          positions(step.to);
          if (step.kind === 'curve step') positions(step.control1, step.control2);
          else if (step.kind === 'arc step') {
            positions(step.through);
            add('length', step.radius?.length);
          }
        }
    }
  };

  switch (tree.kind) {
    case 'value':
      add(tree.of === 'count' || tree.of === 'ratio' ? 'number' : tree.of, tree.value);
      break;
    case 'thing':
      add('length', tree.width, tree.height);
      break;
    case 'allowance':
      add('length', tree.size);
      if (tree.join?.kind === 'mitred') add('number', tree.join.limit);
      break;
    case 'check': {
      const { rule } = tree;
      if (rule.kind === 'matches') add('length', rule.left, rule.right, rule.eased, rule.within);
      else if (rule.kind === 'clears') add('length', rule.by);
      else if (rule.kind === 'holds') add('length', rule.size?.width, rule.size?.height, rule.ease);
      else if (rule.kind === 'condition') condition(rule.condition);
      condition(tree.condition);
      break;
    }
    case 'material':
    case 'supply':
      if (tree.kind === 'supply') condition(tree.condition);
      for (const statement of tree.body.statements) {
        if (statement.kind === 'width') add('length', statement.nominal, statement.usable);
        else if (statement.kind === 'bought') add('length', statement.size, statement.height);
        else if (statement.kind === 'shrinks') add('number', statement.along, statement.across);
        else if (statement.kind === 'price') add('number', statement.amount);
        else if (statement.kind === 'count') add('number', statement.value);
        else if (statement.kind === 'finished' || statement.kind === 'across' || statement.kind === 'length') add('length', statement.value);
        else if (statement.kind === 'from') add('length', statement.length);
      }
      break;
    case 'piece':
      for (const part of tree.parent?.parts ?? []) if (part.kind === 'inset') add('length', part.distance);
      condition(tree.condition);
      for (const statement of tree.body.statements) {
        switch (statement.kind) {
          case 'outline':
          case 'line':
            shape(statement.shape);
            break;
          case 'corner':
            add('length', statement.size, statement.size2);
            break;
          case 'allowance':
            add('length', statement.size);
            if (statement.join?.kind === 'mitred') add('number', statement.join.limit);
            break;
          case 'grain':
            add('angle', statement.angle);
            break;
          case 'notch':
            // A ratio is a share of the edge; anything else a length along it.
            add(dimensionOf(world, statement.at) === 'number' ? 'number' : 'length', statement.at);
            break;
          case 'mark':
            add('length', statement.snap);
            positions(statement.at);
            break;
          case 'cut':
            add('number', statement.count);
            for (const clause of statement.clauses) {
              if (clause.kind === 'sized') add('length', clause.width, clause.height);
              else if (clause.kind === 'large') add('length', clause.by);
              else if (clause.kind === 'when') condition(clause.condition);
            }
        }
      }
  }
  return found;
}
