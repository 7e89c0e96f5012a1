import {
  buyingColumns, buyingColumnsBesideLays, cutColumns, finishColumns, layerColumns, markColumns, materialColumns, openingColumns, pieceNoteColumns, seamColumns, sewingColumns, stepColumns, supplyColumns, templateColumns, type Column,
} from './columns.ts';
import type { BuyingRow } from './buying-rows.ts';
import type { CutRow } from './cut-rows.ts';
import { isWindow } from './marks.ts';
import { threadSentences } from './thread.ts';
import type { CuttingTable } from './table.ts';
import { distanceOrder, headings, layerOrder, noAllowances, noAllowancesButSpare, openingOrder, sizeOrder, whereTemplatesAre, windowsMarked } from './words.ts';

/** How the cut lines are put in groups: as in the spec, piece by piece, or all of a material together. */
export type Grouping = 'piece' | 'material';

export const sectionKeys = ['buying', 'supplies', 'cuts', 'seams', 'layers', 'marks', 'notes', 'sewing', 'finishes', 'openings', 'steps', 'templates', 'materials', 'safety'] as const;
export type SectionKey = (typeof sectionKeys)[number];

/** A part of a table: what it is called, where its rows come from, and its columns. */
export interface SectionKind<Table = CuttingTable> {
  readonly key: SectionKey;
  readonly heading: string;
  /** Said above it. */
  readonly said: (table: Table) => readonly string[];
  readonly rows: (table: Table) => readonly SectionRow[];
  readonly columns: readonly Pick<SectionColumn, 'key' | 'heading' | 'numeric' | 'once' | 'explained'>[];
  /** Sentences below it. */
  readonly below: (table: Table) => readonly string[];
  /** Whether its rows tell people nothing that isn't said elsewhere; programs get them all the same. */
  readonly saysNothing: (table: Table) => boolean;
}

/** A row with its cells worked out, in the order of the columns. */
export interface SectionRow {
  /** The same for the same row of another size. */
  readonly id: string;
  readonly cells: readonly SectionCell[];
}

export interface SectionCell {
  readonly text: string;
  /** The text as single remarks, where it is a list of them. */
  readonly remarks: readonly string[] | undefined;
  /** The number of a template that the text leads to. */
  readonly template: number | undefined;
}

type SectionColumn = Column<never>;

/** Whether the lays are drawn on the same pages, or told in words alone. */
export type LaysShown = 'drawn' | 'told';

/** What to buy, which can be made of the rows alone. */
export const buyingKind = (lays: LaysShown): SectionKind<Pick<CuttingTable, 'buying'>> =>
  kind('buying', headings.buying, (table: Pick<CuttingTable, 'buying'>) => table.buying, lays === 'drawn' ? buyingColumnsBesideLays : buyingColumns, (row) => row.item, { below: (table) => buyingSentences(table) });

/** All parts, in the order in which a maker needs them: what to buy, what to cut, and so on to what to take care of. */
export function sectionKinds(by: Grouping, lays: LaysShown = 'told'): readonly SectionKind[] {
  return [
    buyingKind(lays),
    kind('supplies', headings.supplies, (table) => table.supplies, supplyColumns, (row) => `${row.place.start} ${row.supply}`),
    cuts(by),
    kind('seams', headings.seams, (table) => table.seams, seamColumns, (row) => `${row.pieceName} ${row.materials}`, { saysNothing: (table) => !hasAllowances(table) }),
    kind('layers', headings.layers, (table) => table.fusing, layerColumns, (row) => `${row.pieceName} ${row.place.start}`, { said: (table) => [layerOrder(hasFolds(table))] }),
    kind('marks', headings.marks, (table) => table.marks, markColumns, (row) => `${row.pieceName} ${row.materials} ${row.mark}`, { said: (table) => [distanceOrder(hasFolds(table))], below: (table) => (table.marks.some(isWindow) ? [windowsMarked] : []) }),
    kind('notes', headings.notes, (table) => table.pieceNotes, pieceNoteColumns, (row) => `${row.pieceName} ${row.place.start}`),
    kind('sewing', headings.sewing, (table) => table.sewing, sewingColumns, (row) => `${row.place.start} ${row.seam}`, { below: ({ sewing, display }) => threadSentences(sewing, display) }),
    kind('finishes', headings.finishes, (table) => table.finishes, finishColumns, (row) => `${row.pieceName} ${row.edges}`),
    kind('openings', headings.openings, (table) => table.openings, openingColumns, (row) => row.edges, { said: () => [openingOrder] }),
    kind('steps', headings.steps, (table) => table.steps, stepColumns, (row) => `${row.place.start} ${row.does.map(({ name }) => name).join(' ')}`),
    kind('templates', headings.templates, (table) => table.templates, templateColumns, (row) => `${row.pieceName} ${row.line}`, { below: () => [whereTemplatesAre] }),
    kind('materials', headings.materials, (table) => table.materials, materialColumns, (row) => row.material),
  ];
}

