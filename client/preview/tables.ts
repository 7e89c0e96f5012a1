import type { Figure, PlaceRef, PreviewCut, PreviewFusing, PreviewMark, PreviewNote, PreviewSeam, PreviewTable, PreviewTemplate } from '../../server/src/preview/drawing-data.ts';
import { headings, sideUp } from '../../server/src/table/words.ts';
import { element, KeyedList, setText, type Live } from './dom.ts';
import { setTarget } from './targets.ts';

/** One column: its heading and what stands in it. */
interface Column<Row> {
  readonly heading: string;
  readonly text: (row: Row) => string;
  /** Where a click on this cell leads, if not to where the row is written. */
  readonly place?: (row: Row) => PlaceRef | null;
  readonly figure?: (row: Row) => Figure;
  /** Smaller words below. */
  readonly note?: (row: Row) => string;
  readonly numeric?: boolean;
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
  const head = element('thead', {}, element('tr', {}, ...spec.columns.map((column) => element('th', { scope: 'col', class: column.numeric === true ? 'numeric' : undefined }, column.heading))));
  const body = element('tbody');
  const table = element('table', {}, element('caption', {}, spec.caption), head, body);
  const none = element('p', { class: 'muted', hidden: true }, spec.empty ?? '');
  const rows = new KeyedList<Row>(body, {
    key: spec.key,
    look: (row) => spec.columns.map((column) => [column.text(row), column.note?.(row)]),
    render: (live) => renderRow(spec, live),
  });
  return {
    element: element('div', { class: 'table' }, table, none),
    update: (next) => {
      rows.update(next);
      table.hidden = next.length === 0;
      none.hidden = next.length > 0 || spec.empty === undefined;
    },
  };
}

function renderRow<Row>(spec: TableSpec<Row>, live: Live<Row>): Element {
  const piece = spec.piece?.(live.value);
  const belongs = piece === undefined ? {} : { piece };
  const cells = spec.columns.map((column, index) => {
    const cell = index === 0 ? element('th', { scope: 'row' }) : element('td', { class: column.numeric === true ? 'numeric' : undefined });
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
  return setTarget(element('tr', { 'data-piece': piece }, ...cells), { ...belongs, place: () => spec.place(live.value) });
}

// ------------------------------------------------------------------------------------------------ cutting

export interface CuttingView {
  readonly element: HTMLElement;
  readonly update: (table: PreviewTable, missing: readonly string[]) => void;
}

export function cuttingView(): CuttingView {
  const cuts = liveTable<PreviewCut>({
    caption: headings.byPiece,
    key: (row) => row.key,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    empty: 'Nothing is cut yet: give a piece a line such as “cut 2 canvas”.',
    columns: [
      { heading: 'Piece', text: (row) => row.piece, place: (row) => row.piecePlace },
      { heading: 'Material', text: (row) => row.material, place: (row) => row.materialPlace },
      { heading: 'Cut', text: (row) => row.count.text, figure: (row) => row.count, numeric: true },
      { heading: 'Cut size', text: (row) => row.size.text, figure: (row) => row.size, note: (row) => (row.exactSize === null ? '' : `rounded from ${row.exactSize}`) },
      { heading: 'Along', text: (row) => row.along },
      { heading: sideUp, text: (row) => row.how.join(', ') },
      { heading: 'Notes', text: (row) => row.notes.join('; ') },
    ],
  });
  const seams = liveTable<PreviewSeam>({
    caption: headings.seams,
    key: (row) => row.pieceName,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    columns: [
      { heading: 'Piece', text: (row) => row.piece },
      { heading: 'Finished size', text: (row) => row.finished },
      { heading: 'Seam allowance', text: (row) => row.allowance },
    ],
  });
  const pieceNotes = liveTable<PreviewNote>({
    caption: headings.notes,
    key: (row) => `${row.pieceName} ${row.note}`,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    columns: [
      { heading: 'Piece', text: (row) => row.piece },
      { heading: 'Notes', text: (row) => row.note },
    ],
  });
  const marks = liveTable<PreviewMark>({
    caption: headings.marks,
    key: (row) => `${row.pieceName} ${row.mark} ${row.fromLeft} ${row.fromBelow}`,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    columns: [
      { heading: 'Piece', text: (row) => row.piece },
      { heading: 'Mark', text: (row) => row.mark },
      { heading: 'Kind', text: (row) => row.kind },
      { heading: 'From the left', text: (row) => row.fromLeft, numeric: true },
      { heading: 'From below', text: (row) => row.fromBelow, numeric: true },
    ],
  });
  const fusing = liveTable<PreviewFusing>({
    caption: headings.layers,
    key: (row) => `${row.pieceName} ${row.step}`,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    columns: [
      { heading: 'Piece', text: (row) => row.piece },
      { heading: 'Step', text: (row) => String(row.step), numeric: true },
      { heading: 'Do', text: (row) => row.how },
      { heading: 'Layer', text: (row) => row.layer },
      { heading: 'On', text: (row) => row.onto },
      { heading: 'Side', text: (row) => `${row.side} side` },
      { heading: 'How many', text: (row) => String(row.count), numeric: true },
    ],
  });
  const templates = liveTable<PreviewTemplate>({
    caption: headings.templates,
    key: (row) => `${row.pieceName} ${row.line}`,
    place: (row) => row.place,
    piece: (row) => row.pieceName,
    columns: [
      { heading: 'Piece', text: (row) => row.piece },
      { heading: 'Line', text: (row) => row.line },
      { heading: 'Size', text: (row) => row.size },
      { heading: 'For', text: (row) => row.materials.join(', ') },
      { heading: 'Copies', text: (row) => String(row.copies), numeric: true },
      { heading: 'Notes', text: (row) => row.note },
    ],
  });
  const missing = element('p', { class: 'flag', hidden: true });
  const notes = textList('Notes');
  const cautions = textList('Take care');
  return {
    element: element('div', { class: 'tables' }, missing, cuts.element, seams.element, pieceNotes.element, marks.element, fusing.element, templates.element, notes.element, cautions.element),
    update: (table, names) => {
      missing.hidden = names.length === 0;
      setText(missing, names.length === 0 ? '' : `Left out, since they can’t be drawn now: ${names.join(', ')}.`);
      cuts.update(table.cuts);
      seams.update(table.seams);
      pieceNotes.update(table.pieceNotes);
      marks.update(table.marks);
      fusing.update(table.fusing);
      templates.update(table.templates);
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
