import { visibleText } from './escape.ts';
import type { BuyingRow } from '../table/buying-rows.ts';
import type { CuttingTable } from '../table/table.ts';

/** Rises where a reader of an earlier one would be misled; the schema beside this file says what stands in it. */
export const jsonVersion = 3;

/**
 * A table as data after `table.schema.json`: texts as people read them, and beside them numbers with their units. Places in
 * the spec are left out, since they mean nothing elsewhere.
 */
export function toJson(tables: readonly CuttingTable[]): string {
  return `${JSON.stringify({ format: 'piecewright cutting table', version: jsonVersion, tables: tables.map(tableData) }, visible, 2)}\n`;
}

const visible = (_: string, value: unknown): unknown => (typeof value === 'string' ? visibleText(value) : value);

/** Only what the schema names, in its order, so that nothing gets out that was not meant to. */
export function tableData(table: CuttingTable): unknown {
  return {
    title: table.title,
    revision: table.revision ?? null,
    fingerprint: table.digest,
    articles: table.articles,
    planned: table.manner,
    unit: table.display.unit,
    combination: table.combination,
    notes: table.notes,
    buying: table.buying.map(buyingRow),
    supplies: table.supplies.map(({ supply, kind, count, size, measures, at, notes }) => ({ supply, kind, count, size, measures, at, notes })),
    cuts: table.cuts.map(({ pieceName, piece, materialName, material, count, size, measured, template, templateFolded, along, onFold, twins, wayUp, grain, notes }) =>
      ({ pieceName, piece, materialName, material, count, size, ...measured, template: template ?? null, templateFolded, along, onFold, mirroredPairs: twins, sideUp: wayUp, grain, notes })),
    seams: table.seams.map(({ pieceName, piece, materials, finished, folded, allowance, allowances }) => ({ pieceName, piece, materials, ...finished, folded: folded ?? null, allowance, allowances })),
    layers: table.fusing.map(({ pieceName, piece, step, how, care, layer, onto, over, side, where, count }) => ({ pieceName, piece, step, how, care, layer, onto, over, side, where, count })),
    marks: table.marks.map(({ pieceName, piece, materials, mark, kind, fromLeft, fromBelow, facing }) => ({ pieceName, piece, materials, mark, kind, fromLeft: fromLeft ?? null, fromBelow: fromBelow ?? null, facing })),
    sewing: table.sewing.map(({ seam, first, how, second, times, length, ease, allowance, notches, open }) => ({ seam, first, how, second, times, length, ease, allowance, notches, open })),
    finishes: table.finishes.map(({ pieceName, piece, edges, finish }) => ({ pieceName, piece, edges, finish })),
    openings: table.openings.map(({ opening, edges, length, isClosed, count, finish }) => ({ opening, edges, length, closed: isClosed, count, finish })),
    steps: table.steps.map(({ number, text, does }) => ({ step: number, text, does })),
    pieceNotes: table.pieceNotes.map(({ pieceName, piece, note }) => ({ pieceName, piece, note })),
    templates: table.templates.map(({ number, pieceName, piece, line, size, note, forMaterials }) => ({ number, pieceName, piece, line, ...size, note, forMaterials })),
    materials: table.materials.map(({ material, care, notes }) => ({ material, care, notes })),
    safety: table.cautions,
  };
}

const buyingRow = ({ item, width, buy, found, noneUnder, certain, cost, amount, price, notes, leftovers }: BuyingRow): unknown =>
  ({ item, width, buy, amount: amount ?? null, found, leastPossible: noneUnder, certain: certain !== '', cost, price: price ?? null, notes: [...notes, ...leftovers] });
