/** Words that a place of the language takes, and no others. */

/** What a material is for. */
export const roles = ['main', 'accent', 'lining', 'fusible', 'stabiliser', 'foam', 'non-fray'] as const;
/** How the two sides of a material differ. */
export const facings = ['differ', 'alike', 'glued'] as const;
/** How pieces may lie on a material. */
export const directions = ['two ways', 'one way', 'any'] as const;
export const weights = ['light', 'medium', 'heavy'] as const;
/** What may be done to a material, and what not. */
export const permitted = ['yes', 'no'] as const;
/** The hottest iron that it takes. */
export const irons = ['none', 'low', 'medium', 'high'] as const;
/** What holds it while it is sewn. */
export const holds = ['pins', 'clips'] as const;
export const supplyKinds = ['zip', 'snap', 'ring', 'buckle', 'webbing', 'binding', 'thread', 'elastic', 'glue', 'other'] as const;
/** What a price may be for. */
export const priceUnits = ['yd', 'm', 'ft', 'panel', 'sheet', 'each', 'pack'] as const;
/** Corners of a rectangle: all of them, both of a side, or one. */
export const cornerWords = ['all', 'top', 'bottom', 'left', 'right', 'top_left', 'top_right', 'bottom_left', 'bottom_right'] as const;

/** Words that can't be names, since they may follow one: those of the grammar's own list. */
export const reservedWords: ReadonlySet<string> = new Set([
  'in', 'cm', 'mm', 'm', 'yd', 'ft', 'deg', 'by', 'at', 'to', 'from', 'for', 'when', 'is', 'and', 'or', 'not', 'along',
  'with', 'without', 'on', 'as', 'else', 'within', 'eased', 'except', 'otherwise', 'through',
]);
