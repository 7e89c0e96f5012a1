import type { PreviewData, PreviewStep } from '../../server/src/preview/drawing-data.ts';
import { element, setText } from './dom.ts';
import { setTarget } from './targets.ts';

/** Goes through the order of work, step by step. */
export interface StepControl {
  readonly element: HTMLElement;
  /** The steps as they are now, and which of them is meant. */
  readonly update: (steps: readonly PreviewStep[], current: number | undefined) => void;
}

/** @param chosen is told of a step that is gone to */
export function stepControl(chosen: (step: PreviewStep) => void): StepControl {
  let steps: readonly PreviewStep[] = [];
  let current: number | undefined;
  const now = (): PreviewStep | undefined => steps.find(({ number }) => number === current);
  const said = setTarget(element('p', { 'aria-live': 'polite' }), { place: () => now()?.span ?? null, lines: () => (now() === undefined ? [] : [now()?.text ?? '']) });
  const go = (by: 1 | -1): void => {
    const next = current === undefined ? (by === 1 ? 1 : steps.length) : Math.min(steps.length, Math.max(1, current + by));
    const step = steps.find(({ number }) => number === next);
    if (step !== undefined) chosen(step);
  };
  const button = (words: string, sign: string, by: 1 | -1): HTMLButtonElement => {
    const made = element('button', { type: 'button', class: 'tool', 'aria-label': words, title: words }, sign);
    made.addEventListener('click', () => go(by));
    return made;
  };
  const [back, on] = [button('Previous step', '‹', -1), button('Next step', '›', 1)];
  const made = element('div', { class: 'steps', role: 'group', 'aria-label': 'Order of work; arrow keys go from step to step', hidden: true }, back, on, said);
  made.addEventListener('keydown', (event) => {
    if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
    event.preventDefault();
    go(event.key === 'ArrowLeft' ? -1 : 1);
  });
  return {
    element: made,
    update: (all, number) => {
      steps = all;
      current = number;
      made.hidden = steps.length === 0;
      const step = now();
      // A button that is disabled while it is pressed would lose the keys.
      back.setAttribute('aria-disabled', String(number === 1));
      on.setAttribute('aria-disabled', String(number === steps.length));
      setText(said, step === undefined ? `Order of work: ${steps.length === 1 ? '1 step' : `${steps.length} steps`}` : `Step ${step.number} of ${steps.length}: ${step.text}`);
    },
  };
}

/** What hangs together by then, in words: `Joined: Front, Gusset; Lining, Pocket`. */
export function joinedWords({ pieces }: Pick<PreviewData, 'pieces'>, { joined }: PreviewStep): string {
  const title = (name: string): string => pieces.find((piece) => piece.name === name)?.title ?? name;
  return joined.length === 0 ? '' : `Joined: ${joined.map((group) => group.map(title).join(', ')).join('; ')}`;
}

/** Where some pieces are marked: looking for marks where there are none takes time at every edit. */
const marked = new WeakSet<ParentNode>();

/** Marks the pieces that hang together with a letter for each group; of none, takes the marks away. */
export function markJoined(root: ParentNode, joined: PreviewStep['joined']): void {
  if (joined.length === 0 && !marked.has(root)) return;
  if (joined.length === 0) marked.delete(root);
  else marked.add(root);
  const letters = new Map(joined.flatMap((group, index) => group.map((name) => [name, String.fromCharCode(65 + (index % 26))] as const)));
  for (const one of root.querySelectorAll('.on-board[data-piece]')) {
    const letter = letters.get(one.getAttribute('data-piece') ?? '');
    if (letter === undefined) one.removeAttribute('data-joined');
    else if (one.getAttribute('data-joined') !== letter) one.setAttribute('data-joined', letter);
  }
}
