import type { CutLine } from '../piece/cut-line.ts';
import type { PieceShape } from '../piece/piece.ts';
import { allSeams } from '../query/inputs.ts';
import type { Context, Query } from '../query/query.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { clothsOf, type Layer } from './cloths.ts';
import { isHandFree } from './hand-free.ts';
import { meetingsOf } from './meetings.ts';
import { seamOf, usualTolerance } from './read-seam.ts';
import { laysFolded, type Seam, type Stretch } from './seam.ts';

/**
 * Which hand each piece must be cut in so that its seams can be sewn. Opened out, the two runs of a seam go opposite ways
 * round their pieces; a piece cut mirrored goes round the other way; what is laid on goes the same way
 * (test/model/seams/simulation.test.ts tries it in space). So each seam whose ends are known says that two pieces are of the
 * same hand or of different ones, and all of them together must agree.
 */
export interface Hands {
  /** Seams that ask for a piece in two hands at once: they are sewn with a twist, or a run is named the wrong way round. */
  readonly twisted: ReadonlySet<NamedDeclaration>;
  /** Cut lines that are cut in the wrong hand, with how they must be cut. */
  readonly wrong: ReadonlyMap<CutLine, { readonly needs: 'as drawn' | 'mirrored' | 'twins'; readonly seam: Seam }>;
}

type Sign = 1 | -1;

/** One of the copies of a piece that are sewn, of its outside or its lining. */
interface Copy {
  readonly piece: PieceShape;
  readonly layer: Layer;
  readonly lines: readonly CutLine[];
  parent: Copy | undefined;
  /** Whether it is of the same hand as its parent. */
  toParent: Sign;
  seam: Seam | undefined;
}

export const handsOf: Query<'all', Hands> = {
  name: 'hands',
  input: false,
  compute: (context) => {
    const copies = new Map<string, Copy>();
    const twisted = new Set<NamedDeclaration>();
    const uses = new EdgeUses();
    for (const declaration of context.get(allSeams, 'all')) {
      const seam = context.get(seamOf, declaration);
      if (seam !== undefined && !joinAll(context, copies, seam, uses)) twisted.add(declaration);
    }
    return { twisted, wrong: wrongHands([...copies.values()]) };
  },
};

/** How often each edge has been sewn. */
class EdgeUses {
  readonly #sewn = new Map<string, Stretch[]>();

  /** Which copy of each piece a run is of, counted from 1: one more than the seams that its edges are in already. Counts the run. */
  numbers(run: readonly Stretch[]): ReadonlyMap<PieceShape, number> {
    const numbers = new Map<PieceShape, number>();
    for (const stretch of run) {
      const earlier = this.#sewn.get(`${stretch.piece.name}.${stretch.edge}`) ?? [];
      const number = 1 + earlier.filter(({ from, to }) => Math.min(to, stretch.to) - Math.max(from, stretch.from) > usualTolerance).length;
      numbers.set(stretch.piece, Math.max(number, numbers.get(stretch.piece) ?? 1));
    }
    for (const stretch of run) {
      const key = `${stretch.piece.name}.${stretch.edge}`;
      this.#sewn.set(key, [...(this.#sewn.get(key) ?? []), stretch]);
    }
    return numbers;
  }
}

/** Puts what a seam says to what is known; false where that contradicts it. */
function joinAll(context: Context, copies: Map<string, Copy>, seam: Seam, uses: EdgeUses): boolean {
  if (laysFolded(seam)) return true;
  let agrees = true;
  // An edge that is sewn a second time, be it to itself, is that of a second copy.
  const ones = uses.numbers(seam.first.stretches);
  const others = uses.numbers(seam.second.stretches);
  for (const { first, second } of meetingsOf(seam)) {
    if (first.way === undefined || second.way === undefined) continue;
    const product: Sign = first.way * second.way * (seam.way === 'with' ? -1 : 1) === 1 ? 1 : -1;
    const [ours, theirs] = [clothsOf(context, first.piece), clothsOf(context, second.piece)];
    const common = [...ours.keys()].filter((layer) => theirs.has(layer));
    const pairs: readonly (readonly [Layer, Layer])[] = common.length > 0 ? common.map((layer) => [layer, layer]) : [...ours.keys()].flatMap((a) => [...theirs.keys()].map((b) => [a, b] as const));
    for (const [a, b] of pairs) {
      const one = copyOf(copies, first.piece, a, ours.get(a) ?? [], ones.get(first.piece) ?? 1);
      const other = copyOf(copies, second.piece, b, theirs.get(b) ?? [], others.get(second.piece) ?? 1);
      one.seam ??= seam;
      other.seam ??= seam;
      if (!join(one, other, product)) agrees = false;
    }
  }
  return agrees;
}

