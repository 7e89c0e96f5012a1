/**
 * What is too much, in one list: every way in holds the same limits, and the reference names each (“Limits”). They are
 * invented: far above what anybody makes, and low enough to be answered soon.
 */
export const limits = {
  /** Length of a spec's text in UTF-16 code units. Reading a longer one would only keep people waiting. */
  textLength: 5_000_000,
  /** Tables written, or drawn lays, at once: choices multiply, and nobody reads more. */
  combinations: 500,
  /** Combinations that figures beside a text are worked out for: they must come at once. Beyond, those of the first options are told. */
  combinationsBeside: 48,
  /** Pieces, counted in each of their combinations, that figures come for unasked. */
  piecesBeside: 600,
  /** Articles to buy for. */
  articles: 100_000,
  /** Other widths set beside a material's own: each takes its time to plan. */
  otherWidths: 6,
  /** Millimetres of a width, or of a gap between pieces, that is typed: no cloth is as wide. */
  typedLength: 10_000,
  /** Effort to look for a lay: about so many seconds. */
  effort: 3600,
} as const;
