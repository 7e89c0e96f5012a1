import type { BuyingRow } from './buying-rows.ts';
import type { CutRow } from './cut-rows.ts';
import { inOneLine, listed, sizeText } from './figures.ts';
import type { FinishRow } from './finishes.ts';
import type { FusingRow } from './layers.ts';
import type { MarkRow } from './marks.ts';
import type { MaterialRow } from './material-rows.ts';
import type { OpeningRow } from './openings.ts';
import { roundText } from './round-text.ts';
import type { SeamRow } from './seams.ts';
import type { SewingRow } from './sewing.ts';
import type { StepRow } from './steps.ts';
import type { SupplyRow } from './supply-rows.ts';
import type { PieceNote } from './table.ts';
import type { TemplateRow } from './templates.ts';
import { eitherSideUp, sameBothWays, sewingOrder } from './words.ts';

/**
 * The columns of every table, described once for exports and for the preview: what they are called, and what stands in
 * them. Whoever shows them may leave out a column in which nothing stands.
 */
export interface Column<Row> {
  readonly key: string;
  readonly heading: string;
  readonly text: (row: Row) => string;
  /** The same as single remarks, where it is a list of them. */
  readonly remarks?: (row: Row) => readonly string[];
  readonly numeric?: boolean;
  /** What is said once, above the table, where all rows have the same; such a column is then left out. */
  readonly once?: (text: string) => string;
  /** What is said above the table of words that stand in the column, where it isn't left out. */
  readonly explained?: Readonly<Record<string, string>>;
  /** The number of the template that the text leads to. */
  readonly template?: (row: Row) => number | undefined;
}

/** A row but for where it is written, which is not the same in an export and in the preview. */
type Plain<Row> = Omit<Row, 'place'>;

const remarks = <Row>(key: string, heading: string, list: (row: Row) => readonly string[]): Column<Row> => ({ key, heading, text: (row) => inOneLine(list(row)), remarks: list });
/** Words that stand once where they are the same in all sizes, or differ in figures alone. */
const sentence = <Row>(key: string, heading: string, text: (row: Row) => string): Column<Row> => remarks(key, heading, (row) => (text(row) === '' ? [] : [text(row)]));

/** What is said of a layer with a size of its own, which is cut along no line. */
const ownSize = 'its own size';

export const cutColumns: readonly Column<Plain<CutRow>>[] = [
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  { key: 'material', heading: 'Material', text: (row) => row.material },
  { key: 'count', heading: 'How many', text: (row) => String(row.count), numeric: true },
  { key: 'size', heading: 'Width × height', text: (row) => row.size },
  { key: 'template', heading: 'Template', text: (row) => (row.template === undefined ? '' : `template ${row.template}${row.templateFolded ? `, folded where it says “fold here for ${row.piece}”` : ''}`), template: (row) => row.template },
  { key: 'along', heading: 'Cut along', text: (row) => (row.along === '' ? ownSize : row.along), once: (text) => (text === ownSize ? 'Cut each at its own size.' : `Cut along the ${text}.`) },
  { key: 'fold', heading: 'On fold', text: (row) => (row.onFold ? 'on fold' : ''), once: () => 'Cut on the fold.' },
  { key: 'twins', heading: 'Mirrored pairs', text: (row) => (row.twins ? 'in mirrored pairs' : ''), once: () => 'Cut in mirrored pairs: as many flipped as drawn.' },
  { key: 'side', heading: 'Which side up', text: (row) => row.wayUp, once: (text) => (text === sameBothWays ? eitherSideUp : `Lay the cloth ${text}.`), explained: { [sameBothWays]: eitherSideUp } },
  { key: 'grain', heading: 'Grain runs along', text: (row) => row.grain, once: (text) => `The lengthwise grain runs along ${text}.` },
  remarks('notes', 'Notes', (row) => row.notes),
];

export const seamColumns: readonly Column<Plain<SeamRow>>[] = [
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  { key: 'materials', heading: 'Material', text: (row) => row.materials },
  { key: 'finished', heading: 'Size between seams', text: (row) => sizeText(row.finished) },
  { key: 'folded', heading: 'Size as folded', text: (row) => (row.folded === undefined ? '' : sizeText(row.folded)) },
  { key: 'allowance', heading: 'Seam allowance', text: (row) => row.allowance, once: (text) => `Seam allowance: ${text}.` },
];

export const sewingColumns: readonly Column<Plain<SewingRow>>[] = [
  { key: 'seam', heading: 'Seam', text: (row) => row.seam },
  sentence('first', 'Edges', (row) => row.first),
  { key: 'how', heading: 'How', text: (row) => row.how, explained: { 'sewn to': sewingOrder, 'laid on': sewingOrder } },
  sentence('second', 'Other edges', (row) => row.second),
  { key: 'times', heading: 'Times', text: (row) => (row.times === 1 ? '' : String(row.times)), numeric: true },
  { key: 'length', heading: 'Length', text: (row) => row.length.text, numeric: true },
  sentence('ease', 'Ease', (row) => row.ease),
  { key: 'allowance', heading: 'Seam allowance', text: (row) => row.allowance, once: (text) => `Seam allowance: ${text}.` },
  { key: 'notches', heading: 'Notches', text: (row) => row.notches },
  sentence('open', 'Opening', (row) => row.open),
];

