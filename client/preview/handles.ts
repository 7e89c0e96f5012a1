import type { PieceDrawing, PreviewHandle, PreviewHandles } from '../../server/src/preview/drawing-data.ts';
import { element, setAttributes, setText, svgElement } from './dom.ts';
import type { PiecePoint } from './measuring.ts';
import type { HandleMessage, MoveMessage } from './messages.ts';

/** Asks what moving a handle comes to; the answer comes to `told`. */
export type AskMove = (question: Omit<MoveMessage, 'type'>) => void;

/** A pointer that goes no farther than this, pixels, was a click. */
const still = 3;

const arrows: Readonly<Record<string, readonly [x: number, y: number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

const nowhere: PieceDrawing['box'] = { x: 0, y: 0, width: 0, height: 0 };

/** A handle that is being moved. */
interface Held {
  readonly handle: PreviewHandle;
  to: PiecePoint;
  /** Where it would be, as was last answered. */
  at: PiecePoint;
  /** It is written, and stays in sight until the drawing is as the text is then. */
  isLetGo: boolean;
}

/**
 * What can be taken hold of in a piece, on the board and where it is shown large: one Tab stop, arrow keys from one to the next, Enter takes hold
 * and lets go, Escape leaves all as it was. What a move comes to is the server's to say; here a ghost goes where it says.
 */
export class Handles {
  /** Lies over the drawing. */
  readonly element = element('div', { class: 'handles', role: 'group', 'aria-label': 'Handles; arrow keys go from one to the next, Enter takes hold of one', hidden: true });
  /** Goes into the drawing: the way from where a handle was. */
  readonly way = svgElement('g', { class: 'ruler', transform: 'scale(1 -1)' });
  readonly #ask: AskMove;
  readonly #told = element('div', { class: 'handle-told', hidden: true });
  readonly #ghost = element('div', { class: 'handle-ghost', hidden: true });
  readonly #live = element('output', { class: 'unseen', 'aria-live': 'polite' });
  readonly #buttons = new Map<string, HTMLButtonElement>();
  #shown: PreviewHandles | undefined;
  #box = nowhere;
  #held: Held | undefined;
  #asked = 0;
  #answered = 0;
  #isWaiting = false;

  constructor(ask: AskMove) {
    this.#ask = ask;
    this.element.append(this.#ghost, this.#told, this.#live);
  }

  get isHolding(): boolean {
    return this.#held !== undefined && !this.#held.isLetGo;
  }

  /** Shows the handles of a drawing; those that are there already stay, and with them the focus. */
  show(handles: PreviewHandles | undefined, box: PieceDrawing['box'] = nowhere): void {
    if (this.#shown === handles && this.#box === box) return;
    this.#box = box;
    const isOther = handles?.piece !== this.#shown?.piece;
    this.#shown = handles;
    this.element.hidden = handles === undefined;
    const list = handles?.list ?? [];
    for (const [id, button] of this.#buttons) {
      if (!isOther && list.some((one) => one.id === id)) continue;
      button.remove();
      this.#buttons.delete(id);
    }
    let next: Element = this.#ghost;
    for (const handle of [...list].reverse()) {
      const button = this.#place(handle);
      // What stands where it should is left there: it may have the focus.
      if (button.nextElementSibling !== next) next.before(button);
      next = button;
    }
    const buttons = [...this.#buttons.values()];
    if (next instanceof HTMLButtonElement && !buttons.some(({ tabIndex }) => tabIndex === 0)) next.tabIndex = 0;
    // The numbers under a hand that holds on are others now.
    this.#end();
    this.#tellFocused();
  }

  /** What was asked is answered. */
  told({ asked, at, says, isWritten }: HandleMessage): void {
    if (asked <= this.#answered) return;
    this.#answered = asked;
    const held = this.#held;
    if (asked === this.#asked) this.#isWaiting = false;
    if (held === undefined) return;
    if (at === null) {
      this.#end();
      return this.#say(held.handle, held.handle, says);
    }
    held.at = { x: at[0], y: at[1] };
    this.#draw(held, says);
    if (held.isLetGo && asked === this.#asked) {
      setText(this.#live, isWritten ? `Written: ${held.handle.title}, ${says}` : says);
      if (!isWritten) this.#end();
    } else if (!held.isLetGo && asked < this.#asked) this.#send();
  }

  #place(handle: PreviewHandle): HTMLButtonElement {
    let button = this.#buttons.get(handle.id);
    if (button === undefined) {
      button = element('button', { type: 'button', class: 'handle', 'data-handle': handle.id });
      button.tabIndex = -1;
      this.#buttons.set(handle.id, button);
      this.#listen(button, handle.id);
    }
    setAttributes(button, { 'aria-label': `${capital(handle.title)}: ${handle.says}`, 'aria-disabled': handle.fixed ? 'true' : undefined });
    button.classList.toggle('fixed', handle.fixed);
    this.#put(button, handle);
    return button;
  }

  #put(one: HTMLElement, { x, y }: PiecePoint): void {
    one.style.setProperty('--x', String(x - this.#box.x));
    one.style.setProperty('--y', String(this.#box.y + this.#box.height - y));
  }

  #handle(id: string): PreviewHandle | undefined {
    return this.#shown?.list.find((one) => one.id === id);
  }

  // ---------------------------------------------------------------------------------------------- pointer and keys

  #listen(button: HTMLButtonElement, id: string): void {
    let from: { readonly x: number; readonly y: number; readonly scale: number } | undefined;
    let isDragged = false;
    button.addEventListener('pointerenter', () => this.#tellOf(id));
    button.addEventListener('pointerleave', () => this.#tellFocused());
    button.addEventListener('focus', () => {
      for (const one of this.#buttons.values()) one.tabIndex = one === button ? 0 : -1;
      this.#tellOf(id);
    });
    button.addEventListener('blur', () => {
      this.#end();
      this.#tellFocused();
    });
    button.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return;
      // The board would go along.
      event.stopPropagation();
      isDragged = false;
      from = { x: event.clientX, y: event.clientY, scale: Number(getComputedStyle(button).getPropertyValue('--scale')) };
      button.setPointerCapture(event.pointerId);
    });
    button.addEventListener('pointermove', (event) => {
      if (from === undefined) return;
      const [x, y] = [event.clientX - from.x, event.clientY - from.y];
      if (!isDragged && Math.hypot(x, y) < still) return;
      event.stopPropagation();
      if (!isDragged) this.#hold(id);
      isDragged = true;
      const handle = this.#held?.handle;
      if (handle !== undefined) this.#moveTo({ x: handle.x + x / from.scale, y: handle.y - y / from.scale });
    });
    button.addEventListener('pointerup', () => {
      from = undefined;
      if (isDragged) this.#letGo();
    });
    button.addEventListener('pointercancel', () => {
      from = undefined;
      this.#end();
    });
    button.addEventListener('click', (event) => {
      // A drag is no click of the ruler's; without a pointer a click takes hold and lets go.
      if (isDragged || event.detail === 0) event.stopPropagation();
      if (!isDragged && event.detail === 0) this.#holdOrLetGo(id);
      isDragged = false;
    });
    button.addEventListener('keydown', (event) => this.#key(event, id));
  }

  #key(event: KeyboardEvent, id: string): void {
    const by = arrows[event.key];
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === 'Enter' || event.key === ' ') this.#holdOrLetGo(id);
    else if (event.key === 'Escape' && this.#held !== undefined) {
      this.#end();
      this.#tellOf(id);
      setText(this.#live, 'Left as it was.');
    } else if (by !== undefined && this.#held !== undefined) {
      if (this.#held.isLetGo) return;
      const step = (this.#shown?.step ?? 1) * (event.shiftKey ? 10 : 1);
      this.#moveTo({ x: this.#held.to.x + by[0] * step, y: this.#held.to.y + by[1] * step });
    } else if (by !== undefined || event.key === 'Home' || event.key === 'End') this.#next(id, event.key)?.focus();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  #next(id: string, key: string): HTMLButtonElement | undefined {
    const all = (this.#shown?.list ?? []).flatMap((one) => this.#buttons.get(one.id) ?? []);
    const at = all.findIndex((one) => one === this.#buttons.get(id));
    if (key === 'Home') return all[0];
    if (key === 'End') return all.at(-1);
    return all[at + (key === 'ArrowRight' || key === 'ArrowDown' ? 1 : -1)];
  }

  // ---------------------------------------------------------------------------------------------- holding

  #holdOrLetGo(id: string): void {
    if (this.#held !== undefined) this.#letGo();
    else this.#hold(id);
  }

  /** Takes hold of what can be moved; of what can't, says why. */
  #hold(id: string): void {
    const handle = this.#handle(id);
    if (handle === undefined || this.#held !== undefined) return;
    this.#say(handle, handle, handle.says);
    if (handle.fixed) {
      setText(this.#live, `${capital(handle.title)} stays: ${handle.says}`);
      return;
    }
    this.#held = { handle, to: handle, at: handle, isLetGo: false };
    this.#buttons.get(id)?.classList.add('held');
    this.#draw(this.#held, handle.says);
    setText(this.#live, `Held: arrow keys move it by ${this.#shown?.by ?? ''}, with Shift ten times as far. Enter writes it, Escape leaves it.`);
  }

  #moveTo(to: PiecePoint): void {
    if (this.#held === undefined || this.#held.isLetGo) return;
    this.#held.to = to;
    this.#asked++;
    // One question at a time: the next is of where it is by then.
    if (!this.#isWaiting) this.#send();
  }

  #send(): void {
    if (this.#held === undefined || this.#shown === undefined) return;
    this.#isWaiting = true;
    const { handle, to, isLetGo } = this.#held;
    this.#ask({ asked: this.#asked, piece: this.#shown.piece, handle: handle.id, to: [to.x, to.y], isLetGo });
  }

  #letGo(): void {
    if (this.#held === undefined || this.#held.isLetGo) return;
    this.#held.isLetGo = true;
    this.#asked++;
    this.#send();
  }

  /** Nothing is held any more. */
  #end(): void {
    if (this.#held === undefined) return;
    this.#buttons.get(this.#held.handle.id)?.classList.remove('held');
    this.#held = undefined;
    this.#answered = this.#asked;
    this.#isWaiting = false;
    this.#ghost.hidden = true;
    this.way.replaceChildren();
  }

  // ---------------------------------------------------------------------------------------------- what is seen of it

  #draw({ handle, at }: Held, says: string): void {
    this.#ghost.hidden = false;
    this.#put(this.#ghost, at);
    this.way.replaceChildren(svgElement('path', { class: 'ruler-line handle-way', d: `M${handle.x} ${handle.y}L${at.x} ${at.y}` }));
    this.#say(handle, at, says);
    if (at !== handle) setText(this.#live, says);
  }

  #tellOf(id: string): void {
    const handle = this.#handle(id);
    if (handle !== undefined && this.#held === undefined) this.#say(handle, handle, handle.says);
  }

  /** What has the focus is told of, where nothing is pointed at. */
  #tellFocused(): void {
    if (this.#held !== undefined) return;
    const id = document.activeElement?.getAttribute('data-handle');
    if (id === null || id === undefined || this.#handle(id) === undefined) this.#told.hidden = true;
    else this.#tellOf(id);
  }

  #say({ title, fixed }: PreviewHandle, at: PiecePoint, says: string): void {
    this.#told.replaceChildren(element('strong', {}, capital(title)), element('span', {}, fixed ? `Stays: ${says}` : says));
    this.#told.hidden = false;
    this.#put(this.#told, at);
    // On the side that has more room.
    this.#told.classList.toggle('leftwards', at.x > this.#box.x + this.#box.width / 2);
    this.#told.classList.toggle('upwards', at.y < this.#box.y + this.#box.height / 2);
  }
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
