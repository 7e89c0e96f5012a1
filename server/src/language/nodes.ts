import type { DeclarationTree, Node } from '../syntax/tree.ts';

/** Anything in a tree that has a place in the text, with its kind where it has one. */
export interface AnyNode extends Node {
  readonly kind?: unknown;
}

const isNode = (value: object): value is AnyNode => 'start' in value && 'end' in value && typeof value.start === 'number' && typeof value.end === 'number';

/** Every node of a tree, each before what it holds, with the nodes around it, the outermost first. */
export function* nodesOf(tree: DeclarationTree): Generator<{ readonly node: AnyNode; readonly around: readonly AnyNode[] }> {
  yield* inside(tree, []);
}

function* inside(value: unknown, around: readonly AnyNode[]): Generator<{ node: AnyNode; around: readonly AnyNode[] }> {
  if (typeof value !== 'object' || value === null) return;
  let holders = around;
  if (isNode(value)) {
    yield { node: value, around };
    holders = [...around, value];
  }
  for (const part of Array.isArray(value) ? value : Object.values(value)) yield* inside(part, holders);
}

/** The nodes that hold an offset, the outermost first. */
export function nodesAt(tree: DeclarationTree, offset: number): readonly AnyNode[] {
  const found: AnyNode[] = [];
  for (const { node } of nodesOf(tree)) if (node.start <= offset && offset <= node.end) found.push(node);
  return found;
}
