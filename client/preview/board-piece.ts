import { isSame } from '../../server/src/preview/difference.ts';
import type { NameRoom, PieceDrawing, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { nameForm, smaller, widthInTwo, type NameForm, type NameWords } from './board-names.ts';
import { drawingOf, placeOfCard, type Card, type WhenSeen } from './cards.ts';
import { element, setProperty, setText, svgElement, type KeyedList, type Live } from './dom.ts';
import type { Hatching } from './hatching.ts';
import type { Ghost } from './since.ts';
import { namesOutside, type Nameless, type OutsideForm, type OutsideName, type Patch } from './outside-names.ts';
import { nestedOutlines, nestedWords, type NestedUnder } from './nested.ts';
import { countWords, cutWords, finishedWords, isFinishedAsCut, sizeWords } from './size-words.ts';
import { setTarget } from './targets.ts';

/** In millimetres; the style takes it to the scale. */
function setSize(made: HTMLElement, width: number, height: number): void {
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
  const { box } = piece.drawing;
  const more = ['', cutWords(piece), finishedWords(piece).replaceAll(' × ', ' by '), ...piece.cuts].filter((words, at) => at === 0 || words !== '').join(', ');
  const button = element('button', { type: 'button', class: 'name', 'data-control': 'title' }, element('span', {}, title), element('span', { class: 'details', 'aria-hidden': 'true' }), element('span', { class: 'unseen' }, more));
  setTarget(button, { piece: name, place: () => placeOfCard(live.value), lines: () => linesOf(live.value) });
  const cleared: WhenSeen = (own, one, fill) => whenSeen(own, one, (scale) => {
    fill(scale);
    const placed = placedIn(one.value, scale, widthOf);
    clearOfName(made, one.value, placed?.form, scale, placed?.room);
  });
  const drawing = drawingOf(live, name, piece.drawing, cleared, groundOf(piece, fills));
  setTarget(drawing, { piece: name, place: () => placeOfCard(live.value), lines: () => linesOf(live.value) });
  made.append(drawing, button);
  setSize(made, box.width, box.height);
  made.style.setProperty('--sign-room', String(Math.min(box.width, box.height) / 14));
  return made;
}

function linesOf({ title, piece }: Card): readonly string[] {
  if (piece === undefined) return [title];
  const { cut, finished, open, folded, cuts } = piece;
  const sizes = isFinishedAsCut(piece) ? [`Cut and finished ${sizeWords(cut)}`] : [`Cut ${sizeWords(cut)}`, `Finished ${sizeWords(finished)}`];
  return [title, ...sizes, ...(open === '' ? [] : [`With its ${open}`]), ...(folded === null ? [] : [`Folded ${folded}`]), ...cuts];
}

/** The whole piece in its material’s tone, and within the stitching lines its hatching: the allowance is the lighter band. */
function groundOf({ drawing: { area }, materials }: PreviewPiece, fills: Hatching): readonly Element[] {
  const { fill, tone } = fills.paint(materials[0]);
  return [svgElement('g', { class: 'ground', transform: 'scale(1 -1)' },
    svgElement('path', { class: `cloth-fill ${tone}`, d: area.cutting }),
    svgElement('path', { class: `inner-fill ${tone}`, d: area.stitching }),
    svgElement('path', { d: area.stitching, fill }))];
}

/** The name of a piece, how many are cut of it, and its finished size: said with it, how that is meant. */
function wordsOf({ title, piece }: Card): NameWords {
  if (piece === undefined) return { title, details: [] };
  const together = (words: string): string => words.replace(/(?<!×) /g, '\u00a0');
  const open = piece.open === '' ? [] : [piece.open];
  const size = `finished ${together([sizeWords(piece.finished), ...open].join(', ')).replaceAll(',\u00a0', ', ')}`;
  const folded = piece.folded === null ? [] : [together(`folded ${piece.folded}`)];
  const brief = [size, ...folded.map(() => 'unfolded')];
  const count = piece.count === 0 ? [] : [together(countWords(piece))];
  const sized = [[cutWords(piece), size, ...folded], [...count, size, ...folded], [...count, ...brief], brief].map((words) => ({ text: words.filter((one) => one !== '').join(', '), isSized: true }));
  return { title, details: [...sized, ...count.map((text) => ({ text, isSized: false }))].filter(({ text }, at, all) => text !== all[at - 1]?.text) };
}

const onScreen = ({ across, high }: NameRoom, scale: number): { readonly across: number; readonly high: number } => ({ across: across * scale, high: high * scale });

interface Placed {
  readonly form: NameForm | undefined;
  readonly room: NameRoom;
}

/**
 * Clear of the lines, unless the finished size has room only across some of them, but neither across a fold nor across the arrow
 * along the grain; of a piece so small that its lines are not drawn, anywhere in it. Undefined of a card without a drawing.
 */
function placedIn(card: Card, scale: number, widthOf: (words: string) => number): Placed | undefined {
  if (card.piece === undefined) return undefined;
  const { room, wide, whole } = card.piece.drawing;
  const words = wordsOf(card);
  const placed = (isTiny(card, scale) ? [whole] : [room, wide]).map((one) => ({ form: nameForm(words, onScreen(one, scale), widthOf), room: one }));
  return placed.find(({ form }) => form?.details?.isSized === true) ?? placed.find(({ form }) => form !== undefined) ?? placed[0];
}

/** Letters of the names of lines are about as wide as this, and a name as high, pixels. */
const [letter, labelHigh] = [6, 14];

/** Names of lines give way to the name of the piece. */
function clearOfName(made: Element, { piece }: Card, form: NameForm | undefined, scale: number, room = piece?.drawing.room): void {
  if (room === undefined) return;
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

/** For which scale each piece was last named, and how. */
const named = new WeakMap<Element, Placed & { readonly scale: number; outside?: string }>();

/** More pieces without room for their names are told by numbers alone, and so are those of more pieces: looking for room takes time. */
const [mostOutside, mostPieces] = [24, 300];
/** A line of a name outside of its piece, and what stands beside it, pixels. */
const [outsideHigh, outsideMargin] = [14, 8];

/** What is in sight of the board, and where each of its pieces lies, CSS pixels from its upper left. */
export interface Sight {
  readonly scale: number;
  readonly within: Patch;
  readonly patchOf: (card: Card) => Patch | undefined;
}

/**
 * Detail comes with room: first the lines, then a piece’s name, then also its finished size and how many are cut. A piece
 * without room for its size has both across its lines or beside itself; one without room for its name has that beside
 * itself, or else through its lines, or else its number in the list of sizes; of many, only where that hides no more than the piece.
 */
export function nameWhereRoom(pieces: KeyedList<Card>, { scale, within, patchOf }: Sight, widthOf: (words: string) => number): void {
  const nameless: NamelessPiece[] = [];
  const sizeless: NamelessPiece[] = [];
  const all: Patch[] = [];
  for (const { element: made, item } of pieces.all()) {
    const patch = patchOf(item);
    if (item.piece === undefined || patch === undefined || !(made instanceof HTMLElement)) continue;
    all.push(patch);
    const before = named.get(made);
    const placed = before?.scale === scale ? before : placedIn(item, scale, widthOf);
    if (placed === undefined) continue;
    if (placed.form === undefined) nameless.push({ made, item, drawing: item.piece.drawing, patch });
    else if (placed.form.details?.isSized !== true) sizeless.push({ made, item, drawing: item.piece.drawing, patch });
    if (before?.scale === scale) continue;
    named.set(made, { scale, form: placed.form, room: placed.room });
    made.classList.toggle('tiny', isTiny(item, scale));
    nameInside(made, item, placed.form, placed.room, scale);
  }
  const outside = nameless.length > mostOutside || all.length > mostPieces ? undefined
    : namesOutside([...nameless.map((one) => outsideOf(one, false, widthOf)), ...sizeless.slice(0, mostOutside).map((one) => outsideOf(one, true, widthOf))], all, within);
  for (const one of [...nameless, ...sizeless]) nameElsewhere(one, outside?.get(one.item.name), outside !== undefined || hasRoomForNumber(one), scale, widthOf);
}

function outsideOf({ item, item: { name }, patch }: NamelessPiece, isNamed: boolean, widthOf: (words: string) => number): Nameless {
  const { title, details } = wordsOf(item);
  const [sized, alone] = [details.filter(({ isSized }) => isSized).flatMap(({ text }) => detailedForms(title, text, widthOf)), aloneForms(title, widthOf)];
  return { name, piece: patch, beside: isNamed ? sized : [...sized, ...alone], led: isNamed ? [] : alone };
}

/** A name with its details behind it or below it, on one line or two. */
function detailedForms(title: string, details: string, widthOf: (words: string) => number): readonly OutsideForm[] {
  const form = (width: number, lines: number, isStacked = true): OutsideForm => ({ details, isStacked, width: width * smaller + outsideMargin, height: lines * outsideHigh });
  const inTwo = widthInTwo(details, widthOf);
  return [form(widthOf(`${title} ${details}`), 1, false), form(Math.max(widthOf(title), widthOf(details)), 2), ...(inTwo === undefined ? [] : [form(Math.max(widthOf(title), inTwo), 3)])];
}

/** A name on one line or two. */
function aloneForms(title: string, widthOf: (words: string) => number): readonly OutsideForm[] {
  return [widthOf(title), widthInTwo(title, widthOf)].flatMap((width, at) => (width === undefined ? [] : [{ details: '', isStacked: true, width: width * smaller + outsideMargin, height: (at + 1) * outsideHigh }]));
}

interface NamelessPiece {
  readonly made: HTMLElement;
  readonly item: Card;
  readonly drawing: PieceDrawing;
  readonly patch: Patch;
}

/** How wide a digit of a number on its piece is and what is round them all, and how high that is, as the style has them: pixels. */
const [digitWide, ringWide, ringHigh] = [5.5, 6, 13];

/** Whether a piece’s number hides nothing of the pieces beside it. */
const hasRoomForNumber = ({ made, patch }: NamelessPiece): boolean => patch.height >= ringHigh && patch.width >= digitWide * (made.getAttribute('data-number') ?? '').length + ringWide;

/** The name of a piece that has no room for it, or none for its size: where room was found outside, or else inside, be it through its lines. */
function nameElsewhere({ made, item, drawing, patch }: NamelessPiece, found: OutsideName | undefined, mayBeNumbered: boolean, scale: number, widthOf: (words: string) => number): void {
  const [before, told] = [named.get(made), found === undefined ? String(mayBeNumbered) : JSON.stringify([found, patch.x, patch.y])];
  if (before === undefined || before.outside === told) return;
  before.outside = told;
  const through: Placed = before.form === undefined ? { form: nameForm({ title: item.title, details: [] }, onScreen(drawing.whole, scale), widthOf), room: drawing.whole } : before;
  const inside: Placed = found === undefined ? through : { form: undefined, room: drawing.room };
  nameInside(made, item, inside.form, inside.room, scale);
  nameOutside(made, found, patch);
  made.classList.toggle('numbered', found === undefined && inside.form === undefined && mayBeNumbered);
  made.classList.toggle('through', inside.room === drawing.whole && inside.form !== undefined);
}

function nameInside(made: HTMLElement, item: Card, form: NameForm | undefined, room: NameRoom, scale: number): void {
  const { box } = item.piece?.drawing ?? { box: { x: 0, y: 0, width: 0, height: 0 } };
  clearOfName(made, item, form, scale, room);
  made.classList.remove('beside', 'numbered', 'through');
  made.classList.toggle('unnamed', form === undefined);
  made.classList.toggle('upright', form?.way === 'upright');
  setDetails(made, form?.details?.text ?? '');
  made.classList.toggle('small', form?.small === true);
  setProperty(made, '--room-x', room.x - box.x);
  setProperty(made, '--room-y', box.y + box.height - room.y);
  made.style.setProperty('--name-width', `${Math.floor(form?.width ?? 0)}px`);
}

function setDetails(made: HTMLElement, words: string): void {
  const details = made.querySelector<HTMLElement>('.name > .details');
  if (details !== null) setText(details, words);
}

/** The name beside its piece, with a line to it where that is some way off. */
function nameOutside(made: HTMLElement, found: OutsideName | undefined, piece: Patch): void {
  made.classList.toggle('beside', found !== undefined);
  made.classList.toggle('stacked', found?.form.isStacked === true);
  made.classList.toggle('led', found?.leader !== undefined);
  if (found === undefined) return;
  made.classList.remove('unnamed');
  setDetails(made, found.form.details);
  made.style.setProperty('--name-width', `${Math.ceil(found.at.width)}px`);
  setProperty(made, '--outside-x', found.at.x + found.at.width / 2 - piece.x);
  setProperty(made, '--outside-y', found.at.y + found.at.height / 2 - piece.y);
  setProperty(made, '--leader', found.leader?.length ?? 0);
  setProperty(made, '--leader-turn', found.leader?.degrees ?? 0);
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
