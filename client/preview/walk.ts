import type { PreviewRun, PreviewWalk } from '../../server/src/preview/drawing-data.ts';
import { element, svgElement } from './dom.ts';

/** Pixels: the longer run, how high one is drawn, and the room between them. */
const longest = 300;
const high = 14;
const gap = 16;

/** Both edges of a seam laid along each other, straightened, from where they begin: corners as ticks, notches as wedges, lines from notch to notch. */
export function walkDrawing({ title, runs, ease }: PreviewWalk): Element {
  const [first, second] = runs;
  const scale = longest / Math.max(first.length, second.length, 1e-9);
  const words = `${title}: ${first.says}, ${first.text}, along ${second.says}, ${second.text}${ease === '' ? '' : `, ${ease}`}`;
  const below = high + gap;
  const pairs = first.notches.length === second.notches.length ? first.notches.map((at, index) => [at, second.notches[index] ?? at] as const) : [];
  const drawn = svgElement('svg', { class: 'walk', width: longest + 4, height: below + high + 4, viewBox: `-2 -2 ${longest + 4} ${below + high + 4}` },
    ...pairs.map(([a, b]) => svgElement('line', { class: 'meets', x1: a * scale, y1: high, x2: b * scale, y2: below })),
    ...run(first, 0, high, scale), ...run(second, below, below, scale));
  return element('div', { class: 'compared walked', role: 'img', 'aria-label': words }, line(first), drawn, line(second), ...(ease === '' ? [] : [element('p', { class: 'by' }, ease)]));
}

const line = ({ says, text, notches }: PreviewRun): Element =>
  element('p', {}, element('strong', {}, text), ` ${says}${notches.length === 0 ? '' : ` · ${notches.length} ${notches.length === 1 ? 'notch' : 'notches'}`}`);

/** @param inner the y at which it lies along the other, where its notches are */
function run({ length, corners, notches }: PreviewRun, top: number, inner: number, scale: number): readonly Element[] {
  const inwards = inner === top ? 1 : -1;
  return [
    svgElement('rect', { class: 'measured', x: 0, y: top, width: length * scale, height: high }),
    ...corners.map((at) => svgElement('line', { class: 'corner', x1: at * scale, y1: top, x2: at * scale, y2: top + high })),
    ...notches.map((at) => svgElement('path', { class: 'wedge', d: `M${at * scale - 4} ${inner}h8l-4 ${7 * inwards}z` })),
  ];
}
