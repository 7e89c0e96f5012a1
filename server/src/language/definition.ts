import { resolvePath } from '../model/names/paths.ts';
import type { Located, Snapshot } from '../workspace/snapshot.ts';
import { declarationPlace, nameAt } from './names.ts';

export interface Definition {
  /** The name or path that was asked about, in the snapshot's own file. */
  readonly origin: { readonly start: number; readonly end: number };
  /** The declared name. */
  readonly target: Located;
  /** The whole declaration that it stands in. */
  readonly whole: Located;
}

/** Where the name at an offset is declared, or the file that a `use` line there names. */
export function definition(snapshot: Snapshot, offset: number): Definition | undefined {
  const used = usedFile(snapshot, offset);
  if (used !== undefined) return used;
  const found = nameAt(snapshot, offset);
  if (found === undefined) return undefined;
  const { name } = found.use;
  const origin = { start: found.offset + name.start, end: found.offset + name.end };
  const { target } = found;
  if (target.kind === 'function') return undefined;
  const { tree } = target.declaration;
  const whole = snapshot.locate({ chunk: target.declaration, start: tree.start, end: tree.end });
  const place = declarationPlace(snapshot, target) ?? partlyDeclared(snapshot, target);
  return whole && place && { origin, target: place, whole };
}

/** A side is made by the outline of its piece, a measure by the line that gives it or by its owner. */
function partlyDeclared(snapshot: Snapshot, target: Extract<NonNullable<ReturnType<typeof nameAt>>['target'], { declaration: unknown }>): Located | undefined {
  const { tree } = target.declaration;
  const at = (node: { readonly start: number; readonly end: number }): Located | undefined => snapshot.locate({ chunk: target.declaration, start: node.start, end: node.end });
  if (target.kind === 'side') {
    const outline = target.declaration.tree.body.statements.find((statement) => statement.kind === 'outline');
    return at(outline ?? target.declaration.tree.name);
  }
  if (target.kind !== 'measure' || !('name' in tree)) return undefined;
  const line = tree.kind === 'supply' ? tree.body.statements.find((statement) => statement.kind === target.text) : undefined;
  return at(line ?? tree.name);
}

function usedFile(snapshot: Snapshot, offset: number): Definition | undefined {
  const at = snapshot.declarationAt(offset);
  if (at?.declaration.tree.kind !== 'use') return undefined;
  const { path } = at.declaration.tree;
  const inside = offset - at.offset;
  if (inside < path.start || inside > path.end) return undefined;
  const file = resolvePath(snapshot.path, path.value);
  if (file === undefined || !snapshot.pattern.world.files.some((one) => one.path === file)) return undefined;
  const target = { file, start: 0, end: 0 };
  return { origin: { start: at.offset + path.start, end: at.offset + path.end }, target, whole: target };
}
