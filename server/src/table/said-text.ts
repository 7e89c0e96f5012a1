import { showValue } from '../model/formulas/value.ts';
import { isPlain, type Note, type Said } from '../model/notes.ts';
import type { Resolved } from '../model/pattern.ts';
import type { Display } from '../units/length.ts';
import { figure } from './figures.ts';

/** A text with its measures: a length as every table shows it; other kinds as they are. */
export const saidText = (said: Said, display: Display): string => said.map((part) => {
  if (typeof part === 'string') return part;
  return part.dimension === 'length' ? figure(part.exact ? part.amount : part.amount.valueOf(), display) : showValue(part, display);
}).join('');

/** Notes as they are told in a combination. */
export const noteTexts = (notes: readonly Note[], { said }: Pick<Resolved, 'said'>, display: Display): readonly string[] =>
  notes.map((note) => (isPlain(note.sentence) ? note.sentence.parts.join('') : saidText(said(note), display)));
