import type { DrawnPart, DrawnSign, Figure, PieceDrawing, PlaceRef, PreviewData, PreviewPiece, ProblemCounts, UndrawnPiece } from '../../server/src/preview/drawing-data.ts';
import { placeNow } from '../../server/src/preview/places.ts';
import { lineStyles, twinDashes } from '../../server/src/preview/style.ts';
import { sidesOf } from '../../server/src/units/sides.ts';
import { element, svgElement, type Live, type ListSpec } from './dom.ts';
import { linePieces } from './line-pieces.ts';
import { writeLabels } from './piece-labels.ts';
import { finishedWords, isFinishedAsCut } from './size-words.ts';
import { setTarget } from './targets.ts';

/** A piece on the page: as it is now, as it last was, or only its name. */
export interface Card {
  readonly name: string;
  readonly title: string;
  readonly piece: PreviewPiece | undefined;
  /** Set where the text as it is now gives no drawing. */
  readonly undrawn: UndrawnPiece | undefined;
}

/** The same card for the same drawing, so that lists pass over what has not changed. */
const cardsOfPieces = new WeakMap<PreviewPiece, Card>();

function cardOf(piece: PreviewPiece): Card {
  const known = cardsOfPieces.get(piece);
  if (known !== undefined) return known;
  const card = { name: piece.name, title: piece.title, piece, undrawn: undefined };
  cardsOfPieces.set(piece, card);
  return card;
}

/**
 * Puts the pieces that can’t be drawn now among the others, each with its last drawing, in the order of the text.
 *
 * @param kept drawings from before the page was loaded, for pieces that were not drawn since
 */
export function cardsOf(data: PreviewData, kept: readonly PreviewPiece[]): readonly Card[] {
  const cards: Card[] = data.pieces.map(cardOf);
  const startOf = (one: PreviewPiece | UndrawnPiece | undefined): number => placeNow(data, one?.span)?.start ?? Infinity;
  for (const one of data.undrawn) {
    const at = startOf(one);
    const before = cards.findIndex((card) => startOf(card.undrawn ?? card.piece) > at);
    const card = { name: one.name, title: one.title, piece: one.earlier?.piece ?? kept.find(({ name }) => name === one.name), undrawn: one };
    if (before < 0) cards.push(card);
    else cards.splice(before, 0, card);
  }
  return cards;
}

export const placeOfCard = ({ piece, undrawn }: Card): PlaceRef | null => (undrawn ?? piece)?.place ?? null;

/** The cards of a scrolling field. */
export function cardList(field: Element, scale: () => number): ListSpec<Card> {
  const { whenSeen } = drawnWhenSeen(field, scale);
  return { key: (card) => card.name, look, render: (live) => renderCard(live, whenSeen) };
}

/**
 * Lines of drawings that are out of sight are made when they come into it.
 *
 * @param isLarge whether lines would be seen in a drawing; where they wouldn't, it waits to be looked at again
 */
export function drawnWhenSeen(field: Element, scale: () => number, isLarge: (card: Card, scale: number) => boolean = () => true): { readonly whenSeen: WhenSeen; readonly lookAgain: () => void; readonly drawAll: () => void } {
  const inSight = new WeakSet<Live<Card>>();
  interface Waiting {
    readonly live: Live<Card>;
    fill: ((scale: number) => void) | undefined;
  }
  const waiting = new WeakMap<Element, Waiting>();
  const small = new Set<Waiting>();
  const undrawn = new Map<Element, Waiting>();
  const draw = (one: Waiting): void => {
    if (isLarge(one.live.value, scale())) {
      one.fill?.(scale());
      one.fill = undefined;
      small.delete(one);
    } else if (one.fill !== undefined) small.add(one);
  };
  const observer = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) {
      const one = waiting.get(target);
      if (one === undefined) continue;
      target.classList.toggle('away', !isIntersecting);
      if (isIntersecting) inSight.add(one.live);
      else inSight.delete(one.live);
      if (isIntersecting) draw(one);
      else small.delete(one);
    }
  }, { root: field, rootMargin: '300px' });
  return {
    whenSeen: (drawing, live, fill) => {
      const one: Waiting = { live, fill };
      if (inSight.has(live)) draw(one);
      waiting.set(drawing, one);
      if (one.fill !== undefined) undrawn.set(drawing, one);
      observer.observe(drawing);
    },
    drawAll: () => {
      for (const [drawing, one] of undrawn) if (drawing.isConnected) draw(one);
      undrawn.clear();
    },
    lookAgain: () => {
      for (const one of small) draw(one);
    },
  };
}

export type WhenSeen = (drawing: Element, live: Live<Card>, fill: (scale: number) => void) => void;

/** Places and trails are looked up when they are asked for, so they are no part of what shows. */
export const look = ({ title, piece, undrawn }: Card): unknown => [
  title, undrawn !== undefined, undrawn?.earlier?.version, piece?.drawing, piece?.cuts, piece?.problems,
  piece?.cut.width.text, piece?.cut.height.text, piece?.finished.width.text, piece?.finished.height.text, piece?.finished.circle, piece?.open, piece?.folded,
];

