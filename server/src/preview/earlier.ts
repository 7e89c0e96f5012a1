import type { Pattern } from '../model/pattern.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { EarlierDrawing, PreviewDrawing } from './drawing-data.ts';

/** What was last drawn of each piece, by its name, with what its declaration said below its first line. */
export type Earlier = ReadonlyMap<string, EarlierDrawing & { readonly body: string }>;

export const bodyOf = ({ text, tree }: Declaration): string => text.slice(text.indexOf('\n', tree.start) + 1);

/** What is to be remembered once some data has been shown: each piece as it is now, or else as it was. */
export function remembered(before: Earlier, data: PreviewDrawing, pattern: Pattern, version: number): Earlier {
  const after = new Map<string, EarlierDrawing & { readonly body: string }>();
  for (const piece of data.pieces) {
    const declaration = pattern.world.names.get(piece.name);
    after.set(piece.name, { version, piece, body: declaration === undefined ? '' : bodyOf(declaration) });
  }
  for (const { name } of data.undrawn) {
    const known = before.get(name);
    if (known !== undefined && !after.has(name)) after.set(name, known);
  }
  return after;
}
