import type {
  Anchor, CheckDeclaration, CheckRule, Condition, CutClause, Expression, Inset, Name, NumberLiteral, Part, Position, Quoted, RoundShape, Shape,
} from './tree.ts';

/**
 * The canonical words of the parts of a statement, each on one line. A list that may go on below after its commas is
 * printed with `between`, which is a comma and what follows it.
 */

/** One comma between the items of a list that stays on its line. */
export const inLine = ', ';

/** Words parted by single spaces; what is absent is left out. */
export function words(...parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join(' ');
}

/** A word with what it introduces, if that is there: `when tab is cork`. */
export function led(word: string, rest: string | undefined): string | undefined {
  return rest === undefined ? undefined : `${word} ${rest}`;
}

export function printQuoted(quoted: Quoted): string {
  return `"${quoted.value.replace(/[\\"]/g, '\\$&').replace(/\n/g, '\\n')}"`;
}

export const printTitle = (title: Quoted | undefined): string | undefined => title && printQuoted(title);

export const printNames = (names: readonly Name[], between = inLine): string => names.map((name) => name.text).join(between);

/** `fabric, cork or felt`. */
export function printOptions(options: readonly Name[], between = inLine): string {
  const last = options.at(-1);
  return last === undefined || options.length === 1 ? (last?.text ?? '') : `${printNames(options.slice(0, -1), between)} or ${last.text}`;
}

// ------------------------------------------------------------------------------------------------ formulas

export function printNumber(number: NumberLiteral): string {
  const digits = number.digits.replace(/ +/g, ' ');
  return number.unit === '%' ? `${digits}%` : words(digits, number.unit);
}

export function printExpression(node: Expression, between = inLine): string {
  switch (node.kind) {
    case 'number':
      return printNumber(node);
    case 'reference':
      return printNames(node.path, '.');
    case 'binary':
      return `${printExpression(node.left)} ${node.operator} ${printExpression(node.right)}`;
    case 'negation':
      return `-${printExpression(node.operand)}`;
    case 'group':
      return `(${printExpression(node.inner)})`;
    case 'call':
      return `${node.name.text}(${node.arguments.map((argument) => printExpression(argument)).join(inLine)})`;
    case 'selection':
      return node.arms
        .map((arm) => words(printExpression(arm.value), arm.option === undefined ? 'otherwise' : words('for', arm.choice?.text, arm.option.text)))
        .join(between);
  }
}

const printed = (node: Expression | undefined): string | undefined => node && printExpression(node);

export function printCondition(node: Condition): string {
  switch (node.kind) {
    case 'is':
      return words(node.choice.text, 'is', node.negated ? 'not' : undefined, printNames(node.options, ' or '));
    case 'comparison':
      return `${printExpression(node.left)} ${node.operator} ${printExpression(node.right)}`;
    case 'logical':
      return `${printCondition(node.left)} ${node.operator} ${printCondition(node.right)}`;
    case 'not':
      return `not ${printCondition(node.operand)}`;
    case 'condition group':
      return `(${printCondition(node.inner)})`;
  }
}

export const printWhen = (condition: Condition | undefined): string | undefined => condition && `when ${printCondition(condition)}`;

// ------------------------------------------------------------------------------------------------ shapes

export const printPosition = (position: Position): string => `${printExpression(position.x)}, ${printExpression(position.y)}`;

const printPoints = (points: readonly Position[]): string => `from ${points.map(printPosition).join(' to ')}`;

function printAnchor(anchor: Anchor | undefined): string | undefined {
  return anchor && words(anchor.by === 'middle' ? 'centred' : undefined, 'at', printPosition(anchor.position));
}

function printRoundPart(part: RoundShape['part']): string | undefined {
  return part && words('from', printExpression(part.from), 'to', printExpression(part.to), part.throughMiddle ? 'through middle' : undefined);
}

/** A shape; of a path, only what stands before its block. */
export function printShape(shape: Shape, between = inLine): string {
  switch (shape.kind) {
    case 'rectangle':
      return words('rectangle', printExpression(shape.width), 'by', printExpression(shape.height), printAnchor(shape.anchor));
    case 'round':
      return words(
        shape.height === undefined ? `circle across ${printExpression(shape.width)}` : `ellipse ${printExpression(shape.width)} by ${printExpression(shape.height)}`,
        printRoundPart(shape.part), printAnchor(shape.anchor),
      );
    case 'polygon':
      return `polygon ${printPoints(shape.points)}`;
    case 'open':
      return printPoints(shape.points);
    case 'across':
      return `${shape.way} at ${printExpression(shape.at)}`;
    case 'inset':
      return printInset(shape, between);
    case 'path':
      return `path from ${printPosition(shape.from)} {`;
  }
}

function printInset(shape: Inset, between: string): string {
  const exceptions = shape.except.map(({ edge, distance }) => `${edge.text} ${printExpression(distance)}`).join(between);
  return words('inset', printExpression(shape.distance), exceptions === '' ? undefined : `except ${exceptions}`, led('from', shape.of));
}

// ------------------------------------------------------------------------------------------------ clauses and rules

export function printClause(clause: CutClause): string {
  switch (clause.kind) {
    case 'along':
      return `along ${clause.line.text}`;
    case 'twins':
    case 'mirrored':
      return clause.kind;
    case 'fold':
      return 'on fold';
    case 'side':
      return words('on', clause.side, 'side', led('of', clause.of?.text));
    case 'without':
      return `without ${printNames(clause.windows, ' and ')}`;
    case 'sized':
      return `sized ${printExpression(clause.width)} by ${printExpression(clause.height)}`;
    case 'large':
      return `large by ${printExpression(clause.by)}`;
    case 'when':
      return `when ${printCondition(clause.condition)}`;
    case 'note':
      return `note ${printQuoted(clause.text)}`;
  }
}

export function printPart(part: Part): string {
  switch (part.kind) {
    case 'side':
      return `${part.side} ${part.line.text}`;
    case 'mirrored':
      return 'mirrored';
    case 'inset':
      return `inset ${printExpression(part.distance)}`;
  }
}

export function printRule(rule: CheckRule): string {
  switch (rule.kind) {
    case 'mates':
      return `${rule.left.text} mates ${rule.right.text}`;
    case 'clears':
      return `${printExpression(rule.inner)} clears ${printExpression(rule.outer)} by ${printExpression(rule.by)}`;
    case 'holds':
      return words(
        printExpression(rule.holder), 'holds',
        rule.size === undefined ? rule.thing?.text : `${printExpression(rule.size.width)} by ${printExpression(rule.size.height)}`,
        led('with ease', printed(rule.ease)),
      );
    case 'matches':
      return words(printExpression(rule.left), 'matches', printExpression(rule.right), led('eased by', printed(rule.eased)), led('within', printed(rule.within)));
    case 'condition':
      return printCondition(rule.condition);
  }
}

export function printOtherwise(otherwise: CheckDeclaration['otherwise']): string | undefined {
  return otherwise && words('else', otherwise.severity, printTitle(otherwise.message));
}
