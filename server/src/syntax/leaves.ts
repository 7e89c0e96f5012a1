import { fieldOf, fits, formOf } from './statements/table.ts';
import type { Element, NameElement, Role, WordElement } from './statements/elements.ts';
import type { Condition, Expression, Name, Position, Reference, ValueKind } from './tree.ts';

/** What stands at one place of a statement, with its element of the table of statements. */
export type Leaf =
  | { readonly is: 'name'; readonly name: Name; readonly role: Role; readonly declares: boolean; readonly path: readonly Name[] }
  | { readonly is: 'formula'; readonly formula: Expression; readonly dimension: ValueKind | undefined }
  | { readonly is: 'word'; readonly word: Name; readonly element: WordElement };

/** The names, words and formulas of a statement and of the lines in its block, in the order of the text. */
export function leavesOf(statement: { readonly kind: string }): readonly Leaf[] {
  const leaves: Leaf[] = [];
  const form = formOf(statement);
  if (form !== undefined) inParts(form.parts, [statement], leaves);
  return leaves;
}

/** @param around the nodes around, the innermost first, which is the one whose fields the parts name */
function inParts(parts: readonly Element[], around: readonly object[], leaves: Leaf[]): void {
  for (const part of parts) inElement(part, around, leaves);
}

function inElement(element: Element, around: readonly object[], leaves: Leaf[]): void {
  const [node = {}] = around;
  switch (element.is) {
    case 'words':
    case 'one of':
    case 'number':
    case 'quoted':
      return;
    case 'optional':
      if (fits(node, element.where)) inParts(element.parts, around, leaves);
      return;
    case 'either':
      return inParts(element.ways.find(({ where }) => fits(node, where))?.parts ?? [], around, leaves);
    case 'head':
      if (!('unread' in node)) inParts(element.parts, around, leaves);
      return;
  }
  const value = fieldOf(node, element.field);
  if (typeof value !== 'object' || value === null) return;
  switch (element.is) {
    case 'inside':
      return inParts(element.parts, [value, ...around], leaves);
    case 'many':
      for (const item of value as readonly object[]) inParts(element.ways.find(({ where }) => fits(item, where))?.parts ?? [], [item, ...around], leaves);
      return;
    case 'list':
      for (const item of value as readonly object[]) inParts(element.item, [item, ...around], leaves);
      return;
    case 'block':
      for (const line of (value as { readonly statements: readonly { readonly kind: string }[] }).statements) leaves.push(...leavesOf(line));
      return;
    default:
      inValue(element, value, around, leaves);
  }
}

function inValue(element: Exclude<Element, { readonly is: 'words' | 'one of' | 'number' | 'quoted' | 'optional' | 'either' | 'head' | 'inside' | 'many' | 'list' | 'block' }>, value: object, around: readonly object[], leaves: Leaf[]): void {
  switch (element.is) {
    case 'name':
      leaves.push({ is: 'name', name: value as Name, role: element.role, declares: element.declares, path: ownerOf(element, value, around) });
      return;
    case 'word':
      leaves.push({ is: 'word', word: value as Name, element });
      return;
    case 'formula':
      leaves.push({ is: 'formula', formula: value as Expression, dimension: dimensionOf(element.dimension, around[0] ?? {}) });
      return;
    case 'reference':
      leaves.push({ is: 'formula', formula: value as Reference, dimension: undefined });
      return;
    case 'position': {
      const { x, y } = value as Position;
      leaves.push({ is: 'formula', formula: x, dimension: 'length' }, { is: 'formula', formula: y, dimension: 'length' });
      return;
    }
    case 'condition':
      inCondition(value as Condition, leaves);
  }
}

function dimensionOf(dimension: ValueKind | { readonly field: string } | undefined, node: object): ValueKind | undefined {
  return typeof dimension === 'object' ? (fieldOf(node, dimension.field) as ValueKind) : dimension;
}

/** The name that a name belongs to, in the nearest node around that has one; a name is no node around itself. */
function ownerOf({ of }: NameElement, name: object, around: readonly object[]): readonly Name[] {
  if (of === undefined) return [];
  const holder = around.find((node) => node !== name && of in node);
  return holder === undefined ? [] : [fieldOf(holder, of) as Name];
}

function inCondition(node: Condition, leaves: Leaf[]): void {
  switch (node.kind) {
    case 'is':
      leaves.push({ is: 'name', name: node.choice, role: 'choice', declares: false, path: [] });
      for (const option of node.options) leaves.push({ is: 'name', name: option, role: 'option', declares: false, path: [node.choice] });
      return;
    case 'comparison':
      // Its other side tells what a bare number is.
      leaves.push({ is: 'formula', formula: node.left, dimension: undefined }, { is: 'formula', formula: node.right, dimension: undefined });
      return;
    case 'logical':
      inCondition(node.left, leaves);
      inCondition(node.right, leaves);
      return;
    case 'not':
      return inCondition(node.operand, leaves);
    case 'condition group':
      return inCondition(node.inner, leaves);
  }
}
