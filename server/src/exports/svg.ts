import type { DrawnPart, PreviewPiece } from './drawing-model.ts';
import { lineStyles, twinDashes } from './drawing-style.ts';
import { escapeMarkup } from './escape.ts';

/** Lengths of the sheet’s own parts, in millimetres. */
const margin = 15;
const textSize = 4;
const smallSize = 3;
const lineHeight = 5.5;
/** A CSS pixel or a point of a line style, as a width on paper. */
const stroke = 0.3;

export interface SheetText {
  /** Lines under the drawing, such as cautions and the revision. */
  readonly footer: readonly string[];
}

/**
 * A piece as a standalone SVG drawing at true size: printed unscaled, a millimetre is a millimetre. It has no style
 * sheet, no script and no link, and everything in it that comes from a spec is escaped.
 */
export function pieceSheet(piece: PreviewPiece, { footer }: SheetText): string {
  const { box, parts, note, description } = piece.drawing;
  const { x, y } = box;
  const width = Math.max(box.width, 110) + 2 * margin;
  const head = wrapped([piece.title, sizeLine(piece), ...piece.cuts, ...(note === '' ? [] : [note])], width - 2 * margin, textSize);
  const foot = wrapped(footer, width - 2 * margin, smallSize);
  const headHeight = head.length * lineHeight;
  const drawingTop = margin + headHeight + 8;
  const scaleTop = drawingTop + box.height + 14;
  const footerTop = scaleTop + 14;
  const height = footerTop + foot.length * lineHeight + margin;
  const toPage = `translate(${round(margin - x)} ${round(drawingTop + y + box.height)}) scale(1 -1)`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}mm" height="${round(height)}mm" viewBox="0 0 ${round(width)} ${round(height)}" role="img">`,
    `<title>${escapeMarkup(description)}</title>`,
    `<rect width="100%" height="100%" fill="#ffffff"/>`,
    `<g font-family="sans-serif" font-size="${textSize}" fill="#000000">`,
    ...textLines(head, margin, margin + textSize),
    `</g>`,
    `<g transform="${toPage}" fill="none" stroke="#000000" stroke-linejoin="round">`,
    ...parts.map(partMarkup),
    `</g>`,
    `<g font-family="sans-serif" font-size="${smallSize}" fill="#000000">`,
    ...parts.map((part) => labelMarkup(part, margin - x, drawingTop + y + box.height)),
    `</g>`,
    ...scaleBar(margin, scaleTop),
    `<g font-family="sans-serif" font-size="${smallSize}" fill="#000000">`,
    ...textLines(foot, margin, footerTop),
    `</g>`,
    `</svg>`,
    '',
  ].filter((line) => line !== '').join('\n') + '\n';
}

const sizeLine = ({ cut, finished }: PreviewPiece): string =>
  `Cut ${cut.width.text} × ${cut.height.text}, finished ${finished.width.text} × ${finished.height.text}`;

/** Breaks texts between words so that none is wider than the sheet; a letter takes about half its height (invented). */
function wrapped(texts: readonly string[], width: number, size: number): readonly string[] {
  const most = Math.floor(width / (size * 0.55));
  return texts.flatMap((text) => {
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(/\s+/)) {
      if (line !== '' && line.length + 1 + word.length > most) {
        lines.push(line);
        line = word;
      } else line = line === '' ? word : `${line} ${word}`;
    }
    return [...lines, line];
  });
}

const round = (value: number): number => Math.round(value * 1000) / 1000;

function textLines(lines: readonly string[], x: number, y: number): readonly string[] {
  return lines.map((line, index) => `<text x="${round(x)}" y="${round(y + index * lineHeight)}">${escapeMarkup(line)}</text>`);
}

function partMarkup(part: DrawnPart): string {
  const style = lineStyles[part.kind];
  const dashes = style.dashes.length === 0 ? '' : ` stroke-dasharray="${style.dashes.map((dash) => round(dash * stroke)).join(' ')}"`;
  const fill = style.filled ? ' fill="#000000"' : '';
  const own = `<path d="${part.path}" stroke-width="${round(style.width * stroke)}"${dashes}${fill}><title>${escapeMarkup(`${style.words}: ${part.name}`)}</title></path>`;
  if (part.twin === '') return own;
  const twin = `<path d="${part.twin}" stroke="#767676" stroke-width="${round(stroke)}" stroke-dasharray="${twinDashes.map((dash) => round(dash * stroke)).join(' ')}"/>`;
  return `${twin}\n${own}`;
}

/** Names stand upright, though the drawing’s y runs upwards. */
function labelMarkup(part: DrawnPart, dx: number, dy: number): string {
  if (part.label === null) return '';
  const { x, y, align } = part.label;
  return `<text x="${round(x + dx + 1)}" y="${round(dy - y + 3.5)}" text-anchor="${align}">${escapeMarkup(part.name)}</text>`;
}

/** Two bars to lay a ruler against: 4 inches and 10 centimetres. */
function scaleBar(x: number, y: number): readonly string[] {
  const bar = (length: number, words: string, top: number): string =>
    `<g fill="none" stroke="#000000" stroke-width="0.3"><path d="M${x} ${round(top - 1.5)}v3M${x} ${round(top)}h${length}M${round(x + length)} ${round(top - 1.5)}v3"/></g>` +
    `<text x="${round(x + length + 2)}" y="${round(top + 1)}" font-family="sans-serif" font-size="${smallSize}" fill="#000000">${words}</text>`;
  return [bar(101.6, '4 in', y), bar(100, '10 cm', y + 5)];
}