export const finishColumns: readonly Column<Plain<FinishRow>>[] = [
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  { key: 'edges', heading: 'Edges', text: (row) => row.edges },
  { key: 'finish', heading: 'What becomes of them', text: (row) => row.finish },
];

export const openingColumns: readonly Column<Plain<OpeningRow>>[] = [
  { key: 'opening', heading: 'What', text: (row) => row.opening },
  { key: 'edges', heading: 'Edges', text: (row) => row.edges },
  { key: 'length', heading: 'Length', text: roundText },
  { key: 'count', heading: 'How many', text: (row) => String(row.count), numeric: true, once: (text) => (text === '1' ? 'There is one of each.' : `There are ${text} of each.`) },
  remarks('finish', 'What becomes of it', (row) => row.finish),
];

export const stepColumns: readonly Column<Plain<StepRow>>[] = [
  { key: 'step', heading: 'Step', text: (row) => String(row.number), numeric: true },
  sentence('text', 'Do', (row) => row.text),
  remarks('does', 'Seams and parts', (row) => row.does.map(({ title }) => title)),
];

export const markColumns: readonly Column<Plain<MarkRow>>[] = [
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  { key: 'materials', heading: 'Material', text: (row) => row.materials },
  { key: 'mark', heading: 'Mark', text: (row) => row.mark },
  { key: 'kind', heading: 'Kind', text: (row) => row.kind },
  { key: 'left', heading: 'From the left', text: (row) => row.fromLeft?.text ?? '', numeric: true },
  { key: 'below', heading: 'From below', text: (row) => row.fromBelow?.text ?? '', numeric: true },
  { key: 'facing', heading: 'Facing you', text: (row) => row.facing, once: (text) => (text === 'as drawn' ? 'Lay each piece as drawn.' : `Lay each piece with ${text.startsWith('right side, of') ? `its ${text}` : text === 'either side' ? text : `its ${text}`} facing you.`) },
];

export const layerColumns: readonly Column<Plain<FusingRow>>[] = [
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  { key: 'step', heading: 'Order', text: (row) => String(row.step), numeric: true },
  { key: 'how', heading: 'Do', text: (row) => [row.how, ...row.care].join(', ') },
  { key: 'layer', heading: 'Layer', text: (row) => row.layer },
  { key: 'onto', heading: 'On', text: (row) => (row.over.length === 0 ? row.onto : `${row.onto} (over ${listed(row.over)})`) },
  { key: 'side', heading: 'Side', text: (row) => `${row.side} side`, once: (text) => `All go on the ${text}.` },
  { key: 'where', heading: 'Where on the cloth', text: (row) => row.where, once: (text) => `On the cloth each lies ${text}.` },
  { key: 'count', heading: 'How many', text: (row) => String(row.count), numeric: true },
];

export const supplyColumns: readonly Column<Plain<SupplyRow>>[] = [
  { key: 'supply', heading: 'Supply', text: (row) => row.supply },
  { key: 'kind', heading: 'Kind', text: (row) => row.kind },
  { key: 'count', heading: 'How many', text: (row) => String(row.count), numeric: true },
  { key: 'size', heading: 'Size', text: (row) => row.size },
  remarks('at', 'Set at', (row) => row.at),
  remarks('notes', 'Notes', (row) => row.notes),
];

/** The preview leaves the numbers out: one more template would change all that follow. */
type Numbered = Omit<TemplateRow, 'place' | 'outline' | 'holes' | 'number'> & { readonly number?: number };

export const templateColumns: readonly Column<Numbered>[] = [
  { key: 'number', heading: 'Template', text: (row) => (row.number === undefined ? '' : String(row.number)), numeric: true, template: (row) => row.number },
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  { key: 'line', heading: 'Cut along', text: (row) => row.line },
  { key: 'size', heading: 'Within width × height', text: (row) => sizeText(row.size) },
  { key: 'materials', heading: 'For', text: (row) => row.forMaterials.join(', ') },
  { key: 'note', heading: 'Notes', text: (row) => row.note },
];

export const pieceNoteColumns: readonly Column<Plain<PieceNote>>[] = [
  { key: 'piece', heading: 'Piece', text: (row) => row.piece },
  // As a remark, so that a note which is the same in all sizes stands once.
  remarks('note', 'Notes', (row) => [row.note]),
];

export const materialColumns: readonly Column<Plain<MaterialRow>>[] = [
  { key: 'material', heading: 'Material', text: (row) => row.material },
  remarks('care', 'Care', (row) => row.care),
  remarks('notes', 'Notes', (row) => row.notes),
];

export const buyingColumns: readonly Column<Plain<BuyingRow>>[] = [
  { key: 'item', heading: 'Item', text: (row) => row.item },
  { key: 'width', heading: 'Width', text: (row) => row.width },
  { key: 'buy', heading: 'Buy', text: (row) => row.buy },
  { key: 'cost', heading: 'Cost', text: (row) => row.cost, numeric: true },
  remarks('notes', 'Notes', (row) => [...row.notes, ...row.leftovers]),
];

/** The same where the lays are drawn on the same pages, and tell themselves what they leave over. */
export const buyingColumnsBesideLays: typeof buyingColumns = [...buyingColumns.slice(0, -1), remarks('notes', 'Notes', (row) => row.notes)];
