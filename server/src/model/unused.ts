import { problem, type Problem } from '../problems/problem.ts';
import type { Declaration, Name, Statement } from '../syntax/tree.ts';
import { nameUses } from '../syntax/walk.ts';
import { placeOf } from './settings.ts';
import type { World } from './world.ts';

/**
 * Names of the pattern's own file that nothing uses. What another file shares may be left unused, and a file without
 * pieces is a list to share from, so nothing in it counts as unused.
 */
export function unusedNames(world: World): readonly Problem[] {
  const declarations = world.root.declarations.map((one) => one.declaration);
  if (!isPattern(world)) return [];
  const used = new Set<string>();
  const cut = new Set<string>();
  const asked = new Set<string>();
  for (const file of world.files) {
    for (const { declaration } of file.declarations) {
      for (const { name, role, path } of nameUses(declaration.tree)) {
        if (role === 'material') cut.add(name.text);
        if (role === 'choice') asked.add(name.text);
        // An option alone names its choice too.
        if (role === 'option' && path.length === 0) for (const owner of world.optionOwners.get(name.text) ?? []) asked.add(owner);
        if (path.length === 0 && role !== 'declared') used.add(name.text);
      }
    }
  }
  return declarations.flatMap((declaration) => {
    const { tree } = declaration;
    switch (tree.kind) {
      case 'value':
        return used.has(tree.name.text) ? [] : [unused(declaration, tree.name, tree.of)];
      case 'thing':
        return used.has(tree.name.text) ? [] : [unused(declaration, tree.name, 'thing')];
      case 'material':
        return cut.has(tree.name.text) ? [] : [unused(declaration, tree.name, 'material')];
      case 'choice':
        return asked.has(tree.name.text) ? [] : [unused(declaration, tree.name, 'choice')];
      case 'piece':
        if (tree.body.statements.some((statement) => statement.kind === 'cut' || statement.kind === 'broken') || used.has(tree.name.text)) return [];
        return [problem('never-cut', placeOf(declaration, tree.name), { piece: tree.name.text })];
      default:
        return [];
    }
  });
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
