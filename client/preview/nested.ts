import type { PieceDrawing, PreviewChoice, PreviewNested } from '../../server/src/preview/drawing-data.ts';
import { element, svgElement } from './dom.ts';

/** How the outlines of other options are told apart, in the order of the options; then they begin anew (invented, by eye). */
const dashes = ['2 3', '8 3', '12 3 2 3', '5 2 1 2', '16 4', '1 2'];

/** What is nested under one piece. */
export interface NestedUnder {
  readonly title: string;
  readonly outline: string;
  readonly box: PieceDrawing['box'];
  readonly says: string;
  readonly dash: string;
}

/** Of one piece, in each option in which it is otherwise. */
export const nestedUnder = (nested: PreviewNested | null, name: string): readonly NestedUnder[] =>
  (nested?.options ?? []).flatMap(({ title, pieces }, index) => {
    const piece = pieces[name];
    return piece === undefined ? [] : [{ title, ...piece, dash: dashes[index % dashes.length] ?? '' }];
  });

/** Outlines of a piece in other options, each with its name at its upper right. */
export function nestedOutlines(nested: readonly NestedUnder[]): Element {
  const drawn = nested.filter(({ outline }) => outline !== '');
  return svgElement('g', { class: 'nested' },
    ...drawn.map(({ outline, dash }) => svgElement('path', { class: 'nested-line', d: outline, transform: 'scale(1 -1)', 'stroke-dasharray': dash })),
    ...drawn.map(({ title, box }) => svgElement('text', { class: 'nested-name', x: box.x + box.width, y: -box.y - box.height, 'text-anchor': 'end', dy: '1.1em', dx: '-.3em' }, title)));
}

/** What is otherwise in words, with the line that each is drawn with. */
export function nestedWords(nested: readonly NestedUnder[]): Element {
  return element('ul', { class: 'was nested-words' }, ...nested.map(({ title, says, outline, dash }) => element('li', {},
    ...(outline === '' ? [] : [svgElement('svg', { class: 'nested-sample', width: 24, height: 8, 'aria-hidden': 'true' }, svgElement('path', { class: 'nested-line', d: 'M0 4H24', 'stroke-dasharray': dash }))]),
    `${title}: ${says}`)));
}

/** `Only in Domed: Cap.` */
export const elsewhere = (nested: PreviewNested | null): string => (nested?.options ?? []).flatMap(({ title, only, without }) => [
  ...(only.length === 0 ? [] : [`Only in ${title}: ${only.join(', ')}.`]),
  ...(without.length === 0 ? [] : [`Not in ${title}: ${without.join(', ')}.`]),
]).join(' ');

/** Chooses whose other options are drawn under what is shown. */
export function nestingControl(changed: (choice: string | null) => void): { readonly element: HTMLElement; readonly update: (choices: readonly PreviewChoice[], chosen: string | null) => void } {
  const select = element('select', { id: 'nesting' });
  select.addEventListener('change', () => changed(select.value === '' ? null : select.value));
  const made = element('span', { class: 'nesting', hidden: true }, element('label', { for: select.id }, 'Also draw: '), select);
  let known = '';
  return {
    element: made,
    update: (choices, chosen) => {
      const several = choices.filter(({ options }) => options.length > 1);
      made.hidden = several.length === 0;
      const now = JSON.stringify(several.map(({ name, title }) => [name, title]));
      if (now !== known) select.replaceChildren(element('option', { value: '' }, 'nothing'), ...several.map(({ name, title }) => element('option', { value: name }, name === 'size' ? 'all sizes' : `every ${title}`)));
      known = now;
      if (select.value !== (chosen ?? '')) select.value = several.some(({ name }) => name === chosen) ? (chosen ?? '') : '';
    },
  };
}
