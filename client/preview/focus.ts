import type { PieceDrawing, PreviewData, PreviewHandles, PreviewNested, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { drawingOf, type Card } from './cards.ts';
import { isSame } from '../../server/src/preview/difference.ts';
import { flipped, flippedLayer } from '../../server/src/preview/flip.ts';
import { element, setText, svgElement, type Live } from './dom.ts';
import { Handles, type AskMove } from './handles.ts';
import type { Hatching } from './hatching.ts';
import { layersDrawn, layersTold } from './layers.ts';
import { catchPoints, caught, distanceWords, pointWords, stepOf, type PiecePoint } from './measuring.ts';
import type { HandleMessage } from './messages.ts';
import { nestedOutlines, nestedUnder, nestedWords, type NestedUnder } from './nested.ts';
import { arrangeLabels } from './piece-labels.ts';
import { finishedWords } from './size-words.ts';

/** Pixels within which a pointer takes hold of a corner or a mark. */
const reach = 9;
/** Room round the drawing, pixels; where there is little of it, edges are told by their names alone. */
const roomIn = (across: number): number => (across < 300 ? 72 : 110);
/** Letters are about as wide as this, pixels. */
const letter = 6;
/** CSS pixels to a millimetre, at most: a small piece is not blown up without end. */
const largest = 12;

const fieldWords = 'Piece by itself; arrow keys move a point, with Shift ten times as far, Enter measures from it and to it, Escape ends';

/** What a piece is shown with. */
export type Focused = Pick<PreviewData, 'unit'> & { readonly handles: PreviewHandles | null; readonly nested: PreviewNested | null };

/** One piece, large, beside the board: its edges by name, where it is counted from, a ruler, and handles to move what is written there. */
export class Focus {
  readonly element: HTMLElement;
  readonly #title = element('h2', {});
  readonly #field = element('div', { class: 'field focus-field', tabindex: 0, role: 'region', 'aria-label': fieldWords });
  /** The drawing, and its handles over it. */
  readonly #stage = element('div', { class: 'focus-stage' });
  readonly #room = element('div', { class: 'focus-room' });
  readonly #nested = element('div', { class: 'focus-nested' });
  readonly #at = element('output', { class: 'focus-at' });
  readonly #apart = element('output', { class: 'focus-apart', 'aria-live': 'polite' });
  readonly #hint = element('p', { class: 'muted' });
  readonly #handles: Handles;
  readonly #fills: Hatching;
  readonly #layers = toggle('Layers', 'Draw what lies on the piece, as it lies');
  readonly #wrongSide = toggle('Wrong side', 'Turn the piece over');
  readonly #layersTold = element('div', {});
  #wanted: Card | undefined;
  #live: Live<Card> | undefined;
  #drawn: PieceDrawing | undefined;
  #drawing: SVGSVGElement | undefined;
  #overlay: SVGGElement | undefined;
  #with: Focused = { unit: 'mm', handles: null, nested: null };
  #under: readonly NestedUnder[] = [];
  #turnedOver: readonly [from: PieceDrawing, to: PieceDrawing, layers: PreviewPiece['layers']] | undefined;
  #scale = 1;
  #points: readonly PiecePoint[] = [];
  #point: PiecePoint | undefined;
  #from: PiecePoint | undefined;
  #to: PiecePoint | undefined;

  constructor(ask: AskMove, fills: Hatching) {
    this.#fills = fills;
    this.#handles = new Handles(ask);
    this.#stage.append(this.#handles.element);
    this.#room.append(this.#stage);
    this.#field.append(this.#room);
    this.element = element('aside', { class: 'focus', hidden: true, 'aria-label': 'Piece by itself' }, element('div', { class: 'focus-head' }, this.#title, this.#layers, this.#wrongSide), this.#field, element('div', { class: 'focus-told' }, this.#layersTold, this.#nested, this.#at, this.#apart, this.#hint));
    for (const one of [this.#layers, this.#wrongSide]) {
      one.addEventListener('click', () => {
        one.setAttribute('aria-pressed', String(!isOn(one)));
        this.#drawn = undefined;
        this.show(this.#wanted, this.#with);
      });
    }
    this.#field.addEventListener('pointermove', (event) => this.#move(event));
    this.#field.addEventListener('pointerleave', () => setText(this.#at, ''));
    // A click measures here; a piece's lines lead to the text from the board.
    this.#field.addEventListener('click', (event) => {
      event.stopPropagation();
      this.#move(event);
      this.#set();
    });
    this.#field.addEventListener('keydown', (event) => this.#key(event));
    new ResizeObserver(() => this.#fit()).observe(this.#field);
  }

  /** Opens it, or closes it; what is closed draws nothing. */
  open(on: boolean): void {
    this.element.hidden = !on;
    this.show(this.#wanted, this.#with);
  }

  /** Shows a piece; the same drawing is left as it is. */
  show(card: Card | undefined, shown: Focused): void {
    this.#wanted = card;
    this.#with = shown;
    if (this.element.hidden) return;
    const drawing = card?.piece && this.#turned(card.piece);
    setText(this.#title, headingOf(card, isOn(this.#wrongSide)));
    this.#layers.hidden = (card?.piece?.layers ?? []).length === 0;
    this.#wrongSide.hidden = drawing === undefined;
    this.#hint.hidden = drawing === undefined;
    this.#showHandles(card, drawing);
    if (card !== undefined && this.#live !== undefined && this.#drawn === drawing && isSame(this.#live.value.piece?.layers, card.piece?.layers)) {
      this.#live.value = card;
      this.#nest(card.name);
      return;
    }
    this.#drawn = drawing;
    this.#live = card === undefined ? undefined : { value: card };
    this.#drawing?.remove();
    this.#drawing = undefined;
    this.#point = this.#from = this.#to = undefined;
    if (card !== undefined && drawing !== undefined && this.#live !== undefined) this.#draw(card, drawing, this.#live);
    this.#tell();
  }

  /** As the side that is looked at shows it; the same drawing is the same again. */
  #turned({ drawing, layers }: PreviewPiece): PieceDrawing {
    if (!isOn(this.#wrongSide)) return drawing;
    if (this.#turnedOver?.[0] !== drawing || !isSame(this.#turnedOver[2], layers)) this.#turnedOver = [drawing, flipped(drawing, layers), layers];
    return this.#turnedOver[1];
  }

  #drawLayers({ piece }: Card): readonly Element[] {
    const [isWrong, layers] = [isOn(this.#wrongSide), isOn(this.#layers) ? (piece?.layers ?? []) : []];
    const seen = isWrong ? 'wrong' : 'right';
    this.#layersTold.replaceChildren(...(layers.length === 0 ? [] : [layersTold(layers, seen)]));
    return layers.length === 0 ? [] : [layersDrawn(isWrong ? layers.map(flippedLayer) : layers, seen, this.#fills)];
  }

  /** The piece in other options, as far as it is otherwise there; there is room for all of it. */
  #nest(name: string): void {
    const nested = isOn(this.#wrongSide) ? [] : nestedUnder(this.#with.nested, name);
    if (isSame(nested, this.#under)) return;
    this.#under = nested;
    this.#drawing?.querySelector('.nested')?.remove();
    this.#nested.replaceChildren(...(nested.length === 0 ? [] : [nestedWords(nested)]));
    if (nested.length > 0) this.#drawing?.prepend(nestedOutlines(nested));
    this.#fit();
  }

  /** Millimetres that what is nested reaches beyond the drawing: left, below, right, above. */
  #beyond(): readonly [number, number, number, number] {
    const box = this.#drawn?.box ?? { x: 0, y: 0, width: 0, height: 0 };
    const most = (of: (one: PieceDrawing['box']) => number): number => Math.max(0, ...this.#under.filter(({ outline }) => outline !== '').map((one) => of(one.box)));
    return [most(({ x }) => box.x - x), most(({ y }) => box.y - y), most(({ x, width }) => x + width - box.x - box.width), most(({ y, height }) => y + height - box.y - box.height)];
  }

  /** Those of an earlier drawing are of no use. */
  #showHandles(card: Card | undefined, drawing: PieceDrawing | undefined): void {
    const { handles } = this.#with;
    const isOf = handles !== null && !isOn(this.#wrongSide) && card?.undrawn === undefined && handles.piece === card?.name;
    setText(this.#hint, isOf ? 'Click two points to measure; drag a handle to change its number in the text.' : 'Click two points to measure between them.');
    this.#handles.show(isOf ? handles : undefined, drawing?.box);
  }

  /** What moving a handle comes to. */
  told(message: HandleMessage): void {
    this.#handles.told(message);
  }

  /** The piece whose handles are wanted. */
  get handled(): string | null {
    return this.element.hidden || this.#wanted?.piece === undefined ? null : this.#wanted.name;
  }

  #draw(card: Card, drawing: PieceDrawing, live: Live<Card>): void {
    this.#points = catchPoints(drawing);
    const made = drawingOf(live, card.name, drawing, (_, __, fill) => fill(this.#scale), this.#drawLayers(card));
    this.#overlay = svgElement('g', { class: 'ruler', transform: 'scale(1 -1)' });
    made.append(originAt(isOn(this.#wrongSide)), ...edgeNames(drawing), this.#overlay, this.#handles.way);
    made.style.setProperty('--width', String(drawing.box.width));
    made.style.setProperty('--height', String(drawing.box.height));
    made.style.setProperty('--sign-room', '9');
    this.#drawing = made;
    this.#stage.prepend(made);
    this.#under = [];
    this.#nest(card.name);
    this.#fit();
  }

  #fit(): void {
    const box = this.#drawn?.box;
    if (box === undefined || this.#field.clientWidth === 0) return;
    const [left, below, right, above] = this.#beyond();
    for (const [side, by] of [['left', left], ['bottom', below], ['right', right], ['top', above]] as const) this.#room.style.setProperty(`--over-${side}`, String(by));
    this.#scale = Math.max(0.05, Math.min(largest, (this.#field.clientWidth - roomIn(this.#field.clientWidth)) / Math.max(1, box.width + left + right), (this.#field.clientHeight - roomIn(this.#field.clientHeight)) / Math.max(1, box.height + below + above)));
    this.#field.style.setProperty('--scale', String(this.#scale));
    arrangeLabels(this.#field, this.#scale);
    for (const text of this.#field.querySelectorAll<SVGTextElement>('.edge-told')) {
      const along = Number(text.dataset['long']) * this.#scale;
      for (const [kind, words] of [['short', '.edge-detail'], ['shorter', '.edge-first'], ['shortest', '.edge-title']] as const) {
        text.classList.toggle(kind, along < (text.querySelector(words)?.textContent.length ?? 0) * letter);
      }
    }
    this.#mark();
  }

  #move({ clientX, clientY }: MouseEvent): void {
    const matrix = this.#drawing?.getScreenCTM();
    if (matrix === null || matrix === undefined) return;
    const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(matrix.inverse());
    this.#point = caught({ x, y: -y }, this.#points, reach / this.#scale);
    this.#tell();
  }

  #key(event: KeyboardEvent): void {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (event.altKey || event.ctrlKey || event.metaKey || this.#drawn === undefined) return;
    if (event.key === 'Enter') this.#set();
    else if (event.key === 'Escape') this.#from = this.#to = undefined;
    else if (by !== undefined) {
      const step = stepOf(this.#with.unit) * (event.shiftKey ? 10 : 1);
      const from = this.#point ?? { x: 0, y: 0 };
      this.#point = { x: from.x + (by[0] ?? 0) * step, y: from.y + (by[1] ?? 0) * step };
    } else return;
    event.preventDefault();
    event.stopPropagation();
    this.#tell();
  }

  /** The first point, the second, and then a first one again. */
  #set(): void {
    if (this.#from === undefined || this.#to !== undefined) [this.#from, this.#to] = [this.#point, undefined];
    else this.#to = this.#point;
    this.#tell();
  }

  #tell(): void {
    setText(this.#at, this.#point === undefined ? '' : pointWords(isOn(this.#wrongSide) ? { ...this.#point, x: -this.#point.x } : this.#point, this.#with.unit));
    const end = this.#to ?? this.#point;
    setText(this.#apart, this.#from === undefined || end === undefined ? '' : distanceWords(this.#from, end, this.#with.unit));
    this.#mark();
  }

  #mark(): void {
    const end = this.#to ?? this.#point;
    const dot = (point: PiecePoint | undefined): readonly Element[] => (point === undefined ? [] : [svgElement('g', { transform: `translate(${point.x} ${point.y})` }, svgElement('path', { class: 'sign ruler-end', d: 'M-6 0H6M0 -6V6' }))]);
    const line = this.#from === undefined || end === undefined ? [] : [svgElement('path', { class: 'ruler-line', d: `M${this.#from.x} ${this.#from.y}L${end.x} ${end.y}` })];
    this.#overlay?.replaceChildren(...line, ...dot(this.#from), ...dot(end));
  }
}

function toggle(words: string, title: string): HTMLButtonElement {
  return element('button', { type: 'button', class: 'tool wide', 'aria-pressed': 'false', title, hidden: true }, words);
}

const isOn = (one: Element): boolean => one.getAttribute('aria-pressed') === 'true';

/** Where the spec counts from, and which way; on the wrong side it counts to the left. */
function originAt(isTurned: boolean): Element {
  return svgElement('g', { class: 'origin' }, svgElement('path', { class: 'sign ruler-end', d: `${isTurned ? 'M0 0H-22M-18 -3L-22 0L-18 3' : 'M0 0H22M18 -3L22 0L18 3'}M0 0V-22M-3 -18L0 -22L3 -18` }), svgElement('text', { class: 'label', x: 0, y: 0, dx: isTurned ? '.3em' : '-.9em', dy: '1.2em' }, '0'));
}

/** Every edge by its name along it, with how long it is sewn where there is room, and with how long it is cut and what is allowed for it where there is more. */
function edgeNames({ parts, box }: PieceDrawing): readonly Element[] {
  return parts.filter(({ kind }) => kind === 'cutting' || kind === 'fold').map(({ path, title, detail }) => {
    const [first = '', ...more] = detail.split(', ');
    const line = svgElement('path', { d: path });
    const long = line.getTotalLength();
    const { x, y } = line.getPointAtLength(long / 2);
    // Outside of the piece, as seen from its middle.
    const [right, up] = [x - box.x - box.width / 2, y - box.y - box.height / 2];
    const isBeside = Math.abs(right) / box.width > Math.abs(up) / box.height;
    const made = svgElement('text', { class: 'label edge-told', x, y: -y, 'text-anchor': 'middle', 'data-long': long, transform: isBeside ? `rotate(${right < 0 ? -90 : 90} ${x} ${-y})` : undefined },
      svgElement('tspan', { class: 'edge-title', x, dy: isBeside || up > 0 ? '-1.8em' : '1.5em' }, title),
      svgElement('tspan', { class: 'edge-detail', x, dy: '1.15em' }, svgElement('tspan', { class: 'edge-first' }, first), svgElement('tspan', { class: 'edge-more' }, more.map((one) => `, ${one}`).join(''))));
    return made;
  });
}

/** `Flap, on the fold, wrong side · finished 9 in × 7 in`. */
function headingOf(card: Card | undefined, isTurned: boolean): string {
  if (card === undefined) return 'No piece';
  const { title, piece } = card;
  const finished = piece && ` · ${finishedWords(piece)}`;
  return `${title}${piece?.drawing.parts.some(({ kind }) => kind === 'fold') === true ? ', on the fold' : ''}${isTurned ? ', wrong side' : ''}${finished ?? ''}`;
}
