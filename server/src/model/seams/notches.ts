import { edgeLength } from '../../geometry/measure.ts';
import { nearestAlong } from '../../geometry/nearest.ts';
import type { Edge } from '../../geometry/shape.ts';
import type { Place } from '../../problems/place.ts';
import type { Notch, PieceShape } from '../piece/piece.ts';
import { drawnName, laysFolded, sewnAlong, stretchLength, type Run, type Seam, type Stretch } from './seam.ts';

/** A notch as it is come by when a run is walked from its beginning, in millimetres. */
export interface WalkedNotch {
  readonly at: number;
  readonly stretch: Stretch;
  readonly place: Place;
}

/** What comes of walking a seam. */
export interface Walk {
  /** Notches of the two runs that meet nothing but one another, nearly. */
  readonly apart: readonly { readonly first: WalkedNotch; readonly second: WalkedNotch; readonly by: number }[];
  /** Notches that nothing meets; where it would on the other run. */
  readonly alone: readonly { readonly notch: WalkedNotch; readonly isFirst: boolean; readonly other: Stretch; readonly along: number }[];
}

/** How far apart notches that meet may be, in millimetres: about a chalk line (invented). */
export const meets = 1;
/** Notches further apart than this were not meant for one another, in millimetres (invented). */
const far = 25;

/**
 * Walks both runs of a seam and looks at which notches meet, ease being spread evenly; where as many stand on the one as on
 * the other of an eased or gathered seam, they meet in their order. A corner that a run goes round is met, too. Of a run
 * whose beginning isn't known the way is taken that meets most; undefined where a run's way can't be told at all.
 */
export const walkSeam = (seam: Seam): Walk | undefined => walkedAs(seam)?.walk;

/** The runs of a seam as they are walked: both in the way in which most meets; undefined where a run's way can't be told. */
export const walkedRuns = (seam: Seam): Pick<Seam, 'first' | 'second'> | undefined => walkedAs(seam);

function walkedAs(seam: Seam): { readonly walk: Walk; readonly first: Run; readonly second: Run } | undefined {
  const { first, second } = seam;
  if (laysFolded(seam) || first.line !== undefined || second.line !== undefined || !isWalkable(first) || !isWalkable(second)) return undefined;
  const [one, other] = [asMeasured(first), asMeasured(second)];
  const forward = { walk: compare(seam, one, other), first: one, second: other };
  const free = [first, second].some(({ stretches }) => stretches.every(({ way }) => way === undefined));
  if (!free) return forward;
  const turned: Run = { ...other, stretches: [...other.stretches].reverse().map((stretch) => ({ ...stretch, way: stretch.way === -1 ? 1 : -1 })) };
  const back = { walk: compare(seam, one, turned), first: one, second: turned };
  return faults(back.walk) < faults(forward.walk) ? back : forward;
}

/** An edge of which the spec doesn't say where it begins is taken to begin where it is measured from: below, or at the left. */
const asMeasured = (run: Run): Run => ({
  ...run, stretches: run.stretches.map((stretch) => ({ ...stretch, way: stretch.way ?? (edgeOf(stretch.piece, stretch.edge)?.measuredFrom === 'end' ? -1 : 1) })),
});

const faults = ({ apart, alone }: Walk): number => apart.length + alone.length;
const isWalkable = ({ stretches }: Run): boolean => stretches.length === 1 || stretches.every(({ way }) => way !== undefined);

