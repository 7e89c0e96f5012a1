import { element } from './dom.ts';

/** What is printed of a view beside what is on screen: its name above it, since there are no tabs on paper, and a caution. */
export function headed(panel: HTMLElement, words: string, isDrawn: boolean): void {
  panel.prepend(element('h2', { class: 'printed-head' }, words), ...(isDrawn ? [element('p', { class: 'printed-note' }, 'Drawn small, to look at: these are no templates, and nothing is cut along them.')] : []));
}

/** Pixels of a page as wide as A4 and letter both are within usual margins (CSS Paged Media takes 96 to the inch). */
export const pageWidth = 660;
export const pageHeight = 880;

/**
 * Paper shows all views one after another.
 *
 * @param ready brings every view up to date and fits it to a page
 * @param after brings back what was on screen
 */
export function whenPrinted(ready: () => void, after: () => void): void {
  window.addEventListener('beforeprint', ready);
  window.addEventListener('afterprint', after);
}
