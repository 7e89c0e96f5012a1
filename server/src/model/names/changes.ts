import type { Declaration, SourceFile } from '../../syntax/tree.ts';

/** What an edit has put into the text and taken out of it, declaration by declaration. */
export interface Changes {
  readonly added: ReadonlySet<Declaration>;
  readonly removed: ReadonlySet<Declaration>;
}

/** The changes from some files to others; a declaration that only moved is in neither set. */
export function changesBetween(before: readonly SourceFile[], now: readonly SourceFile[]): Changes {
  const added = new Set<Declaration>();
  const removed = new Set<Declaration>();
  const untouched = new Set(now.filter((file) => before.includes(file)));
  for (const file of now) {
    if (untouched.has(file)) continue;
    const old = before.find((one) => one.path === file.path);
    const [from, oldTo, newTo] = middle(old?.declarations ?? [], file.declarations);
    for (let index = from; index < oldTo; index++) add(removed, old?.declarations[index]?.declaration);
    for (let index = from; index < newTo; index++) add(added, file.declarations[index]?.declaration);
  }
  for (const file of before) {
    if (!now.some((one) => one.path === file.path)) for (const { declaration } of file.declarations) removed.add(declaration);
  }
  for (const declaration of added) if (removed.delete(declaration)) added.delete(declaration);
  return { added, removed };
}

function add(set: Set<Declaration>, declaration: Declaration | undefined): void {
  if (declaration !== undefined) set.add(declaration);
}

/** What lies between the beginning and the end that two lists share: its start in both, its end in each. */
function middle(a: SourceFile['declarations'], b: SourceFile['declarations']): readonly [number, number, number] {
  let from = 0;
  while (from < a.length && from < b.length && a[from]?.declaration === b[from]?.declaration) from++;
  let aTo = a.length;
  let bTo = b.length;
  while (aTo > from && bTo > from && a[aTo - 1]?.declaration === b[bTo - 1]?.declaration) {
    aTo--;
    bTo--;
  }
  return [from, aTo, bTo];
}
