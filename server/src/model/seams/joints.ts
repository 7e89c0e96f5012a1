import type { Face, Joint, Span } from '../../geometry/gluing-cells.ts';
import { edgeLength } from '../../geometry/measure.ts';
import type { PieceShape } from '../piece/piece.ts';
import type { Layer } from './cloths.ts';
import type { CopiedRun, CopiedSeam } from './copies.ts';
import { sewnAlong, type Stretch } from './seam.ts';

/** Where the faces of an article are found: by piece, layer and number of the copy. */
export type FaceNumber = (piece: PieceShape, layer: Layer, copy: number) => number;

/** A seam on one set of copies; whether the spec leaves open which ends meet. */
interface OpenJoint extends Joint {
  readonly isOpen: boolean;
}

/** By how many copies the numbering of an edge's copies is ahead of that of its piece. */
export type Ahead = (stretch: Stretch) => number;

/** A seam as it is glued, once for each set of copies that it is sewn on; undefined where that can't be told. */
export function jointsOf({ seam, first, second }: CopiedSeam, faceNumber: FaceNumber, ahead: Ahead): readonly OpenJoint[] | undefined {
  const times = timesOf(first);
  if (times === undefined || times !== timesOf(second)) return undefined;
  const isOpen = [seam.first, seam.second].some(({ stretches }) => stretches.every(({ way }) => way === undefined));
  return Array.from({ length: times }, (_, index) => ({ isOpen, first: spansOf(first, index, faceNumber, ahead), second: spansOf(second, index, faceNumber, ahead) }));
}

/** How often a seam is sewn. */
export const timesOf = ({ copies }: CopiedRun): number | undefined => copies && [...copies.values()][0]?.length;

const spansOf = ({ run, layer, copies, counts }: CopiedRun, index: number, faceNumber: FaceNumber, ahead: Ahead): readonly Span[] => run.stretches.map((stretch) => {
  const { piece } = stretch;
  const copy = copies?.get(piece)?.[index] ?? 1;
  return spanOf(stretch, faceNumber(piece, layer.get(piece) ?? 'outside', ((copy - 1 + ahead(stretch)) % Math.max(1, counts.get(piece) ?? 1)) + 1));
});

/** An edge of which the spec doesn't say where it begins is taken to begin where it is measured from: below, or at the left. */
export function spanOf({ piece, edge: name, from, to, way }: Stretch, face: number): Span {
  const { edges } = piece.whole.stitching;
  const side = edges.findIndex((edge) => edge.name === name);
  const edge = edges[side];
  const sewn = (along: number): number => sewnAlong({ piece, edge: name, from: 0 }, along);
  return { face, side, from: sewn(from), to: edge !== undefined && to > edgeLength(edge) - 1e-6 ? sewn(edgeLength(edge)) : sewn(to), way: way ?? (edge?.measuredFrom === 'end' ? -1 : 1) };
}

/**
 * Joints of which the spec leaves open which ends meet, turned so that as few points as can be fall together: what is sewn
 * from a common corner on is sewn from that corner, not across.
 */
export function settled(faces: readonly Face[], joints: readonly OpenJoint[]): readonly Joint[] {
  const points = new Points(faces);
  for (const { first, second } of joints.filter(({ isOpen }) => !isOpen)) points.join(first, second);
  return joints.map(({ first, second, isOpen }) => {
    if (!isOpen) return { first, second };
    const turned = second.toReversed().map((span): Span => ({ ...span, way: span.way === 1 ? -1 : 1 }));
    const chosen = points.fallTogether(first, turned) < points.fallTogether(first, second) ? turned : second;
    points.join(first, chosen);
    return { first, second: chosen };
  });
}

/** Ends of runs that are the same point. */
class Points {
  readonly #faces: readonly Face[];
  readonly #same = new Map<string, string>();

  constructor(faces: readonly Face[]) {
    this.#faces = faces;
  }

  /** How many points fewer there are once two runs are joined. */
  fallTogether(first: readonly Span[], second: readonly Span[]): number {
    const pairs = this.#pairs(first, second).filter(([a, b]) => a !== b).map(([a, b]) => (a < b ? `${a} ${b}` : `${b} ${a}`));
    return new Set(pairs).size;
  }

  join(first: readonly Span[], second: readonly Span[]): void {
    for (const [a, b] of this.#pairs(first, second)) {
      const [one, other] = [this.#of(a), this.#of(b)];
      if (one !== other) this.#same.set(one, other);
    }
  }

  #pairs = (first: readonly Span[], second: readonly Span[]): readonly (readonly [string, string])[] =>
    ([0, 1] as const).map((end) => [this.#end(first, end), this.#end(second, end)] as const);

  #end(run: readonly Span[], end: 0 | 1): string {
    const span = end === 0 ? run[0] : run.at(-1);
    if (span === undefined) return '';
    const { face, side, way } = span;
    const sides = this.#faces[face]?.sides ?? [];
    const along = (way === 1) === (end === 0) ? span.from : span.to;
    const near = 0.5;
    const isEnd = along > (sides[side]?.length ?? 0) - near;
    return this.#of(along < near || isEnd ? `${face} ${(side + (isEnd ? 1 : 0)) % Math.max(1, sides.length)}` : `${face} ${side} ${along.toFixed(1)}`);
  }

  #of(point: string): string {
    let here = point;
    for (let next = this.#same.get(here); next !== undefined; next = this.#same.get(here)) here = next;
    return here;
  }
}
