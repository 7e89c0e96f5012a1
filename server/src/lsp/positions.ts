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
  readonly #starts: readonly number[];

  constructor(text: string, encoding: Encoding) {
    this.text = text;
    this.#encoding = encoding;
    this.#starts = lineStarts(text);
  }

  get count(): number {
    return this.#starts.length;
  }

  /** A position beyond the end of its line is at that end; a line beyond the text is at the text's end. */
  offsetAt({ line, character }: LinePosition): number {
    if (line < 0) return 0;
    if (line >= this.#starts.length) return this.text.length;
    const start = this.#starts[line] ?? 0;
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
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#starts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    const start = this.#starts[low] ?? 0;
    if (this.#encoding === 'utf-16') return { line: low, character: at - start };
    let character = 0;
    for (let index = start; index < at; ) {
      const code = this.text.codePointAt(index) ?? 0;
      character += this.#encoding === 'utf-32' ? 1 : utf8Length(code);
      index += code > 0xffff ? 2 : 1;
    }
    return { line: low, character };
  }

  #endOf(line: number): number {
    const next = this.#starts[line + 1];
    if (next === undefined) return this.text.length;
    const before = next - 1;
    return this.text.charCodeAt(before) === 10 && this.text.charCodeAt(before - 1) === 13 && before > (this.#starts[line] ?? 0) ? before - 1 : before;
  }
}

function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === 10 || (code === 13 && text.charCodeAt(index + 1) !== 10)) starts.push(index + 1);
  }
  return starts;
}

const splitsPair = (text: string, offset: number): boolean =>
  (text.charCodeAt(offset) & 0xfc00) === 0xdc00 && (text.charCodeAt(offset - 1) & 0xfc00) === 0xd800;

const utf8Length = (code: number): number => (code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4);

/** A text without the mark of byte order that some editors put before it: it is no part of what is written. */
export const withoutMark = (text: string): string => (text.startsWith('\uFEFF') ? text.slice(1) : text);
