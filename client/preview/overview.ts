import { element, svgElement } from './dom.ts';
import { boardPadding as padding } from './zoom.ts';

interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A small picture of the whole board that shows which part of it is in sight; only there while some of it isn’t. */
export interface Overview {
  readonly element: HTMLElement;
  readonly update: (pieces: readonly Rectangle[], box: Rectangle) => void;
  readonly scaled: (scale: number) => void;
}

/** A board that is smaller on screen has no room for a picture of itself, pixels (invented, by eye). */
const [leastWide, leastHigh] = [300, 320];

/** For the eye and the pointer alone: by keys and in words the board itself is gone through. */
export function overview(field: HTMLElement): Overview {
  const view = svgElement('rect', { class: 'view-frame' });
  // One element for them all: a thousand would be styled and laid out anew at every edit.
  const pieces = svgElement('path', { class: 'pieces' });
  const drawn = svgElement('svg', { 'aria-hidden': 'true' }, pieces, view);
  const made = element('div', { class: 'overview', hidden: true }, drawn);
  let scale = 1;
  let whole: Rectangle = { x: 0, y: 0, width: 0, height: 0 };
  let undrawn: readonly Rectangle[] | undefined;
  /** Not before it is seen: mostly it is not. */
  const draw = (): void => {
    if (undrawn === undefined) return;
    drawn.setAttribute('viewBox', `0 0 ${Math.max(1, whole.width)} ${Math.max(1, whole.height)}`);
    pieces.setAttribute('d', undrawn.map(({ x, y, width, height }) => `M${x - whole.x} ${y - whole.y}h${width}v${height}h${-width}z`).join(''));
    undrawn = undefined;
  };
  const show = (): void => {
    const [across, down] = [whole.width * scale + 2 * padding, whole.height * scale + 2 * padding];
    // Words may stick out of the board; where the board itself is in sight, or the picture would cover most of it, none is needed.
    made.hidden = (across <= field.clientWidth + 1 && down <= field.clientHeight + 1) || field.clientHeight < leastHigh || field.clientWidth < leastWide;
    if (made.hidden) return;
    draw();
    view.setAttribute('x', String((field.scrollLeft - padding) / scale));
    view.setAttribute('y', String((field.scrollTop - padding) / scale));
    view.setAttribute('width', String(field.clientWidth / scale));
    view.setAttribute('height', String(field.clientHeight / scale));
  };
  // Asked where it is while pieces are being moved, the page would be laid out there and then, and once more to be drawn.
  let isAsked = false;
  const showSoon = (): void => {
    if (isAsked) return;
    isAsked = true;
    requestAnimationFrame(() => {
      isAsked = false;
      show();
    });
  };
  const go = (event: PointerEvent): void => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawn.getScreenCTM()?.inverse());
    field.scrollTo(at.x * scale + padding - field.clientWidth / 2, at.y * scale + padding - field.clientHeight / 2);
  };
  made.addEventListener('pointerdown', (event) => {
    made.setPointerCapture(event.pointerId);
    go(event);
  });
  made.addEventListener('pointermove', (event) => {
    if (event.buttons === 1) go(event);
  });
  field.addEventListener('scroll', show, { passive: true });
  return {
    element: made,
    update: (all, box) => {
      [whole, undrawn] = [box, all];
      showSoon();
    },
    scaled: (next) => {
      scale = next;
      showSoon();
    },
  };
}
