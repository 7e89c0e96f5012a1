/**
 * Faces whose sides are glued to one another, cut up so that each part of a side is glued to one other part, or to none.
 * A face is a ring of sides with the face on their left; what is along a side is counted from where the ring comes to it.
 */
export interface Side {
  readonly length: number;
  /** Inside the face, in radians, between this side and the one before, where it begins. */
  readonly angle: number;
  /** How far it turns to the left on its way from one place to another, in radians. */
  readonly turn: (from: number, to: number) => number;
}
export interface Face {
  readonly sides: readonly Side[];
}

/** Part of a side, run along as the ring runs (1) or against it (-1); `from` < `to` all the same. */
export interface Span {
  readonly face: number;
  readonly side: number;
  readonly from: number;
  readonly to: number;
  readonly way: 1 | -1;
}

/** Two runs of spans glued together from their beginnings on, in proportion where one is longer. */
export interface Joint {
  readonly first: readonly Span[];
  readonly second: readonly Span[];
}

/** A part of a side that is glued to one other, or to none. */
export interface Cell extends Omit<Span, 'way'> {
  /** Its own number, and that of the cell after it in its ring. */
  readonly index: number;
  readonly next: number;
}

/** What each cell is glued to; whether both run the same way round their faces. */
export type Glue = ReadonlyMap<number, { readonly to: number; readonly isAlike: boolean }>;

export interface Cells {
  readonly cells: readonly Cell[];
  readonly glue: Glue;
  /** Faces of which a part is glued to more than one other: more than two layers lie there. */
  readonly crowded: ReadonlySet<number>;
}

/** Places on a side that are nearer than this are one, in millimetres. */
const near = 0.5;

export function cellsOf(faces: readonly Face[], joints: readonly Joint[], others: readonly Span[]): Cells {
  const places = faces.map(({ sides }) => sides.map(({ length }) => [0, length]));
  const at = ({ face, side }: Pick<Span, 'face' | 'side'>): number[] => places[face]?.[side] ?? [];
  for (const span of [...others, ...joints.flatMap(({ first, second }) => [...first, ...second])]) {
    for (const along of [span.from, span.to]) if (!at(span).some((place) => Math.abs(place - along) < near)) at(span).push(along);
  }
  for (const joint of joints) carryOver(joint, at);
  const cells: Cell[] = [];
  for (const [face, sides] of places.entries()) {
    const first = cells.length;
    for (const [side, all] of sides.entries()) {
      const sorted = all.sort((a, b) => a - b);
      for (const [index, from] of sorted.slice(0, -1).entries()) cells.push({ face, side, from, to: sorted[index + 1] ?? from, index: cells.length, next: cells.length + 1 });
    }
    const last = cells.at(-1);
    if (last !== undefined && cells.length > first) cells[last.index] = { ...last, next: first };
  }
  return { cells, ...glueOf(cells, joints) };
}

/** A corner that one run of a joint goes round is a place on the other run, too. */
function carryOver({ first, second }: Joint, at: (span: Span) => number[]): void {
  const [a, b] = [first, second].map((run) => marksOf(run, at)) as [Marks, Marks];
  // What is eased in may carry a corner past the one that it is meant for; of what is gathered nobody knows where it comes to lie.
  const least = Math.min(a.length, b.length);
  const slack = Math.max(near, 0.02 * least, Math.min(Math.abs(a.length - b.length), 0.1 * least) + near);
  const [ours, theirs] = [a.marks, b.marks].map((marks) => marks.map((mark) => ({ mark, isMet: false }))) as [Met[], Met[]];
  for (const one of ours) {
    const met = theirs.filter(({ mark, isMet }) => !isMet && Math.abs(mark / b.length - one.mark / a.length) * least < slack)
      .sort((x, y) => Math.abs(x.mark / b.length - one.mark / a.length) - Math.abs(y.mark / b.length - one.mark / a.length))[0];
    if (met === undefined) continue;
    one.isMet = met.isMet = true;
  }
  for (const { mark } of ours.filter(({ isMet }) => !isMet)) putOn(second, (mark / a.length) * b.length, at);
  for (const { mark } of theirs.filter(({ isMet }) => !isMet)) putOn(first, (mark / b.length) * a.length, at);
}

interface Met {
  readonly mark: number;
  isMet: boolean;
}
interface Marks {
  readonly marks: readonly number[];
  readonly length: number;
}

/** Every place on a run but its ends, counted from its beginning. */
function marksOf(run: readonly Span[], at: (span: Span) => readonly number[]): Marks {
  let behind = 0;
  const marks: number[] = [];
  for (const [index, span] of run.entries()) {
    if (index > 0) marks.push(behind);
    for (const along of at(span)) if (along > span.from + near && along < span.to - near) marks.push(behind + (span.way === 1 ? along - span.from : span.to - along));
    behind += span.to - span.from;
  }
  return { marks: marks.sort((a, b) => a - b), length: behind };
}

function putOn(run: readonly Span[], mark: number, at: (span: Span) => number[]): void {
  let behind = 0;
  for (const span of run) {
    const length = span.to - span.from;
    if (mark > behind + near && mark < behind + length - near) at(span).push(span.way === 1 ? span.from + mark - behind : span.to - mark + behind);
    behind += length;
  }
}

function glueOf(cells: readonly Cell[], joints: readonly Joint[]): Pick<Cells, 'glue' | 'crowded'> {
  const glue = new Map<number, { to: number; isAlike: boolean }>();
  const crowded = new Set<number>();
  const bySide = new Map<string, Cell[]>();
  for (const cell of cells) bySide.set(`${cell.face} ${cell.side}`, [...(bySide.get(`${cell.face} ${cell.side}`) ?? []), cell]);
  const along = (run: readonly Span[]): readonly { readonly cell: Cell; readonly way: 1 | -1 }[] => run.flatMap((span) => {
    const own = (bySide.get(`${span.face} ${span.side}`) ?? []).filter(({ from, to }) => from > span.from - near && to < span.to + near).map((cell) => ({ cell, way: span.way }));
    return span.way === 1 ? own : own.reverse();
  });
  for (const { first, second } of joints) {
    const [ours, theirs] = [along(first), along(second)];
    const isEven = ours.length === theirs.length;
    for (const [index, { cell, way }] of ours.entries()) {
      const other = theirs[index];
      if (!isEven || other === undefined || glue.has(cell.index) || glue.has(other.cell.index) || cell === other.cell) {
        for (const span of [...first, ...second]) crowded.add(span.face);
        continue;
      }
      const isAlike = way === other.way;
      glue.set(cell.index, { to: other.cell.index, isAlike });
      glue.set(other.cell.index, { to: cell.index, isAlike });
    }
  }
  return { glue, crowded };
}
