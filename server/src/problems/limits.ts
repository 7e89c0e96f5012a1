/**
 * What is too much, in one list: every way in holds the same limits, and the reference names each (“Limits”). They are
 * invented: far above what anybody makes, and low enough to be answered soon.
 */
export const limits = {
  /** Length of a spec's text in UTF-16 code units. Reading a longer one would only keep people waiting. */
  textLength: 1_000_000,
  /** Lines of one file; one with more is not read. */
  lines: 20_000,
  /** UTF-16 code units of one declaration, save for its texts, comments and spaces. */
  declarationLength: 20_000,
  /** Brackets within brackets. */
  nesting: 100,
  /** Signs, `and`, `or` and `not` in one formula or condition. */
  operators: 200,
  /** Files that one pattern uses, by way of others too. */
  files: 500,
  /** Problems told of one file. */
  problems: 500,
  /** Decimal digits of a number’s numerator or denominator. */
  digits: 100,
  /** A count that is cut or bought. */
  count: 10_000,
  /** A price, in whatever currency. */
  price: 1_000_000,
  /** Millimetres of a length in a piece: near enough that a slip of the keys costs no long wait, since a curve takes the more points the larger it is. */
  pieceLength: 100_000,
  /** Millimetres of an allowance, an inset or an extra: a curve takes the more points the further it is moved. */
  offset: 1_000,
  /** Millimetres of a length in a material. */
  materialLength: 1_000_000,
  /** The same anywhere else, such as the thread on a cone. */
  otherLength: 1_000_000_000,
  /** Combinations of choices in which one declaration is looked at. */
  ways: 1000,
  /** Combinations in which all those declarations together are looked at that have more than `fewWays`. */
  waysInAll: 2400,
  /** A declaration’s combinations up to so many are looked at however many declarations there are … */
  fewWays: 16,
  /** … save where there are so many declarations that even these, together, would be more than this. */
  fewWaysInAll: 3500,
  /** UTF-16 code units of a name that a similar one is looked for. */
  nameLength: 60,
  /** Tables written, or drawn lays, at once: choices multiply, and nobody reads more. */
  combinations: 500,
  /** Combinations that figures beside a text are worked out for: they must come at once. Beyond, those of the first options are told. */
  combinationsBeside: 48,
  /** Pieces, counted in each of their combinations, that figures come for unasked. */
  piecesBeside: 600,
  /** Pieces shown in one preview: more are a text made by a program, and each takes its time to draw and to send. */
  piecesDrawn: 2000,
  /** Articles to buy for. */
  articles: 100_000,
  /** Other widths set beside a material's own: each takes its time to plan. */
  otherWidths: 6,
  /** Millimetres of a width, or of a gap between pieces, that is typed: no cloth is as wide. */
  typedLength: 10_000,
  /** Effort to look for a lay: about so many seconds. */
  effort: 3600,
} as const;

/** A whole number with its thousands parted. */
export const figure = (number: number): string => String(number).replace(/\B(?=(?:\d{3})+$)/g, ',');
