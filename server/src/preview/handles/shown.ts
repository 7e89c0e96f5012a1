import type { Point } from '../../geometry/shape.ts';
import type { Pattern } from '../../model/pattern.ts';
import type { PieceShape } from '../../model/piece/piece.ts';
import type { Combination } from '../../model/query/query.ts';
import { showLength, type Display } from '../../units/length.ts';
import type { PreviewHandles } from '../drawing-data.ts';
import { handlesOf } from './find.ts';
import { moveHandle, whyFixed, type Move } from './move.ts';

/** What can be taken hold of in a piece; null without one. */
export function previewHandles(pattern: Pattern, shape: PieceShape | undefined, combination: Combination): PreviewHandles | null {
  if (shape === undefined) return null;
  const display = displayOf(pattern, shape);
  return {
    piece: shape.name,
    step: display.step.valueOf(),
    by: showLength(display.step, display),
    list: handlesOf(pattern, shape, combination).map((handle) => {
      const why = whyFixed(handle);
      return { id: handle.id, title: handle.title, x: handle.at.x, y: handle.at.y, says: why ?? moveHandle(handle, handle.at, display).says, fixed: why !== undefined };
    }),
  };
}

/** A handle of a piece in one combination. */
interface WhichHandle {
  readonly piece: string;
  readonly combination: Combination;
  readonly id: string;
}

/** What moving one of a piece's handles comes to; undefined where there is none of that name, as after an edit. */
export function moveOf(pattern: Pattern, { piece, combination, id }: WhichHandle, to: Point): Move | undefined {
  const resolved = pattern.resolve(combination);
  const shape = pattern.shape(piece, resolved.combination);
  const handle = shape && handlesOf(pattern, shape, resolved.combination).find((one) => one.id === id);
  return shape && handle && moveHandle(handle, to, displayOf(pattern, shape));
}

const displayOf = (pattern: Pattern, { declaration }: PieceShape): Display => pattern.world.settings.get(declaration.file)?.display ?? pattern.display;
