import { cutTo, linesOf, settable, widthOf } from '../letters/letters.ts';
import { segmentOf } from '../path.ts';
import { pens } from '../pens.ts';
import { groupItem, textItem, type Item, type Sheet, type Tag } from '../sheet.ts';
import type { Weight } from '../letters/generated/faces.js';
import { columnWidths } from './columns.ts';

/** Sizes of letters in the booklet, millimetres. */
export const sizes = { title: 9, part: 5, text: 3.4, table: 3, small: 2.6 } as const;
const leading = 1.36;
const cellGap = 3;
/** How much is left between parts, and between pictures, millimetres. */
const spacings = { usual: 7, close: 3.5 } as const;
export type Spacing = keyof typeof spacings;
const rowPadding = 1.1;

export interface PageFormat {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
}

/** A table as text. */
export interface TextTable {
  readonly columns: readonly { readonly heading: string; readonly numeric: boolean }[];
  readonly rows: readonly (readonly { readonly text: string }[])[];
}

interface OpenPage {
  readonly items: Item[];
  readonly part: string;
}

/** Parts of a booklet set one below the other, on as many pages as they take. */
export class Flow {
  readonly #format: PageFormat;
  readonly #footer: string;
  readonly #between: number;
  readonly #pages: OpenPage[] = [];
  readonly outline: { title: string; sheet: number }[] = [];
  #y = 0;
  #part = '';
  #groups = 0;

  constructor(format: PageFormat, footer: string, spacing: Spacing = 'usual') {
    this.#format = format;
    this.#between = spacings[spacing];
    this.#footer = settable(footer);
    this.newPage();
  }

  get width(): number {
    return this.#format.width - 2 * this.#format.margin;
  }

