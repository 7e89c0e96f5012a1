import { resolvePath } from '../model/names/paths.ts';
import type { Snapshot } from '../workspace/snapshot.ts';

export interface Link {
  readonly start: number;
  readonly end: number;
  /** The file's path, relative to the working folder. */
  readonly path: string;
}

/** The files that `use` lines name, between their quotes. */
export function links(snapshot: Snapshot): readonly Link[] {
  return snapshot.file.declarations.flatMap(({ declaration, offset }) => {
    const { tree } = declaration;
    const path = tree.kind === 'use' ? resolvePath(snapshot.path, tree.path.value) : undefined;
    return tree.kind !== 'use' || path === undefined ? [] : [{ start: offset + tree.path.start + 1, end: offset + tree.path.end - 1, path }];
  });
}
