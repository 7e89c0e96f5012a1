import type { Item, Path, TextItem } from '../../pages/sheet.ts';
import { escapeMarkup } from '../escape.ts';

const number = (value: number): string => String(Math.round(value * 1e4) / 1e4 || 0);
const grey = (tone: number): string => `#${Math.round(tone * 255).toString(16).padStart(2, '0').repeat(3)}`;

/** A path as SVG path data (SVG 2, section 9.3), millimetres. */
export const pathData = (path: Path): string => path.map((step) => {
  switch (step.kind) {
    case 'move':
      return `M${number(step.to.x)} ${number(step.to.y)}`;
    case 'line':
      return `L${number(step.to.x)} ${number(step.to.y)}`;
    case 'cubic':
      return `C${[step.control1, step.control2, step.to].map(({ x, y }) => `${number(x)} ${number(y)}`).join(' ')}`;
    case 'close':
      return 'Z';
  }
}).join('');

interface Drawing {
  readonly title: string;
  readonly description: string;
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

/** A drawing in real units: a user unit is a millimetre. No style sheet, no script, no link; all texts are escaped. */
export function toSvg({ title, description, width, height, items }: Drawing): string {
  const ids = new Set<string>();
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}" role="img">`,
    `<title>${escapeMarkup(title)}</title>`,
    `<desc>${escapeMarkup(description)}</desc>`,
    `<g fill="none" stroke-linecap="round" stroke-linejoin="round" font-family="'Source Sans 3', 'Source Sans Pro', sans-serif">`,
    ...items.map((item) => markup(item, ids)),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

/** The same as part of a page, as large as its text asks, told in words to whoever doesn't see it. Without names of its own, which another drawing could have too. */
export function inlineSvg({ label, width, height, items }: { readonly label: string; readonly width: number; readonly height: number; readonly items: readonly Item[] }, ems: number): string {
  const ids = new Set<string>();
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width * ems)}em" height="${number(height * ems)}em" viewBox="0 0 ${number(width)} ${number(height)}" role="img" aria-label="${escapeMarkup(label)}" fill="none" stroke-linecap="round" stroke-linejoin="round" font-family="sans-serif">${items.map((item) => markup(item, ids)).join('')}</svg>`;
}

function markup(item: Item, ids: Set<string>): string {
  switch (item.kind) {
    case 'line':
      return `<path class="${item.role}" d="${pathData(item.path)}" stroke="${grey(item.pen.tone)}" stroke-width="${number(item.pen.width)}"${item.pen.dashes.length === 0 ? '' : ` stroke-dasharray="${item.pen.dashes.map(number).join(' ')}"`}${(item.pen.phase ?? 0) === 0 ? '' : ` stroke-dashoffset="${number(item.pen.phase ?? 0)}"`}>${titled(item.name)}</path>`;
    case 'fill':
      return `<path class="${item.role}" d="${pathData(item.path)}" fill="${grey(item.tone)}" fill-rule="evenodd">${titled(item.name)}</path>`;
    case 'text':
      return text(item);
    case 'group': {
      const turn = item.turned ? ' rotate(-90)' : '';
      const transform = item.shift.x === 0 && item.shift.y === 0 && !item.turned ? '' : ` transform="translate(${number(item.shift.x)} ${number(item.shift.y)})${turn}"`;
      const name = item.layer === undefined ? item.name : `Size ${item.layer}`;
      return [`<g${name === '' ? '' : ` id="${idFor(name, ids)}"`}${transform}>${titled(name)}`, ...item.items.map((one) => markup(one, ids)), '</g>'].join('\n');
    }
  }
}

const titled = (name: string): string => (name === '' ? '' : `<title>${escapeMarkup(name)}</title>`);

function text({ words, at, align, size, weight, tone, turn }: TextItem): string {
  const anchor = align === 'start' ? '' : ` text-anchor="${align}"`;
  const turned = turn === 0 ? '' : ` transform="rotate(${number(turn)} ${number(at.x)} ${number(at.y)})"`;
  return `<text x="${number(at.x)}" y="${number(at.y)}" font-size="${number(size)}"${weight === 'bold' ? ' font-weight="600"' : ''}${anchor} fill="${grey(tone)}"${turned}>${escapeMarkup(words)}</text>`;
}

/** An id that no other group has, of signs that any program takes. */
function idFor(name: string, ids: Set<string>): string {
  const plain = name.replace(/[^A-Za-z0-9]+/g, '-').replace(/^-+|-+$/g, '').toLowerCase().slice(0, 60);
  const base = /^[a-z]/.test(plain) ? plain : `g-${plain}`;
  let id = base;
  for (let count = 2; ids.has(id); count++) id = `${base}-${count}`;
  ids.add(id);
  return id;
}
