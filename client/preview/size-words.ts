import type { PreviewPiece, PreviewSize } from '../../server/src/preview/drawing-data.ts';
import { sidesText } from '../../server/src/units/sides.ts';

/** `9 in × 7 in`. */
export const sizeWords = ({ circle, width, height }: PreviewSize): string => sidesText(circle, width.text, height.text);

/** `finished 9 in × 7 in`; of a piece that is sewn folded also how large it is then. */
export const finishedWords = ({ finished, folded }: PreviewPiece): string => `finished ${sizeWords(finished)}${folded === null ? '' : `, folded ${folded}`}`;
