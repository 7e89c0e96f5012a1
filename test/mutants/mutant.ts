/** A fault of one line: where it is put, and the tests one of which must fail with it. */
export interface Mutant {
  /** What would be told wrongly. */
  readonly what: string;
  readonly file: string;
  /** Stands in the file exactly once. */
  readonly before: string;
  readonly after: string;
  readonly tests: readonly string[];
}
