import type { AllowanceStatement, DeclarationTree, MaterialStatement, PathStep, PieceStatement, SupplyStatement } from './tree.ts';
import {
  inLine, led, printClause, printCondition, printExpression, printNames, printNumber, printOptions, printOtherwise, printPart, printPosition, printQuoted,
  printRule, printShape, printTitle, printWhen, words,
} from './print-words.ts';

export type AnyStatement = DeclarationTree | PieceStatement | MaterialStatement | SupplyStatement | PathStep;

/** Beyond this many characters a list goes on below after each comma. */
const widest = 100;

/**
 * The canonical words of a statement, without what stands before it and the comment after it; of one with a block, up
 * to the opening brace.
 *
 * @param indent the space that stands before it
 */
export function printStatement(statement: AnyStatement, indent: string): string {
  const short = printWith(statement, inLine);
  return indent.length + short.length <= widest ? short : printWith(statement, `,\n${indent}  `);
}

function printWith(statement: AnyStatement, between: string): string {
  switch (statement.kind) {
    // The file's own facts
    case 'pattern':
      return `pattern ${printQuoted(statement.title)}`;
    case 'revision':
      return `revision ${printNumber(statement.number)}`;
    case 'issued':
      return `issued ${printNumber(statement.number)} as ${printQuoted(statement.digest)}`;
    case 'unit':
      return `unit ${statement.unit}`;
    case 'step':
      return `step ${printExpression(statement.size)}`;
    case 'currency':
      return `currency ${printQuoted(statement.text)}`;
    case 'use':
      return `use ${printQuoted(statement.path)}`;
    case 'sizes':
      return `sizes ${printNames(statement.options, between)}`;
    case 'choice':
      return `choice ${statement.name.text} is ${printOptions(statement.options, between)}`;

    // Named things and checks
    case 'value':
      return `${statement.of} ${statement.name.text} = ${printExpression(statement.value, between)}`;
    case 'thing':
      return words('thing', statement.name.text, printTitle(statement.title), '=', printExpression(statement.width), 'by', printExpression(statement.height));
    case 'material':
      return words('material', statement.name.text, statement.unread?.text ?? printTitle(statement.title), '{');
    case 'supply':
      return words('supply', statement.name.text, statement.unread?.text ?? words(printTitle(statement.title), printWhen(statement.condition)), '{');
    case 'piece':
      return words('piece', statement.name.text, statement.unread?.text ?? words(
        printTitle(statement.title),
        statement.parent && words('from', statement.parent.name.text, ...statement.parent.parts.map(printPart)),
        printWhen(statement.condition),
      ), '{');
    case 'check':
      return words('check', printRule(statement.rule), statement.condition && `when ${printCondition(statement.condition)}`, printOtherwise(statement.otherwise));

    // A piece's lines
    case 'outline':
      return `outline ${printShape(statement.shape, between)}`;
    case 'corner':
      return words('corner', statement.which.text, statement.treatment, printExpression(statement.size), led('by', statement.size2 && printExpression(statement.size2)));
    case 'edge':
      return `edge ${statement.edge.text} as ${statement.name.text}`;
    case 'drawn':
      return `drawn to ${statement.to}`;
    case 'allowance':
      return printAllowance(statement);
    case 'on fold':
      return `on fold ${statement.edge.text}`;
    case 'grain':
      return words('grain', statement.angle === undefined ? statement.way : printExpression(statement.angle), statement.orAcross ? 'or across' : undefined);
    case 'way up':
      return 'this way up';
    case 'line':
      return `${statement.use} ${statement.name.text} = ${printShape(statement.shape, between)}`;
    case 'notch':
      return words('notch', statement.edge.text, 'at', printExpression(statement.at), statement.from === 'end' ? 'from end' : undefined);
    case 'mark':
      return words(statement.use, statement.name.text, led('for snap', statement.snap && printExpression(statement.snap)), 'at', printPosition(statement.at));
    case 'note':
      return `note ${printQuoted(statement.text)}`;
    case 'cut':
      return words('cut', printExpression(statement.count), statement.material.text, ...statement.clauses.map(printClause));

    // A path's steps
    case 'line step':
      return words('line to', printPosition(statement.to), led('as', statement.name?.text));
    case 'arc step':
      return words(
        'arc to', printPosition(statement.to),
        led('through', statement.through && printPosition(statement.through)),
        statement.radius && words('radius', printExpression(statement.radius.length), statement.radius.turn),
        led('as', statement.name?.text),
      );
    case 'curve step':
      return words('curve to', printPosition(statement.to), 'by', printPosition(statement.control1), 'and', printPosition(statement.control2), led('as', statement.name?.text));
    case 'close step':
      return words('close', led('as', statement.name?.text));

    // Materials and supplies
    case 'width':
      return words('width', printExpression(statement.nominal), led('usable', statement.usable && printExpression(statement.usable)));
    case 'role':
    case 'faces':
    case 'direction':
    case 'weight':
      return `${statement.kind} ${statement.word.text}`;
    case 'supply kind':
      return `kind ${statement.word.text}`;
    case 'bought':
      return words('bought in', statement.form, 'of', printExpression(statement.size), led('by', statement.height && printExpression(statement.height)));
    case 'shrinks':
      return words('shrinks', printExpression(statement.along), led('by', statement.across && printExpression(statement.across)));
    case 'price':
      return `price ${printExpression(statement.amount)} per ${statement.per.text}`;
    case 'count':
    case 'finished':
    case 'across':
    case 'length':
      return `${statement.kind} ${printExpression(statement.value, between)}`;
    case 'from':
      return `from ${statement.source} ${printExpression(statement.length)}`;
    case 'at':
      return `at ${statement.marks.map((mark) => printExpression(mark)).join(between)}`;
    case 'fits':
      return `fits ${statement.supply.text}`;

    case 'broken':
      return statement.text;
  }
}

function printAllowance(statement: AllowanceStatement): string {
  const { join } = statement;
  return words(
    'allowance', statement.edge?.text,
    statement.size === undefined ? 'none' : printExpression(statement.size),
    join?.kind,
    join?.kind === 'mitred' ? led('limit', join.limit && printExpression(join.limit)) : undefined,
  );
}
