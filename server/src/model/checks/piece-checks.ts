import type { Query } from '../query/query.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { cutsOf } from '../piece/cuts.ts';
import { scopeOf, type Scope } from '../query/scope.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { checkCovered } from './covered.ts';
import { checkFinishes } from './finishes.ts';
import { checkGrain, checkTurnedLayer } from './grain.ts';
import { checkSewing } from './sewing.ts';
import { checkMates, checkTwins } from './hands.ts';
import { checkLayers } from './layers.ts';
import { checkNotches } from './notches.ts';
import { checkPieceUsed } from './order-of-work.ts';
import { checkRounding } from './rounding.ts';
import { checkSteps } from './steps.ts';
import { checkUncut } from './uncut.ts';
import { checkWidths } from './widths.ts';
import { checkWindows } from './windows.ts';

/** What every piece's cut lines are checked for, in this order. */
const checks: readonly ((scope: Scope, lines: readonly CutLine[]) => void)[] = [checkWidths, checkGrain, checkTurnedLayer, checkLayers, checkTwins, checkMates, checkWindows, checkCovered, checkRounding];

export const pieceChecks: Query<NamedDeclaration, boolean> = {
  name: 'piece checks',
  input: false,
  compute: (context, declaration) => {
    const lines = context.get(cutsOf, declaration);
    const scope = scopeOf(context, declaration);
    for (const check of checks) check(scope, lines);
    checkUncut(scope, lines, declaration);
    checkSteps(scope, lines, declaration);
    checkNotches(scope, lines, declaration);
    checkFinishes(scope, lines, declaration);
    checkSewing(scope, lines, declaration);
    checkPieceUsed(scope, lines, declaration);
    return lines.length > 0;
  },
};
