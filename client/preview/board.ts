import { arrangeBoard, boardBox, rememberSpots, sameSpots, type BoardPiece, type Spots } from '../../server/src/preview/board.ts';
import type { PieceDrawing, PreviewData, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { wordWidths } from './board-names.ts';
import { BoardHandles } from './board-handles.ts';
import { isTiny, nameWhereRoom, renderPiece, showGhost, showNested, type Sight } from './board-piece.ts';
import { drawnWhenSeen, look, type Card } from './cards.ts';
import { element, KeyedList, setAttributes, setProperty, setStyle, setText } from './dom.ts';
import type { SavedState } from './editor.ts';
import { showFailing, type Failing } from './failing.ts';
import { Focus, type Focused } from './focus.ts';
import type { AskMove } from './handles.ts';
import type { HandleMessage } from './messages.ts';
import { hatching } from './hatching.ts';
import { foldedLegend, legend } from './legend.ts';
import { elsewhere, nestedUnder, nestingControl, type NestedUnder } from './nested.ts';
import { overview } from './overview.ts';
import { arrangeLabels } from './piece-labels.ts';
import { scaledField } from './scale-tools.ts';
import type { Ghost } from './since.ts';
import { bySize, SizeList } from './size-list.ts';
import { boardPadding, fitBox, type Zoom } from './zoom.ts';

export interface BoardLinks {
  /** Whether the piece that is meant is shown large beside the board. */
  readonly focused: (on: boolean) => void;
  readonly scaled: (scale: number | 'fit') => void;
  readonly moved: (spots: SavedState['spots']) => void;
  readonly ask: AskMove;
  /** Whether the list of sizes is there, and the legend. */
  readonly listed: (on: boolean) => void;
  readonly explained: (on: boolean) => void;
  /** Whose other options are to be drawn. */
  readonly besides: (choice: string | null) => void;
}

const fieldWords = 'Board; the wheel changes the scale, dragging and arrow keys move, plus and minus change the scale, 0 and a double click fit all pieces in';

/** A length of the drawing as it is on screen. */
const onScale = (length: number): string => `calc(${length} * var(--scale) * 1px)`;

/** All pieces on one plane at one scale. */
export class Board {
  readonly parts: readonly Element[];
  readonly field: HTMLElement;
  readonly #list = element('ul', { class: 'board', 'aria-label': 'Pieces on the board' });
  readonly #focus: Focus;
  readonly #over = element('div', {});
  readonly #elsewhere = element('p', { class: 'muted', hidden: true });
  readonly #nesting: ReturnType<typeof nestingControl>;
  readonly #missing = element('p', { class: 'muted', hidden: true });
  readonly #fills = hatching();
  readonly #kinds = legend();
  readonly #sizes = new SizeList();
  readonly #handles: BoardHandles;
  /** The piece that the cursor is in, and what its handles come from. */
  #meant: { readonly card: Card | undefined; readonly shown: Focused } | undefined;
  readonly #words = wordWidths();
  readonly #map: ReturnType<typeof overview>;
  readonly #pieces: KeyedList<Card>;
  readonly #zoom: Zoom;
  readonly #showScale: () => void;
  readonly #row: HTMLElement;
  /** Where each element stands, and its number: asking the element itself takes longer. */
  readonly #placed = new WeakMap<Element, { readonly x: number; readonly y: number }>();
  readonly #numbered = new WeakMap<Element, number>();
  readonly #lookAgain: () => void;
  readonly #drawAll: () => void;
  readonly #moved: BoardLinks['moved'];
  #spots: Spots;
  /** Where they lie, as it was last told. */
  #told: Spots = new Map();
  #shown: readonly BoardPiece[] = [];
  #hasScale: boolean;
  /** Whether what a check has measured is drawn on a piece. */
  #hasFailing = false;
  /** Whose other options are drawn under what is shown. */
  #nested: string | undefined;
  #isAskedFor: (card: Card) => boolean = () => true;
  /** How large the board's field is on screen, pixels. */
  #frame = { width: 0, height: 0 };
  /** The box round all pieces in their places. */
  #box = { x: 0, y: 0, width: 0, height: 0 };
  /** How wide a board would be in the middle of its field where this one stands, millimetres. */
  #stood: number | undefined;
  /** What is fitted in, within the board. */
  #fitted = { x: 0, y: 0, width: 0, height: 0 };

  constructor({ boardScale: start, spots: kept, focus, sizes, legend: explains }: Pick<SavedState, 'boardScale' | 'spots' | 'focus' | 'sizes' | 'legend'>, { focused, scaled, moved, ask, besides, listed, explained }: BoardLinks) {
    this.#focus = new Focus(ask, this.#fills);
    this.#handles = new BoardHandles(ask);
    this.#hasScale = start !== 'fit';
    this.#nesting = nestingControl(besides);
    this.#moved = moved;
    this.#spots = new Map(Object.entries(kept).map(([name, [x, y]]) => [name, { x, y }]));
    this.field = element('div', { class: 'field plane', tabindex: 0, role: 'region', 'aria-label': fieldWords }, this.#list);
    this.#map = overview(this.field);
    const { zoom, row, show } = scaledField(this.field, start, { fitting: fitBox(() => this.#fitted), isMap: true, whole: 'Fit all pieces in' }, (scale) => {
      this.#hasScale = true;
      if (scale === 'fit') this.#stand(this.#box.width);
      this.#settle();
      if (scale === 'fit') this.#centre();
      scaled(scale);
    });
    this.#zoom = zoom;
    this.#showScale = show;
    const { whenSeen, lookAgain, drawAll } = drawnWhenSeen(this.field, zoom.scale, (card, scale) => !isTiny(card, scale));
    this.#lookAgain = lookAgain;
    this.#drawAll = drawAll;
    this.#pieces = new KeyedList<Card>(this.#list, {
      key: ({ name }) => name,
      look: (card) => [look(card), card.piece?.materials, card.piece?.count, card.piece?.onFold],
      render: (live) => renderPiece(live, { whenSeen, fills: this.#fills, widthOf: this.#words.widthOf }),
    });
    // Asked while it is changed, the page would be laid out for that.
    new ResizeObserver(() => this.#readFrame()).observe(this.field);
    this.field.addEventListener('dblclick', () => this.fit());
    this.#row = row;
    const folded = foldedLegend('legend', explains, [this.#fills.legend, this.#kinds.element], (on) => {
      explained(on);
      this.seen();
    });
    row.append(
      this.#arrangeButton(),
      this.#panelButton('Focus', 'Show the piece that is meant large beside the board, with a ruler', focus, (on) => this.#focus.open(on), focused),
      this.#panelButton('Sizes', 'List all pieces by size beside the board', sizes, (on) => this.#sizes.open(on), listed),
      folded.button, this.#nesting.element,
    );
    this.parts = [element('div', { class: 'plane-frame' }, element('div', { class: 'plane-place' }, this.field, this.#map.element, this.#over), this.#sizes.element, this.#focus.element), element('div', { class: 'foot' }, folded.element, this.#missing, this.#elsewhere, row), this.#fills.element];
  }

  /** Not before all pieces are fitted in for the first time, which {@link seen} does once what stands round the board is there too. */
  get hasScale(): boolean {
    return this.#hasScale;
  }

  /** Puts one more tool below the board. */
  addTool(tool: HTMLElement): void {
    this.#row.append(tool);
  }

  update(cards: readonly Card[], data: PreviewData): void {
    // What stands above the board has come with what it is filled with; and the observer tells of a board that comes into sight only later.
    if (this.#shown.length === 0 || this.#frame.width === 0) this.#readFrame();
    this.#fills.update(data.buying.materials);
    this.#kinds.update(data.pieces);
    const drawn = cards.filter(({ piece }) => piece !== undefined);
    this.#handles.lift();
    this.#pieces.update(drawn);
    this.#shown = drawn.flatMap(({ piece }) => (piece === undefined ? [] : [boardPiece(piece, nestedUnder(data.nested, piece.name))]));
    const sizes = bySize(drawn);
    this.#sizes.update(sizes);
    for (const { card, number } of sizes) {
      const made = this.#pieces.get(card.name);
      if (made === undefined || this.#numbered.get(made) === number) continue;
      this.#numbered.set(made, number);
      made.setAttribute('data-number', String(number));
    }
    this.#arrange(this.#spots);
    if (this.#hasScale) this.#settle();
    this.#missing.hidden = drawn.length === cards.length;
    setText(this.#missing, `Not drawn yet: ${cards.filter(({ piece }) => piece === undefined).map(({ title }) => title).join(', ')}`);
    this.#showScale();
    const before = this.#nested;
    this.#nest(data);
    if (before !== this.#nested) this.seen();
  }

  /** What is otherwise in other options. */
  #nest({ nested, choices }: PreviewData): void {
    this.#nested = nested?.choice;
    this.#nesting.update(choices, nested?.choice ?? null);
    for (const { element: made, item } of this.#pieces.all()) showNested(made, nestedUnder(nested, item.name));
    setText(this.#elsewhere, elsewhere(nested));
    this.#elsewhere.hidden = this.#elsewhere.textContent === '';
  }

  /**
   * Which piece is shown by itself, and which is meant: that has handles on the board, unless it has them there.
   *
   * @param meant undefined where none is
   */
  focusOn(card: Card | undefined, meant: Card | undefined, shown: Focused): void {
    this.#focus.show(card, shown);
    this.#meant = { card: meant, shown };
    this.#showHandles();
  }

  /** The piece whose handles are wanted. */
  get handled(): string | null {
    const card = this.#meant?.card;
    return this.#focus.element.hidden ? (card?.piece === undefined ? null : card.name) : this.#focus.handled;
  }

  /** What moving a handle comes to. */
  told(message: HandleMessage): void {
    if (this.#focus.element.hidden) this.#handles.told(message);
    else this.#focus.told(message);
  }

  #showHandles(): void {
    if (this.#meant === undefined) return;
    const { card, shown } = this.#meant;
    const isHere = this.#focus.element.hidden && card !== undefined;
    this.#handles.show(isHere ? this.#pieces.get(card.name) : undefined, card, shown.handles, this.#zoom.scale());
  }

  /** Draws on the pieces what a check that fails has measured there. */
  showFailing(failing: ReadonlyMap<string, readonly Failing[]>): void {
    const { x: left, width } = this.#box;
    if (failing.size === 0 && !this.#hasFailing) return;
    this.#hasFailing = failing.size > 0;
    for (const { element: made, item } of this.#pieces.all()) {
      const here = failing.get(item.name) ?? [];
      const middle = (this.#spots.get(item.name)?.x ?? left) + (item.piece?.drawing.box.width ?? 0) / 2;
      if (here.length > 0 || made.classList.contains('failing')) showFailing(made, here, middle > left + width / 2 ? 'left' : 'right');
    }
  }

  /** Lays something over the board, so that nothing moves for it. */
  lay(over: Element | undefined): void {
    this.#over.replaceChildren(...(over === undefined ? [] : [over]));
  }

  /** Has the other pieces stand back. */
  filter(isAskedFor: (card: Card) => boolean): void {
    this.#isAskedFor = isAskedFor;
    this.#standBack();
  }

  /** Shows what is otherwise than it was saved. */
  showGhosts(ghosts: ReadonlyMap<string, Ghost>): void {
    for (const { element: made, item } of this.#pieces.all()) showGhost(made, ghosts.get(item.name));
  }

  /** Fits in the pieces that are asked for. */
  fit(): void {
    this.#readFrame();
    this.#zoom.set('fit');
  }

  /** Fits the board to a printed page, with all its lines, until it is back on screen. */
  print(): void {
    this.#zoom.print(this.#box);
    this.#drawAll();
    this.#settle();
  }

  back(): void {
    this.#zoom.back();
    this.#settle();
  }

  /** The same, if they are to be; called when the view is seen, and when its size is another. */
  seen(): void {
    if (this.#shown.length > 0 && this.#zoom.isFit()) this.fit();
  }

  #arrangeButton(): HTMLElement {
    const made = element('button', { type: 'button', class: 'tool wide', title: 'Arrange all pieces anew' }, 'Arrange');
    made.addEventListener('click', () => {
      this.#readFrame();
      // The editor may write in other letters by now.
      this.#words.forget();
      this.#arrange(new Map());
      this.fit();
    });
    return made;
  }

  /** Opens and closes what stands beside the board. */
  #panelButton(words: string, title: string, on: boolean, open: (on: boolean) => void, opened: (on: boolean) => void): HTMLElement {
    const made = element('button', { type: 'button', class: 'tool wide', 'aria-pressed': String(on), title }, words);
    open(on);
    made.addEventListener('click', () => {
      const next = made.getAttribute('aria-pressed') !== 'true';
      open(next);
      setAttributes(made, { 'aria-pressed': String(next) });
      opened(next);
      this.seen();
    });
    return made;
  }

  #readFrame(): void {
    this.#frame = { width: this.field.clientWidth, height: this.field.clientHeight };
  }

  #arrange(before: Spots): void {
    const ratio = this.#frame.height > 0 ? this.#frame.width / this.#frame.height : usualRatio;
    this.#spots = rememberSpots(before, arrangeBoard(this.#shown, before, ratio));
    const box = (this.#box = boardBox(this.#shown, this.#spots));
    // No properties of its own making: all pieces would inherit them, and be styled anew.
    setStyle(this.#list, 'width', onScale(box.width));
    setStyle(this.#list, 'height', onScale(box.height));
    this.#stand(this.#widthNeeded());
    for (const { element: made, item } of this.#pieces.all()) {
      const spot = this.#spots.get(item.name);
      if (spot === undefined || !(made instanceof HTMLElement)) continue;
      const [x, y] = [spot.x - box.x, spot.y - box.y];
      const before = this.#placed.get(made);
      if (before?.x === x && before.y === y) continue;
      this.#placed.set(made, { x, y });
      setProperty(made, '--x', x);
      setProperty(made, '--y', y);
    }
    this.#map.update(this.#shown.map((piece) => ({ ...piece, ...(this.#spots.get(piece.name) ?? box) })), box);
    if (!sameSpots(this.#told, this.#spots)) {
      this.#told = this.#spots;
      this.#moved(Object.fromEntries([...this.#spots].map(([name, { x, y }]) => [name, [x, y]] as const)));
    }
    this.#standBack();
  }

  #standBack(): void {
    const asked = new Set<string>();
    for (const { element: made, item } of this.#pieces.all()) {
      const isAside = !this.#isAskedFor(item);
      if (!isAside) asked.add(item.name);
      made.toggleAttribute('inert', isAside);
    }
    const isAll = asked.size === 0 || asked.size === this.#shown.length;
    const box = isAll ? this.#box : boardBox(this.#shown.filter(({ name }) => asked.has(name)), this.#spots);
    this.#fitted = { ...box, x: box.x - this.#box.x, y: box.y - this.#box.y };
  }

  /** What has a size of its own on screen follows the scale. */
  #settle(): void {
    const scale = this.#zoom.scale();
    this.#fills.scaled(scale);
    this.#lookAgain();
    arrangeLabels(this.field, scale);
    nameWhereRoom(this.#pieces, this.#sight(scale), this.#words.widthOf);
    this.#map.scaled(scale);
    this.#showHandles();
  }

  /** What of the board is in sight where all of it is: names may stand beside it. */
  #sight(scale: number): Sight {
    const box = this.#box;
    const [width, height] = [box.width * scale, box.height * scale];
    const before = Math.max(boardPadding, (this.#frame.width - (this.#stood ?? box.width) * scale) / 2);
    const [left, right] = [before - leastMargin, Math.max(boardPadding, this.#frame.width - before - width) - leastMargin];
    const [above, below] = [boardPadding - leastMargin, Math.max(boardPadding, this.#frame.height - boardPadding - height) - leastMargin];
    return {
      scale,
      within: { x: -left, y: -above, width: width + left + right, height: height + above + below },
      patchOf: ({ name, piece }) => {
        const spot = this.#spots.get(name);
        return spot === undefined || piece === undefined ? undefined : { x: (spot.x - box.x) * scale, y: (spot.y - box.y) * scale, width: piece.drawing.box.width * scale, height: piece.drawing.box.height * scale };
      },
    };
  }

  /**
   * Puts the board where one of this width would be in the middle of its field. There it stays while edits make it wider or
   * narrower, or all pieces would be moved.
   */
  #stand(width: number): void {
    this.#stood = width;
    setStyle(this.#list, 'margin-left', `max(0px, calc((100% - ${onScale(width)}) / 2))`);
  }

  /** The width for which it stands where it does, or as much farther to the left as it must to be seen whole. */
  #widthNeeded(): number {
    const { width } = this.#box;
    // Out of sight, as when it is printed from another view, a field has no width.
    if (this.#frame.width === 0) return this.#stood ?? width;
    const field = (this.#frame.width - 2 * boardPadding) / this.#zoom.scale();
    return this.#stood === undefined ? width : Math.max(this.#stood, 2 * width - field);
  }

  #centre(): void {
    const { field } = this;
    const middle = (from: number, size: number): number => boardPadding + (from + size / 2) * this.#zoom.scale();
    field.scrollTo(middle(this.#fitted.x, this.#fitted.width) - field.clientWidth / 2, middle(this.#fitted.y, this.#fitted.height) - field.clientHeight / 2);
  }
}

/** What a board is arranged for while it is out of sight (invented). */
const usualRatio = 1.3;

/** Pixels between a name and the border of what is in sight. */
const leastMargin = 4;

function boardPiece({ name, from, drawing: { box } }: PreviewPiece, nested: readonly NestedUnder[]): BoardPiece {
  const drawn = nested.filter(({ outline }) => outline !== '').map((one) => one.box);
  const most = (beyond: (other: PieceDrawing['box']) => number): number => Math.max(0, ...drawn.map(beyond));
  // Drawings have y upwards.
  const beyond = {
    left: most(({ x }) => box.x - x), right: most(({ x, width }) => x + width - box.x - box.width),
    above: most(({ y, height }) => y + height - box.y - box.height), below: most(({ y }) => box.y - y),
  };
  return { name, from, width: box.width, height: box.height, ...(drawn.length === 0 ? {} : { beyond }) };
}
