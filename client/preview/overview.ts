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


/** For the eye and the pointer alone: by keys and in words the board itself is gone through. */
export function overview(field: HTMLElement): Overview {
  const view = svgElement('rect', { class: 'view-frame' });
  const pieces = svgElement('g', {});
  const drawn = svgElement('svg', { 'aria-hidden': 'true' }, pieces, view);
  const made = element('div', { class: 'overview', hidden: true }, drawn);
  let scale = 1;
  const show = (): void => {
    made.hidden = field.scrollWidth <= field.clientWidth + 1 && field.scrollHeight <= field.clientHeight + 1;
    if (made.hidden) return;
    view.setAttribute('x', String((field.scrollLeft - padding) / scale));
    view.setAttribute('y', String((field.scrollTop - padding) / scale));
    view.setAttribute('width', String(field.clientWidth / scale));
    view.setAttribute('height', String(field.clientHeight / scale));
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
      drawn.setAttribute('viewBox', `0 0 ${Math.max(1, box.width)} ${Math.max(1, box.height)}`);
      pieces.replaceChildren(...all.map(({ x, y, width, height }) => svgElement('rect', { x: x - box.x, y: y - box.y, width, height })));
      show();
    },
    scaled: (next) => {
      scale = next;
      show();
    },
  };
}
