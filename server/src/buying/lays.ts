import { itemAt } from '../geometry/lists.ts';
import type { Bounds } from '../geometry/measure.ts';
import { boxAsLaid } from '../lay/bounds/outline.ts';
import type { Lay, LayPiece, LayProblem } from '../lay/problem.ts';
import { totalOf, type HandCount, type MaterialNeed, type Requirement } from './requirements.ts';

/**
 * How cloth is spread: in one layer, or folded with its right sides together: selvedge to selvedge; with one selvedge folded
 * in, so that it lies single beyond; or end to end, which turns the nap of one layer round.
 */
export type Manner = 'open' | 'folded' | 'partial' | 'crosswise';

/** A question for the planner, with the way back to what was asked for. */
export interface LayQuestion {
  readonly manner: Manner;
  readonly problem: LayProblem;
  /** Index of the requirement of each piece of the problem. */
  readonly requirementOf: readonly number[];
  /** What is cut beyond the need, since two layers are cut at once. */
  readonly spares: readonly { readonly requirement: number; readonly count: number }[];
  /** Requirements that fit in no permitted turn, or are more than anyone cuts; they are left out of the problem. */
  readonly unplaced: readonly number[];
}

/** The lay of a question. */
export interface LaidQuestion extends LayQuestion {
  readonly lay: Lay;
  /** How often it is laid: alike panels, or a batch too large to be planned at once. */
  readonly times: number;
  /** The cloth it lies on as it is cut, millimetres: across as laid (half the usable width when folded), and along as laid. */
  readonly cloth: { readonly width: number; readonly length: number };
}

/** Pieces may reach beyond the cloth by what rounding to whole micrometres can add up to across it, millimetres. */
export const edgeSlack = 0.02;

/** Opened out, cloth that is folded lengthwise is no wider than open cloth. */
const slackOf = (manner: Manner): number => (manner === 'folded' ? edgeSlack / 2 : edgeSlack);

/** Nobody cuts more than this of one kind at once; what would is a slip of the pen, and is not planned (invented). */
export const mostPieces = 1e6;

/** What flattened curves may be out by, as in the check of widths, millimetres. */
const fitSlack = 0.01;

/** One way of laying a requirement: what is placed for it, and what that cuts beyond the need. */
export interface Way {
  readonly pieces: readonly LayPiece[];
  readonly spare: number;
}

/** All pieces in a single layer of a width in millimetres, those drawn as half opened out; none longer than `most`. */
export function openQuestion(need: MaterialNeed, width: number, gap: number, most = Infinity): LayQuestion {
  return questionOf('open', { width, gap }, need.requirements.map((requirement) => ({ pieces: laidWhole(requirement, requirement.count, width, most), spare: 0 })), need);
}

/** A question made up of one way for each requirement; those without a piece to lay are left out, and said to be unless nothing of them is asked for. */
export function questionOf(manner: Manner, { width, gap }: { readonly width: number; readonly gap: number }, ways: readonly Way[], need: MaterialNeed): LayQuestion {
  const entries = ways.flatMap((way, requirement) => way.pieces.map((piece) => ({ piece, requirement })));
  return {
    manner,
    problem: { width: width + slackOf(manner), pieces: entries.map(({ piece }) => piece), gap },
    requirementOf: entries.map(({ requirement }) => requirement),
    spares: ways.flatMap(({ spare }, requirement) => (spare > 0 ? [{ requirement, count: spare }] : [])),
    unplaced: ways.flatMap(({ pieces }, requirement) => (pieces.length === 0 && totalOf(itemAt(need.requirements, requirement).count) > 0 ? [requirement] : [])),
  };
}

/** So many of a requirement opened out on cloth of a width; nothing where it fits in no permitted turn, or is more than anyone cuts. */
export function laidWhole({ title: id, outline, turns, anyTurn, lastTurns }: Requirement, count: HandCount, width: number, most = Infinity): readonly LayPiece[] {
  if (totalOf(count) === 0 || !(totalOf(count) <= mostPieces)) return [];
  const fits = (mirrored: boolean, turn: number): boolean => fitsIn(boxAsLaid(outline, mirrored, turn), width, most);
  const inEitherHand = turns.filter((turn) => fits(false, turn) && fits(true, turn));
  if (inEitherHand.length > 0) return [{ id, outline, count, turns: inEitherHand, anyTurn, onFold: false }];
  // In the last resort each hand has turns of its own.
  const hands = [{ ...none, asDrawn: count.asDrawn + count.either }, { ...none, mirrored: count.mirrored }].filter((hand) => totalOf(hand) > 0);
  const pieces = hands.map((hand) => {
    const mirrored = hand.mirrored > 0;
    const own = mirrored ? lastTurns.map((turn) => (360 - turn) % 360) : lastTurns;
    return { id, outline, count: hand, turns: own.filter((turn) => fits(mirrored, turn)), anyTurn, onFold: false };
  });
  return pieces.every((piece) => piece.turns.length > 0) ? pieces : [];
}

/** Whether the box of an outline as it lies is within a width across the cloth and a length along it. */
export function fitsIn(box: Bounds, width: number, most: number): boolean {
  return box.maxY - box.minY <= width + fitSlack && box.maxX - box.minX <= most + fitSlack;
}

/** The same question for other numbers of the same pieces. */
export function withCounts(asked: LayQuestion, counts: readonly HandCount[]): LayQuestion {
  const some = asked.problem.pieces.flatMap((piece, index) => {
    const count = counts[index] ?? none;
    return totalOf(count) > 0 ? [{ piece: { ...piece, count }, requirement: itemAt(asked.requirementOf, index) }] : [];
  });
  return { ...asked, problem: { ...asked.problem, pieces: some.map(({ piece }) => piece) }, requirementOf: some.map(({ requirement }) => requirement) };
}

/** Whether a piece of a lay is cut through one layer: of cloth that is open, or folded in part. */
export const isSingle = ({ manner, problem }: LayQuestion, piece: number): boolean => manner === 'open' || itemAt(problem.pieces, piece).single === true;

/** How many layers are cut at once all over: a fold in part and one along the cloth leave it as long as it is, one across it halves that. */
export const layersAlong = (manner: Manner): 1 | 2 => (manner === 'crosswise' ? 2 : 1);

export const none: HandCount = { asDrawn: 0, mirrored: 0, either: 0 };

/** How many placements there are of a requirement: on the fold, through both layers of folded cloth, and in a single layer. */
export function countsOf({ lays }: { readonly lays: readonly LaidQuestion[] }, requirement: number): { readonly onFold: number; readonly throughBoth: number; readonly single: number } {
  const counts = { onFold: 0, throughBoth: 0, single: 0 };
  for (const found of lays) {
    for (const { piece } of found.lay.placements) {
      if (found.requirementOf[piece] !== requirement) continue;
      counts[itemAt(found.problem.pieces, piece).onFold ? 'onFold' : isSingle(found, piece) ? 'single' : 'throughBoth'] += found.times;
    }
  }
  return counts;
}
