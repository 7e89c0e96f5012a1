/** What is never broken at a space: a number, its fraction and its unit, since “4 | 1/2 in” reads as two numbers. */
export const wordsOf = (text: string): readonly string[] => text.split(/(?<!\d) +| +(?!\d+\/\d|(?:in|cm|mm|m|yd|%)(?![\p{L}\d]))/u).filter((word) => word !== '');

/** The same text, held together where it is never broken by spaces that don't break. */
export const heldTogether = (text: string): string => wordsOf(text).map((word) => word.replaceAll(' ', '\u00A0')).join(' ');
