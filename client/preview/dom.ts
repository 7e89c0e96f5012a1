import { isSame } from '../../server/src/preview/difference.ts';

/** Small helpers to make elements. Texts only ever become text nodes or attribute values, never markup. */

type Child = Node | string;
type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

export function element<K extends keyof HTMLElementTagNameMap>(name: K, attributes: Attributes = {}, ...children: readonly Child[]): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  setAttributes(made, attributes);
  made.append(...children);
  return made;
}

export function svgElement<K extends keyof SVGElementTagNameMap>(name: K, attributes: Attributes = {}, ...children: readonly Child[]): SVGElementTagNameMap[K] {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  setAttributes(made, attributes);
  made.append(...children);
  return made;
}

export function setAttributes(target: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) target.removeAttribute(name);
    else target.setAttribute(name, value === true ? '' : String(value));
  }
}

/** Gives an element a class or takes it away, where it is otherwise. */
export function setClass({ classList }: Element, name: string, has: boolean): void {
  if (classList.contains(name) !== has) classList.toggle(name, has);
}

/** Says something else, where it is something else. */
export function setText(target: Element, text: string): void {
  if (target.textContent !== text) target.textContent = text;
}

/** Gives a property of the style another value, where it is another: whoever is given the same is laid out anew for nothing. */
export const setProperty = (target: HTMLElement, name: string, value: number): void => setStyle(target, name, String(value));

/** The same for what is more than a number. */
export function setStyle({ style }: HTMLElement, name: string, value: string): void {
  if (style.getPropertyValue(name) !== value) style.setProperty(name, value);
}

/** A value that changes under an element that stays. */
export interface Live<T> {
  value: T;
}

interface Entry<T> {
  element: Element;
  look: unknown;
  readonly live: Live<T>;
}

export interface ListSpec<T> {
  readonly key: (item: T) => string;
  /** All that shows; an element is made anew only when this differs. */
  readonly look: (item: T) => unknown;
  readonly render: (live: Live<T>) => Element;
}

/** The children of an element as a list of things with names: an update touches only what has changed. */
export class KeyedList<T> {
  readonly parent: Element;
  private readonly spec: ListSpec<T>;
  private entries = new Map<string, Entry<T>>();

  constructor(parent: Element, spec: ListSpec<T>) {
    this.parent = parent;
    this.spec = spec;
  }

  update(items: readonly T[]): void {
    const next = new Map<string, T>();
    for (const item of items) {
      let key = this.spec.key(item);
      while (next.has(key)) key += '+';
      next.set(key, item);
    }
    // First, so that what stays need not be moved past what goes.
    for (const [key, { element: gone }] of this.entries) if (!next.has(key)) gone.remove();
    const entries = new Map<string, Entry<T>>();
    let before: Element | null = this.parent.firstElementChild;
    for (const [key, item] of next) {
      let entry = this.entries.get(key);
      if (entry === undefined) {
        const live = { value: item };
        entry = { element: this.spec.render(live), look: this.spec.look(item), live };
      } else if (entry.live.value !== item) {
        entry.live.value = item;
        const look = this.spec.look(item);
        if (!isSame(entry.look, look)) {
          const made = this.spec.render(entry.live);
          if (before === entry.element) before = made;
          replaceKeepingFocus(entry.element, made);
          entry.element = made;
          entry.look = look;
        }
      }
      entries.set(key, entry);
      if (before === entry.element) before = before.nextElementSibling;
      else this.parent.insertBefore(entry.element, before);
    }
    this.entries = entries;
  }

  get(key: string): Element | undefined {
    return this.entries.get(key)?.element;
  }

  all(): readonly { readonly element: Element; readonly item: T }[] {
    return [...this.entries.values()].map(({ element: made, live }) => ({ element: made, item: live.value }));
  }
}

/** Whoever was at a control of the old element is at the same control of the new one. */
function replaceKeepingFocus(old: Element, made: Element): void {
  const focused = old.contains(document.activeElement) ? document.activeElement?.getAttribute('data-control') : undefined;
  const open = old.querySelector('details')?.open === true;
  const details = made.querySelector('details');
  if (open && details !== null) details.open = true;
  old.replaceWith(made);
  if (focused !== undefined && focused !== null) {
    const again = [...made.querySelectorAll<HTMLElement>('[data-control]')].find((one) => one.dataset['control'] === focused);
    again?.focus({ preventScroll: true });
  }
}
