import type { PreviewChoice } from '../../server/src/preview/drawing-data.ts';
import { element, KeyedList } from './dom.ts';
import type { Combination } from './messages.ts';

/** A control for each choice of the pattern, the size among them. */
export function choiceControls(choose: (combination: Combination) => void): { readonly element: HTMLElement; readonly update: (choices: readonly PreviewChoice[]) => void } {
  const row = element('div', { class: 'choices', role: 'group', 'aria-label': 'Size and choices' });
  const chosen = (): Combination => Object.fromEntries([...row.querySelectorAll('select')].map((select) => [select.name, select.value]));
  const list = new KeyedList<PreviewChoice>(row, {
    key: (choice) => choice.name,
    look: ({ title, options, titles }) => [title, options, titles],
    render: ({ value }) => {
      const select = element('select', { id: `choice-${value.name}`, name: value.name, 'data-control': value.name }, ...value.options.map((option) => element('option', { value: option }, value.titles[option] ?? option)));
      select.addEventListener('change', () => choose(chosen()));
      return element('div', {}, element('label', { for: select.id }, value.title), ' ', select);
    },
  });
  return {
    element: row,
    update: (choices) => {
      list.update(choices);
      row.hidden = choices.length === 0;
      for (const { name, titles, chosen: option } of choices) {
        const select = list.get(name)?.querySelector('select');
        if (select !== null && select !== undefined && select.value !== option) select.value = option;
        // Paper has no boxes to choose from.
        select?.parentElement?.setAttribute('data-chosen', titles[option] ?? option);
      }
    },
  };
}
