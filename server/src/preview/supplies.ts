import { stepText } from '../buying/purchase.ts';
import { polygonArea } from '../geometry/measure.ts';
import type { Material } from '../model/stock/material.ts';
import type { Resolved } from '../model/pattern.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import { showArea } from '../model/formulas/value.ts';
import { showLength, type Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';
import { keptFor } from '../table/per-display.ts';
import type { PlaceWriter } from './places.ts';
import type { PreviewBuying, PreviewMaterial } from './drawing-data.ts';
import { materialsCut } from '../table/material-rows.ts';
import type { SupplyRow } from '../table/supply-rows.ts';

/**
 * What is known of the buying before anything is laid out: how many pieces each material gives, their area, and how the
 * material is sold. How much of it to buy hangs on how the pieces lie, and is not guessed here.
 */
export function previewBuying(resolved: Resolved, supplies: readonly SupplyRow[], display: Display, { ref }: PlaceWriter): PreviewBuying {
  return {
    materials: materialsCut(resolved).map((material) => materialRow(material, resolved, display, ref)),
    supplies: supplies.map(({ place, ...row }) => ({ ...row, place: ref(place) })),
  };
}

function materialRow(material: Material, resolved: Resolved, display: Display, ref: PlaceWriter['ref']): PreviewMaterial {
  let pieces = 0;
  let area = 0;
  for (const line of resolved.pieces.flatMap((piece) => piece.cuts)) {
    if (line.material.name !== material.name) continue;
    const count = Number(line.count.n);
    pieces += count;
    area += count * areaOf(line, display);
  }
  return {
    name: material.name,
    title: material.title,
    role: material.role,
    pieces,
    area: showArea(measured(area), display),
    width: widthText(material, display),
    sold: soldText(material, display),
    place: ref(material.place),
  };
}

/** Of one piece, in square millimetres. */
const areaOf: (line: CutLine, display: Display) => number = keptFor((line) => Math.abs(polygonArea(line.outline)) - line.holes.reduce((sum, hole) => sum + Math.abs(polygonArea(hole)), 0));

function widthText({ width, usable }: Material, display: Display): string {
  if (width === undefined) return '';
  const wide = `${showLength(width, display)} wide`;
  return usable === undefined || usable.equals(width) ? wide : `${wide}, ${showLength(usable, display)} usable`;
}

function soldText({ purchase }: Material, display: Display): string {
  if (purchase.form === 'lengths') return `lengths of ${stepText(purchase.step, display)}`;
  return `${purchase.form} of ${showLength(purchase.width, display)} × ${showLength(purchase.height, display)}`;
}
