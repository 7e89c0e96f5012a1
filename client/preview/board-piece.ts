import { isSame } from '../../server/src/preview/difference.ts';
import type { PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { nameForm, type NameForm } from './board-names.ts';
import { drawingOf, placeOfCard, type Card, type WhenSeen } from './cards.ts';
import { element, setProperty, svgElement, type KeyedList, type Live } from './dom.ts';
import type { Hatching } from './hatching.ts';
import type { Ghost } from './since.ts';
import { nestedOutlines, nestedWords, type NestedUnder } from './nested.ts';
import { setTarget } from './targets.ts';

/** In millimetres; the style takes it to the scale. */
export function setSize(made: HTMLElement, width: number, height: number): void {
  setProperty(made, '--width', width);
  setProperty(made, '--height', height);
}

export interface PieceWays {
  readonly whenSeen: WhenSeen;
  readonly fills: Hatching;
  readonly widthOf: (words: string) => number;
}

/** A piece on the board: filled as its material is, with its name where it has room. */
export function renderPiece(live: Live<Card>, { whenSeen, fills, widthOf }: PieceWays): Element {
  const { name, title, piece, undrawn } = live.value;
  const made = element('li', { class: undrawn === undefined ? 'on-board' : 'on-board stale', 'data-piece': name });
  if (piece === undefined) return made;
  const { box, room } = piece.drawing;
  const count = piece.count === 0 ? '' : `${piece.count} ×`;
  const more = `, finished ${piece.finished.width.text} by ${piece.finished.height.text}, ${piece.cuts.join(', ')}`;
  const button = element('button', { type: 'button', class: 'name', 'data-control': 'title' }, element('span', {}, title), ' ', element('span', { class: 'count' }, count), element('span', { class: 'unseen' }, more));
  setTarget(button, { piece: name, place: () => placeOfCard(live.value), lines: () => linesOf(live.value) });
  const cleared: WhenSeen = (own, one, fill) => whenSeen(own, one, (scale) => {
    fill(scale);
    clearOfName(made, one.value, nameForm(title, roomOf(piece, scale), widthOf), scale);
  });
  const drawing = drawingOf(live, name, piece.drawing, cleared, groundOf(piece, fills));
  setTarget(drawing, { piece: name, place: () => placeOfCard(live.value), lines: () => linesOf(live.value) });
  made.append(drawing, button);
  setSize(made, box.width, box.height);
  made.style.setProperty('--sign-room', String(Math.min(box.width, box.height) / 14));
  made.style.setProperty('--room-x', String(room.x - box.x));
  made.style.setProperty('--room-y', String(box.y + box.height - room.y));
  return made;
}

function linesOf({ title, piece }: Card): readonly string[] {
  if (piece === undefined) return [title];
  const { cut, finished, cuts } = piece;
  return [title, `Cut ${cut.width.text} × ${cut.height.text}`, `Finished ${finished.width.text} × ${finished.height.text}`, ...cuts];
}

/** The whole piece in its material’s tone, and within the stitching lines its hatching: the allowance is the lighter band. */
function groundOf({ drawing: { area }, materials }: PreviewPiece, fills: Hatching): readonly Element[] {
  const { fill, tone } = fills.paint(materials[0]);
  return [svgElement('g', { class: 'ground', transform: 'scale(1 -1)' },
    svgElement('path', { class: `cloth-fill ${tone}`, d: area.cutting }),
    svgElement('path', { class: `inner-fill ${tone}`, d: area.stitching }),
    svgElement('path', { d: area.stitching, fill }))];
}

const roomOf = ({ drawing: { room } }: PreviewPiece, scale: number): { readonly across: number; readonly high: number } => ({ across: room.across * scale, high: room.high * scale });

/** Letters of the names of lines are about as wide as this, and a name as high, pixels. */
const [letter, labelHigh] = [6, 14];

/** Names of lines give way to the name of the piece. */
function clearOfName(made: Element, { piece }: Card, form: NameForm | undefined, scale: number): void {
  if (piece === undefined) return;
  const { room } = piece.drawing;
  for (const text of made.querySelectorAll('.drawing > .label')) {
    const width = text.textContent.length * letter;
    const start = (Number(text.getAttribute('x')) - room.x) * scale - (text.getAttribute('text-anchor') === 'end' ? width : 0);
    const top = (Number(text.getAttribute('y')) + room.y) * scale - (text.getAttribute('dy')?.startsWith('-') === true ? labelHigh : 0);
    const isUnder = form !== undefined && start < form.box.width / 2 && start + width > -form.box.width / 2 && top < form.box.height / 2 && top + labelHigh > -form.box.height / 2;
    text.classList.toggle('under-name', isUnder);
  }
}

/** Pixels below which a piece is its outline alone (invented, by eye). */
const tiny = 64;

/** Whether a piece is so small on screen that its lines would only hide it. */
export const isTiny = ({ piece }: Card, scale: number): boolean => piece !== undefined && Math.max(piece.drawing.box.width, piece.drawing.box.height) * scale < tiny;

/** The scale that each piece was last named for. */
const namedFor = new WeakMap<Element, number>();

/** Detail comes with room: first the lines, then a piece’s name, then also how many are cut. */
export function nameWhereRoom(pieces: KeyedList<Card>, scale: number, widthOf: (words: string) => number): void {
  for (const { element: made, item } of pieces.all()) {
    const room = item.piece?.drawing.room;
    if (room === undefined || namedFor.get(made) === scale) continue;
    namedFor.set(made, scale);
    const form = item.piece && nameForm(item.title, roomOf(item.piece, scale), widthOf);
    clearOfName(made, item, form, scale);
    made.classList.toggle('tiny', isTiny(item, scale));
    made.classList.toggle('unnamed', form === undefined);
    made.classList.toggle('upright', form?.way === 'upright');
    made.classList.toggle('uncounted', form?.counted !== true);
    if (made instanceof HTMLElement) made.style.setProperty('--name-width', `${Math.floor(form?.width ?? 0)}px`);
  }
}

/** What is otherwise in other options: their outlines under its lines, and the words below it. */
export function showNested(made: Element, nested: readonly NestedUnder[]): void {
  if (nested.length === 0 && made.querySelector('.nested-words') === null) return;
  for (const one of made.querySelectorAll('.nested, .nested-words')) one.remove();
  if (nested.length === 0) return;
  made.querySelector('.ground')?.after(nestedOutlines(nested));
  made.append(nestedWords(nested));
}

const ghosts = new WeakMap<Element, Ghost | undefined>();

/** The outline as it was saved lies below the lines as they are now; what else is otherwise is said below the piece. */
export function showGhost(made: Element, ghost: Ghost | undefined): void {
  if (isSame(ghosts.get(made), ghost)) return;
  ghosts.set(made, ghost);
  made.querySelector('.ghosts')?.remove();
  made.querySelector('.was:not(.nested-words)')?.remove();
  made.classList.toggle('ghosted', ghost !== undefined);
  if (ghost === undefined) return;
  if (ghost.outline !== '') made.querySelector('.ground')?.after(svgElement('g', { class: 'ghosts', transform: 'scale(1 -1)' }, svgElement('path', { class: 'ghost', d: ghost.outline })));
  if (ghost.words.length > 0) made.append(element('ul', { class: 'was' }, ...ghost.words.map((words) => element('li', {}, words))));
}
