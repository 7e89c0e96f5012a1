import { edgeLength } from '../../geometry/measure.ts';
import type { Edge } from '../../geometry/shape.ts';
import { angleBetween } from './face-of-piece.ts';
import type { Run, Seam, Stretch } from './seam.ts';

/** Where a run begins or ends: the angle inside its piece there, and what the outline goes on with. */
export interface RunEnd {
  readonly stretch: Stretch;
  /** The edge that the outline goes on along; the same where the run ends within an edge. */
  readonly beside: string;
  /** In degrees. */
  readonly angle: number;
}

/** Both sides of a seam where it begins or ends. */
export interface SeamEnd {
  readonly end: 'start' | 'end';
  readonly first: RunEnd;
  readonly second: RunEnd;
}

/**
 * Both ends of a seam whose outline is to run on, sewn edge to edge. Where the spec leaves open which ends meet, two edges of
 * one piece go opposite ways round it, and others meet in the way that bends the outline less where it is said not to.
 */
export function seamEnds(seam: Seam): readonly SeamEnd[] {
  const { first, second } = seam;
  const asWritten = endsOf(first, second);
  if (![first, second].some(({ stretches }) => stretches.every(({ way }) => way === undefined))) return asWritten;
  const turned = endsOf(first, { ...second, stretches: second.stretches.toReversed().map((stretch) => ({ ...stretch, way: wayOf(stretch) === 1 ? -1 : 1 })) });
  if (isOfOnePiece(seam)) return isOpposite(seam) ? asWritten : turned;
  const bends = (ends: readonly SeamEnd[]): number => ends.reduce((sum, one) => sum + (seam.smooth?.ends.includes(one.end) === true ? Math.abs(bendAt(one)) : 0), 0);
  return bends(turned) < bends(asWritten) ? turned : asWritten;
}

/** Whether two edges of a piece are sewn to one another, so that both are of one hand. */
const isOfOnePiece = ({ first, second }: Seam): boolean => {
  const [one, other] = [first.stretches[0], second.stretches[0]];
  return one !== undefined && other !== undefined && one.piece === other.piece && one.edge !== other.edge;
};

const isOpposite = ({ first: { stretches: [one] }, second: { stretches: [other] } }: Seam): boolean => one !== undefined && other !== undefined && wayOf(one) !== wayOf(other);

/** How far the outline of the two together is from running straight on, in degrees. */
export const bendAt = ({ first, second }: SeamEnd): number => first.angle + second.angle - 180;

function endsOf(first: Run, second: Run): readonly SeamEnd[] {
  return (['start', 'end'] as const).flatMap((end) => {
    const [one, other] = [runEnd(first, end), runEnd(second, end)];
    return one === undefined || other === undefined ? [] : [{ end, first: one, second: other }];
  });
}

/** An edge of which the spec doesn't say where it begins is taken to begin where it is measured from. */
const wayOf = (stretch: Stretch): 1 | -1 => stretch.way ?? (edgeOf(stretch)?.measuredFrom === 'end' ? -1 : 1);

function runEnd({ stretches }: Run, end: 'start' | 'end'): RunEnd | undefined {
  const stretch = end === 'start' ? stretches[0] : stretches.at(-1);
  const edge = stretch && edgeOf(stretch);
  if (stretch === undefined || edge === undefined) return undefined;
  const { edges } = stretch.piece.whole.stitching;
  const isAtStart = (wayOf(stretch) === 1) === (end === 'start');
  const isWithin = isAtStart ? stretch.from > slack : stretch.to < edgeLength(edge) - slack;
  if (isWithin) return { stretch, beside: stretch.edge, angle: 180 };
  const index = edges.indexOf(edge);
  const [before, next] = isAtStart ? [edges.at(index - 1) ?? edge, edge] : [edge, edges[(index + 1) % edges.length] ?? edge];
  return { stretch, beside: (isAtStart ? before : next).name, angle: (angleBetween(before, next) * 180) / Math.PI };
}

const edgeOf = ({ piece, edge }: Stretch): Edge | undefined => piece.whole.stitching.edges.find(({ name }) => name === edge);

/** Rounding errors, in millimetres. */
const slack = 1e-3;
