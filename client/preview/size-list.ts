import type { PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { placeOfCard, type Card } from './cards.ts';
import { element, KeyedList, setText } from './dom.ts';
import { cutWords, finishedWords, isFinishedAsCut, sizeWords } from './size-words.ts';
import { setTarget } from './targets.ts';

/** A piece with its number, which is its place in the text: that is the same whatever size an edit gives it or another. */
interface Numbered {
  readonly card: Card;
  readonly piece: PreviewPiece;
  readonly number: number;
}

/** Pieces with their numbers, the largest by area first; of two as large, the one that comes first in the text. */
export function bySize(cards: readonly Card[]): readonly Numbered[] {
  return cards.flatMap((card) => (card.piece === undefined ? [] : [{ card, piece: card.piece }]))
    .map((one, index) => ({ ...one, number: index + 1 }))
    .sort((one, other) => other.piece.area - one.piece.area);
}

/** The largest pieces by area, in the order of the text. */
function largestOf(pieces: readonly PreviewPiece[]): readonly PreviewPiece[] {
  const most = Math.max(...pieces.map(({ area }) => area));
  return pieces.filter(({ area }) => area === most);
}

/** The piece that {@link largestWords} names first. */
export const largestAmong = (cards: readonly Card[]): Card | undefined => {
  const [first] = largestOf(cards.flatMap(({ piece }) => (piece === undefined ? [] : [piece])));
  return first && cards.find(({ piece }) => piece === first);
};

/** So many pieces that are as large are named. */
const mostLargest = 3;

/** What is said where the cursor is on nothing that is drawn: `Largest piece by area: Wrap, finished 15 in × 6 1/2 in`. */
export function largestWords(pieces: readonly PreviewPiece[]): string {
  const [first, ...others] = largestOf(pieces);
  if (first === undefined) return '';
  const size = finishedWords(first);
  if (pieces.length === 1) return `One piece: ${first.title}, ${size}`;
  const asLarge = others.filter((other) => finishedWords(other) === size);
  if (asLarge.length === 0) return `Largest piece by area: ${first.title}, ${size}`;
  const titles = [first, ...asLarge].map(({ title }) => title);
  // That there is one more takes as long to say as which.
  const few = titles.length <= mostLargest + 1 ? titles : [...titles.slice(0, mostLargest), `${titles.length - mostLargest} more`];
  return `Largest pieces by area: ${few.slice(0, -1).join(', ')} and ${few.at(-1) ?? ''}, each ${size}`;
}

/** Below a heading that says that sizes are finished ones. */
const listedWords = (piece: PreviewPiece): string => `${sizeWords(piece.finished)}${isFinishedAsCut(piece) ? ', as cut' : ''}${piece.folded === null ? '' : `, folded ${piece.folded}`}`;

/** All pieces by size beside the board, each with its number there, which stands on pieces too small for their names. */
export class SizeList {
  readonly element: HTMLElement;
  readonly #list = element('ol', { class: 'size-list' });
  readonly #entries = new KeyedList<Numbered>(this.#list, {
    key: ({ card }) => card.name,
    look: ({ card: { title }, piece, number }) => [title, listedWords(piece), cutWords(piece), number],
    render: (live) => {
      const { card, piece, number } = live.value;
      const button = setTarget(element('button', { type: 'button', class: 'link', 'data-control': 'title' }, element('span', { class: 'numeral' }, String(number)), ` ${card.title}`), { piece: card.name, place: () => placeOfCard(live.value.card) });
      return element('li', { class: 'sized-piece', 'data-piece': card.name }, button, element('span', {}, listedWords(piece)), element('span', { class: 'muted' }, cutWords(piece)));
    },
  });
  #all: readonly Numbered[] = [];

  constructor() {
    const head = element('h2', {});
    setText(head, 'Finished sizes, the largest area first');
    this.element = element('aside', { class: 'sizes', hidden: true, 'aria-label': 'Pieces by size' }, head, this.#list);
  }

  open(on: boolean): void {
    this.element.hidden = !on;
    this.#fill();
  }

  update(all: readonly Numbered[]): void {
    this.#all = all;
    this.#fill();
  }

  #fill(): void {
    if (!this.element.hidden) this.#entries.update(this.#all);
  }
}
