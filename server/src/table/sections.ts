import type { CuttingTable, CutRow } from './table.ts';
import { headings, ownSize, sideUp } from './words.ts';

/** How the cut lines are put in groups: as in the spec, piece by piece, or all of a material together. */
export type Grouping = 'piece' | 'material';

/** A part of a table as every format shows it: a heading, column names and rows of texts. */
export interface Section {
  readonly key: 'cuts' | 'seams' | 'layers' | 'marks' | 'notes' | 'supplies' | 'templates' | 'buying';
  readonly heading: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The sections of a table that have rows. */
export function sectionsOf(table: CuttingTable, by: Grouping): readonly Section[] {
  const sections: readonly Section[] = [
    cutSection(table, by), seamSection(table), noteSection(table), markSection(table), layerSection(table), supplySection(table), templateSection(table), buyingSection(table),
  ];
  return sections.filter((section) => section.rows.length > 0);
}

/** `tab: cork, size: M`; empty where there is nothing to choose. */
export function combinationText(table: CuttingTable): string {
  return table.combination.map(({ choice, option }) => `${choice}: ${option}`).join(', ');
}

/** The last line of every export: which revision this is, and what it was worked out from. */
export function stampText(table: CuttingTable): string {
  return `Revision ${table.revision ?? 'not given'}, inputs ${table.digest}`;
}

function cutSection(table: CuttingTable, by: Grouping): Section {
  const first = by === 'piece' ? 'Piece' : 'Material';
  const second = by === 'piece' ? 'Material' : 'Piece';
  return {
    key: 'cuts',
    heading: by === 'piece' ? headings.byPiece : headings.byMaterial,
    columns: [first, second, 'Cut', 'Cut size', 'Along', 'On fold', 'Twins', sideUp, 'Notes'],
    rows: grouped(table.cuts, by).map((row) => [
      by === 'piece' ? row.piece : row.material,
      by === 'piece' ? row.material : row.piece,
      String(row.count),
      row.exactSize === undefined ? row.size : `${row.size} (rounded from ${row.exactSize})`,
      row.along === '' ? ownSize : row.along,
      row.onFold ? 'on fold' : '',
      row.twins ? 'twins' : '',
      row.wayUp,
      row.notes.join('; '),
    ]),
  };
}

/** Rows of a material together, materials in the order in which the spec first cuts from them. */
function grouped(rows: readonly CutRow[], by: Grouping): readonly CutRow[] {
  if (by === 'piece') return rows;
  const order = [...new Set(rows.map((row) => row.materialName))];
  return order.flatMap((material) => rows.filter((row) => row.materialName === material));
}

function seamSection(table: CuttingTable): Section {
  return {
    key: 'seams',
    heading: headings.seams,
    columns: ['Piece', 'Finished size', 'Seam allowance'],
    rows: table.seams.map((row) => [row.piece, row.finished, row.allowance]),
  };
}

function noteSection(table: CuttingTable): Section {
  return {
    key: 'notes',
    heading: headings.notes,
    columns: ['Piece', 'Notes'],
    rows: table.pieceNotes.map((row) => [row.piece, row.note]),
  };
}

function markSection(table: CuttingTable): Section {
  return {
    key: 'marks',
    heading: headings.marks,
    columns: ['Piece', 'Mark', 'Kind', 'From the left', 'From below'],
    rows: table.marks.map((row) => [row.piece, row.mark, row.kind, row.fromLeft, row.fromBelow]),
  };
}

function layerSection(table: CuttingTable): Section {
  return {
    key: 'layers',
    heading: headings.layers,
    columns: ['Piece', 'Step', 'Do', 'Layer', 'On', 'Side', 'How many'],
    rows: table.fusing.map((row) => [row.piece, String(row.step), row.how, row.layer, row.onto, `${row.side} side`, String(row.count)]),
  };
}

function supplySection(table: CuttingTable): Section {
  return {
    key: 'supplies',
    heading: headings.supplies,
    columns: ['Supply', 'Kind', 'How many', 'Size', 'Set at', 'Notes'],
    rows: table.supplies.map((row) => [row.supply, row.kind, String(row.count), row.size, row.at.join(', '), row.notes.join('; ')]),
  };
}

function templateSection(table: CuttingTable): Section {
  return {
    key: 'templates',
    heading: headings.templates,
    columns: ['Piece', 'Line', 'Size', 'For', 'Copies', 'Notes'],
    rows: table.templates.map((row) => [row.piece, row.line, row.size, row.forMaterials.join(', '), String(row.copies), row.note]),
  };
}

function buyingSection(table: CuttingTable): Section {
  return {
    key: 'buying',
    heading: headings.buying,
    columns: ['Material or supply', 'Width', 'Shortest lay found', 'Can’t be under', 'Buy', 'Sure', 'Cost', 'Notes'],
    rows: table.buying.map((row) => [row.item, row.width, row.found, row.noneUnder, row.buy, row.certain, row.cost, row.notes.join('; ')]),
  };
}