function renderCard(live: Live<Card>, whenSeen: WhenSeen): Element {
  const { name, title, piece, undrawn } = live.value;
  const heading = element('h2', {}, setTarget(element('button', { type: 'button', class: 'link', 'data-control': 'title' }, title), { place: () => placeOfCard(live.value), piece: name }));
  const card = element('li', { class: undrawn === undefined ? 'card' : 'card stale', 'data-piece': name }, heading, stateOf(live));
  if (piece !== undefined) card.append(figure(live, piece, whenSeen), caption(live, piece), partsOf(live, piece));
  return card;
}

/** One line that is always there, so that nothing moves when a piece can't be drawn for the length of a keystroke. */
function stateOf({ value: { name, piece, undrawn } }: Live<Card>): Element {
  const short = undrawn === undefined ? problemText(piece?.problems ?? { errors: 0, warnings: 0, notes: 0 }) : piece === undefined ? 'can’t be drawn yet' : 'before your last edits';
  const whole = undrawn === undefined ? short : piece === undefined ? 'Can’t be drawn yet: see its problems.' : 'Drawn as it was before your last edits: the text as it is now can’t be drawn.';
  const line = element('p', { class: short === '' ? 'state' : 'state flag' }, short);
  return short === whole ? line : setTarget(line, { piece: name, place: () => undrawn?.place ?? null, lines: () => [whole] });
}

const plural = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

/** `2 errors, 1 warning`; notes only where they are asked for. */
export function problemText({ errors, warnings, notes }: ProblemCounts, withNotes = false): string {
  return [...(errors > 0 ? [plural(errors, 'error')] : []), ...(warnings > 0 ? [plural(warnings, 'warning')] : []), ...(withNotes && notes > 0 ? [plural(notes, 'note')] : [])].join(', ');
}

// ------------------------------------------------------------------------------------------------ drawing

function figure(live: Live<Card>, piece: PreviewPiece, whenSeen: WhenSeen): Element {
  const { name, drawing } = piece;
  const made = element('div', { class: 'figure' },
    element('div', { class: 'dimension upright' }, cutWord(), figureButton(live, name, 'Cut height', (one) => one.cut.height)),
    drawingOf(live, name, drawing, whenSeen),
    element('div', { class: 'dimension level' }, cutWord(), figureButton(live, name, 'Cut width', (one) => one.cut.width)),
  );
  made.style.setProperty('--width', String(drawing.box.width));
  made.style.setProperty('--height', String(drawing.box.height));
  made.style.setProperty('--sign-room', String(Math.min(drawing.box.width, drawing.box.height) / 14));
  return made;
}

/** What is measured round a drawing is what is cut; its button says so by itself. */
const cutWord = (): Element => element('span', { class: 'dimension-of', 'aria-hidden': 'true' }, 'cut');

/** A number that tells how it came about and leads to where it is written. */
function figureButton(live: Live<Card>, name: string, what: string, of: (piece: PreviewPiece) => Figure): Element {
  const { piece } = live.value;
  const text = piece === undefined ? '' : of(piece).text;
  const button = element('button', { type: 'button', class: 'number', 'aria-label': `${live.value.title}, ${what.toLowerCase()} ${text}`, 'data-control': what }, text);
  return setTarget(button, {
    piece: name,
    place: () => (live.value.undrawn === undefined && live.value.piece !== undefined ? of(live.value.piece).place : placeOfCard(live.value)),
    lines: () => (live.value.piece === undefined ? [] : [`${what} ${of(live.value.piece).text}`, ...of(live.value.piece).trail]),
  });
}

/** @param ground what lies under the lines, such as the fill of a material */
export function drawingOf(live: Live<Card>, name: string, drawing: PieceDrawing, whenSeen: WhenSeen, ground: readonly Element[] = []): SVGSVGElement {
  const { box, description } = drawing;
  const made = svgElement('svg', { class: 'drawing', role: 'img', 'aria-label': description, viewBox: `${box.x} ${-box.y - box.height} ${box.width} ${box.height}` }, ...ground);
  // The whole of it, so that a click between the lines leads to the piece.
  setTarget(made, { place: () => placeOfCard(live.value), piece: name });
  whenSeen(made, live, (scale) => {
    const lines = drawing.parts.map(({ path }) => linePieces(path));
    const named = drawing.parts.flatMap(({ title: text, kind, label }, index) => {
      const beside = kind === 'mark' || kind === 'drill';
      return label === null ? [] : [{ text, x: label.x, y: -label.y, beside, own: beside ? [] : (lines[index] ?? []) }];
    });
    const words = named.map(({ text, x, y }) => svgElement('text', { class: 'label', x, y }, text));
    made.append(linesOf(live, name, drawing), ...words);
    const signs = drawing.parts.flatMap((part) => (part.signs ?? []).map((sign) => ({ x: sign.x, y: -sign.y, own: part.label !== null })));
    writeLabels(made, { box: { ...box, y: -box.y - box.height }, labels: named, words, signs: signs.filter(({ own }) => !own), lines: [...lines.flat(), ...drawing.parts.flatMap(({ twin }) => linePieces(twin))] }, scale);
  });
  return made;
}

