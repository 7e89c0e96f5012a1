/** A tree without its positions, for comparing what two texts say. */
export function withoutPositions(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(withoutPositions);
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(Object.entries(node).filter(([key]) => key !== 'start' && key !== 'end').map(([key, value]) => [key, withoutPositions(value)]));
}
