import type { Point } from '../../geometry/shape.ts';
import type { Combination } from '../../model/query/query.ts';
import type { Pattern } from '../../model/pattern.ts';
import type { PieceShape } from '../../model/piece/piece.ts';
import type { Expression } from '../../syntax/tree.ts';
import { millimetresIn } from '../../units/length.ts';
import type { HandleNumber, Run } from './handle.ts';

/** Works out numbers of one piece in one combination. */
export interface Finder {
  readonly shape: PieceShape;
  /** In millimetres, or as a share; undefined where a fault stands in the way. */
  readonly worth: (formula: Expression) => { readonly amount: number; readonly isShare: boolean } | undefined;
  readonly number: (says: string, formula: Expression, now: number, runs: Run, isSize?: boolean) => HandleNumber;
}

export function finderOf(pattern: Pattern, shape: PieceShape, combination: Combination): Finder {
  const { declaration } = shape;
  const display = pattern.world.settings.get(declaration.file)?.display ?? pattern.display;
  const unit = millimetresIn[display.unit].valueOf();
  return {
    shape,
    worth: (formula) => {
      const value = pattern.evaluations(declaration, formula).find(({ options }) => [...options].every(([choice, option]) => combination.get(choice) === option))?.value;
      return value && { amount: value.amount.valueOf() * (value.dimension === 'bare' ? unit : 1), isShare: value.dimension === 'number' };
    },
    number: (says, formula, now, runs, isSize = false) => ({ says, declaration, formula, now, runs, isSize }),
  };
}

/** Goes so far for each millimetre more. */
export const straight = (goes: Point): Run => ({ kind: 'straight', goes });
