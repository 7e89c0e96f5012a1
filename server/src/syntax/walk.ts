import type { Condition, DeclarationTree, Expression, Name, Position, Shape } from './tree.ts';

/** What a name in the text points to, as far as its place in a sentence tells. */
export type Role = 'declared' | 'any' | 'material' | 'piece' | 'supply' | 'thing' | 'choice' | 'option' | 'edge' | 'line' | 'function';

/** A use of a name: `owner` is the piece or choice it belongs to, where it is written beside it. */
export interface NameUse {
  readonly name: Name;
  readonly role: Role;
  /** The path before it: `cover` for the `top` of `cover.top`. */
  readonly path: readonly Name[];
}

/** Every name in a declaration, in the order of the text, with the part it plays. */
export function namesIn(tree: DeclarationTree): readonly NameUse[] {
  const uses: NameUse[] = [];
  const add = (name: Name | undefined, role: Role, path: readonly Name[] = []): void => {
    if (name !== undefined) uses.push({ name, role, path });
  };
  const expression = (node: Expression | undefined): void => {
    if (node === undefined) return;
    switch (node.kind) {
      case 'number':
        return;
      case 'reference':
        node.path.forEach((name, index) => add(name, 'any', node.path.slice(0, index)));
        return;
      case 'binary':
        expression(node.left);
        expression(node.right);
        return;
      case 'negation':
        expression(node.operand);
        return;
      case 'group':
        expression(node.inner);
        return;
      case 'call':
        add(node.name, 'function');
        node.arguments.forEach(expression);
        return;
      case 'selection':
        for (const arm of node.arms) {
          expression(arm.value);
          add(arm.choice, 'choice');
          add(arm.option, 'option', arm.choice === undefined ? [] : [arm.choice]);
        }
    }
  };
  const condition = (node: Condition | undefined): void => {
    if (node === undefined) return;
    switch (node.kind) {
      case 'is':
        add(node.choice, 'choice');
        for (const option of node.options) add(option, 'option', [node.choice]);
        return;
      case 'comparison':
        expression(node.left);
        expression(node.right);
        return;
      case 'logical':
        condition(node.left);
        condition(node.right);
        return;
      case 'not':
        condition(node.operand);
        return;
      case 'condition group':
        condition(node.inner);
    }
  };
  const position = (node: Position | undefined): void => {
    expression(node?.x);
    expression(node?.y);
  };
  const shape = (node: Shape): void => {
    switch (node.kind) {
      case 'rectangle':
      case 'round':
        expression(node.width);
        expression(node.height);
        if (node.kind === 'round') {
          expression(node.part?.from);
          expression(node.part?.to);
        }
        position(node.anchor?.position);
        return;
      case 'polygon':
      case 'open':
        node.points.forEach(position);
        return;
      case 'inset':
        expression(node.distance);
        for (const exception of node.except) {
          add(exception.edge, 'edge');
          expression(exception.distance);
        }
        return;
      case 'across':
        expression(node.at);
        return;
      case 'path':
        position(node.from);
        for (const step of node.steps.statements) {
          if (step.kind === 'broken') continue;
          if (step.kind !== 'close step') position(step.to);
          if (step.kind === 'arc step') {
            position(step.through);
            expression(step.radius?.length);
          } else if (step.kind === 'curve step') {
            position(step.control1);
            position(step.control2);
          }
          add(step.name, 'edge');
        }
    }
  };

  switch (tree.kind) {
    case 'value':
      add(tree.name, 'declared');
      expression(tree.value);
      break;
    case 'thing':
      add(tree.name, 'declared');
      expression(tree.width);
      expression(tree.height);
      break;
    case 'step':
      expression(tree.size);
      break;
    case 'allowance':
      expression(tree.size);
      if (tree.join?.kind === 'mitred') expression(tree.join.limit);
      break;
    case 'sizes':
      for (const option of tree.options) add(option, 'declared');
      break;
    case 'choice':
      add(tree.name, 'declared');
      for (const option of tree.options) add(option, 'declared', [tree.name]);
      break;
    case 'check': {
      const rule = tree.rule;
      switch (rule.kind) {
        case 'matches':
          expression(rule.left);
          expression(rule.right);
          expression(rule.eased);
          expression(rule.within);
          break;
        case 'clears':
          expression(rule.inner);
          expression(rule.outer);
          expression(rule.by);
          break;
        case 'holds':
          expression(rule.holder);
          add(rule.thing, 'thing');
          expression(rule.size?.width);
          expression(rule.size?.height);
          expression(rule.ease);
          break;
        case 'mates':
          add(rule.left, 'piece');
          add(rule.right, 'piece');
          break;
        case 'condition':
          condition(rule.condition);
      }
      condition(tree.condition);
      break;
    }
    case 'material':
      add(tree.name, 'declared');
      for (const statement of tree.body.statements) {
        switch (statement.kind) {
          case 'width':
            expression(statement.nominal);
            expression(statement.usable);
            break;
          case 'bought':
            expression(statement.size);
            expression(statement.height);
            break;
          case 'shrinks':
            expression(statement.along);
            expression(statement.across);
            break;
          case 'price':
            expression(statement.amount);
        }
      }
      break;
    case 'supply':
      add(tree.name, 'declared');
      condition(tree.condition);
      for (const statement of tree.body.statements) {
        switch (statement.kind) {
          case 'count':
          case 'finished':
          case 'across':
          case 'length':
            expression(statement.value);
            break;
          case 'from':
            expression(statement.length);
            break;
          case 'at':
            statement.marks.forEach(expression);
            break;
          case 'fits':
            add(statement.supply, 'supply');
            break;
          case 'bought':
            expression(statement.size);
            expression(statement.height);
            break;
          case 'price':
            expression(statement.amount);
        }
      }
      break;
    case 'piece':
      add(tree.name, 'declared');
      add(tree.parent?.name, 'piece');
      for (const part of tree.parent?.parts ?? []) {
        if (part.kind === 'side') add(part.line, 'line', tree.parent === undefined ? [] : [tree.parent.name]);
        else if (part.kind === 'inset') expression(part.distance);
      }
      condition(tree.condition);
      for (const statement of tree.body.statements) {
        switch (statement.kind) {
          case 'outline':
            shape(statement.shape);
            break;
          case 'corner':
            add(statement.which, 'edge');
            expression(statement.size);
            expression(statement.size2);
            break;
          case 'edge':
            add(statement.edge, 'edge');
            add(statement.name, 'edge');
            break;
          case 'allowance':
            add(statement.edge, 'edge');
            expression(statement.size);
            if (statement.join?.kind === 'mitred') expression(statement.join.limit);
            break;
          case 'on fold':
            add(statement.edge, 'edge');
            break;
          case 'grain':
            expression(statement.angle);
            break;
          case 'line':
            add(statement.name, 'line');
            shape(statement.shape);
            break;
          case 'notch':
            add(statement.edge, 'edge');
            expression(statement.at);
            break;
          case 'mark':
            add(statement.name, 'line');
            expression(statement.snap);
            position(statement.at);
            break;
          case 'cut':
            expression(statement.count);
            add(statement.material, 'material');
            for (const clause of statement.clauses) {
              switch (clause.kind) {
                case 'along':
                  add(clause.line, 'line');
                  break;
                case 'without':
                  for (const window of clause.windows) add(window, 'line');
                  break;
                case 'sized':
                  expression(clause.width);
                  expression(clause.height);
                  break;
                case 'large':
                  expression(clause.by);
                  break;
                case 'side':
                  add(clause.of, 'material');
                  break;
                case 'when':
                  condition(clause.condition);
              }
            }
        }
      }
  }
  return uses;
}

const kept = new WeakMap<DeclarationTree, readonly NameUse[]>();

/** {@link namesIn}, kept as long as the tree. */
export function nameUses(tree: DeclarationTree): readonly NameUse[] {
  let uses = kept.get(tree);
  if (uses === undefined) kept.set(tree, (uses = namesIn(tree)));
  return uses;
}
