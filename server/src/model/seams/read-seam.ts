import { evaluate, evaluateAs, holds, inCycle, notNegative } from '../formulas/evaluate.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { Query } from '../query/query.ts';
import { placeIn, scopeOf, type Scope } from '../query/scope.ts';
import type { SeamDeclaration, SmoothClause } from '../../syntax/tree.ts';
import { titleText } from '../titles.ts';
import { openingOf } from './opening.ts';
import { readRun } from './read-run.ts';
import type { Run, Seam, Smooth } from './seam.ts';

/** By how much the lengths of a seam may differ unless it says otherwise, in millimetres: less than a needle is thick (invented). */
export const usualTolerance = 0.5;

/** How much of a bend there may be where the outline is said to run on smoothly, unless it says otherwise, in degrees (invented). */
const usualBend = 3;

/**
 * A seam in the combination at hand; undefined where it isn't wanted, where one of its pieces isn't, or where a fault
 * stands in the way.
 */
export const seamOf: Query<NamedDeclaration, Seam | undefined> = {
  name: 'seam',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'seam') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    if (tree.condition !== undefined && holds(scope, tree.condition) !== true) return undefined;
    const first = readRun(scope, tree.first, tree.way, false);
    const second = readRun(scope, tree.second, tree.way, true);
    const within = tree.within === undefined ? usualTolerance : notNegative(scope, tree.within, 'A tolerance', 'length')?.amount.valueOf();
    if (first === undefined || second === undefined || first === 'not wanted' || second === 'not wanted' || within === undefined) return undefined;
    const eased = easeOf(scope, tree, second);
    const opening = openingOf(scope, tree, { first, second }, usualTolerance);
    const smooth = tree.smooth && smoothOf(scope, tree.smooth);
    if (eased === undefined || opening === undefined || (tree.smooth !== undefined && smooth === undefined)) return undefined;
    return {
      name: tree.name.text, title: titleText(tree.title, tree.name), declaration, place: placeIn(scope, tree.name),
      way: tree.way, first, second, eased, gathered: tree.gathered === true, opening, within, smooth,
    };
  },
};

/** How long a seam is sewn, told by its second run alone, so that what stands first may be made as long; undefined where it isn't there. */
export const seamLengthOf: Query<NamedDeclaration, number | undefined> = {
  name: 'seam length',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'seam') return undefined;
    const scope = scopeOf(context, declaration);
    if (tree.condition !== undefined && holds(scope, tree.condition) !== true) return undefined;
    const second = readRun(scope, tree.second, tree.way, true);
    return second === undefined || second === 'not wanted' ? undefined : second.length;
  },
};

/** By how much the first run is to be longer: a length, or a share of the second. */
function easeOf(scope: Scope, { eased }: SeamDeclaration, second: Run): number | undefined {
  if (eased === undefined) return 0;
  const value = evaluate(scope, eased);
  if (value === undefined) return undefined;
  const amount = value.dimension === 'number' ? value : evaluateAs(scope, eased, 'length');
  if (amount !== undefined && amount.amount.compare(0) < 0) return notNegative(scope, eased, 'An ease', amount.dimension === 'number' ? 'number' : 'length') && undefined;
  return amount && (amount.dimension === 'number' ? amount.amount.valueOf() * second.length : amount.amount.valueOf());
}

function smoothOf(scope: Scope, clause: SmoothClause): Smooth | undefined {
  const { at, within } = clause;
  const bend = within === undefined ? usualBend : notNegative(scope, within, 'A bend', 'angle')?.amount.valueOf();
  return bend === undefined ? undefined : { ends: at === undefined ? ['start', 'end'] : [at], within: bend, place: placeIn(scope, clause) };
}
