import { applied } from '../../server/src/preview/difference.ts';
import type { PreviewData } from '../../server/src/preview/drawing-data.ts';
import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import { nestedOf } from '../../server/src/preview/nested.ts';
import type { StandaloneData, StandaloneView } from '../../server/src/preview/standalone.ts';
import type { Combination, HostMessage, PageMessage } from './messages.ts';

/** What a page that stands by itself has in place of an editor: it holds all that may be chosen. */
export interface Standalone {
  readonly postMessage: (message: PageMessage) => void;
  readonly getState: () => unknown;
  readonly setState: (state: unknown) => void;
}

/** Undefined where the page holds no pattern. */
export function standalone(): Standalone | undefined {
  const text = document.getElementById('pattern')?.textContent;
  if (text === undefined) return undefined;
  const whole = JSON.parse(text) as StandaloneData;
  let serial = 0;
  let shown = whole.views[0];
  let beside: string | null = null;
  const tell = (message: HostMessage): void => void window.dispatchEvent(new MessageEvent('message', { data: message }));
  const show = (): void => {
    const data = shown?.data === null || shown === undefined ? whole.data : (applied(whole.data, shown.data) as PreviewData);
    const lays = shown?.lays === null || shown === undefined ? whole.lays : (applied(whole.lays, shown.lays) as PreviewLays);
    tell({ type: 'show', version: 1, uri: '', update: { serial: ++serial, data: JSON.stringify(nestedIn(whole, shown, data, beside)) } });
    tell({ type: 'lays', uri: '', lays });
  };
  return {
    postMessage: (message) => {
      if (message.type !== 'ready' && message.type !== 'choose' && message.type !== 'beside') return;
      if (message.type === 'beside') beside = message.choice;
      if (message.type === 'choose') shown = viewOf(whole, message.combination) ?? shown;
      queueMicrotask(show);
    },
    getState: () => undefined,
    setState: () => undefined,
  };
}

/** Shows the other options of a choice under one view, as far as the page holds them. */
function nestedIn(whole: StandaloneData, shown: StandaloneView | undefined, data: PreviewData, beside: string | null): PreviewData {
  const choice = data.choices.find(({ name }) => name === beside);
  if (choice === undefined || shown === undefined) return data;
  const others = choice.options.filter((option) => option !== choice.chosen).flatMap((option) => {
    const other = viewOf(whole, { ...shown.combination, [choice.name]: option });
    return other === undefined ? [] : [{ option, pieces: (other.data === null ? whole.data : (applied(whole.data, other.data) as PreviewData)).pieces }];
  });
  return { ...data, nested: nestedOf(choice, data.pieces, others) };
}

const viewOf = ({ views }: StandaloneData, asked: Combination): StandaloneData['views'][number] | undefined =>
  views.find(({ combination }) => Object.entries(asked).every(([choice, option]) => combination[choice] === option));
