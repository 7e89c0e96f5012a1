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

/** Whether a piece is drawn as half, and is cut on the fold of the cloth or opened out. */
export const isOnFold = ({ drawing: { parts } }: Pick<PreviewPiece, 'drawing'>): boolean => parts.some(({ kind }) => kind === 'fold');

/** `cut 1 on the fold`: how many are cut of its first material; empty where none is. */
export const cutWords = (piece: Pick<PreviewPiece, 'count' | 'drawing'>): string =>
  piece.count === 0 ? '' : `cut ${piece.count}${isOnFold(piece) ? ' on the fold' : ''}`;
