import type { CutLine } from '../model/piece/cut-line.ts';
import { listed } from './figures.ts';
import { titlesOf, type Ground } from './grounds.ts';

/** A window to mark on cloth that is cut whole, since what a layer leaves open is left open for something that goes through the cloth. */
export interface MarkedWindow {
  readonly window: string;
  /** The layers that it is cut out of. */
  readonly layers: string;
  /** The cloth that it is marked on, where that isn't all of the ground. */
  readonly materials: string;
}

/** The windows of layers that go on a ground, but for those that its cloth is cut without itself: its notes tell those. */
export function markedWindows({ lines, materials }: Ground, cuts: readonly CutLine[]): readonly MarkedWindow[] {
  const windows = new Map<string, { readonly cloths: Set<CutLine>; readonly layers: Set<CutLine> }>();
  for (const layer of cuts) {
    const cloth = layer.layer && cuts[layer.layer.shell];
    if (cloth === undefined || !lines.includes(cloth)) continue;
    for (const window of layer.windows) {
      if (cloth.windows.includes(window)) continue;
      const found = windows.get(window) ?? { cloths: new Set(), layers: new Set() };
      found.cloths.add(cloth);
      found.layers.add(layer);
      windows.set(window, found);
    }
  }
  return [...windows].map(([window, { cloths, layers }]) => ({
    window, layers: listed(titlesOf([...layers])), materials: cloths.size === lines.length ? materials : listed(titlesOf([...cloths])),
  }));
}
