import { convexHull } from '../geometry/hull.ts';
import type { Polygon } from '../geometry/shape.ts';
import type { Area, Drawn, Placed } from './arrange.ts';
import { placeBeside } from './key-room.ts';
import type { Legend } from './legend.ts';
import type { Box } from './sheet.ts';
import type { DrawnTemplate } from './template-item.ts';
import { overlap, type Tile } from './tiles.ts';

/** Things on sheets, and on tiles beside what these are of. */
export interface Spread {
  readonly sheets: readonly (readonly Placed<Drawn>[])[];
  readonly onTiles: ReadonlyMap<Tile, readonly Placed<Drawn>[]>;
}

export const isTemplate = (drawn: Drawn): drawn is DrawnTemplate => 'template' in drawn;
export const isLegend = (drawn: Drawn): drawn is Legend => 'isLegend' in drawn;
export const hasSquares = (placed: readonly Placed<Drawn>[]): boolean => placed.some(({ drawn }) => isLegend(drawn) && drawn.hasSquares);

/** Least distances from a template, millimetres: room for scissors; of the key, which nobody cuts out, less will do. */
const gaps = { template: 4, key: [4, 2] } as const;
/** A sheet with more on it than this is not tried: hardly ever is there room for all of it elsewhere. */
const mostMoved = 4;
/** Among more templates than this the first arrangement leaves no such gaps, and looking for them takes long. */
const many = 40;

/** A sheet or a tile: where there may be more on it, and what is there. */
interface Surface {
  readonly area: Box;
  readonly outlines: readonly Polygon[];
  readonly placed: readonly Placed<Drawn>[];
  readonly tile: Tile | undefined;
}

/**
 * Fewer sheets, where what lies on one has room beside the outlines of what is on the others, tiles among them. The test squares
 * stay on a sheet of whole templates where there is one; else the tile that has them is to be printed first.
 *
 * @param first the sheets, the one with the key before the others
 * @param keys the key in one, and the same in parts, the test squares first
 */
export function sparing(first: readonly (readonly Placed<Drawn>[])[], tiles: readonly Tile[], keys: readonly (readonly Legend[])[], { width, height }: Area): Spread {
  const all = first.map((placed): Surface => ({ area: { x: 0, y: 0, width, height: height ?? Infinity }, outlines: placed.map(outlineOf), placed, tile: undefined }));
  const plain = { sheets: first, onTiles: new Map<Tile, readonly Placed<Drawn>[]>() };
  if (height === undefined || first.flat().length > many) return plain;
  let surfaces = withoutKeySheet([...all, ...tiles.map(tileSurface)], keys);
  for (let index = surfaces.length - 1; index > 0; index--) {
    const [sheet, others] = [surfaces[index], surfaces.filter((_, at) => at !== index)];
    if (sheet === undefined || sheet.tile !== undefined || sheet.placed.length > mostMoved) continue;
    surfaces = moved(sheet.placed.map(({ drawn }) => drawn), others) ?? surfaces;
  }
  return {
    sheets: surfaces.flatMap(({ tile, placed }) => (tile === undefined ? [placed] : [])),
    onTiles: new Map(surfaces.flatMap(({ tile, placed }) => (tile === undefined || placed.length === 0 ? [] : [[tile, placed]]))),
  };
}

/** The sheet with the key is spared where all of it has room elsewhere, the test squares on a sheet of whole templates or else on a tile. */
function withoutKeySheet([key, ...others]: readonly Surface[], keys: readonly (readonly Legend[])[]): readonly Surface[] {
  if (key === undefined) return others;
  const templates = key.placed.map(({ drawn }) => drawn).filter(isTemplate);
  if (templates.length >= mostMoved) return [key, ...others];
  const sheets = others.filter(({ tile }) => tile === undefined);
  for (const one of sheets.length > 0 ? sheets : others) {
    for (const [squares, ...lines] of keys) {
      const begun = squares && withMore(one, squares);
      const found = begun && moved([...lines, ...templates], [begun, ...others.filter((other) => other !== one)]);
      if (found !== undefined) return found;
    }
  }
  return [key, ...others];
}

/** The same surfaces with all of these on them; undefined where one has no room. */
function moved(things: readonly Drawn[], surfaces: readonly Surface[]): readonly Surface[] | undefined {
  const now = [...surfaces];
  for (const drawn of [...things].sort((a, b) => b.width * b.height - a.width * a.height)) {
    const more = firstWithMore(now, drawn);
    if (more === undefined) return undefined;
    now.splice(more.index, 1, more.surface);
  }
  return now;
}

function firstWithMore(surfaces: readonly Surface[], drawn: Drawn): { readonly index: number; readonly surface: Surface } | undefined {
  for (const [index, one] of surfaces.entries()) {
    const surface = withMore(one, drawn);
    if (surface !== undefined) return { index, surface };
  }
  return undefined;
}

function withMore(surface: Surface, drawn: Drawn): Surface | undefined {
  for (const gap of isLegend(drawn) ? gaps.key : [gaps.template]) {
    for (const turned of drawn.isUpright === true ? [false] : [false, true]) {
      const at = placeBeside(turned ? { width: drawn.height, height: drawn.width } : drawn, surface.outlines, surface.area, gap);
      if (at === undefined) continue;
      const placed = { drawn, ...at, turned };
      return { ...surface, placed: [...surface.placed, placed], outlines: [...surface.outlines, outlineOf(placed)] };
    }
  }
  return undefined;
}

/** A convex polygon round something as it lies. */
function outlineOf({ drawn, x, y, turned }: Placed<Drawn>): Polygon {
  const own = isTemplate(drawn) ? drawn.hull : [{ x: 0, y: 0 }, { x: drawn.width, y: 0 }, { x: drawn.width, y: drawn.height }, { x: 0, y: drawn.height }];
  return own.map((point) => (turned ? { x: x + point.y, y: y + drawn.width - point.x } : { x: x + point.x, y: y + point.y }));
}

/** A tile has room beside what it is of, and off the strips that it shares with its neighbours. */
function tileSurface(tile: Tile): Surface {
  const { window, joined, plate } = tile;
  const [left, above, right, below] = [joined.left, joined.above, joined.right, joined.below].map((is) => (is ? overlap : 1)) as [number, number, number, number];
  return {
    area: { x: left, y: above, width: window.width - left - right, height: window.height - above - below },
    outlines: plate.hulls.map((hull) => convexHull(hull.map(({ x, y }) => ({ x: x - window.x, y: y - window.y })))),
    placed: [], tile,
  };
}
