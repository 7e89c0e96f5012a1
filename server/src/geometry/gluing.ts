import { Groups } from './groups.ts';
import { cellsOf, type Cell, type Cells, type Face, type Joint, type Span } from './gluing-cells.ts';

/** Parts of sides that are glued to nothing, one after the other. */
export interface Rim {
  readonly spans: readonly Span[];
  readonly length: number;
  /** Whether it comes back to where it began; else it ends where faces are laid on others. */
  readonly isClosed: boolean;
  /**
   * How far it turns towards what it goes round, in radians: once round (2π) for the outer edge of a flat sheet, not at all
   * for the mouth of a tube (Gauss–Bonnet: what is missing of a whole turn is bent within).
   */
  readonly turn: number;
}

export interface Glued {
  readonly rims: readonly Rim[];
  /** How many points remain of all ends of sides and parts: the fewer were glued together, the simpler the surface. */
  readonly points: number;
  /** Which faces hang together, by a number for each. */
  readonly bodies: readonly number[];
  /** Bodies of which rims can't be told, since more than two faces meet along a side. */
  readonly unclear: ReadonlySet<number>;
}

/**
 * What becomes of the edges of faces that are glued together. A rim goes on, where a side ends, round the corner there:
 * across whatever is glued there, from face to face, to the next part that is free.
 *
 * @param laid what is laid on some face without being glued to a side: neither free nor glued
 */
export function glued(faces: readonly Face[], joints: readonly Joint[], laid: readonly Span[]): Glued {
  const all = cellsOf(faces, joints, laid);
  const bodies = bodiesOf(faces, joints);
  const walk = new Walk(faces, all, laid);
  return {
    rims: walk.rims(),
    points: pointsOf(all),
    bodies,
    unclear: new Set([...all.crowded].flatMap((face) => bodies[face] ?? [])),
  };
}

/** An end of a cell: where its face's ring comes to it (0) or leaves it (1). */
interface End {
  readonly cell: Cell;
  readonly end: 0 | 1;
}

const other = (end: 0 | 1): 0 | 1 => (end === 0 ? 1 : 0);

class Walk {
  readonly #faces: readonly Face[];
  readonly #all: Cells;
  readonly #before: readonly number[];
  readonly #laid: ReadonlySet<number>;

  constructor(faces: readonly Face[], all: Cells, laid: readonly Span[]) {
    this.#faces = faces;
    this.#all = all;
    const before: number[] = [];
    for (const { index, next } of all.cells) before[next] = index;
    this.#before = before;
    this.#laid = new Set(all.cells.filter(({ index, face, side, from, to }) => !all.glue.has(index) && laid.some((one) => one.face === face && one.side === side && (from + to) / 2 > one.from && (from + to) / 2 < one.to)).map(({ index }) => index));
  }

  rims(): readonly Rim[] {
    const rims: Rim[] = [];
    const seen = new Set<number>();
    for (const cell of this.#all.cells) {
      if (seen.has(cell.index) || !this.#isFree(cell)) continue;
      const start = this.#beginning({ cell, end: 0 });
      const rim = this.#from(start, seen);
      rims.push(rim);
    }
    return rims;
  }

  #isFree = ({ index }: Cell): boolean => !this.#all.glue.has(index) && !this.#laid.has(index);

  /** Where the rim that a free cell is part of begins: where it is laid on something, or anywhere where it is closed. */
  #beginning(from: End): End {
    let here = from;
    for (let left = this.#all.cells.length; left > 0; left--) {
      const { next } = this.#round(here);
      if (next === undefined || next.cell === from.cell) break;
      here = { cell: next.cell, end: other(next.end) };
    }
    return here.cell === from.cell || this.#round(here).next === undefined ? here : from;
  }

  /** Walks from a cell's end along it and onwards. */
  #from(start: End, seen: Set<number>): Rim {
    const spans: Span[] = [];
    let here = start;
    let turn = 0;
    let isClosed = false;
    do {
      const { cell, end } = here;
      seen.add(cell.index);
      const last = spans.at(-1);
      const way = end === 0 ? 1 : -1;
      // Places where nothing ends but a part of some seam are none of the rim's.
      if (last !== undefined && last.face === cell.face && last.side === cell.side && last.way === way && (way === 1 ? last.to === cell.from : last.from === cell.to)) {
        spans[spans.length - 1] = { ...last, from: Math.min(last.from, cell.from), to: Math.max(last.to, cell.to) };
      } else spans.push({ face: cell.face, side: cell.side, from: cell.from, to: cell.to, way });
      turn += this.#faces[cell.face]?.sides[cell.side]?.turn(cell.from, cell.to) ?? 0;
      const { next, angle } = this.#round({ cell, end: other(end) });
      if (next === undefined) break;
      turn += Math.PI - angle;
      isClosed = next.cell === start.cell;
      here = next;
    } while (!seen.has(here.cell.index));
    return { spans, isClosed, turn, length: spans.reduce((sum, { from, to }) => sum + to - from, 0) };
  }

  /** From the end of a free cell round the corner, across what is glued there, to the next free one; and the angle between them. */
  #round(from: End): { readonly next: End | undefined; readonly angle: number } {
    let angle = 0;
    let here = from;
    for (let left = 2 * this.#all.cells.length; left > 0; left--) {
      const { cell, end } = here;
      const beside = this.#all.cells[(end === 1 ? cell.next : this.#before[cell.index]) ?? cell.index] ?? cell;
      angle += this.#angle(end === 1 ? beside : cell);
      const there: End = { cell: beside, end: other(end) };
      if (this.#laid.has(beside.index)) return { next: undefined, angle };
      const glue = this.#all.glue.get(beside.index);
      const across = glue && this.#all.cells[glue.to];
      if (glue === undefined || across === undefined) return { next: there, angle };
      here = { cell: across, end: glue.isAlike ? there.end : other(there.end) };
    }
    return { next: undefined, angle };
  }

  /** Of the face, where a cell begins. */
  #angle({ face, side, from }: Cell): number {
    return from > 0 ? Math.PI : (this.#faces[face]?.sides[side]?.angle ?? Math.PI);
  }
}

/** How many points there are once all that is glued is one. */
function pointsOf({ cells, glue }: Cells): number {
  const groups = new Groups();
  for (const { index, next } of cells) groups.join(2 * index + 1, 2 * next);
  for (const [index, { to, isAlike }] of glue) {
    groups.join(2 * index, isAlike ? 2 * to : 2 * to + 1);
    groups.join(2 * index + 1, isAlike ? 2 * to + 1 : 2 * to);
  }
  return new Set(cells.flatMap(({ index }) => [groups.of(2 * index), groups.of(2 * index + 1)])).size;
}

function bodiesOf(faces: readonly Face[], joints: readonly Joint[]): readonly number[] {
  const groups = new Groups();
  for (const { first, second } of joints) {
    const all = [...first, ...second].map(({ face }) => face);
    for (const face of all) groups.join(all[0] ?? face, face);
  }
  return faces.map((_, face) => groups.of(face));
}
