import { boxOf, turned } from '../lay/bounds/outline.ts';
import type { Lay, LayPiece, LayPoint, LayProblem } from '../lay/problem.ts';
import { totalOf, type HandCount, type MaterialNeed, type Requirement } from './requirements.ts';

/** How cloth is spread: in one layer, or folded selvedge to selvedge, right sides together. A crosswise fold would turn the nap of one layer round. */
export type Manner = 'open' | 'folded';

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

/** A lay that was found for a question. */
export interface FoundLay extends LayQuestion {
  readonly lay: Lay;
  /** How often it is laid: alike panels, or a batch too large to be planned at once. */
  readonly times: number;
  /** The cloth it lies on as it is cut, millimetres: across as laid (half the usable width when folded), and along. */
  readonly cloth: { readonly width: number; readonly length: number };
}

/** Pieces may reach beyond the cloth by what rounding to whole micrometres can add up to across it, millimetres. */
export const edgeSlack = 0.02;

/** Nobody cuts more than this of one kind at once; what would is a slip of the pen, and is not planned (invented). */
const mostPieces = 1e6;

/** What flattened curves may be out by, as in the check of widths, millimetres. */
const fitSlack = 0.01;

/** All pieces in a single layer of a width in millimetres, those drawn as half opened out; none longer than `most`. */
export function openQuestion(need: MaterialNeed, width: number, gap: number, most = Infinity): LayQuestion {
  return question(need, 'open', width, gap, (requirement) => {
    const turns = fitting(requirement.outline, requirement.turns, width, most);
    return { piece: { id: requirement.title, outline: requirement.outline, count: requirement.count, turns, onFold: false }, spare: 0 };
  });
}

/**
 * Pieces in two layers: each placement gives one as drawn and one mirrored, and what is drawn as half lies on the fold,
 * which is y = 0. `width` is that of the cloth before it is folded, millimetres.
 */
export function foldedQuestion(need: MaterialNeed, width: number, gap: number): LayQuestion {
  return question(need, 'folded', width / 2, gap, ({ title, outline, turns, count, half, line }) => {
    const wanted = totalOf(count);
    const onFold = half !== undefined && (line.onFold || wanted % 2 === 1);
    if (onFold) {
      const piece = { id: title, outline: half.outline, count: { asDrawn: 0, mirrored: 0, either: wanted }, turns: fitting(half.outline, half.turns, width / 2, Infinity), onFold };
      return { piece, spare: 0 };
    }
    const pairs = pairsFor(count);
    const piece = { id: title, outline, count: { asDrawn: 0, mirrored: 0, either: pairs }, turns: fitting(outline, turns, width / 2, Infinity), onFold };
    return { piece, spare: 2 * pairs - wanted };
  });
}

/** How many pairs give at least so many of each hand. */
const pairsFor = ({ asDrawn, mirrored, either }: HandCount): number => Math.max(asDrawn, mirrored, Math.ceil((asDrawn + mirrored + either) / 2));

function question(need: MaterialNeed, manner: Manner, width: number, gap: number, laid: (requirement: Requirement) => { piece: LayPiece; spare: number }): LayQuestion {
  const pieces: LayPiece[] = [];
  const requirementOf: number[] = [];
  const spares: { requirement: number; count: number }[] = [];
  const unplaced: number[] = [];
  need.requirements.forEach((requirement, index) => {
    if (totalOf(requirement.count) === 0) return;
    const { piece, spare } = laid(requirement);
    if (piece.turns.length === 0 || !(totalOf(piece.count) <= mostPieces)) {
      unplaced.push(index);
      return;
    }
    pieces.push(piece);
    requirementOf.push(index);
    if (spare > 0) spares.push({ requirement: index, count: spare });
  });
  return { manner, problem: { width: width + edgeSlack, pieces, gap }, requirementOf, spares, unplaced };
}

/** The turns in which an outline fits the cloth. Mirrored it needs the same, since turns come in pairs of either sign. */
function fitting(outline: readonly LayPoint[], turns: readonly number[], width: number, most: number): readonly number[] {
  return turns.filter((turn) => [false, true].every((mirrored) => {
    const box = boxOf(turned(outline, mirrored, turn));
    return box.maxY - box.minY <= width + fitSlack && box.maxX - box.minX <= most + fitSlack;
  }));
}

/** The same question for other numbers of the same pieces. */
export function withCounts(asked: LayQuestion, counts: readonly HandCount[]): LayQuestion {
  const kept = asked.problem.pieces.flatMap((piece, index) => (totalOf(counts[index] ?? none) > 0 ? [{ piece: { ...piece, count: counts[index] ?? none }, requirement: asked.requirementOf[index]! }] : []));
  return { ...asked, problem: { ...asked.problem, pieces: kept.map(({ piece }) => piece) }, requirementOf: kept.map(({ requirement }) => requirement) };
}

export const none: HandCount = { asDrawn: 0, mirrored: 0, either: 0 };
