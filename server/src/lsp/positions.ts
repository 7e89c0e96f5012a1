import { TextDocument } from 'vscode-languageserver-textdocument';

/** How a client counts the characters of a line: in UTF-16 code units, in bytes of UTF-8, or in code points. */
export type Encoding = 'utf-16' | 'utf-8' | 'utf-32';

export interface LinePosition {
  readonly line: number;
  readonly character: number;
}

/** The encoding to use with a client that offers some: UTF-16 if it can be, since that is how texts are held here. */
export function chooseEncoding(offered: readonly string[] | undefined): Encoding {
  if (offered === undefined || offered.includes('utf-16')) return 'utf-16';
  return (['utf-8', 'utf-32'] as const).find((one) => offered.includes(one)) ?? 'utf-16';
}

/** The lines of one text: from UTF-16 offsets to a client's positions and back. */
export class Lines {
  readonly text: string;
  readonly #encoding: Encoding;
  readonly #document: TextDocument;

  constructor(text: string, encoding: Encoding) {
    this.text = text;
    this.#encoding = encoding;
    this.#document = TextDocument.create('', 'piecewright', 0, text);
  }

  get count(): number {
    return this.#document.lineCount;
  }

  /** A position beyond the end of its line is at that end; a line beyond the text is at the text's end. */
  offsetAt({ line, character }: LinePosition): number {
    if (line < 0) return 0;
    if (line >= this.count) return this.text.length;
    const start = this.#startOf(line);
    const end = this.#endOf(line);
    if (this.#encoding === 'utf-16') {
      const offset = Math.min(start + Math.max(0, character), end);
      return splitsPair(this.text, offset) ? offset - 1 : offset;
    }
    let left = character;
    let offset = start;
    while (offset < end && left > 0) {
      const code = this.text.codePointAt(offset) ?? 0;
      left -= this.#encoding === 'utf-32' ? 1 : utf8Length(code);
      if (left < 0) break;
      offset += code > 0xffff ? 2 : 1;
    }
    return offset;
  }

  positionAt(offset: number): LinePosition {
    const at = Math.min(Math.max(0, offset), this.text.length);
    const { line } = this.#document.positionAt(at);
    const start = this.#startOf(line);
    if (this.#encoding === 'utf-16') return { line, character: at - start };
    let character = 0;
    for (let index = start; index < at; ) {
      const code = this.text.codePointAt(index) ?? 0;
      character += this.#encoding === 'utf-32' ? 1 : utf8Length(code);
      index += code > 0xffff ? 2 : 1;
    }
    return { line, character };
  }

  #startOf(line: number): number {
    return this.#document.offsetAt({ line, character: 0 });
  }

  #endOf(line: number): number {
    if (line + 1 >= this.count) return this.text.length;
    const next = this.#startOf(line + 1);
    const before = next - 1;
    return this.text.charCodeAt(before) === 10 && this.text.charCodeAt(before - 1) === 13 && before > this.#startOf(line) ? before - 1 : before;
  }
}

const splitsPair = (text: string, offset: number): boolean =>
  (text.charCodeAt(offset) & 0xfc00) === 0xdc00 && (text.charCodeAt(offset - 1) & 0xfc00) === 0xd800;

const utf8Length = (code: number): number => (code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4);

/** A text without the mark of byte order that some editors put before it: it is no part of what is written. */
export const withoutMark = (text: string): string => (text.startsWith('\uFEFF') ? text.slice(1) : text);
