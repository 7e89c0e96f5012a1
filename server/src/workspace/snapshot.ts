import type { Pattern } from '../model/pattern.ts';
import type { Chunk, Place } from '../problems/place.ts';
import type { Declaration, SourceFile } from '../syntax/tree.ts';

/** Where a place stands in its file now, in UTF-16 offsets. */
export interface Located {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

/** A file's pattern at one moment, with the way from places back to offsets and from offsets to declarations. */
export interface Snapshot {
  readonly path: string;
  readonly file: SourceFile;
  readonly pattern: Pattern;
  /** Undefined for a place that is no longer in any file. */
  readonly locate: (place: Place) => Located | undefined;
  /** The declaration that an offset of the snapshot's own file lies in, with where that declaration starts. */
  readonly declarationAt: (offset: number) => { readonly declaration: Declaration; readonly offset: number } | undefined;
}

export function snapshotOf(pattern: Pattern): Snapshot {
  const { root, files } = pattern.world;
  let starts: Map<Chunk, { file: string; offset: number }> | undefined;
  const startsOf = (): Map<Chunk, { file: string; offset: number }> => {
    if (starts === undefined) {
      starts = new Map();
      for (const file of files) for (const { declaration, offset } of file.declarations) starts.set(declaration, { file: file.path, offset });
    }
    return starts;
  };
  return {
    path: root.path,
    file: root,
    pattern,
    locate: (place) => {
      const start = startsOf().get(place.chunk);
      return start && { file: start.file, start: start.offset + place.start, end: start.offset + place.end };
    },
    declarationAt: (offset) => {
      let low = 0;
      let high = root.declarations.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if ((root.declarations[middle]?.offset ?? 0) <= offset) low = middle;
        else high = middle - 1;
      }
      const found = root.declarations[low];
      return found !== undefined && offset >= found.offset && offset <= found.offset + found.declaration.text.length ? found : undefined;
    },
  };
}
