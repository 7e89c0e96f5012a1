import type { PreviewLayer } from '../../server/src/preview/drawing-data.ts';
import { element, svgElement } from './dom.ts';
import type { Hatching } from './hatching.ts';

/** Layers as they lie on a piece: filled in their material’s hatching, those behind what is seen dashed. */
export const layersDrawn = (layers: readonly PreviewLayer[], seen: PreviewLayer['side'], { paint }: Hatching): Element =>
  svgElement('g', { class: 'layers', transform: 'scale(1 -1)' },
    // What is behind is drawn first.
    ...[...layers].sort((a, b) => Number(a.side === seen) - Number(b.side === seen)).flatMap(({ material, side, path }) => {
      const { fill, tone } = paint(material);
      const look = side === seen ? 'layer' : 'layer behind';
      return [svgElement('path', { class: `cloth-fill ${tone}`, d: path, 'fill-rule': 'evenodd' }), svgElement('path', { class: look, d: path, fill, 'fill-rule': 'evenodd' })];
    }));

/** The same in words, each with where it lies. */
export const layersTold = (layers: readonly PreviewLayer[], seen: PreviewLayer['side']): Element =>
  element('ul', { class: 'layers-told' }, ...layers.map(({ title, side, where }) => element('li', {}, element('strong', {}, title), ` on the ${side} side${side === seen ? '' : ', behind, dashed'}: ${where}`)));
