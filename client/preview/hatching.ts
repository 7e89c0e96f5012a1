import type { PreviewMaterial } from '../../server/src/preview/drawing-data.ts';
import { element, svgElement } from './dom.ts';

/** Lines of a hatching on a tile of eight by eight pixels: materials are told apart by them without colour. */
const hatchings: readonly string[] = [
  'M-1 9L9 -1',
  'M-1 -1L9 9',
  'M0 4H8',
  'M4 0V8',
  'M0 4H8M4 0V8',
  'M-1 9L9 -1M-1 -1L9 9',
  'M3.5 4H4.5M-.5 0H.5M7.5 0H8.5M-.5 8H.5M7.5 8H8.5',
  'M1 4H5',
];
/** Names of the tones in the style sheet; one more than hatchings would repeat together with them. */
const tones = 7;

/** How a material’s pieces are filled: a hatching, wider where all have been used once, and a tone. */
export interface Hatching {
  readonly update: (materials: readonly PreviewMaterial[]) => void;
  /** Keeps the lines as far apart on screen at every scale. */
  readonly scaled: (scale: number) => void;
  /** The paint of a material; the first where it isn’t known. */
  readonly paint: (material: string | undefined) => { readonly fill: string; readonly tone: string };
  /** To be on the page, so that drawings find the hatchings. */
  readonly element: Element;
  readonly legend: Element;
}

export function hatching(): Hatching {
  const defs = svgElement('defs', {});
  const legend = element('ul', { class: 'legend', 'aria-label': 'Materials' });
  let numbers = new Map<string, number>();
  let shown = '';
  let scale = 1;
  const patterns = (): Iterable<Element> => defs.children;
  const scaled = (next: number): void => {
    // Whatever is filled would be drawn anew.
    if (next === scale) return;
    scale = next;
    fit();
  };
  const fit = (): void => {
    for (const [index, pattern] of [...patterns()].entries()) pattern.setAttribute('patternTransform', `scale(${widthOf(index) / scale})`);
  };
  return {
    element: svgElement('svg', { class: 'hatchings', width: 0, height: 0, 'aria-hidden': 'true' }, defs),
    legend,
    scaled,
    paint: (material) => {
      const number = material === undefined ? undefined : numbers.get(material);
      return number === undefined ? { fill: 'none', tone: 'tone-none' } : { fill: `url(#hatching-${number})`, tone: `tone-${number % tones}` };
    },
    update: (materials) => {
      const used = materials.filter(({ pieces }) => pieces > 0);
      const look = JSON.stringify(used.map(({ name, title }) => [name, title]));
      if (look === shown) return;
      shown = look;
      numbers = new Map(used.map(({ name }, index) => [name, index]));
      defs.replaceChildren(...used.map((_, index) => patternOf(`hatching-${index}`, index)));
      legend.replaceChildren(...used.map(({ title }, index) => sample(title, index)));
      fit();
    },
  };
}

/** The second time round the lines are twice as far apart, and so on. */
const widthOf = (index: number): number => 1 + Math.floor(index / hatchings.length);

const patternOf = (id: string, index: number): Element => svgElement('pattern', { id, width: 8, height: 8, patternUnits: 'userSpaceOnUse' },
  svgElement('path', { class: `hatch tone-${index % tones}`, d: hatchings[index % hatchings.length] }));

function sample(title: string, index: number): Element {
  const id = `sample-${index}`;
  const pattern = patternOf(id, index);
  pattern.setAttribute('patternTransform', `scale(${widthOf(index)})`);
  const [width, height] = [24, 14];
  // Pieces have y upwards, so that a slanting line leans the other way there.
  const drawn = svgElement('svg', { width, height, 'aria-hidden': 'true' }, pattern, svgElement('g', { transform: `translate(0 ${height}) scale(1 -1)` },
    svgElement('rect', { class: `cloth-fill tone-${index % tones}`, width, height }), svgElement('rect', { class: 'swatch', width, height, fill: `url(#${id})` })));
  return element('li', {}, drawn, title);
}