function copyOf(copies: Map<string, Copy>, piece: PieceShape, layer: Layer, lines: readonly CutLine[], number: number): Copy {
  // Of a piece that is cut once there is no second copy.
  const cut = lines.reduce((sum, { count }) => sum + count.valueOf(), 0);
  const key = `${piece.name} ${layer} ${String(Math.max(1, Math.min(number, cut)))}`;
  const known = copies.get(key) ?? { piece, layer, lines, parent: undefined, toParent: 1, seam: undefined };
  copies.set(key, known);
  return known;
}

// ------------------------------------------------------------------------------------------------ union-find with parity

/** What stands for a copy's group, and whether the copy is of the same hand. */
function rootOf(copy: Copy): { readonly root: Copy; readonly sign: Sign } {
  let root = copy;
  let sign: Sign = 1;
  for (; root.parent !== undefined; root = root.parent) sign = sign === root.toParent ? 1 : -1;
  return { root, sign };
}

function join(one: Copy, other: Copy, product: Sign): boolean {
  const [a, b] = [rootOf(one), rootOf(other)];
  const between: Sign = a.sign * b.sign * product === 1 ? 1 : -1;
  if (a.root === b.root) return between === 1;
  b.root.parent = a.root;
  b.root.toParent = between;
  return true;
}

// ------------------------------------------------------------------------------------------------ what is cut

/** Of each group, the way round in which least is cut wrong; where both are as good, the piece that stands first is right. */
function wrongHands(copies: readonly Copy[]): Hands['wrong'] {
  const groups = new Map<Copy, { readonly copy: Copy; readonly sign: Sign }[]>();
  for (const copy of copies) {
    const { root, sign } = rootOf(copy);
    groups.set(root, [...(groups.get(root) ?? []), { copy, sign }]);
  }
  const wrong = new Map<CutLine, { needs: 'as drawn' | 'mirrored' | 'twins'; seam: Seam }>();
  for (const group of groups.values()) {
    const missing = (turn: Sign): typeof group => group.filter(({ copy, sign }) => !isCut(copy, sign === turn ? 1 : -1));
    const [asDrawn, turned] = [missing(1), missing(-1)];
    const first = group[0];
    const firstIsRight = first !== undefined && isCut(first.copy, first.sign);
    const least = turned.length < asDrawn.length || (turned.length === asDrawn.length && !firstIsRight) ? turned : asDrawn;
    const turn: Sign = least === asDrawn ? 1 : -1;
    for (const { copy, sign } of least) {
      const [line] = copy.lines;
      if (line === undefined || copy.seam === undefined) continue;
      // A second copy in the other hand makes a pair of them.
      const both = group.some((other) => other.copy !== copy && other.copy.piece === copy.piece && other.copy.layer === copy.layer && other.sign !== sign);
      wrong.set(line, { needs: both ? 'twins' : sign === turn ? 'as drawn' : 'mirrored', seam: copy.seam });
    }
  }
  return wrong;
}

/** Whether a piece is cut in a hand: 1 as drawn, −1 mirrored. */
const isCut = ({ lines }: Copy, hand: Sign): boolean =>
  lines.length === 0 || lines.some((line) => isHandFree(line) || line.hand === 'twins' || (line.hand === 'as drawn') === (hand === 1));
