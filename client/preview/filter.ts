import type { Card } from './cards.ts';
import { element, setText } from './dom.ts';

/** So few pieces are seen at a glance. */
const few = 8;

/** A box that leaves only the pieces whose name, title or materials have all of its words. */
export interface PieceFilter {
  readonly element: HTMLElement;
  readonly isAskedFor: (card: Card) => boolean;
  /** Says how many of the pieces are asked for; the box is only there where there are many. */
  readonly update: (cards: readonly Card[]) => void;
}

export interface FilterLinks {
  readonly changed: () => void;
  /** What is left is to be seen as large as it can be. */
  readonly entered: () => void;
}

export function pieceFilter({ changed, entered }: FilterLinks): PieceFilter {
  const box = element('input', { type: 'search', 'aria-label': 'Show only pieces with these words', placeholder: 'Find by name or material' });
  const count = element('span', { class: 'muted', 'aria-live': 'polite' });
  const row = element('div', { class: 'filter', hidden: true }, box, count);
  const isAskedFor = (card: Card): boolean => hasWords(card, box.value);
  box.addEventListener('input', changed);
  box.addEventListener('keydown', ({ key }) => {
    if (key === 'Enter') entered();
  });
  return {
    element: row,
    isAskedFor,
    update: (cards) => {
      row.hidden = cards.length <= few && box.value === '';
      setText(count, box.value.trim() === '' ? `${cards.length} pieces` : `${cards.filter(isAskedFor).length} of ${cards.length} pieces`);
    },
  };
}

function hasWords({ name, title, piece }: Card, asked: string): boolean {
  if (asked === '') return true;
  const text = [name, title, ...(piece?.cuts ?? []).map((cut) => cut.replace(/^\d+ × /, ''))].join(' ').toLowerCase();
  return asked.toLowerCase().split(/\s+/).every((word) => text.includes(word));
}
