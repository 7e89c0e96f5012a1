import type { Condition, Expression, Name, NumberLiteral, Position, Quoted, Sentence } from './tree.ts';

/**
 * The canonical words of formulas, conditions and texts. A list that may go on below after its commas is printed with
 * `between`, which is a comma and what follows it.
 */

/** One comma between the items of a list that stays on its line. */
export const inLine = ', ';

/** Words parted by single spaces; what is absent is left out. */
export function words(...parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join(' ');
}

export function printQuoted(quoted: Quoted): string {
  return `"${escaped(quoted.value)}"`;
}

/** Formulas stand in braces; a brace that is meant as such is escaped. */
export function printSentence({ parts }: Sentence): string {
  return `"${parts.map((part) => (typeof part === 'string' ? escaped(part).replaceAll('{', '\\{') : `{${printExpression(part)}}`)).join('')}"`;
}

const escaped = (text: string): string => text.replace(/[\\"]/g, '\\$&').replace(/\n/g, '\\n');

const printNames = (names: readonly Name[], between: string): string => names.map((name) => name.text).join(between);

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

export const printPosition = (position: Position): string => `${printExpression(position.x)}, ${printExpression(position.y)}`;
