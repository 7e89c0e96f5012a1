import type { PreviewChoice, PreviewNested, PreviewPiece, PreviewSize, NestedPiece } from './drawing-data.ts';
import { sidesText } from '../units/sides.ts';
import { isSame } from './difference.ts';

/** The pieces of another option of a choice, all else being as it is shown. */
export interface OtherOption {
  readonly option: string;
  readonly pieces: readonly PreviewPiece[];
}

/** What is otherwise in other options of a choice, piece by piece, to be drawn under what is shown. */
export function nestedOf({ name, title, titles }: Pick<PreviewChoice, 'name' | 'title' | 'titles'>, shown: readonly PreviewPiece[], others: readonly OtherOption[]): PreviewNested {
  const names = new Set(shown.map((piece) => piece.name));
  return {
    choice: name,
    title,
    options: others.map(({ option, pieces }) => {
      const there = new Map(pieces.map((piece) => [piece.name, piece]));
      return {
        option,
        title: titles[option] ?? option,
        pieces: Object.fromEntries(shown.flatMap((piece) => {
          const other = there.get(piece.name);
          const nested = other === undefined ? undefined : otherwise(piece, other);
          return nested === undefined ? [] : [[piece.name, nested] as const];
        })),
        only: pieces.filter((piece) => !names.has(piece.name)).map((piece) => piece.title),
        without: shown.filter((piece) => !there.has(piece.name)).map((piece) => piece.title),
      };
    }),
  };
}

/** Undefined where a piece is the same in both. */
function otherwise(shown: PreviewPiece, other: PreviewPiece): NestedPiece | undefined {
  const isOtherOutline = shown.drawing.area.cutting !== other.drawing.area.cutting;
  const isOtherCut = !isSame(shown.cuts, other.cuts);
  if (!isOtherOutline && !isOtherCut && isSame(shown.drawing.parts, other.drawing.parts)) return undefined;
  return {
    outline: isOtherOutline ? other.drawing.area.cutting : '',
    box: other.drawing.box,
    says: [isOtherOutline ? otherSize(shown, other) : '', isOtherCut ? other.cuts.join(', ') || 'not cut' : ''].filter((words) => words !== '').join(', ') || 'other lines or marks',
  };
}

/** The finished size, as the piece itself tells its own; the cut size where only allowances are otherwise. */
function otherSize(shown: PreviewPiece, other: PreviewPiece): string {
  const words = ({ circle, width, height }: PreviewSize): string => sidesText(circle, width.text, height.text);
  const isOtherFinished = words(shown.finished) !== words(other.finished);
  return isOtherFinished ? `finished ${words(other.finished)}` : `cut ${words(other.cut)}`;
}
