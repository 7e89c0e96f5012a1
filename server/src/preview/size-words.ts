import type { PieceShape } from '../model/piece/piece.ts';
import { sizeOfPiece, type Round, type Size } from '../model/piece/size.ts';
import { roundedFrom, showLength, showLengthUp, type Display } from '../units/length.ts';
import { keptFor } from '../table/per-display.ts';

export type Side = 'width' | 'height';

/** One size of a piece opened out, in words. */
export interface SizeWords {
  readonly text: string;
  /** What the text was rounded from, of a size that is known exactly. */
  readonly from: string | undefined;
  /** `less allowances of 3/4 in on both sides together`, where the piece is drawn to its other line. */
  readonly allowances: string | undefined;
}

/** The sizes of a piece in words; worked out once for a shape. */
export const sizeWords: (shape: PieceShape, display: Display) => Readonly<Record<Round, Readonly<Record<Side, SizeWords>> & Pick<Size, 'circle'>>> = keptFor((shape, display) => {
  const measures = { cutting: sizeOfPiece(shape, 'cutting'), stitching: sizeOfPiece(shape, 'stitching') };
  const words = (of: Round, side: Side): SizeWords => {
    const length = measures[of][side];
    const { plain, circle } = measures[of];
    const by = length.sub(measures[shape.drawnTo][side]);
    return {
      // A piece that is no rectangle and no circle must fit into the size shown.
      text: of === 'cutting' && !plain && !circle ? showLengthUp(length, display) : showLength(length, display),
      from: plain ? roundedFrom(length, display) : undefined,
      allowances: by.n === 0n ? undefined : `${by.s < 0n ? 'less' : 'plus'} allowances of ${showLength(by.abs(), display)} on both sides together`,
    };
  };
  const both = (of: Round): ReturnType<typeof sizeWords>[Round] => ({ width: words(of, 'width'), height: words(of, 'height'), circle: measures[of].circle });
  return { cutting: both('cutting'), stitching: both('stitching') };
});

/** What the finished size of a piece is told with, which takes less once that is closed or laid. */
export function openWords({ lines }: Pick<PieceShape, 'lines'>): string {
  const found = [...(lines.some(({ isDart }) => isDart === true) ? ['darts'] : []), ...(lines.some(({ pleat }) => pleat !== undefined) ? ['pleats'] : [])];
  return found.length === 0 ? '' : `${found.join(' and ')} open`;
}
