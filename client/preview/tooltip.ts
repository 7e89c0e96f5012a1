import { element } from './dom.ts';
import { targetAt } from './targets.ts';

/**
 * One box that says more of whatever is pointed at or has the focus. It can be pointed at itself, stays as long as its
 * owner is, and goes away on Escape.
 */
export function addTooltip(root: HTMLElement): void {
  const box = element('div', { id: 'trail', role: 'tooltip', class: 'trail', hidden: true });
  document.body.append(box);
  let owner: Element | undefined;

  const hide = (): void => {
    owner?.removeAttribute('aria-describedby');
    owner = undefined;
    box.hidden = true;
  };
  const show = (node: EventTarget | null, pointer?: Point): void => {
    if (node instanceof Node && box.contains(node)) return;
    const found = targetAt(node);
    if (found?.element === owner && owner !== undefined) return;
    hide();
    const lines = found?.target.lines?.() ?? [];
    if (found === undefined || lines.length === 0) return;
    owner = found.element;
    box.replaceChildren(...lines.map((line) => element('div', {}, line)));
    box.hidden = false;
    owner.setAttribute('aria-describedby', box.id);
    if (pointer === undefined) place(box, owner.getBoundingClientRect());
    else placeAt(box, pointer);
  };

  root.addEventListener('pointerover', (event) => show(event.target, { x: event.clientX, y: event.clientY }));
  // It stays where it can be reached, and comes along where the pointer has left it behind.
  root.addEventListener('pointermove', ({ target, clientX: x, clientY: y }) => {
    if (owner !== undefined && !box.hidden && targetAt(target)?.element === owner && distance(box.getBoundingClientRect(), { x, y }) > farthest) placeAt(box, { x, y });
  }, { passive: true });
  root.addEventListener('focusin', (event) => show(event.target));
  root.addEventListener('focusout', hide);
  root.addEventListener('scroll', hide, { capture: true });
  document.addEventListener('pointerleave', hide);
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') hide();
  });
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Pixels between a pointer and its box at first, and at most. */
const gap = 10;
const farthest = 48;

/** Beside a pointer. */
function placeAt(box: HTMLElement, { x, y }: Point): void {
  place(box, new DOMRect(x + gap, y - gap, 0, 2 * gap));
}

const distance = (box: DOMRect, { x, y }: Point): number => Math.hypot(Math.max(box.left - x, 0, x - box.right), Math.max(box.top - y, 0, y - box.bottom));

/** Below its owner, or above it where there is no room. */
function place(box: HTMLElement, owner: DOMRect): void {
  const { offsetWidth: width, offsetHeight: height } = box;
  const left = Math.max(4, Math.min(owner.left, window.innerWidth - width - 4));
  const below = owner.bottom + 2;
  const top = below + height <= window.innerHeight || owner.top < height + 2 ? below : owner.top - height - 2;
  box.style.left = `${left}px`;
  box.style.top = `${Math.max(0, Math.min(top, window.innerHeight - height))}px`;
}
