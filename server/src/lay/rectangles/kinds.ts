import type { RectangleInput, RectanglePlacement } from './types.ts';

/** One way of laying one kind of rectangle. */
export interface Option {
  readonly kind: number;
  readonly w: number;
  readonly h: number;
}

/** Rectangles of one shape, whatever items they came from. */
export interface Kind {
  readonly w: number;
  readonly h: number;
  readonly turnable: boolean;
  readonly count: number;
  /** Where they came from: item index, and how many. */
  readonly from: readonly { readonly item: number; readonly count: number }[];
}

/** An option laid at a place. */
export interface Laid {
  readonly kind: number;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Same-shaped rectangles are one kind, so that no search tells them apart. */
export function kindsOf(input: RectangleInput): readonly Kind[] {
  const kinds = new Map<string, Kind>();
  input.items.forEach((item, index) => {
    if (item.count <= 0) return;
    const turnable = item.turnable && item.w !== item.h;
    const w = turnable ? Math.min(item.w, item.h) : item.w;
    const h = turnable ? Math.max(item.w, item.h) : item.h;
    const key = `${w} ${h} ${turnable}`;
    const known = kinds.get(key) ?? { w, h, turnable, count: 0, from: [] };
    kinds.set(key, {
      ...known,
      count: known.count + item.count,
      from: [...known.from, { item: index, count: item.count }],
    });
  });
  return [...kinds.values()];
}

/** Every way of laying every kind that fits across `width`, narrowest first. */
export function optionsOf(kinds: readonly Kind[], width: number): readonly Option[] {
  return kinds
    .flatMap(({ w, h, turnable }, kind) => (turnable ? [{ kind, w, h }, { kind, w: h, h: w }] : [{ kind, w, h }]))
    .filter((option) => option.w <= width)
    .sort((a, b) => a.w - b.w || a.h - b.h || a.kind - b.kind);
}

/** Hands the laid kinds back to the items they came from. */
export function placementsOf(
  input: RectangleInput,
  kinds: readonly Kind[],
  laid: readonly Laid[],
): readonly RectanglePlacement[] {
  const supply = kinds.map((kind) => kind.from.flatMap(({ item, count }) => new Array<number>(count).fill(item)));
  return laid.map(({ kind, x, y, w, h }) => {
    const item = supply[kind]?.pop();
    const asked = item === undefined ? undefined : input.items[item];
    if (item === undefined || asked === undefined) throw new Error('more rectangles laid than asked for');
    return { item, x, y, turned: asked.w !== w || asked.h !== h };
  });
}
