import type { PreviewPiece, PreviewSize } from '../../server/src/preview/drawing-data.ts';
import { sidesText } from '../../server/src/units/sides.ts';

/** `9 in × 7 in`. */
export const sizeWords = ({ circle, width, height }: PreviewSize): string => sidesText(circle, width.text, height.text);

/** `finished 9 in × 7 in`. */
export const finishedWords = ({ finished }: PreviewPiece): string => `finished ${sizeWords(finished)}`;
