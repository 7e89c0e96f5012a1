import { replacement } from '../../problems/problem.ts';
import type { ClothFoldStatement } from '../../syntax/tree.ts';
import { exactLength } from '../../units/length.ts';
import { placeIn, report, type Scope } from '../query/scope.ts';
import type { Material } from './material.ts';

/** A fold that the material can't lie in: it runs one way, is too narrow, or isn't sold by length. */
export function checkFold(scope: Scope, statement: ClothFoldStatement, { name, fold, purchase, direction, usable }: Pick<Material, 'name' | 'fold' | 'purchase' | 'direction' | 'usable'>): void {
  const { start, end } = statement;
  if (purchase.form !== 'lengths') report(scope, 'fold-of-panels', statement, { material: name, form: purchase.form });
  else if (fold?.way === 'crosswise' && direction === 'one way') {
    report(scope, 'fold-turns-nap', statement, { material: name }, { fixes: [replacement('Change to “fold lengthwise”', placeIn(scope, { start, end }), 'fold lengthwise', false)] });
  } else if (fold?.way === 'partial' && usable !== undefined && fold.depth.mul(2).compare(usable) > 0) {
    const { unit } = scope.settings.display;
    report(scope, 'fold-too-deep', statement.depth ?? statement, { depth: exactLength(fold.depth, unit), most: exactLength(usable.div(2), unit), usable: exactLength(usable, unit) });
  }
}
