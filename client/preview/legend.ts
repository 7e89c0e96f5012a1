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
