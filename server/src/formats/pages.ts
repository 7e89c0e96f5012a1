import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import type { PageOptions } from '../pages/options.ts';
import { pagesOf } from '../pages/pages.ts';
import { toPdf } from './pdf/pdf.ts';

export const pageFormats = ['pdf', 'projector'] as const;
export type PageFormat = (typeof pageFormats)[number];

/** What is to be handed over: a pattern in one combination. */
export interface Order {
  readonly pattern: Pattern;
  readonly combination: Combination;
  readonly options: PageOptions;
}

export interface HandedOver {
  readonly content: Uint8Array;
  /** Sentences for whoever asked: letters that can’t be set and the like. */
  readonly notes: readonly string[];
}

/** A pattern as one file. */
export function handOver({ pattern, combination, options }: Order, format: PageFormat): HandedOver {
  switch (format) {
    case 'pdf':
    case 'projector': {
      const pages = pagesOf(pattern, combination, options);
      return { content: toPdf(pages), notes: [] };
    }
  }
}

/** Every template as a file of its own, named after the pattern. */
export function pageFiles(_order: Order, _name: string): readonly { readonly path: string; readonly content: string }[] {
  return [];
}

/** Names that Windows keeps for itself. */
const reserved = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;
/** Bytes of UTF-8: a file’s name may have 255, and more is added to it. */
const longestName = 100;

/** A text as a part of a file’s name, safe on every file system: letters, digits, `-` and `_`, never empty or too long. */
export function fileName(text: string): string {
  const plain = text.normalize('NFC').replace(/[^\p{L}\p{N}\p{M}_-]+/gu, '-').replace(/^-+|-+$/g, '');
  let cut = '';
  let bytes = 0;
  for (const letter of plain) {
    bytes += new TextEncoder().encode(letter).length;
    if (bytes > longestName) break;
    cut += letter;
  }
  return cut === '' ? 'pattern' : reserved.test(cut) ? `${cut}-` : cut;
}