function compare(seam: Seam, first: Run, second: Run): Walk {
  const [a, b] = [notchesAlong(first), notchesAlong(second)];
  const scale = second.length / first.length;
  // What is eased in moves a notch by no more than itself; of long gathers, a corner far away was not meant for one.
  const slack = meets + Math.min(far, Math.abs(first.length - second.length)) * (seam.gathered || seam.eased > 0 ? 1 : 0);
  if (slack > meets && a.length === b.length) return { apart: [], alone: [] };
  const gap = (one: WalkedNotch, other: WalkedNotch): number => Math.abs(one.at * scale - other.at);
  const restB = new Set(b);
  const restA = a.filter((one) => {
    const met = [...restB].filter((other) => gap(one, other) <= slack).sort((x, y) => gap(one, x) - gap(one, y))[0];
    if (met !== undefined) restB.delete(met);
    return met === undefined;
  });
  const aloneA = new Set(restA.filter((one) => !cornersOf(second).some((corner) => Math.abs(one.at * scale - corner) <= slack)));
  const aloneB = new Set([...restB].filter((one) => !cornersOf(first).some((corner) => Math.abs(corner * scale - one.at) <= slack)));
  const apart: { first: WalkedNotch; second: WalkedNotch; by: number }[] = [];
  for (const one of aloneA) {
    const near = [...aloneB].filter((other) => gap(one, other) <= far + slack).sort((x, y) => gap(one, x) - gap(one, y))[0];
    if (near === undefined) continue;
    apart.push({ first: one, second: near, by: gap(one, near) });
    aloneA.delete(one);
    aloneB.delete(near);
  }
  return {
    apart,
    alone: [
      ...[...aloneA].flatMap((notch) => facing(notch, true, second, notch.at * scale)),
      ...[...aloneB].flatMap((notch) => facing(notch, false, first, notch.at / scale)),
    ],
  };
}

/** Where the other run is when a notch is come by, along the edge there, as it is measured. */
function facing(notch: WalkedNotch, isFirst: boolean, other: Run, at: number): Walk['alone'] {
  let behind = 0;
  for (const stretch of other.stretches) {
    const length = stretchLength(stretch);
    if (at <= behind + length + meets) {
      const along = stretch.way === -1 ? stretch.to - (at - behind) : stretch.from + (at - behind);
      const edge = edgeOf(stretch.piece, stretch.edge);
      return edge === undefined ? [] : [{ notch, isFirst, other: stretch, along: edge.measuredFrom === 'start' ? along : edgeLength(edge) - along }];
    }
    behind += length;
  }
  return [];
}

/** Where a run begins, goes round a corner, and ends. */
function cornersOf({ stretches }: Run): readonly number[] {
  let behind = 0;
  return [0, ...stretches.map((stretch) => (behind += stretchLength(stretch)))];
}

/** The notches on a run, in the order in which they are come by. */
export function notchesAlong({ stretches }: Run): readonly WalkedNotch[] {
  let behind = 0;
  return stretches.flatMap((stretch) => {
    const start = behind;
    behind += stretchLength(stretch);
    return stretch.piece.notches.filter(({ edge }) => edge === drawnName(stretch.edge)).flatMap((notch) => {
      const along = alongStitching(stretch.piece, stretch.edge, notch);
      if (along === undefined || along < stretch.from - meets || along > stretch.to + meets) return [];
      const sewn = sewnAlong(stretch, along);
      return [{ at: start + (stretch.way === -1 ? stretchLength(stretch) - sewn : sewn), stretch, place: notch.place }];
    });
  }).sort((a, b) => a.at - b.at);
}

const edgeOf = (piece: PieceShape, name: string): Edge | undefined => piece.whole.stitching.edges.find((edge) => edge.name === name);

/** How far along the stitching line of an edge a notch lies, from where the outline reaches the edge. */
function alongStitching(piece: PieceShape, name: string, notch: Notch): number | undefined {
  const drawn = piece.stitching.edges.find((edge) => edge.name === notch.edge);
  const allowance = piece.allowances.get(notch.edge)?.size.valueOf() ?? 0;
  if (drawn === undefined) return undefined;
  const on = { x: notch.point.x + notch.inward.x * allowance, y: notch.point.y + notch.inward.y * allowance };
  const along = nearestAlong(drawn, on);
  // The other half of a piece drawn as half is its mirror image.
  return name === notch.edge ? along : edgeLength(drawn) - along;
}