function linesOf(live: Live<Card>, name: string, { parts }: PieceDrawing): Element {
  // What can be hit is wider than what is seen, but lies below it, so that a line that is seen is never covered.
  const hits = parts.map((part, index) => setTarget(svgElement('g', { 'data-part': index }, ...hitPaths(part)), partTarget(live, name, index, true)));
  const lines = parts.map((part, index) => setTarget(svgElement('g', { class: part.behind === true ? 'whole behind' : 'whole', 'data-part': index }, ...partPaths(part)), partTarget(live, name, index, true)));
  return svgElement('g', { transform: 'scale(1 -1)' }, ...hits, ...lines);
}

function hitPaths({ path, signs = [] }: DrawnPart): readonly Element[] {
  return [...(path === '' ? [] : [svgElement('path', { class: 'hit', d: path })]), ...signs.filter(({ twin }) => twin === undefined).map((sign) => signAt(sign, 'hit'))];
}

/** Drawn in pixels round its point: the style takes the scale of the drawing out of it. */
const signAt = ({ x, y, shape }: DrawnSign, look: string, width?: number): Element =>
  svgElement('g', { transform: `translate(${x} ${y})` }, svgElement('path', { class: `sign ${look}`, d: shape, 'stroke-width': width }));

function partPaths(part: DrawnPart): readonly Element[] {
  const { width } = lineStyles[part.kind];
  const signs = (part.signs ?? []).map((sign) => (sign.twin === undefined ? signAt(sign, `part ${part.kind}`, width) : signAt(sign, `part twin ${part.kind}`, 1)));
  return part.path === '' ? signs : [...linePaths(part), ...signs];
}

function linePaths({ kind, path, twin }: DrawnPart): readonly Element[] {
  const { width, dashes } = lineStyles[kind];
  const own = svgElement('path', { class: `part ${kind}`, d: path, 'stroke-width': width, 'stroke-dasharray': dashes.length === 0 ? undefined : dashes.join(' ') });
  if (twin === '') return [own];
  return [svgElement('path', { class: `part twin ${kind}`, d: twin, 'stroke-width': 1, 'stroke-dasharray': twinDashes.join(' ') }), own];
}

function partTarget(live: Live<Card>, name: string, index: number, withLines: boolean): Parameters<typeof setTarget>[1] {
  const part = (): DrawnPart | undefined => live.value.piece?.drawing.parts[index];
  return {
    piece: name,
    place: () => (live.value.undrawn === undefined ? (live.value.piece?.places[part()?.place ?? -1] ?? null) : placeOfCard(live.value)),
    lines: () => {
      const one = part();
      return one === undefined || !withLines ? [] : [...partLines(one), ...pieceLine(live.value)];
    },
  };
}

/** Whose line it is, so that nobody need look for it. */
const pieceLine = ({ title, piece }: Card): readonly string[] => (piece === undefined ? [] : [`${title}: ${finishedWords(piece)}`]);

function partLines(part: DrawnPart): readonly string[] {
  const { words } = lineStyles[part.kind];
  const head = part.kind === 'grain' || part.kind === 'notch' ? words : `${words}: ${part.title}`;
  return part.kind === 'notch' ? [part.title.replace(/^notch/, 'Notch')] : part.detail === '' ? [head] : [head, part.detail];
}

// ------------------------------------------------------------------------------------------------ words

function caption(live: Live<Card>, piece: PreviewPiece): Element {
  const { name } = piece;
  const lines: Element[] = [
    element('p', { class: 'finished' }, 'Finished ', ...sidesOf<Element>(piece.finished.circle, figureButton(live, name, 'Finished width', (one) => one.finished.width), figureButton(live, name, 'Finished height', (one) => one.finished.height)), ...(isFinishedAsCut(piece) ? [' as it is cut'] : []), ...(piece.open === '' ? [] : [`, its ${piece.open}`]), ...(piece.folded === null ? [] : [`, folded ${piece.folded}`])),
    ...(piece.cuts.length === 0 ? [] : [element('ul', { class: 'cuts' }, ...piece.cuts.map((cut) => element('li', {}, cut)))]),
    ...(piece.drawing.note === '' ? [] : [element('p', { class: 'muted' }, piece.drawing.note)]),
  ];
  return element('div', { class: 'caption' }, ...lines);
}

/** Every part of the drawing as a button, for whoever doesn’t point; filled only when it is opened. */
function partsOf(live: Live<Card>, piece: PreviewPiece): Element {
  const list = element('ul', { class: 'parts' });
  const details = element('details', {}, element('summary', { 'data-control': 'parts', 'aria-label': `Lines and marks of ${piece.title}` }, 'Lines and marks'), list);
  const fill = (): void => {
    if (!details.open || list.childElementCount > 0) return;
    for (const [index, part] of piece.drawing.parts.entries()) {
      const button = element('button', { type: 'button', class: 'link', 'data-control': `part ${index}`, 'data-part': index }, partLines(part).join(', '));
      list.append(element('li', {}, setTarget(button, partTarget(live, piece.name, index, false))));
    }
  };
  details.addEventListener('toggle', fill);
  return details;
}
