import { problem, type Problem } from '../../problems/problem.ts';
import type { Declaration, Name, Statement } from '../../syntax/tree.ts';
import { nameUses } from '../../syntax/walk.ts';
import type { Changes } from './changes.ts';
import { placeOf } from '../settings.ts';
import type { World } from './world.ts';

/**
 * Names of the pattern's own file that nothing uses. What another file shares may be left unused, and a file without
 * pieces is a list to share from, so nothing in it counts as unused.
 */
export function unusedNames(world: World, uses: UseCounts): readonly Problem[] {
  if (!isPattern(world)) return [];
  const asked = (choice: string): boolean =>
    uses.choices.has(choice) || (world.choices.get(choice)?.options ?? []).some((option) => uses.options.has(option));
  return world.root.declarations.flatMap(({ declaration }) => {
    const { tree } = declaration;
    switch (tree.kind) {
      case 'value':
        return uses.used.has(tree.name.text) ? [] : [unused(declaration, tree.name, tree.of)];
      case 'thing':
        return uses.used.has(tree.name.text) ? [] : [unused(declaration, tree.name, 'thing')];
      case 'material':
        return uses.materials.has(tree.name.text) ? [] : [unused(declaration, tree.name, 'material')];
      case 'choice':
        return asked(tree.name.text) ? [] : [unused(declaration, tree.name, 'choice')];
      case 'piece':
        if (tree.body.statements.some((statement) => statement.kind === 'cut' || statement.kind === 'broken') || uses.used.has(tree.name.text)) return [];
        return [problem('never-cut', placeOf(declaration, tree.name), { piece: tree.name.text })];
      default:
        return [];
    }
  });
}

/** How many declarations use a name, brought up to date edit by edit. */
export class UseCounts {
  readonly used = new Map<string, number>();
  readonly materials = new Map<string, number>();
  readonly choices = new Map<string, number>();
  /** Options written without their choice: each names its choice too. */
  readonly options = new Map<string, number>();

  update({ added, removed }: Changes): void {
    for (const declaration of removed) this.#count(declaration, -1);
    for (const declaration of added) this.#count(declaration, 1);
  }

  #count(declaration: Declaration, by: 1 | -1): void {
    for (const { name, role, path } of nameUses(declaration.tree)) {
      if (role === 'material') addTo(this.materials, name.text, by);
      if (role === 'choice') addTo(this.choices, name.text, by);
      if (role === 'option' && path.length === 0) addTo(this.options, name.text, by);
      if (path.length === 0 && role !== 'declared') addTo(this.used, name.text, by);
    }
  }
}

function addTo(counts: Map<string, number>, name: string, by: 1 | -1): void {
  const count = (counts.get(name) ?? 0) + by;
  if (count === 0) counts.delete(name);
  else counts.set(name, count);
}

/** Whether a file is a pattern, as against a list to share from. */
export function isPattern(world: World): boolean {
  return world.root.declarations.some(({ declaration }) => declaration.tree.kind === 'piece' || declaration.tree.kind === 'pattern');
}

function unused(declaration: Declaration, name: Name, what: string): Problem {
  const tree: Statement = declaration.tree;
  return problem('unused-name', placeOf(declaration, name), { what, name: name.text }, {
    fixes: [{ title: `Remove “${name.text}”`, edits: [{ place: { chunk: declaration, start: tree.start, end: declaration.text.length }, newText: '' }], safe: true }],
  });
}
