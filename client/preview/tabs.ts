import { element } from './dom.ts';
import { views, type View } from './editor.ts';

export const viewWords: Readonly<Record<View, string>> = { board: 'Board', pieces: 'Pieces', table: 'Cutting table', buying: 'To buy', layouts: 'Layouts' };

export interface Tabs {
  readonly list: HTMLElement;
  readonly panels: Readonly<Record<View, HTMLElement>>;
  readonly show: (view: View) => void;
}

/** The views as tabs, by the pattern of the ARIA Authoring Practices Guide: arrows, Home and End move between them. */
export function tabs(changed: (view: View) => void): Tabs {
  const list = element('div', { role: 'tablist', class: 'tabs', 'aria-label': 'Views' });
  const buttons = {} as Record<View, HTMLButtonElement>;
  const panels = {} as Record<View, HTMLElement>;
  for (const view of views) {
    buttons[view] = element('button', { type: 'button', role: 'tab', id: `tab-${view}`, 'aria-controls': `view-${view}` }, viewWords[view]);
    panels[view] = element('div', { role: 'tabpanel', id: `view-${view}`, class: 'view', 'aria-labelledby': `tab-${view}` });
    buttons[view].addEventListener('click', () => choose(view));
    list.append(buttons[view]);
  }
  const show = (chosen: View): void => {
    for (const view of views) {
      buttons[view].setAttribute('aria-selected', String(view === chosen));
      buttons[view].tabIndex = view === chosen ? 0 : -1;
      panels[view].hidden = view !== chosen;
    }
  };
  const choose = (view: View): void => {
    show(view);
    changed(view);
  };
  list.addEventListener('keydown', (event) => {
    const at = views.findIndex((view) => buttons[view] === document.activeElement);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: views.length - 1 }[event.key];
    if (at < 0 || to === undefined) return;
    const view = views[(to + views.length) % views.length] ?? 'board';
    event.preventDefault();
    choose(view);
    buttons[view].focus();
  });
  return { list, panels, show };
}
