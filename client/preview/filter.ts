import type { Card } from './cards.ts';
import { element, setText } from './dom.ts';

/** So few pieces are seen at a glance. */
const few = 8;

export interface PieceFilter {
  readonly element: HTMLElement;
  /** Hides the cards that are not asked for. */
  readonly apply: (cards: readonly { readonly element: Element; readonly item: Card }[]) => void;
}

/** A box that leaves only the pieces whose name, title or materials have all of its words. */
export function pieceFilter(changed: () => void): PieceFilter {
  const box = element('input', { type: 'search', 'aria-label': 'Show only pieces with these words', placeholder: 'Name or material' });
  const count = element('span', { class: 'muted', 'aria-live': 'polite' });
  const row = element('div', { class: 'filter', hidden: true }, box, count);
  box.addEventListener('input', changed);
  return {
    element: row,
    apply: (cards) => {
      row.hidden = cards.length <= few && box.value === '';
      let shown = 0;
      for (const { element: card, item } of cards) {
        const isAsked = isAskedFor(item, box.value);
        if (isAsked) shown++;
        card.toggleAttribute('hidden', !isAsked);
      }
      setText(count, box.value.trim() === '' ? `${cards.length} pieces` : `${shown} of ${cards.length} pieces`);
    },
  };
}

function isAskedFor({ name, title, piece }: Card, asked: string): boolean {
  const text = [name, title, ...(piece?.cuts ?? []).map((cut) => cut.replace(/^\d+ × /, ''))].join(' ').toLowerCase();
  return asked.toLowerCase().split(/\s+/).every((word) => text.includes(word));
}
