import type { PreviewCompared, PreviewMeasure } from '../../server/src/preview/drawing-data.ts';
import { element, svgElement } from './dom.ts';

/** Pixels: the longest bar, and how high one is. */
const longest = 260;
const high = 16;

/** What a check that fails has measured, laid along each other at one scale, with what is missing or too much dashed and told. */
export function comparedDrawing({ both, by }: PreviewCompared): Element {
  const { says, text } = both[0];
  const words = `${says} is ${text}, and should be ${both[1].text}${by === '' ? '' : `: ${by} apart`}`;
  const [is, wanted] = both;
  return element('div', { class: 'compared', role: 'img', 'aria-label': words },
    ...(is.height === null || wanted.height === null ? bars(both, by) : [laidOver(is, wanted)]));
}

/** Lengths below one another, both from the left; the shorter one goes on dashed to where the longer one ends. */
function bars(both: PreviewCompared['both'], by: string): readonly Element[] {
  const most = Math.max(...both.map(({ width }) => Math.abs(width)), 1e-9);
  return both.map(({ says, text, width }) => {
    const share = Math.abs(width) / most;
    const isShorter = share < 1;
    const drawn = svgElement('svg', { class: 'bars', width: longest + 4, height: high + 4, viewBox: `-2 -2 ${longest + 4} ${high + 4}` },
      ...(isShorter ? [svgElement('rect', { class: 'apart', x: share * longest, y: 0, width: (1 - share) * longest, height: high })] : []),
      svgElement('rect', { class: 'measured', x: 0, y: 0, width: share * longest, height: high }));
    return element('div', {}, element('p', {}, element('strong', {}, text), ` ${says}`, isShorter && by !== '' ? element('span', { class: 'by' }, ` · ${by} shorter`) : ''), drawn);
  });
}

/** Sizes over one another from their lower left: what there is filled, what is wanted dashed. */
function laidOver(is: PreviewMeasure, wanted: PreviewMeasure): Element {
  const [width, height] = [Math.max(is.width, wanted.width), Math.max(is.height ?? 0, wanted.height ?? 0)];
  const scale = Math.min(longest / Math.max(width, 1e-9), 120 / Math.max(height, 1e-9));
  const rectangle = (of: PreviewMeasure, look: string): Element =>
    svgElement('rect', { class: look, x: 0, y: (height - (of.height ?? 0)) * scale, width: of.width * scale, height: (of.height ?? 0) * scale });
  const drawn = svgElement('svg', { class: 'bars', width: width * scale + 4, height: height * scale + 4, viewBox: `-2 -2 ${width * scale + 4} ${height * scale + 4}` }, rectangle(is, 'measured'), rectangle(wanted, 'apart'));
  return element('div', {}, drawn, element('p', {}, element('strong', {}, is.text), ` ${is.says}`), element('p', {}, element('strong', {}, wanted.text), ` ${wanted.says}, dashed`));
}
