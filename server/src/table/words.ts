/** What the parts of a cutting table are called, in exports and in the preview alike. */
export const headings = {
  buying: 'What to buy',
  supplies: 'Supplies',
  byPiece: 'Cut, piece by piece',
  byMaterial: 'Cut, material by material',
  seams: 'Seams',
  sewing: 'Sew, edge to edge',
  finishes: 'What becomes of edges',
  openings: 'Openings and outer edges',
  steps: 'Order of work',
  stepDrawings: 'What each step sews',
  layers: 'Put layers on, in this order',
  marks: 'Mark, before sewing',
  notes: 'Notes on pieces',
  templates: 'Templates needed',
  materials: 'Care of materials',
  safety: 'Safety',
} as const;

/** Said once for all sizes of a table. */
export const sizeOrder = 'Sizes are width × height, with the piece as it is drawn.';
/** Of what is cut where flipping it changes nothing. */
export const sameBothWays = 'same both ways';
/** What that means. */
export const eitherSideUp = 'Same both ways: either side of the cloth may be up.';
/** Said in place of the list of seams, where there is nothing to list. */
export const noAllowances = 'No seam allowances: all is cut at its finished size.';
/** The same where some is cut larger. */
export const noAllowancesButSpare = 'No seam allowances: but for what is to spare, all is cut at its finished size.';
/** Said once for all distances of a table; the words on unfolding where something is cut on the fold. */
export const distanceOrder = (hasFolds: boolean): string => `Distances run from the left and from the lower end of the piece as it is cut${hasFolds ? unfoldedThere : ''}.`;
/** Said once for all layers. */
export const layerOrder = (hasFolds: boolean): string => `Distances run from the edges of the cloth as it is cut${hasFolds ? unfoldedThere : ''}, whatever layers lie between.`;
const unfoldedThere = ', unfolded where it is cut on the fold';
/** Said once for all seams. */
export const sewingOrder = 'Lengths, and places along an edge, run along its stitching line: they count from where the edge ends there, which at a round corner is where the curve begins, and not from the cut edge.';
/** Said once for all openings. */
export const openingOrder = 'Lengths run along the stitching lines, before anything is hemmed or bound.';
/** Said where a window of a layer is marked on cloth. */
export const windowsMarked = 'A window of a layer is marked on the cloth, not cut out of it: cut the cloth there only as you sew in what goes through.';
/** What cloth asks for whose pattern or pile runs one way. */
export const sameEndUp = 'all pieces with the same end up';
/** Said below the list of templates. */
export const whereTemplatesAre = 'Print them from the booklet of this pattern, at 100 %.';
/** Said of the pictures of steps. */
export const stepsDrawn = 'Heavy lines are what the step sews or finishes. Pieces are opened out, between their seams, and not to scale.';
/** Of a stiff layer that is meant to be caught in the seams round it. */
export const intoSeam = 'goes into the seams: sew it in with the cloth';
