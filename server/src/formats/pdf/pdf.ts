import { zlibSync } from 'fflate';
import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';
import PDFDocument from './generated/pdfkit.js';
import { features, fontsByName, runsOf, widthOf } from '../../pages/letters/letters.ts';
import type { Pages } from '../../pages/pages.ts';
import { extentOf, outOf } from '../../pages/extent.ts';
import type { Box, GroupItem, Item, Sheet, TextItem } from '../../pages/sheet.ts';
import { visibleText } from '../escape.ts';
import { number, pathOperators, penOperators } from './content.ts';
import { metadataOf, subjectOf } from './metadata.ts';
import { packedEnd, type Plain } from './packed.ts';
import { Structure, type Element } from './structure.ts';

/** All that Piecewright says itself is English, whatever a pattern’s titles are. */
const language = 'en';

/** Points in a millimetre: a point is 1/72 in. */
const points = 72 / 25.4;

/** A reference to an object of the document. */
interface Reference {
  readonly id: number;
  readonly data: Record<string, unknown>;
  buffer: readonly Uint8Array[];
  finalize: () => void;
  write: (data: string | Uint8Array) => void;
  end: () => void;
}

interface PageParts {
  readonly fonts: Record<string, unknown>;
  readonly dictionary: Reference & { readonly data: { readonly Resources: { readonly data: Record<string, unknown> } } };
}

interface EmbeddedFont {
  readonly id: string;
  readonly ref: () => unknown;
  readonly encode: (text: string, features: object) => [readonly string[], readonly { readonly xAdvance: number; readonly advanceWidth: number }[]];
}

/** How the library writes. */
const plainly = PDFDocument.prototype as unknown as { readonly _write: (data: string | Uint8Array) => void };

/** What the library’s types leave out, and the bytes collected as they are written. */
class Document extends PDFDocument {
  declare chunks: Uint8Array[] | undefined;
  declare page: PDFKit.PDFPage & PageParts;
  declare _font: EmbeddedFont;
  declare _root: Reference;
  declare _id: Uint8Array;
  declare _info: Reference;
  declare _offset: number;
  declare _offsets: (number | null)[];
  /** Objects that are no streams: they are written together, packed. */
  declare plain: Plain[] | undefined;
  /** What is written of the plain object that is being ended. */
  declare caught: string[] | undefined;

  /** Streams are packed here and not by the library, which packs them another way in a browser than in Node. */
  override ref(data?: object): PDFKit.PDFKitReference {
    const made = super.ref(data ?? {});
    const reference = made as unknown as Reference;
    const finalize = reference.finalize.bind(reference);
    reference.finalize = (): void => {
      // What a document is must be found without unpacking anything.
      if (reference.buffer.length > 0 && reference.data['Filter'] === undefined && reference.data['Type'] !== 'Metadata') {
        reference.buffer = [zlibSync(joined(reference.buffer))];
        reference.data['Filter'] = 'FlateDecode';
      }
      if (reference.buffer.length === 0) this.caught = [];
      finalize();
      this.keepCaught(reference.id);
    };
    return made;
  }

  /** The library’s own metadata would be dated by the clock; ours is in the writer. */
  override endMetadata(): void {}

  _write(data: string | Uint8Array): void {
    if (this.caught !== undefined && typeof data === 'string') this.caught.push(data);
    else plainly._write.call(this, data);
  }

  /** The library writes `7 0 obj`, the object, and `endobj`. */
  keepCaught(id: number): void {
    if (this.caught !== undefined) (this.plain ??= []).push({ id, text: this.caught.slice(1, -1).join('\n') });
    this.caught = undefined;
  }

  /** Called as soon as the last object is ended. */
  _finalize(): void {
    // That may be a plain one.
    if (this.caught !== undefined) this.keepCaught(Number.parseInt(this.caught[0] ?? '', 10));
    this.push(packedEnd(this.plain ?? [], this._offsets, this._offset, { root: this._root.id, info: this._info.id, id: this._id }));
  }

  override push(chunk: Uint8Array | null): boolean {
    if (chunk !== null) (this.chunks ??= []).push(chunk);
    return true;
  }
}

