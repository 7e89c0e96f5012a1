import { fieldOf, fits, formOf } from './statements/table.ts';
import type { Dimension, Element, FormulaElement, NameElement, Role, Way } from './statements/elements.ts';
import type { Block, Comparison, Condition, Expression, Name, Position, Reference, Sentence, Statement } from './tree.ts';

/** What stands at one place of a statement. */
export type Leaf =
  | { readonly is: 'name'; readonly name: Name; readonly role: Role; readonly declares: boolean; readonly path: readonly Name[] }
  | { readonly is: 'formula'; readonly formula: Expression; readonly dimension: Dimension }
  /** A side of a comparison: what it gives is told by both. */
  | { readonly is: 'compared'; readonly formula: Expression; readonly comparison: Comparison }
  | { readonly is: 'reference'; readonly formula: Reference }
  /** What is shown within a text, of whatever kind it is. */
  | { readonly is: 'measured'; readonly formula: Expression }
  | { readonly is: 'word'; readonly word: Name };

/** The names, words and formulas of a statement and of the lines in its block, in the order of the text. */
export function leavesOf(statement: { readonly kind: string }): readonly Leaf[] {
  const form = formOf(statement);
  return form === undefined ? [] : inParts(form.parts, [statement]);
}

/** @param around the nodes around, the innermost first, which is the one whose fields the parts name */
function inParts(parts: readonly Element[], around: readonly object[]): readonly Leaf[] {
  return parts.flatMap((part) => inElement(part, around));
}

function inElement(element: Element, around: readonly object[]): readonly Leaf[] {
  const [node = {}] = around;
  switch (element.is) {
    case 'words':
      return [];
    case 'optional':
      return fits(node, element.where) ? inParts(element.parts, around) : [];
    case 'either':
      return inWays(element.ways, around);
    case 'head':
      return 'unread' in node ? [] : inParts(element.parts, around);
    default: {
      const value = fieldOf(node, element.field);
      return typeof value === 'object' && value !== null ? inValue(element, value, around) : [];
    }
  }
}

const inWays = (ways: readonly Way[], around: readonly object[]): readonly Leaf[] => inParts(ways.find(({ where }) => fits(around[0] ?? {}, where))?.parts ?? [], around);

type WithField = Exclude<Element, { readonly is: 'words' | 'optional' | 'either' | 'head' }>;

/** What the node or the list holds that is an element's field. */
function inValue(element: WithField, value: object, around: readonly object[]): readonly Leaf[] {
  switch (element.is) {
    case 'inside':
      return inParts(element.parts, [value, ...around]);
    case 'many':
      return (value as readonly object[]).flatMap((item) => inWays(element.ways, [item, ...around]));
    case 'list':
      return (value as readonly object[]).flatMap((item) => inParts(element.item, [item, ...around]));
    case 'block':
      return (value as Block<Statement & { readonly kind: string }>).statements.flatMap(leavesOf);
    case 'name':
      return [{ is: 'name', name: value as Name, role: element.role, declares: element.declares, path: ownerOf(element, value, around) }];
    case 'word':
      return [{ is: 'word', word: value as Name }];
    case 'formula':
      return [{ is: 'formula', formula: value as Expression, dimension: dimensionOf(element, around) }];
    case 'reference':
      return [{ is: 'reference', formula: value as Reference }];
    case 'sentence':
      return (value as Sentence).parts.flatMap((part) => (typeof part === 'string' ? [] : [{ is: 'measured', formula: part }]));
    case 'position': {
      const { x, y } = value as Position;
      return [x, y].map((formula) => ({ is: 'formula', formula, dimension: 'length' }));
    }
    case 'condition':
      return inCondition(value as Condition);
    case 'one of':
    case 'number':
    case 'quoted':
      return [];
  }
}

function dimensionOf({ dimension }: FormulaElement, [node = {}]: readonly object[]): Dimension {
  return typeof dimension === 'object' ? (fieldOf(node, dimension.field) as Dimension) : dimension;
}

/** The name that a name belongs to, in the nearest node around that has one; a name is no node around itself. */
function ownerOf({ of }: NameElement, name: object, around: readonly object[]): readonly Name[] {
  if (of === undefined) return [];
  const holder = around.find((node) => node !== name && of in node);
  return holder === undefined ? [] : [fieldOf(holder, of) as Name];
}

function inCondition(node: Condition): readonly Leaf[] {
  switch (node.kind) {
    case 'is':
      return [
        { is: 'name', name: node.choice, role: 'choice', declares: false, path: [] },
        ...node.options.map((name): Leaf => ({ is: 'name', name, role: 'option', declares: false, path: [node.choice] })),
      ];
    case 'comparison':
      return [node.left, node.right].map((formula) => ({ is: 'compared', formula, comparison: node }));
    case 'logical':
      return [...inCondition(node.left), ...inCondition(node.right)];
    case 'not':
      return inCondition(node.operand);
    case 'condition group':
      return inCondition(node.inner);
  }
}
