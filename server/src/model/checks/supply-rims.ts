import type { MeasureStatement, SupplyStatement } from '../../syntax/tree.ts';
import { allSeams } from '../query/inputs.ts';
import { lengthText, report, type Scope } from '../query/scope.ts';
import { edgesWith, lengthOf } from '../seams/edges-with.ts';
import { finishesOf } from '../seams/finishes.ts';
import { rimsOf, type ArticleRim } from '../seams/rims.ts';
import { usualTolerance } from '../seams/read-seam.ts';
import { drawnName } from '../seams/seam.ts';
import type { Supply } from '../stock/supply.ts';

/** How much longer than one side of its opening a zip may be, or an outside's rim than its lining's, in millimetres (invented). */
const tolerance = 3;

/** A zip or a binding against the openings and edges that take it, and an outside's opening against that of its lining. */
export function checkRims(scope: Scope, supply: Supply): void {
  if (supply.kind === 'binding') checkBinding(scope, supply);
  if (supply.kind === 'elastic') checkElastic(scope, supply);
  const rims = scope.context.get(allSeams, 'all').length === 0 ? [] : scope.context.get(rimsOf, 'all').filter((rim) => goesWith(scope, rim));
  if (supply.kind === 'zip') checkZip(scope, supply, rims);
  checkLining(scope, supply, rims);
}

/** Whether all of an opening takes the supply, or is bound with it. */
const goesWith = ({ context, declaration }: Scope, { stretches, isClosed }: ArticleRim): boolean =>
  isClosed && stretches.every(({ piece, edge }) => context.get(finishesOf, piece.declaration).get(drawnName(edge))?.supply === declaration);

/** Closed, an opening lies double: a zip is no longer than one side of it. */
function checkZip(scope: Scope, { finished, title }: Supply, rims: readonly ArticleRim[]): void {
  const least = [...rims].sort((a, b) => a.length - b.length)[0];
  const at = statementOf(scope, 'finished');
  if (finished === undefined || least === undefined || at === undefined || finished.valueOf() <= least.length / 2 + tolerance) return;
  report(scope, 'zip-too-long', at.value, { zip: title, finished: lengthText(scope, finished), edges: namesIn(least), side: lengthText(scope, least.length / 2) });
}

/** What an outside and its lining are both sewn to, or bound with, goes round both. */
function checkLining(scope: Scope, { title }: Supply, rims: readonly ArticleRim[]): void {
  const { tree } = scope.declaration;
  const [outside, ...outsides] = rims.filter(({ layer }) => layer === 'outside');
  const [lining, ...linings] = rims.filter(({ layer }) => layer === 'lining');
  if (tree.kind !== 'supply' || outside === undefined || lining === undefined || outsides.length + linings.length > 0 || Math.abs(outside.length - lining.length) <= tolerance) return;
  const places = [outside, lining].flatMap(({ stretches: [first] }) => (first === undefined ? [] : [first.place]));
  report(scope, 'rims-differ', tree.name, { supply: title, outside: namesIn(outside), outsideLength: lengthText(scope, outside.length), lining: namesIn(lining), liningLength: lengthText(scope, lining.length) }, {
    related: places.map((place, index) => ({ place, message: index === 0 ? 'The outside.' : 'The lining.' })),
  });
}

/** A binding is as long as all that is bound with it; an outside and its lining are bound together. */
function checkBinding(scope: Scope, { title, length, count }: Supply): void {
  const at = statementOf(scope, 'length');
  if (length === undefined || at === undefined) return;
  const bound = edgesWith(scope.context, scope.declaration, 'bound');
  const needed = lengthOf(bound);
  const there = length.mul(count).valueOf();
  if (there >= needed - usualTolerance) return;
  report(scope, 'binding-too-short', at.value, { binding: title, length: lengthText(scope, there), needed: lengthText(scope, needed), edges: bound.map(({ name }) => name) });
}

/** An elastic is shorter than the hems that it runs through, or it gathers nothing. */
function checkElastic(scope: Scope, { title, length, count }: Supply): void {
  const at = statementOf(scope, 'length');
  const cased = edgesWith(scope.context, scope.declaration, 'hemmed');
  const along = lengthOf(cased);
  if (length === undefined || at === undefined || cased.length === 0 || length.mul(count).valueOf() < along - usualTolerance) return;
  report(scope, 'elastic-too-long', at.value, { elastic: title, length: lengthText(scope, length.mul(count)), along: lengthText(scope, along), edges: cased.map(({ name }) => name) });
}

function statementOf({ declaration: { tree } }: Scope, kind: MeasureStatement['kind']): MeasureStatement | undefined {
  return tree.kind === 'supply' ? tree.body.statements.find((statement: SupplyStatement): statement is MeasureStatement => statement.kind === kind) : undefined;
}

const namesIn = ({ stretches }: ArticleRim): readonly string[] => [...new Set(stretches.map(({ piece, edge }) => `${piece.name}.${edge}`))];