  get #bottom(): number {
    return this.#format.height - this.#format.margin - 8;
  }

  /** What is left of the page, millimetres. */
  get room(): number {
    return this.#bottom - this.#y;
  }

  /** A whole page’s height. */
  get fullRoom(): number {
    return this.#bottom - this.#format.margin;
  }

  get pages(): number {
    return this.#pages.length;
  }

  newPage(): void {
    this.#pages.push({ items: [], part: this.#part });
    this.#y = this.#format.margin;
  }

  /** Begins a new page where less than this is left. */
  need(height: number): void {
    if (this.room < height && this.#y > this.#format.margin) this.newPage();
  }

  space(height: number): void {
    if (this.#y > this.#format.margin) this.#y += height;
  }

  #add(...items: readonly Item[]): void {
    this.#pages.at(-1)?.items.push(...items);
  }

  title(words: string): void {
    this.#lines(words.slice(0, 2000), sizes.title, 'bold', 'H1', 4);
  }

  /** A part with its heading, which a reader can go to. */
  part(title: string, together = 24): void {
    this.space(this.#between);
    this.need(together);
    this.#part = title;
    this.outline.push({ title, sheet: this.#pages.length - 1 });
    const { margin } = this.#format;
    this.#add({ kind: 'line', role: 'rule', name: '', path: segmentOf({ x: margin, y: this.#y }, { x: margin + this.width, y: this.#y }), pen: pens.rule });
    this.#y += 1.6;
    this.#lines(title, sizes.part, 'bold', 'H2');
    this.#y += 1;
  }

  heading(title: string): void {
    this.space(3);
    this.need(16);
    this.#lines(title, sizes.text, 'bold', 'P');
  }

  text(words: string, size: number = sizes.text, tone = 0): void {
    this.#lines(words, size, 'regular', 'P', Infinity, tone);
  }

  list(all: readonly string[]): void {
    for (const words of all) {
      const lines = linesOf(settable(words), this.width - 4, sizes.text);
      const group = { of: this.#groups++ };
      lines.forEach((line, index) => {
        this.need(sizes.text * leading);
        const y = this.#y + sizes.text * 1.02;
        if (index === 0) this.#add(textItem('–', { x: this.#format.margin, y }, { size: sizes.text }));
        this.#add(textItem(line, { x: this.#format.margin + 4, y }, { size: sizes.text, tag: 'LI', group }));
        this.#y += sizes.text * leading;
      });
      this.#y += 0.6;
    }
  }

  #lines(words: string, size: number, weight: Weight, tag: Tag, most = Infinity, tone = 0): void {
    const all = linesOf(settable(words), this.width, size, weight);
    const shown = all.length <= most ? all : [...all.slice(0, most - 1), cutTo(`${all[most - 1] ?? ''}…`, this.width, size, weight)];
    const group = { of: this.#groups++ };
    for (const line of shown) {
      this.need(size * leading);
      this.#add(textItem(line, { x: this.#format.margin, y: this.#y + size * 1.02 }, { size, weight, tag, tone, group }));
      this.#y += size * leading;
    }
  }

  /** A table; its head is said again on every page that it runs over. Columns with nothing in them are left out. */
  table(all: TextTable): void {
    const { head, body } = this.#set(all);
    this.need(head.height + (body[0]?.height ?? 0));
    const table = this.#groups++;
    this.#draw(head, 'TH', table);
    for (const row of body) {
      // A row that no page can hold is set over several.
      if (row.height > this.room && row.height <= this.fullRoom - head.height) {
        this.newPage();
        this.#draw(head, 'TH', undefined);
      }
      this.#draw(row, 'TD', table, head);
    }
  }

  /** How high a table is, on a page that has room for it. */
  heightOf(all: TextTable): number {
    const { head, body } = this.#set(all);
    return body.reduce((sum, { height }) => sum + height, head.height);
  }

  #set({ columns, rows }: TextTable): { readonly head: SetRow; readonly body: readonly SetRow[] } {
    const used = columns.map((_, index) => index).filter((index) => rows.some((row) => (row[index]?.text ?? '') !== ''));
    const texts = rows.map((row) => used.map((index) => settable(row[index]?.text ?? '')));
    const heads = used.map((index) => settable(columns[index]?.heading ?? ''));
    const numeric = used.map((index) => columns[index]?.numeric ?? false);
    let size: number = sizes.table;
    let widths = columnWidths(heads, texts, this.width, cellGap, size);
    while (widths === undefined && size > 2.2) widths = columnWidths(heads, texts, this.width, cellGap, (size -= 0.2));
    const across = widths ?? heads.map(() => (this.width - cellGap * (heads.length - 1)) / heads.length);
    const head = this.#row(heads, across, numeric, size, 'bold');
    return { head, body: texts.map((row) => this.#row(row, across, numeric, size, 'regular')) };
  }

  #row(cells: readonly string[], widths: readonly number[], numeric: readonly boolean[], size: number, weight: Weight): SetRow {
    const set = cells.map((text, index) => linesOf(text, widths[index] ?? 10, size, weight));
    const most = Math.max(1, ...set.map((lines) => lines.length));
    return { cells: set, widths, numeric, size, weight, lines: most, height: most * size * leading + 2 * rowPadding };
  }

  /** @param table its number; undefined of a head that is only said again */
  #draw(row: SetRow, tag: 'TH' | 'TD', table: number | undefined, head?: SetRow): void {
    const { margin } = this.#format;
    const own = this.#groups++;
    const cells = row.cells.map(() => this.#groups++);
    this.#y += rowPadding;
    for (let line = 0; line < row.lines; line++) {
      if (this.room < row.size * leading && head !== undefined) {
        this.newPage();
        this.#draw(head, 'TH', undefined);
        this.#y += rowPadding;
      }
      let x = margin;
      row.cells.forEach((lines, index) => {
        // A cell with nothing in it is a cell all the same, for whoever counts them.
        const words = lines[line] ?? (line === 0 ? '' : undefined);
        const isRight = row.numeric[index] === true;
        const at = { x: isRight ? x + (row.widths[index] ?? 0) : x, y: this.#y + row.size * 1.02 };
        if (words !== undefined) this.#add(textItem(words, at, { align: isRight ? 'end' : 'start', size: row.size, weight: row.weight, tone: tag === 'TH' ? 0.25 : 0, ...(table === undefined ? {} : { tag, group: { of: cells[index] ?? own, row: own, table } }) }));
        x += (row.widths[index] ?? 0) + cellGap;
      });
      this.#y += row.size * leading;
    }
    this.#y += rowPadding;
    this.#add({ kind: 'line', role: 'rule', name: '', path: segmentOf({ x: margin, y: this.#y }, { x: margin + this.width, y: this.#y }), pen: tag === 'TH' ? { ...pens.rule, width: 0.25 } : pens.hair });
  }

  /**
   * A picture of a height, drawn with its upper left corner at 0, 0.
   *
   * @param figure what it shows, in words, unless its parts say so themselves
   */
  picture(height: number, items: readonly Item[], figure?: string): void {
    this.need(Math.min(height, this.fullRoom));
    this.#add(groupItem('', items, { x: this.#format.margin, y: this.#y }, { figure }));
    this.#y += height;
  }

  /** The pages, each with what it is of and its number under it. */
  sheets(): readonly Sheet[] {
    const { width, height, margin } = this.#format;
    return this.#pages.map(({ items, part }, index): Sheet => {
      const right = `${index + 1}`;
      const at = height - margin;
      const room = this.width - widthOf(right, sizes.small, 'bold') - 6;
      return {
        kind: 'booklet', name: part === '' ? 'Title' : part, width, height,
        items: [
          ...items,
          textItem(cutTo(this.#footer, room, sizes.small), { x: margin, y: at }, { size: sizes.small, tone: 0.3 }),
          textItem(right, { x: width - margin, y: at }, { size: sizes.small, weight: 'bold', align: 'end' }),
        ],
      };
    });
  }
}

interface SetRow {
  readonly cells: readonly (readonly string[])[];
  readonly widths: readonly number[];
  readonly numeric: readonly boolean[];
  readonly size: number;
  readonly weight: Weight;
  readonly lines: number;
  readonly height: number;
}
