import { element, svgElement } from './dom.ts';

const inches = [1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 6, 12, 24, 36, 72, 144];
const centimetres = [0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 400];
const words = new Map([[1 / 8, '1/8'], [1 / 4, '1/4'], [1 / 2, '1/2']]);
const longest = 110;

/** Two bars of round lengths, in inches and in centimetres, that follow the scale. */
export function scaleBar(): { readonly element: Element; readonly update: (scale: number) => void } {
  const made = element('div', { class: 'scale', role: 'img' });
  const update = (scale: number): void => {
    const inch = longestWithin(inches, 25.4 * scale);
    const cm = longestWithin(centimetres, 10 * scale);
    made.replaceChildren(bar(inch * 25.4 * scale, `${words.get(inch) ?? inch} in`), bar(cm * 10 * scale, `${cm} cm`));
    made.setAttribute('aria-label', `Scale: the bars show ${words.get(inch) ?? inch} in and ${cm} cm`);
  };
  return { element: made, update };
}

const longestWithin = (lengths: readonly number[], pixels: number): number => lengths.filter((length) => length * pixels <= longest).at(-1) ?? lengths[0] ?? 1;

function bar(width: number, text: string): Element {
  const drawn = svgElement('svg', { width: width + 2, height: 9, 'aria-hidden': 'true' }, svgElement('path', { d: `M1 0V9M1 4.5H${width + 1}M${width + 1} 0V9` }));
  return element('span', { class: 'bar' }, drawn, text);
}
