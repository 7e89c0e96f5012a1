import { bounds } from '../geometry/measure.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { roundedFrom, showLength, showLengthUp, type Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import { keptFor } from './per-display.ts';

export type Side = 'width' | 'height';
export type Of = 'cutting' | 'stitching';

/** One size of a piece opened out, in words. */
export interface SizeWords {
  readonly text: string;
  /** What the text was rounded from, of a size that is known exactly. */
  readonly from: string | undefined;
  /** `less allowances of 3/4 in on both sides together`, where the piece is drawn to its other line. */
  readonly allowances: string | undefined;
}

/** The sizes of a piece in words; worked out once for a shape. */
export const sizeWords: (shape: PieceShape, display: Display) => Readonly<Record<Of, Readonly<Record<Side, SizeWords>>>> = keptFor((shape, display) => {
  const measures = { cutting: measuresOf(shape, 'cutting'), stitching: measuresOf(shape, 'stitching') };
  const words = (of: Of, side: Side): SizeWords => {
    const length = measures[of][side];
    const exact = shape.rectangle !== undefined;
    const by = length.sub(measures[shape.drawnTo][side]);
    return {
      // A piece that is no rectangle must fit into the size shown.
      text: of === 'cutting' && !exact ? showLengthUp(length, display) : showLength(length, display),
      from: exact ? roundedFrom(length, display) : undefined,
      allowances: by.n === 0n ? undefined : `${by.s < 0n ? 'less' : 'plus'} allowances of ${showLength(by.abs(), display)} on both sides together`,
    };
  };
  const both = (of: Of): Readonly<Record<Side, SizeWords>> => ({ width: words(of, 'width'), height: words(of, 'height') });
  return { cutting: both('cutting'), stitching: both('stitching') };
});

function measuresOf(shape: PieceShape, of: Of): Readonly<Record<Side, Rational>> {
  const exact = shape.rectangle?.[of];
  if (exact !== undefined) return exact;
  const box = bounds(shape.whole[of]);
  return { width: measured(box.maxX - box.minX), height: measured(box.maxY - box.minY) };
}
