/** What the parts of a cutting table are called, in exports and in the preview alike. */
export const headings = {
  byPiece: 'Cut, piece by piece',
  byMaterial: 'Cut, material by material',
  seams: 'Finished sizes and seam allowances',
  notes: 'Notes on pieces',
  marks: 'Mark, before sewing',
  layers: 'Put layers on, in this order',
  supplies: 'Supplies',
  templates: 'Templates needed',
  buying: 'What to buy',
} as const;

/** The column that says how a layer lies when it is cut. */
export const sideUp = 'Which side up';

/** What is said of a layer with a size of its own, which is cut along no line. */
export const ownSize = 'its own size';
