import { edgeLength, measuring, pointAlong } from '../../geometry/measure.ts';
import { nearestAlong } from '../../geometry/nearest.ts';
import type { Fix } from '../../problems/problem.ts';
import { missesDart } from '../piece/darts.ts';
import { foldedEdge, foldedOf } from '../piece/folded.ts';
import { showFinely } from '../../units/length.ts';
import { measured, type Rational } from '../../units/rational.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { Query } from '../query/query.ts';
import { lengthText, report, scopeOf, type Scope } from '../query/scope.ts';
import { handsOf } from '../seams/hands.ts';
import { checkLaidOnLine } from './laid-on-line.ts';
import { checkSeamDone } from './order-of-work.ts';
import { checkWithItself } from './seam-with-itself.ts';
import { checkSmooth } from './smooth.ts';
import { meetingsOf } from '../seams/meetings.ts';
import { walkSeam, type WalkedNotch } from '../seams/notches.ts';
import { seamOf } from '../seams/read-seam.ts';
import { drawnName, type Run, type Seam, type Stretch } from '../seams/seam.ts';
import { unevenSeams } from '../seams/times.ts';

/** What each seam is checked for; whether it could be read at all. */
export const seamChecks: Query<NamedDeclaration, boolean> = {
  name: 'seam checks',
  input: false,
  compute: (context, declaration) => {
    const seam = context.get(seamOf, declaration);
    if (seam === undefined) return false;
    const scope = scopeOf(context, declaration);
    const isMeasured = ![...seam.first.stretches, ...seam.second.stretches].some(({ piece, edge }) => missesDart(piece, edge));
    if (isMeasured) checkLengths(scope, seam);
    checkAllowances(scope, seam);
    if (isMeasured && isEven(seam)) checkNotches(scope, seam);
    if (!checkWithItself(scope, seam) && context.get(handsOf, 'all').twisted.has(declaration)) report(scope, 'seam-twisted', seam.second.place, { first: runText(scope, seam.first), second: runText(scope, seam.second) });
    const uneven = context.get(unevenSeams, 'all').get(declaration);
    if (uneven !== undefined) report(scope, 'seam-counts', seam.place, { first: runText(scope, seam.first), firstTimes: uneven.first, second: runText(scope, seam.second), secondTimes: uneven.second });
    checkSmooth(scope, seam);
    checkSeamDone(scope, declaration);
    return true;
  },
};

/** Whether the lengths are as they are to be; where they aren't, that is what is told. */
function isEven({ first, second, eased, gathered, within }: Seam): boolean {
  return gathered || Math.abs(first.length - second.length - eased) <= within + measuring;
}

/** When both edges are walked, notches meet. */
function checkNotches(scope: Scope, seam: Seam): void {
  const walk = walkSeam(seam);
  const name = ({ stretch }: WalkedNotch): string => `${stretch.piece.name}.${stretch.edge}`;
  for (const { first, second, by } of walk?.apart ?? []) {
    report(scope, 'notches-apart', seam.second.place, { first: name(first), second: name(second), by: showFinely(measured(by), scope.settings.display) }, {
      related: [{ place: first.place, message: 'One notch.' }, { place: second.place, message: 'The other.' }],
    });
  }
  for (const { notch, isFirst, other, along } of walk?.alone ?? []) {
    report(scope, 'notch-alone', (isFirst ? seam.first : seam.second).place, { notched: name(notch), other: `${other.piece.name}.${other.edge}`, at: lengthText(scope, along) }, {
      related: [{ place: notch.place, message: 'The notch.' }],
      fixes: notchFix(other, along),
    });
  }
}

/** Puts the missing notch on the drawn edge, at the share of it that lies where it is to be met. */
function notchFix({ piece, edge }: Stretch, along: number): readonly Fix[] {
  const { tree } = piece.declaration;
  const [drawn, sewn] = [piece.drawn, piece.stitching].map(({ edges }) => edges.find(({ name }) => name === edge));
  const on = sewn && pointAlong(sewn, along);
  if (tree.kind !== 'piece' || !tree.body.closed || drawn === undefined || on === undefined) return [];
  const length = edgeLength(drawn);
  const fromStart = nearestAlong(drawn, on.point);
  const share = (drawn.measuredFrom === 'start' ? fromStart : length - fromStart) / length;
  const at = tree.body.end - 1;
  return [{ title: `Add the notch to “${piece.name}”`, safe: false, edits: [{ place: { chunk: piece.declaration, start: at, end: at }, newText: `  notch ${edge} at ${String(Math.round(share * 10_000) / 100)}%\n` }] }];
}

/** The first run is as long as the second, or longer by what is eased in; one that is gathered is longer by any measure. */
function checkLengths(scope: Scope, seam: Seam): void {
  const { first, second, within } = seam;
  // What lies on a closed line need not go all the way round it.
  if (second.line?.line.closed === true && first.length < second.length + within) {
    checkLaidOnLine(scope, seam, { first: runText(scope, first), second: runText(scope, second) });
    return;
  }
  const show = (length: number): string => showFinely(measured(length), scope.settings.display);
  const words = { first: runText(scope, first), firstLength: show(first.length), second: runText(scope, second), secondLength: show(second.length) };
  if (seam.gathered) {
    if (first.length <= second.length + within) report(scope, 'nothing-to-gather', first.place, words);
    return;
  }
  const off = first.length - second.length - seam.eased;
  if (Math.abs(off) <= within + measuring) return;
  report(scope, 'seam-lengths', first.place, { ...words, folded: fitsFolded(scope, seam), ease: seam.eased === 0 ? undefined : show(seam.eased), off: show(Math.abs(off)), isLong: off > 0 });
}

/** The one edge of a folded piece, where it is as long as what it is laid on once that is folded. */
function fitsFolded({ context }: Scope, { way, first: { stretches }, second, within }: Seam): string | undefined {
  const [only, ...others] = stretches;
  const edge = only?.piece.whole.stitching.edges.find(({ name }) => name === only.edge);
  const folded = only === undefined || others.length > 0 || way === 'with' ? undefined : context.get(foldedOf, only.piece.declaration);
  if (only === undefined || edge === undefined || folded === undefined || only.folded !== undefined) return undefined;
  return Math.abs(foldedEdge(folded, edge) - second.length) > within + measuring ? undefined : `${only.piece.name}.${only.edge}`;
}

/** Allowances that are sewn together are laid edge to edge, so both must be as wide; one such fault a seam is enough. */
function checkAllowances(scope: Scope, seam: Seam): void {
  if (seam.way === 'onto') return;
  const allowance = ({ piece, edge }: Stretch): Rational | undefined => piece.allowances.get(drawnName(edge))?.size;
  for (const { first, second } of meetingsOf(seam)) {
    const [a, b] = [allowance(first), allowance(second)];
    if (a === undefined || b === undefined || a.equals(b)) continue;
    const text = ({ piece, edge }: Stretch): string => `${piece.name}.${edge}`;
    report(scope, 'seam-allowances', second.place, { first: text(first), firstSize: lengthText(scope, a), second: text(second), secondSize: lengthText(scope, b) });
    return;
  }
}

/** A run in the words of the spec: `front.left and front.base`. */
export function runText(scope: Scope, { place }: Run): string {
  const parts = scope.declaration.text.slice(place.start, place.end).split(/\s*,\s*/);
  return parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}
