/**
 * One Tab stop for all controls in the rows of a view, by the roving tabindex of the ARIA Authoring Practices Guide: left
 * and right go from one to the next, up and down to the same one of another row, Home and End to the first and the last.
 *
 * @param rows selects what belongs together: a card, a row of a table
 */
export function addRoving(view: HTMLElement, rows: string): void {
  // Handles have keys of their own.
  const selector = `:is(${rows}) :is(button:not(.handle), summary)`;
  let current: HTMLElement | undefined;

  const controls = (): readonly HTMLElement[] => [...view.querySelectorAll<HTMLElement>(selector)].filter(isReachable);
  const stopAt = (next: HTMLElement | undefined): void => {
    if (current !== undefined && current !== next) current.tabIndex = -1;
    current = next;
    if (next !== undefined) next.tabIndex = 0;
  };
  const take = (added: Element): void => {
    const found = [...added.querySelectorAll<HTMLElement>('button, summary'), ...(added instanceof HTMLElement && added.matches('button, summary') ? [added] : [])];
    for (const one of found) if (one !== current && one.matches(selector)) one.tabIndex = -1;
  };

  new MutationObserver((records) => {
    for (const { addedNodes } of records) for (const node of addedNodes) if (node instanceof Element) take(node);
    if (current === undefined || !view.contains(current) || !isReachable(current)) stopAt(controls()[0]);
  }).observe(view, { childList: true, subtree: true, attributeFilter: ['hidden', 'inert', 'open'] });

  view.addEventListener('focusin', ({ target }) => {
    if (target instanceof HTMLElement && target.matches(selector)) stopAt(target);
  });
  view.addEventListener('keydown', (event) => {
    const { target } = event;
    if (!(target instanceof HTMLElement) || !target.matches(selector) || event.altKey || event.ctrlKey || event.metaKey) return;
    const next = nextOf(controls(), target, rows, event.key);
    if (next === undefined) return;
    event.preventDefault();
    next.focus();
  });
}

/** What is in a list that is closed, or in a card that is filtered out, can't be gone to. */
const isReachable = (one: HTMLElement): boolean => one.closest('[hidden]:not([role=tabpanel]), [inert]') === null && (one.localName === 'summary' || one.closest('details:not([open])') === null);

function nextOf(all: readonly HTMLElement[], from: HTMLElement, rows: string, key: string): HTMLElement | undefined {
  const at = all.indexOf(from);
  const inOtherRow = (list: readonly HTMLElement[]): HTMLElement | undefined => {
    const row = list.find((one) => one.closest(rows) !== from.closest(rows))?.closest(rows);
    const there = list.filter((one) => one.closest(rows) === row);
    return there.find((one) => one.dataset['control'] === from.dataset['control']) ?? there[0];
  };
  switch (key) {
    case 'ArrowRight':
      return all[at + 1];
    case 'ArrowLeft':
      return all[at - 1];
    case 'ArrowDown':
      return inOtherRow(all.slice(at + 1));
    case 'ArrowUp':
      return inOtherRow(all.slice(0, at).reverse());
    case 'Home':
      return all[0];
    case 'End':
      return all.at(-1);
    default:
      return undefined;
  }
}
