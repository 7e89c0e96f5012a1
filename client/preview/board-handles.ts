import type { PreviewHandles } from '../../server/src/preview/drawing-data.ts';
import type { Card } from './cards.ts';
import { Handles, type AskMove } from './handles.ts';
import type { HandleMessage } from './messages.ts';

/** Pixels that a piece has at least along its longer side for handles to be told apart on it (invented, by eye). */
const roomy = 130;

/** Handles on the piece of the board that is meant, the same as where it is shown large. */
export class BoardHandles {
  readonly #handles: Handles;
  /** What had the focus while the drawing under it was made anew. */
  #kept: HTMLElement | undefined;

  constructor(ask: AskMove) {
    this.#handles = new Handles(ask);
  }

  /** Takes them off a piece that is about to be drawn anew. */
  lift(): void {
    const { activeElement: active } = document;
    this.#kept = active instanceof HTMLElement && this.#handles.element.contains(active) ? active : undefined;
    this.#handles.element.remove();
  }

  /** @param made the piece on the board; undefined where none is meant */
  show(made: Element | undefined, card: Card | undefined, handles: PreviewHandles | null, scale: number): void {
    const box = card?.undrawn === undefined ? card?.piece?.drawing.box : undefined;
    const isShown = made !== undefined && box !== undefined && handles?.piece === card?.name && Math.max(box.width, box.height) * scale >= roomy && !made.hasAttribute('inert');
    this.#handles.show(isShown && handles !== null ? handles : undefined, box);
    const { element, way } = this.#handles;
    if (!isShown) {
      element.remove();
      way.remove();
    } else if (element.parentElement !== made) {
      made.append(element);
      made.querySelector('.drawing')?.append(way);
    }
    if (element.isConnected) this.#kept?.focus({ preventScroll: true });
    this.#kept = undefined;
  }

  told(message: HandleMessage): void {
    this.#handles.told(message);
  }
}
