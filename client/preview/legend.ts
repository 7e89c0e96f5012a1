import { partKinds, type PartKind, type PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { lineStyles } from '../../server/src/preview/style.ts';
import { element, svgElement, KeyedList } from './dom.ts';

/** Says what each kind of line means, for the kinds that are on the page. */
export function legend(): { readonly element: Element; readonly update: (pieces: readonly PreviewPiece[]) => void } {
  const list = element('ul', { class: 'legend', 'aria-label': 'Kinds of lines' });
  const entries = new KeyedList<PartKind>(list, { key: (kind) => kind, look: () => '', render: ({ value }) => entry(value) });
  return {
    element: list,
    update: (pieces) => {
      const present = new Set(pieces.flatMap((piece) => piece.drawing.parts.map((part) => part.kind)));
      entries.update(partKinds.filter((kind) => present.has(kind)));
    },
  };
}

/** A panel that is smaller has its legend folded until somebody asks for it, pixels (invented, by eye). */
const [roomyAcross, roomyDown] = [640, 560];

/**
 * A legend that is there on request.
 *
 * @param isOpen whether it was opened or closed; null where it was neither
 */
export function foldedLegend(id: string, isOpen: boolean | null, lists: readonly Element[], toggled: (isOpen: boolean) => void): { readonly button: HTMLElement; readonly element: HTMLElement } {
  const folded = element('div', { id, class: 'folded' }, ...lists);
  const button = element('button', { type: 'button', class: 'tool wide', 'aria-controls': folded.id, title: 'Say what fillings and lines mean' }, 'Legend');
  const open = (on: boolean): void => {
    folded.hidden = !on;
    button.setAttribute('aria-expanded', String(on));
  };
  open(isOpen ?? (window.innerWidth >= roomyAcross && window.innerHeight >= roomyDown));
  button.addEventListener('click', () => {
    const on = button.getAttribute('aria-expanded') !== 'true';
    open(on);
    toggled(on);
  });
  return { button, element: folded };
}

/** What isn’t a line has a picture of its own. */
const pictures: Partial<Record<PartKind, string>> = {
  grain: 'M4 6H32M8 3L4 6L8 9M28 3L32 6L28 9',
  notch: 'M13 2H23L18 9Z',
  mark: 'M12 6H24M18 0V12',
  drill: 'M14 6A4 4 0 0 1 22 6A4 4 0 0 1 14 6ZM16.5 6H19.5M18 4.5V7.5',
};

function entry(kind: PartKind): Element {
  const { width, dashes, words } = lineStyles[kind];
  const path = svgElement('path', { class: `part ${kind}`, d: pictures[kind] ?? 'M0 6H36', 'stroke-width': width, 'stroke-dasharray': dashes.length === 0 ? undefined : dashes.join(' ') });
  return element('li', {}, svgElement('svg', { width: 36, height: 12, 'aria-hidden': 'true' }, path), words);
}