function cuts(by: Grouping): SectionKind {
  const [piece, material, ...others] = cutColumns;
  const columns = piece === undefined || material === undefined || by === 'piece' ? cutColumns : [material, piece, ...others];
  return kind('cuts', by === 'piece' ? headings.byPiece : headings.byMaterial, (table) => grouped(table.cuts, by), columns, (row) => `${row.pieceName} ${row.place.start}`, { said: () => [sizeOrder], below: (table) => (table.seams.length === 0 || hasAllowances(table) ? [] : [table.cuts.some(({ isLarge }) => isLarge) ? noAllowancesButSpare : noAllowances]) });
}

const hasFolds = ({ cuts }: CuttingTable): boolean => cuts.some(({ onFold }) => onFold);

/** Whether anything is cut larger than it is sewn; else sizes between seams are those that are cut. */
const hasAllowances = ({ seams }: CuttingTable): boolean => seams.some(({ allowances }) => allowances.length > 0);

function kind<Row, Table = CuttingTable>(
  key: SectionKey, heading: string, rows: (table: Table) => readonly Row[], columns: readonly Column<Row>[], id: (row: Row) => string,
  { said = () => [], below = () => [], saysNothing = () => false }: Partial<Pick<SectionKind<Table>, 'said' | 'below' | 'saysNothing'>> = {},
): SectionKind<Table> {
  return {
    key, heading, said, below, saysNothing, columns,
    rows: (table) => rows(table).map((row) => ({
      id: id(row),
      cells: columns.map((column) => ({ text: column.text(row), remarks: column.remarks?.(row), template: column.template?.(row) })),
    })),
  };
}

/** Rows of a material together, materials in the order in which the spec first cuts from them. */
function grouped(rows: readonly CutRow[], by: Grouping): readonly CutRow[] {
  if (by === 'piece') return rows;
  const order = [...new Set(rows.map((row) => row.materialName))];
  return order.flatMap((material) => rows.filter((row) => row.materialName === material));
}

/** How sure the lengths are, in sentences. */
function buyingSentences({ buying }: Pick<CuttingTable, 'buying'>): readonly string[] {
  const sure = buying.filter((row) => row.certain !== '').map(({ item, soldBy }) => (soldBy === '' ? item : `${item}, sold by the ${soldBy}`));
  const open = buying.filter((row) => row.certain === '' && row.found !== '' && row.noneUnder !== '');
  return [
    ...(sure.length === 0 ? [] : [`No lay of these pieces lets you buy less: ${sure.join('; ')}.`]),
    ...openSentences(open),
  ];
}

/** One for all of which the same is to be said. */
function openSentences(open: readonly BuyingRow[]): readonly string[] {
  const items = new Map<string, string[]>();
  for (const row of open) {
    const rest = `the best lay found takes ${row.found}; least possible ${row.noneUnder === 'the same' ? 'is the same' : row.noneUnder}${isCounted(row) ? '' : ', both without what squaring and fraying take'}. A better lay might let you buy less.`;
    items.set(rest, [...(items.get(rest) ?? []), row.item]);
  }
  return [...items].map(([rest, of]) => `${of.join('; ')}: ${rest}`);
}

const isCounted = ({ amount }: BuyingRow): boolean => amount?.unit === 'panel' || amount?.unit === 'sheet';
