import type { Snapshot } from '../../workspace/snapshot.ts';
import type { Action, TextRange } from '../results.ts';
import { unitActions } from './convert-unit.ts';
import { nameValueActions } from './name-value.ts';
import { sizeFormulaActions } from './size-formula.ts';
import { splitPieceActions } from './split-piece.ts';

/** Every change of the text that is offered for a selection or a cursor, apart from fixes. */
export function refactorings(snapshot: Snapshot, selection: TextRange): readonly Action[] {
  return [
    ...nameValueActions(snapshot, selection),
    ...sizeFormulaActions(snapshot, selection),
    ...splitPieceActions(snapshot, selection.start),
    ...unitActions(snapshot, selection.start),
  ];
}
