import type { PreviewPiece, PreviewSize } from '../../server/src/preview/drawing-data.ts';
import { sidesText } from '../../server/src/units/sides.ts';

/** `9 in × 7 in`. */
export const sizeWords = ({ circle, width, height }: PreviewSize): string => sidesText(circle, width.text, height.text);

/** Whether a piece has no allowances, so that it is finished as it is cut. */
export const isFinishedAsCut = ({ cut, finished, drawing: { area } }: Pick<PreviewPiece, 'cut' | 'finished' | 'drawing'>): boolean =>
  area.cutting === area.stitching && sizeWords(cut) === sizeWords(finished);

/** `finished 9 in × 7 in`, `cut and finished 9 in × 7 in` where both are one; with pleats or darts that they are open; of a piece that is sewn folded also how large it is then. */
export const finishedWords = (piece: PreviewPiece): string =>
  `${isFinishedAsCut(piece) ? 'cut and finished' : 'finished'} ${sizeWords(piece.finished)}${piece.open === '' ? '' : `, its ${piece.open}`}${piece.folded === null ? '' : `, folded ${piece.folded}`}`;

/** `cut 1 on the fold`, `cut 6 from 2 materials, some on the fold`; empty where none is. */
export function cutWords({ count, materials, onFold }: Pick<PreviewPiece, 'count' | 'materials' | 'onFold'>): string {
  if (count === 0) return '';
  const how = { all: ' on the fold', some: ', some on the fold', none: '' }[onFold];
  return `cut ${count}${materials.length > 1 ? ` from ${materials.length} materials` : ''}${how}`;
}

/** `cut 1`, `cut 6 in all` where that is of more than one material; empty where none is. */
export const countWords = ({ count, materials }: Pick<PreviewPiece, 'count' | 'materials'>): string =>
  count === 0 ? '' : `cut ${count}${materials.length > 1 ? ' in all' : ''}`;
