import { inLine, printCondition, printExpression, printPosition, printQuoted, printNumber, printSentence } from './print-words.ts';
import type { Element, ListElement, Way } from './statements/elements.ts';
import { fieldOf, fits, formOf } from './statements/table.ts';
import type { Condition, DeclarationTree, Expression, MaterialStatement, Name, NumberLiteral, PathStep, PieceStatement, Position, Quoted, Sentence, SupplyStatement, Unread } from './tree.ts';

export type AnyStatement = DeclarationTree | PieceStatement | MaterialStatement | SupplyStatement | PathStep;

/** Beyond this many characters a list goes on below after each comma. */
const widest = 100;

/** Seams and steps are read aloud as one thing, and most of a step is a sentence, which isn't broken: names at its end stay with it. */
const ofOneLine: ReadonlySet<string> = new Set(['seam', 'work step']);

/**
 * The canonical words of a statement, without what stands before it and the comment after it; of one with a block, up
 * to the opening brace.
 *
 * @param indent the space that stands before it
 */
export function printStatement(statement: AnyStatement, indent: string): string {
  const short = printWith(statement, inLine);
  return indent.length + short.length <= widest || ofOneLine.has(statement.kind) ? short : printWith(statement, `,\n${indent}  `);
}

/** @param between a comma and what follows it in lists that may go on below */
function printWith(statement: { readonly kind: string; readonly text?: unknown }, between: string): string {
  const form = formOf(statement);
  return form === undefined ? String(statement.text) : printParts(form.parts, statement, between);
}

function printParts(parts: readonly Element[], node: object, between: string): string {
  return parts.map((part) => printElement(part, node, between)).filter((text) => text !== '').join(' ');
}

function printWays(ways: readonly Way[], node: object, between: string): string {
  return printParts(ways.find(({ where }) => fits(node, where))?.parts ?? [], node, between);
}

function printElement(element: Element, node: object, between: string): string {
  switch (element.is) {
    case 'words':
      return element.words;
    case 'block':
      return '{';
    case 'optional':
      return fits(node, element.where) ? printParts(element.parts, node, between) : '';
    case 'either':
      return printWays(element.ways, node, between);
    case 'head':
      return 'unread' in node ? (node.unread as Unread).text : printParts(element.parts, node, between);
    default:
      return printField(element, fieldOf(node, element.field), between);
  }
}

type WithField = Exclude<Element, { readonly is: 'words' | 'block' | 'optional' | 'either' | 'head' }>;

/** The one place where a field takes the type that its element says. */
function printField(element: WithField, value: unknown, between: string): string {
  switch (element.is) {
    case 'one of':
      return element.among[String(value)]?.words ?? '';
    case 'name':
    case 'word':
      return (value as Name).text;
    case 'number':
      return printNumber(value as NumberLiteral);
    case 'quoted':
      return printQuoted(value as Quoted);
    case 'sentence':
      return printSentence(value as Sentence);
    case 'formula':
      return printExpression(value as Expression, element.arms ? between : inLine);
    case 'reference':
      return printExpression(value as Expression);
    case 'condition':
      return printCondition(value as Condition);
    case 'position':
      return printPosition(value as Position);
    case 'inside':
      return printParts(element.parts, value as object, between);
    case 'many':
      return (value as readonly object[]).map((item) => printWays(element.ways, item, between)).join(' ');
    case 'list':
      return printList(element, value as readonly object[], between);
  }
}

/** `fabric, cork or felt`; a comma may be followed by a new line, a word stays in its line. */
function printList(element: ListElement, items: readonly object[], between: string): string {
  const texts = items.map((item) => printParts(element.item, item, between));
  const last = element.last === undefined || texts.length < 2 ? undefined : texts.pop();
  const text = texts.join(element.between === ',' ? between : ` ${element.between} `);
  return last === undefined ? text : `${text} ${element.last ?? ''} ${last}`;
}
