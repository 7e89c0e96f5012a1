import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import { element, setText } from './dom.ts';

const words: Readonly<Record<PreviewLays['state'], string>> = {
  looking: 'Looking for shorter lays …',
  done: 'The search for shorter lays has ended.',
  stopped: 'Stopped: there may be shorter lays.',
};

export interface SearchState {
  readonly element: HTMLElement;
  readonly update: (lays: PreviewLays) => void;
  /** The lays shown are of an earlier text, until there are new ones. */
  readonly outdated: () => void;
}

/** How far the search for shorter lays is, with a way to stop it and to go on. */
export function searchState(look: (on: boolean) => void): SearchState {
  const text = element('span', { role: 'status' });
  const bar = element('progress', { max: 1, 'aria-label': 'Search for shorter lays' });
  const stop = element('button', { type: 'button', class: 'tool wide', 'data-control': 'stop' }, 'Stop');
  let isLooking = true;
  stop.addEventListener('click', () => look(!isLooking));
  const made = element('div', { class: 'search', hidden: true }, text, bar, stop);
  return {
    element: made,
    update: ({ state, done, materials }) => {
      isLooking = state === 'looking';
      made.hidden = materials.length === 0;
      setText(text, words[state]);
      bar.hidden = !isLooking;
      bar.value = done;
      // A button that had the focus is not taken away from under it.
      stop.hidden = state === 'done' && document.activeElement !== stop;
      stop.disabled = state === 'done';
      setText(stop, isLooking || state === 'done' ? 'Stop' : 'Look on');
    },
    outdated: () => setText(text, 'Laying the pieces out anew: what is shown is of an earlier text.'),
  };
}
