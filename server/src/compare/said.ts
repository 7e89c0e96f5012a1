import type { Note } from '../model/notes.ts';
import type { Resolved } from '../model/pattern.ts';
import { noteTexts } from '../table/said-text.ts';
import type { Display } from '../units/length.ts';
import { bothUnits } from './lengths.ts';

/** A text as whoever reads a page sees it: how wide the gaps between its words are written makes no difference. */
export const closedUp = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** Notes as they are told in a comparison. */
export const notesIn = (notes: readonly Note[], resolved: Resolved, display: Display): readonly string[] => noteTexts(notes, resolved, bothUnits(display)).map(closedUp);

/** Whether one text is the other put otherwise: at least half of the words of the longer one are in both. */
export function isPutOtherwise(was: string, now: string): boolean {
  const [before, after] = [was, now].map((text) => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu)));
  if (before === undefined || after === undefined) return false;
  return 2 * [...before].filter((word) => after.has(word)).length >= Math.max(before.size, after.size, 1);
}