/** A booklet as a PDF file. The same pages give the same bytes: it holds no date and nothing of chance. */
export function toPdf(pages: Pages): Uint8Array {
  const document = new Document({
    autoFirstPage: false, compress: false, font: null as unknown as string, margin: 0, pdfVersion: '1.7', lang: language, displayTitle: true,
    info: { Title: visibleText(pages.title), Subject: subjectOf(pages.revision, pages.digest), Creator: 'Piecewright', Producer: 'Piecewright' },
  });
  // The library dates a document by the clock, and takes its ID from that.
  delete (document.info as Partial<typeof document.info>).CreationDate;
  document._id = sha256(utf8ToBytes(JSON.stringify([pages.title, pages.revision, pages.digest, pages.sheets.length]))).slice(0, 16);
  const writer = new Writer(document, pages.layers);
  pages.sheets.forEach((sheet) => writer.sheet(sheet));
  writer.finish(pages);
  document.end();
  return joined(document.chunks ?? []);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}

class Writer {
  readonly #document: Document;
  readonly #layers: ReadonlyMap<string, { readonly name: string; readonly group: Reference }>;
  readonly #fonts = new Map<string, EmbeddedFont>();
  /** Words as they are written in each font. */
  readonly #words = new Map<string, Map<string, string>>();
  readonly #structure: Structure;
  #out: string[] = [];
  /** What lines, fills, and words that only repeat or point are being written as: nothing that is read, or a picture. */
  #open: 'artifact' | Element | undefined;
  /** The picture that is being written. */
  #figure: Element | undefined;
  #isBooklet = false;
  #height = 0;
  /** The groups that what is written stands in, innermost first. */
  #groups: readonly GroupItem[] = [];

  constructor(document: Document, layers: readonly string[]) {
    this.#document = document;
    this.#layers = new Map(layers.map((layer, index) => [layer, { name: `L${index + 1}`, group: document.ref({ Type: 'OCG', Name: new String(visibleText(`Size ${layer}`)) }) as unknown as Reference }]));
    this.#structure = new Structure((data) => document.ref(data) as unknown as Reference);
    for (const [name, font] of fontsByName()) document.registerFont(name, font as unknown as string);
  }

  sheet({ kind, name, width, height, items }: Sheet): void {
    this.#document.addPage({ size: [width * points, height * points], margin: 0 });
    this.#isBooklet = kind === 'booklet';
    this.#height = height;
    this.#structure.page(this.#document.page.dictionary, this.#isBooklet ? undefined : name);
    // From here on a unit is a millimetre, y downwards; line ends and corners are round.
    this.#out = [`q ${(points).toFixed(8)} 0 0 ${(points).toFixed(8)} 0 0 cm 1 J 1 j`];
    for (const item of items) this.#item(item);
    this.#drawing(false);
    this.#document.addContent([...this.#out, 'Q'].join('\n'));
    if (this.#layers.size > 0) this.#document.page.dictionary.data.Resources.data['Properties'] = Object.fromEntries([...this.#layers.values()].map(({ name, group }) => [name, group]));
  }

  #item(item: Item): void {
    const out = this.#out;
    switch (item.kind) {
      case 'line':
        this.#drawing(true);
        out.push(penOperators(item.pen), pathOperators(item.path), 'S');
        return;
      case 'fill':
        this.#drawing(true);
        out.push(`${number(item.tone)} g`, pathOperators(item.path), 'f*');
        return;
      case 'text':
        this.#text(item);
        return;
      case 'group': {
        const layer = item.layer === undefined ? undefined : this.#layers.get(item.layer);
        const around = this.#figure;
        if (item.figure !== undefined) this.#figure = this.#structure.figure(item.figure, this.#onPage(extentOf([item])));
        if (layer !== undefined) {
          this.#drawing(false);
          out.push(`/OC /${layer.name} BDC`);
        }
        out.push('q');
        if (item.window !== undefined) out.push(`${[item.window.x, item.window.y, item.window.width, item.window.height].map(number).join(' ')} re W n`);
        // Turned a quarter to the left: what ran right runs up.
        out.push(`${item.turned ? '0 -1 1 0' : '1 0 0 1'} ${number(item.shift.x)} ${number(item.shift.y)} cm`);
        const outer = this.#groups;
        this.#groups = [item, ...outer];
        for (const one of item.items) this.#item(one);
        this.#groups = outer;
        if (layer !== undefined) this.#drawing(false);
        out.push('Q');
        if (layer !== undefined) out.push('EMC');
        this.#figure = around;
      }
    }
  }

