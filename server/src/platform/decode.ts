import { limits } from '../problems/limits.ts';
import type { Unread } from '../problems/unread.ts';

/** What a file holds; `undefined` where there is none at that path. */
export type ReadText = { readonly text: string } | { readonly unread: Unread | 'too long' };

/** The most bytes that a text within the limits can take: three for a UTF-16 code unit, and the mark before it. */
export const mostBytes = 3 * limits.textLength + 3;

/** The text that bytes stand for. A byte order mark is no part of it. */
export function decoded(bytes: Uint8Array): ReadText {
  // What other programs save as “Unicode” begins with one of these two marks.
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) return { unread: 'utf-16' };
  if (bytes.length > mostBytes) return { unread: 'too long' };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { unread: 'not utf-8' };
  }
}
