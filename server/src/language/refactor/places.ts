import type { World } from '../../model/names/world.ts';
import type { Declaration } from '../../syntax/tree.ts';

/**
 * Where a new declaration goes above another, as an offset in its text: before the comments that stand right above it,
 * after the blank lines.
 */
export function aboveDeclaration(declaration: Declaration): number {
  const before = declaration.text.slice(0, declaration.tree.start);
  const blank = [...before.matchAll(/^[ \t]*(?:\r\n|\r|\n)/gm)].at(-1);
  return blank === undefined ? 0 : blank.index + blank[0].length;
}

/** A name that nothing has yet: the wanted one, or that with a number. */
export function freeName(world: World, wanted: string): string {
  const taken = (name: string): boolean => world.names.has(name) || world.choices.has(name) || world.damaged.has(name);
  let name = wanted;
  for (let next = 2; taken(name); next++) name = `${wanted}_${next}`;
  return name;
}
