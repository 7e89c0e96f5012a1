import { element, svgElement } from './dom.ts';

const entries: readonly { readonly kind: string; readonly words: string; readonly path: string; readonly dashes?: string }[] = [
  { kind: 'edge selvedge', words: 'Selvedge, double', path: 'M0 4H36M0 8H36' },
  { kind: 'edge fold', words: 'Fold', path: 'M0 6H36', dashes: '14 3 3 3' },
  { kind: 'laid', words: 'Where the pieces end', path: 'M0 6H36', dashes: '7 4' },
  { kind: 'leftover', words: 'Left over', path: 'M1 1H35V11H1Z' },
  { kind: 'lay-grain', words: 'Grain: one head, one way only', path: 'M4 6H32M28 3L32 6L28 9' },
];

/** Says what each kind of line on the layouts means. */
export function layLegend(): Element {
  const items = entries.map(({ kind, words, path, dashes }) =>
    element('li', {}, svgElement('svg', { width: 36, height: 12, 'aria-hidden': 'true' }, svgElement('path', { class: kind, d: path, 'stroke-dasharray': dashes })), words));
  return element('ul', { class: 'legend', 'aria-label': 'Kinds of lines' }, ...items, element('li', {}, 'F: flipped'));
}