  /** A box within the groups that are open, as a rectangle of the page: points, y upwards (ISO 32000-1, 7.9.5). */
  #onPage(inner: Box | undefined): readonly number[] | undefined {
    const box = this.#groups.reduce<Box | undefined>((one, group) => one && outOf(one, group), inner);
    return box && [box.x, this.#height - box.y - box.height, box.x + box.width, this.#height - box.y].map((value) => Math.round(value * points * 100) / 100);
  }

  /** Begins or ends what is no text of the document. */
  #drawing(is: boolean): void {
    const next = is ? this.#figure ?? 'artifact' : undefined;
    if (next === this.#open) return;
    if (this.#open !== undefined) this.#out.push('EMC');
    if (next !== undefined) this.#out.push(next === 'artifact' ? '/Artifact BMC' : this.#structure.content(next));
    this.#open = next;
  }

  #text(item: TextItem): void {
    const { words, at, align, size, weight, tone, turn } = item;
    if (words === '') {
      if (item.group?.table !== undefined) this.#structure.empty(item);
      return;
    }
    // In the booklet all that is read has a tag; on a template everything that is written is read.
    const isRead = item.tag !== undefined || !this.#isBooklet;
    this.#drawing(!isRead);
    if (isRead) this.#out.push(this.#structure.begin(item, this.#figure));
    const width = align === 'start' ? 0 : widthOf(words, size, weight);
    const back = align === 'middle' ? width / 2 : align === 'end' ? width : 0;
    const radians = (turn * Math.PI) / 180;
    const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
    // Letters stand upright though y runs downwards.
    this.#out.push(`BT ${number(tone)} g ${[cos, sin, sin, -cos, at.x - back * cos, at.y - back * sin].map(number).join(' ')} Tm`);
    for (const run of runsOf(words, weight)) {
      const font = this.#font(run.face);
      const words = this.#words.get(run.face) ?? new Map<string, string>();
      this.#words.set(run.face, words);
      this.#out.push(`/${font.id} ${number(size)} Tf ${shown(font, words, run.text)}`);
    }
    this.#out.push('ET');
    if (isRead) this.#out.push('EMC');
  }

  #font(face: string): EmbeddedFont {
    let font = this.#fonts.get(face);
    if (font === undefined) {
      this.#document.font(face);
      this.#fonts.set(face, (font = this.#document._font));
    }
    const { fonts } = this.#document.page as PageParts;
    fonts[font.id] ??= font.ref();
    return font;
  }

  finish(pages: Pages): void {
    const { outline } = pages;
    const { _root: root, outline: top } = this.#document as Document & { outline: { addItem: (title: string, options?: object) => unknown } };
    for (const { title, sheet } of outline) top.addItem(visibleText(title), { pageNumber: sheet, expanded: false });
    const metadata = this.#document.ref({ Type: 'Metadata', Subtype: 'XML' }) as unknown as Reference;
    metadata.write(utf8ToBytes(metadataOf(pages, language)));
    metadata.end();
    const marks = this.#document.ref({ Marked: true }) as unknown as Reference;
    // The library ends both of these with the document.
    Object.assign(root.data, { Metadata: metadata, MarkInfo: marks, StructTreeRoot: this.#structure.finish() });
    if (this.#layers.size === 0) return;
    const groups = [...this.#layers.values()].map(({ group }) => group);
    root.data['OCProperties'] = { OCGs: groups, D: { Name: new String('Sizes'), Order: groups, ON: groups } };
    for (const group of groups) group.end();
  }
}

/** Word by word, so that widths are the very ones that lines were broken by; the same words come over and over. */
function shown(font: EmbeddedFont, words: Map<string, string>, text: string): string {
  const parts = text.split(/( )/).filter((word) => word !== '').map((word) => {
    let known = words.get(word);
    if (known === undefined) words.set(word, (known = encoded(font, word)));
    return known;
  });
  return `[${parts.join('').replaceAll('><', '')}] TJ`;
}

function encoded(font: EmbeddedFont, word: string): string {
  const [glyphs, positions] = font.encode(word, features);
  return glyphs.map((glyph, index) => {
    const position = positions[index];
    const by = position === undefined ? 0 : position.advanceWidth - position.xAdvance;
    return `<${glyph}>${by === 0 ? '' : number(by)}`;
  }).join('');
}
