import type { PieceDrawing, PreviewCompared, PreviewMeasure, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { svgElement } from './dom.ts';

/** What a check that fails says of a piece, to be drawn on the piece itself. */
export interface Failing {
  /** `30 cm, 1 cm longer`. */
  readonly words: string;
  /** The edge or line that was measured, as SVG path data; of several the last. */
  readonly path: string;
  /** By how much it is longer, millimetres: so much at its end is marked. */
  readonly over: number;
  /** What does not fit in, millimetres, where both sides of it are told. */
  readonly wanted: { readonly width: number; readonly height: number } | undefined;
  /** The middle of where that should lie. */
  readonly middle: { readonly x: number; readonly y: number };
}

/** By the names of pieces; nothing of what was not measured on a piece. */
export function failingOn(compared: PreviewCompared, pieces: readonly PreviewPiece[]): ReadonlyMap<string, readonly Failing[]> {
  const found = new Map<string, readonly Failing[]>();
  const [is, wanted] = compared.both;
  for (const [measure, other] of [[is, wanted], [wanted, is]] as const) {
    const [name = '', part] = measure.on?.at(-1) ?? [];
    const drawing = pieces.find((piece) => piece.name === name)?.drawing;
    const path = drawing && pathOf(drawing, part);
    if (drawing !== undefined && path !== undefined) found.set(name, [...(found.get(name) ?? []), { path, middle: middleOf(drawing.box), ...failingOf(measure, other, compared.by) }]);
  }
  return found;
}

const pathOf = ({ area, parts }: PieceDrawing, part: string | undefined): string | undefined => (part === undefined ? area.cutting : parts.find(({ name, path }) => name === part && path !== '')?.path);

function failingOf(measure: PreviewMeasure, other: PreviewMeasure, by: string): Pick<Failing, 'words' | 'over' | 'wanted'> {
  if (measure.height !== null && other.height !== null) return { words: `${other.text} wanted`, over: 0, wanted: { width: other.width, height: other.height } };
  const off = measure.width - other.width;
  const together = `${measure.text}${(measure.on?.length ?? 0) > 1 ? ' together' : ''}${measure.more ?? ''}`;
  return { words: by === '' || off === 0 ? together : `${together}, ${by} ${off > 0 ? 'longer' : 'shorter'}`, over: Math.max(0, off), wanted: undefined };
}

const middleOf = ({ x, y, width, height }: PieceDrawing['box']): Failing['middle'] => ({ x: x + width / 2, y: y + height / 2 });

/** So many stretches follow a curve closely enough for the eye. */
const stretches = 24;

/**
 * Draws on a piece what fails there, or takes it away: words beside what was measured, and what is too long of it dashed.
 *
 * @param goes to which side the words go on: towards the middle of the board, where there is room for them
 */
export function showFailing(made: Element, all: readonly Failing[], goes: 'left' | 'right'): void {
  made.querySelector('.failing-here')?.remove();
  made.classList.toggle('failing', all.length > 0);
  if (all.length === 0) return;
  made.querySelector('.drawing')?.append(svgElement('g', { class: 'failing-here' }, ...all.flatMap((one) => drawn(one, goes))));
}

function drawn({ words, path, over, wanted, middle }: Failing, goes: 'left' | 'right'): readonly Element[] {
  if (wanted !== undefined) {
    const { width, height } = wanted;
    const [left, top] = [middle.x - width / 2, -middle.y - height / 2];
    return [svgElement('rect', { class: 'over', x: left, y: top, width, height }), wordsAt(words, goes === 'right' ? left : left + width, top, goes, true)];
  }
  const line = svgElement('path', { d: path });
  const long = line.getTotalLength();
  const pointsFrom = (from: number): readonly DOMPoint[] => Array.from({ length: stretches + 1 }, (_, step) => line.getPointAtLength(from + ((long - from) * step) / stretches));
  const whole = pointsFrom(0);
  const { y } = line.getPointAtLength(long / 2);
  const ends = whole.map((point) => point.x);
  const excess = over === 0 ? [] : [svgElement('path', { class: 'over', d: `M${pointsFrom(Math.max(0, long - over)).map((point) => `${point.x} ${-point.y}`).join('L')}` })];
  return [...excess, wordsAt(words, goes === 'right' ? Math.min(...ends) : Math.max(...ends), -y, goes, y >= middle.y)];
}

const wordsAt = (words: string, x: number, y: number, goes: 'left' | 'right', isAbove: boolean): Element =>
  svgElement('text', { class: 'label', x, y, dy: isAbove ? '-.6em' : '1.3em', 'text-anchor': goes === 'right' ? 'start' : 'end' }, words);
