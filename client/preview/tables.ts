import type { Figure, PlaceRef, PreviewCare, PreviewCut, PreviewFusing, PreviewMark, PreviewNote, PreviewSeam, PreviewTable, PreviewTemplate } from '../../server/src/preview/drawing-data.ts';
import {
  cutColumns, layerColumns, markColumns, materialColumns, pieceNoteColumns, seamColumns, templateColumns, type Column as SharedColumn,
} from '../../server/src/table/columns.ts';
import { headings } from '../../server/src/table/words.ts';
import { element, KeyedList, setText, type Live } from './dom.ts';
import { setTarget } from './targets.ts';

/** One column: its heading and what stands in it. */
interface Column<Row> {
  readonly key?: string;
  readonly heading: string;
  readonly text: (row: Row) => string;
  /** Where a click on this cell leads, if not to where the row is written. */
  readonly place?: (row: Row) => PlaceRef | null;
  readonly figure?: (row: Row) => Figure;
  /** Smaller words below. */
  readonly note?: (row: Row) => string;
  readonly numeric?: boolean;
  /** What is said below the table of words that stand in the column. */
  readonly explained?: Readonly<Record<string, string>>;
}

interface TableSpec<Row> {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly key: (row: Row) => string;
  readonly place: (row: Row) => PlaceRef | null;
  /** The piece that a row is about. */
  readonly piece?: (row: Row) => string;
  /** What is said in place of a table without rows; such a table is left out without it. */
  readonly empty?: string;
}

export interface LiveTable<Row> {
  readonly element: HTMLElement;
  readonly update: (rows: readonly Row[]) => void;
}

/** A table that follows its rows; only rows that changed are made anew. */
export function liveTable<Row>(spec: TableSpec<Row>): LiveTable<Row> {
  const head = element('thead', { role: 'rowgroup' }, element('tr', { role: 'row' }, ...spec.columns.map((column) => element('th', { role: 'columnheader', scope: 'col', class: column.numeric === true ? 'numeric' : undefined }, column.heading))));
  // Said again, since a table that is shown as cards is none to the browser.
  const body = element('tbody', { role: 'rowgroup' });
  const table = element('table', { role: 'table' }, element('caption', {}, spec.caption), head, body);
  const none = element('p', { class: 'muted', hidden: true }, spec.empty ?? '');
  const explained = element('p', { class: 'muted', hidden: true });
  const rows = new KeyedList<Row>(body, {
    key: spec.key,
    look: (row) => spec.columns.map((column) => [column.text(row), column.note?.(row)]),
    render: (live) => renderRow(spec, live),
  });
  return {
    element: element('div', { class: 'table' }, table, explained, none),
    update: (next) => {
      rows.update(next);
      spec.columns.forEach((column, index) => table.classList.toggle(`without-${index + 1}`, next.every((row) => column.text(row) === '')));
      const words = explanations(spec, next);
      setText(explained, words);
      explained.hidden = words === '';
      table.hidden = next.length === 0;
      none.hidden = next.length > 0 || spec.empty === undefined;
    },
  };
}

/** What the words mean that stand in its rows and are not plain by themselves. */
function explanations<Row>({ columns }: TableSpec<Row>, rows: readonly Row[]): string {
  const meanings = columns.flatMap(({ explained = {}, text }) => Object.entries(explained).filter(([word]) => rows.some((row) => text(row) === word)));
  return meanings.map(([, meaning]) => meaning).join(' ');
}

function renderRow<Row>(spec: TableSpec<Row>, live: Live<Row>): Element {
  const piece = spec.piece?.(live.value);
  const belongs = piece === undefined ? {} : { piece };
  const cells = spec.columns.map((column, index) => {
    const cell = index === 0 ? element('th', { role: 'rowheader', scope: 'row' }) : element('td', { role: 'cell', class: cellClass(column), 'data-heading': column.heading });
    const text = column.text(live.value);
    if (index > 0 && column.place === undefined && column.figure === undefined) cell.append(text);
    else {
      const button = element('button', { type: 'button', class: column.figure === undefined ? 'link' : 'number', 'data-control': column.heading }, text);
      cell.append(setTarget(button, {
        ...belongs,
        place: () => column.figure?.(live.value).place ?? column.place?.(live.value) ?? spec.place(live.value),
        lines: () => {
          const figure = column.figure?.(live.value);
          return figure === undefined || figure.trail.length === 0 ? [] : [...(figure.trail[0] === figure.text ? [] : [`${column.heading}: ${figure.text}`]), ...figure.trail];
        },
      }));
    }
    const note = column.note?.(live.value) ?? '';
    if (note !== '') cell.append(element('div', { class: 'muted' }, note));
    return cell;
  });
  return setTarget(element('tr', { role: 'row', 'data-piece': piece }, ...cells), { ...belongs, place: () => spec.place(live.value) });
}

