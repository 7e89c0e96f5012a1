/**
 * A run of source text that moves as a whole. A declaration is one: lines added above it change where it stands in
 * its file, never what it says, so everything computed from it can be kept.
 */
export interface Chunk {
  /** Path of the file that the text stands in, relative to the working folder, with forward slashes. */
  readonly file: string;
  readonly text: string;
}

/** Part of a chunk, in UTF-16 code units from the chunk's start; `end` is exclusive. */
export interface Place {
  readonly chunk: Chunk;
  readonly start: number;
  readonly end: number;
}
