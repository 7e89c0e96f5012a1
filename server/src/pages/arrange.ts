import { fillPanels } from '../buying/panels.ts';
import { layOut } from '../buying/lay-out.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { turned } from '../lay/bounds/outline.ts';
import type { LayPiece, Placement } from '../lay/problem.ts';
import { onFewestSheets } from './fewest-sheets.ts';
import { firstFit } from './first-fit.ts';
import type { Item } from './sheet.ts';

/** Something to put on a sheet as it is, in one piece: its box from 0, 0. */
export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  /** What stands there instead where it lies turned, so that no words stand on their heads. */
  readonly turnedItems?: readonly Item[];
  /** Not to be turned where it fits as it is. */
  readonly isUpright?: boolean;
}

/** Where something lies in the printable part of a sheet, its upper left corner; turned a quarter where that fits better. */
export interface Placed<D extends Drawn> {
  readonly drawn: D;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

/** The printable part of a sheet; on a roll as long as what is on it. */
export interface Area {
  readonly width: number;
  readonly height: number | undefined;
}

/** What is drawn of something as it is placed. */
export const itemsAsPlaced = ({ drawn, turned }: Placed<Drawn>): readonly Item[] => (turned ? drawn.turnedItems ?? drawn.items : drawn.items);

/** Least distance between two templates, millimetres: room for scissors. */
const gap = 4;
/** Seconds’ worth of steps for one sheet: boxes are placed well at once. */
const effort = 0.02;
/** More templates than this are placed without a search: among many there is always one that fits beside the others. */
const many = 14;
const slack = 1e-6;

export const fits = (drawn: Drawn, area: Area): boolean => fitsUpright(drawn, area) || fitsUpright({ ...drawn, width: drawn.height, height: drawn.width }, area);
const fitsUpright = ({ width, height }: Drawn, area: Area): boolean => width <= area.width + slack && height <= (area.height ?? Infinity) + slack;

/** What goes on each sheet: as few sheets as the lay planner gets it on to, or of few things as can be. Everything must fit by itself. */
export function arranged<D extends Drawn>(all: readonly D[], area: Area): readonly (readonly Placed<D>[])[] {
  if (all.length === 0) return [];
  if (area.height !== undefined && all.length > many) return firstFit(all, { width: area.width, height: area.height }, gap);
  const pieces = all.map((drawn, index): LayPiece => ({
    id: String(index),
    // A lay runs along its x, a sheet downwards.
    outline: rectangle(drawn.height, drawn.width),
    count: { asDrawn: 1, mirrored: 0, either: 0 },
    turns: [...(fitsUpright(drawn, area) ? [0] : []), ...(drawn.isUpright === true && fitsUpright(drawn, area) ? [] : fitsUpright({ ...drawn, width: drawn.height, height: drawn.width }, area) ? [90] : [])],
    onFold: false,
  }));
  const problem = { width: area.width + slack, pieces, gap };
  const placedFrom = (placement: Placement, of: number): Placed<D>[] => {
    const drawn = all[of];
    if (drawn === undefined) return [];
    const box = boundsOfPoints(turned(rectangle(drawn.height, drawn.width), false, placement.turn));
    return [{ drawn, x: placement.y + box.minY, y: placement.x + box.minX, turned: placement.turn % 180 !== 0 }];
  };
  if (area.height === undefined) return [layOut(problem, effort).lay.placements.flatMap((placement) => placedFrom(placement, placement.piece))];
  const { panels, unplaced } = fillPanels({ manner: 'open', problem, requirementOf: pieces.map((_, index) => index), spares: [], unplaced: [] }, area.height, effort);
  const sheets = panels.map((panel) => panel.lay.placements.flatMap((placement) => placedFrom(placement, panel.requirementOf[placement.piece] ?? -1)));
  // Whatever fits by itself gets a sheet, come what may.
  const alone = unplaced.flatMap((index): Placed<D>[][] => {
    const drawn = all[index];
    return drawn === undefined ? [] : [[{ drawn, x: 0, y: 0, turned: !fitsUpright(drawn, area) }]];
  });
  const found = [...sheets, ...alone];
  return onFewestSheets(all, { width: area.width, height: area.height }, gap, found.length) ?? found;
}

const rectangle = (width: number, height: number): { x: number; y: number }[] => [{ x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: height }, { x: 0, y: height }];