/** What is measured comes first where a row is shown as a card. */
const sizeKeys: ReadonlySet<string> = new Set(['size', 'finished', 'left', 'below', 'allowance']);

function cellClass<Row>({ key = '', numeric = false }: Column<Row>): string | undefined {
  const classes = [...(numeric ? ['numeric'] : []), ...(sizeKeys.has(key) ? ['measure'] : [])];
  return classes.length === 0 ? undefined : classes.join(' ');
}

// ------------------------------------------------------------------------------------------------ cutting

export interface CuttingView {
  readonly element: HTMLElement;
  readonly update: (table: PreviewTable, missing: readonly string[]) => void;
}

/** The columns of an export, with what more the preview knows of them. */
export function columnsOf<Row>(shared: readonly SharedColumn<Row>[], more: Readonly<Record<string, Omit<Column<Row>, 'heading' | 'text'>>> = {}): readonly Column<Row>[] {
  return shared.map(({ key, heading, text, numeric = false, explained = {} }) => ({ key, heading, text, numeric, explained, ...more[key] }));
}

export function cuttingView(): CuttingView {
  const cuts = liveTable<PreviewCut>({
    caption: headings.byPiece,
    key: (row) => row.key,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    empty: 'Nothing is cut yet: give a piece a line such as “cut 2 canvas”.',
    columns: columnsOf<PreviewCut>(cutColumns, {
      piece: { place: (row) => row.piecePlace },
      material: { place: (row) => row.materialPlace },
      count: { figure: (row) => row.countFigure },
      size: { figure: (row) => row.sizeFigure },
    }),
  });
  const ofPiece = <Row extends { readonly pieceName: string; readonly place: PlaceRef | null }>(caption: string, columns: readonly SharedColumn<Row>[], key: (row: Row) => string): LiveTable<Row> =>
    liveTable<Row>({ caption, key: (row) => `${row.pieceName} ${key(row)}`, place: (row) => row.place, piece: (row) => row.pieceName, columns: columnsOf(columns) });
  const seams = ofPiece<PreviewSeam>(headings.seams, seamColumns, (row) => row.materials);
  const pieceNotes = ofPiece<PreviewNote>(headings.notes, pieceNoteColumns, (row) => row.note);
  const marks = ofPiece<PreviewMark>(headings.marks, markColumns, (row) => `${row.materials} ${row.mark} ${row.fromLeft?.text ?? ''} ${row.fromBelow?.text ?? ''}`);
  const fusing = ofPiece<PreviewFusing>(headings.layers, layerColumns, (row) => String(row.step));
  const templates = ofPiece<PreviewTemplate>(headings.templates, templateColumns, (row) => row.line);
  const materials = liveTable<PreviewCare>({ caption: headings.materials, key: (row) => row.material, place: (row) => row.place, columns: columnsOf(materialColumns) });
  const missing = element('p', { class: 'flag', hidden: true });
  const notes = textList('Notes');
  const cautions = textList(headings.safety);
  return {
    element: element('div', { class: 'tables' }, missing, cuts.element, seams.element, pieceNotes.element, marks.element, fusing.element, templates.element, materials.element, notes.element, cautions.element),
    update: (table, names) => {
      missing.hidden = names.length === 0;
      setText(missing, names.length === 0 ? '' : `Left out, since they can’t be drawn now: ${names.join(', ')}.`);
      cuts.update(table.cuts);
      seams.update(table.seams);
      pieceNotes.update(table.pieceNotes);
      marks.update(table.marks);
      fusing.update(table.fusing);
      templates.update(table.templates);
      materials.update(table.materials);
      notes.update(table.notes);
      cautions.update(table.cautions);
    },
  };
}

function textList(heading: string): { readonly element: HTMLElement; readonly update: (texts: readonly string[]) => void } {
  const list = element('ul');
  const section = element('section', { class: 'texts' }, element('h2', {}, heading), list);
  const entries = new KeyedList<string>(list, { key: (text) => text, look: (text) => text, render: ({ value }) => element('li', {}, value) });
  return {
    element: section,
    update: (texts) => {
      section.hidden = texts.length === 0;
      entries.update(texts);
    },
  };
}
