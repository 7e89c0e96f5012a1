import type { PlaceRef } from '../../server/src/preview/drawing-data.ts';

/** What an element stands for: where a click on it leads, and what is said of it when it is pointed at. */
export interface Target {
  readonly place: () => PlaceRef | null;
  /** Lines to show beside it; none where its own text says all. */
  readonly lines?: () => readonly string[];
  /** The piece that it belongs to. */
  readonly piece?: string;
}

const targets = new WeakMap<Element, Target>();

export function setTarget<E extends Element>(made: E, target: Target): E {
  targets.set(made, target);
  made.setAttribute('data-target', '');
  return made;
}

/** The innermost target at an element. */
export function targetAt(node: EventTarget | null): { readonly element: Element; readonly target: Target } | undefined {
  const found = node instanceof Element ? node.closest('[data-target]') : null;
  const target = found === null ? undefined : targets.get(found);
  return found === null || target === undefined ? undefined : { element: found, target };
}

/** Shows which line a pointer is on or near. */
export function addHover(root: HTMLElement): void {
  let hot: Element | null = null;
  root.addEventListener('pointerover', ({ target }) => {
    const part = target instanceof Element ? target.closest('.drawing [data-part]') : null;
    const next = part === null ? null : (part.closest('.drawing')?.querySelector(`.whole[data-part="${part.getAttribute('data-part') ?? ''}"]`) ?? null);
    if (next === hot) return;
    hot?.classList.remove('hot');
    next?.classList.add('hot');
    hot = next;
  });
}
