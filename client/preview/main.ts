import type { PreviewData, PreviewPiece } from '../../server/src/exports/drawing-model.ts';
import { cardList, cardsOf, problemText, type Card } from './cards.ts';
import { choiceControls } from './choices.ts';
import { findAt, type AtCursor } from './cursor.ts';
import { element, KeyedList, setText } from './dom.ts';
import { Editor, type View } from './editor.ts';
import { legend } from './legend.ts';
import type { CursorMessage, HostMessage } from './messages.ts';
import { scaleBar } from './scale-bar.ts';
import { buyingView, cuttingView } from './tables.ts';
import { tabs } from './tabs.ts';
import { addHover, targetAt } from './targets.ts';
import { addTooltip } from './tooltip.ts';
import { addZoom, addZoomControls } from './zoom.ts';

// The page of the preview: builds itself once, then follows what the editor says.

const root = document.getElementById('preview') ?? document.body;
const editor = new Editor(document.body.dataset['uri'] ?? '');

let data: PreviewData | undefined;
let shownVersion: number | undefined;
let cursor: CursorMessage | undefined;
let lit: AtCursor = { piece: editor.state.selected ?? undefined, parts: [] };
const lastDrawn = new Map<string, PreviewPiece>();

// ------------------------------------------------------------------------------------------------ the page

const title = element('h1', {}, 'Pattern preview');
const facts = element('p', { class: 'muted' });
const stale = element('p', { class: 'banner', role: 'status', hidden: true });
const choices = choiceControls((combination) => {
  // Another combination’s drawings don’t stand in for this one’s.
  lastDrawn.clear();
  editor.save({ combination });
  editor.send({ type: 'choose', combination });
});
const { list: tabList, panels, show } = tabs((view) => {
  editor.save({ view });
  fitOnce();
  restoreScroll(view);
});

const waiting = element('p', { class: 'muted' }, 'Drawing…');
const field = element('div', { class: 'field', tabindex: 0, role: 'region', 'aria-label': 'Drawings; arrow keys move, plus and minus change the scale, 0 fits them in' }, waiting);
const cards = new KeyedList<Card>(element('ul', { class: 'cards', 'aria-label': 'Pieces' }), cardList(field));
field.append(cards.parent);
const bar = scaleBar();
const kinds = legend();
const scaleText = element('output', { 'aria-live': 'polite', title: 'Share of true size' });
const zoom = addZoom(field, editor.state.scale, () => {
  showScale();
  editor.save({ scale: zoom.isFit() ? 'fit' : zoom.scale() });
});
addZoomControls(field, zoom);

function button(text: string, label: string, act: () => void): HTMLElement {
  const made = element('button', { type: 'button', class: 'tool', 'aria-label': label, title: label }, text);
  made.addEventListener('click', act);
  return made;
}
const tools = element('div', { class: 'tools', role: 'group', 'aria-label': 'Scale' },
  button('−', 'Smaller', zoom.smaller), scaleText, button('+', 'Larger', zoom.larger), button('Fit', 'Fit all pieces in', () => zoom.set('fit')));
panels.pieces.append(field, element('div', { class: 'foot' }, element('div', { class: 'foot-row' }, tools, bar.element), kinds.element));

const cutting = cuttingView();
const buying = buyingView();
panels.table.append(cutting.element);
panels.buying.append(buying.element);
panels.table.tabIndex = 0;
panels.buying.tabIndex = 0;

root.append(element('header', {}, element('div', { class: 'heading' }, title, facts), choices.element, stale, tabList), panels.pieces, panels.table, panels.buying);
show(editor.state.view);
addTooltip(root);
addHover(root);

function showScale(): void {
  bar.update(zoom.scale());
  scaleText.textContent = zoom.text();
}

/** The pieces are first fitted in when they are first seen: what is hidden has no size. */
let isFitted = false;
function fitOnce(): void {
  if (isFitted || data === undefined || editor.state.view !== 'pieces') return;
  isFitted = true;
  if (zoom.isFit()) zoom.set('fit');
}

// ------------------------------------------------------------------------------------------------ scrolling

const scrollers: Readonly<Record<View, HTMLElement>> = { pieces: field, table: panels.table, buying: panels.buying };

function restoreScroll(view: View): void {
  const [x, y] = editor.state.scroll[view];
  scrollers[view].scrollTo(x, y);
}

for (const view of ['pieces', 'table', 'buying'] as const) {
  scrollers[view].addEventListener('scroll', () => {
    if (data === undefined || editor.state.view !== view) return;
    editor.save({ scroll: { ...editor.state.scroll, [view]: [scrollers[view].scrollLeft, scrollers[view].scrollTop] } });
  }, { passive: true });
}

new ResizeObserver(() => {
  if (data !== undefined && zoom.isFit() && editor.state.view === 'pieces') zoom.set('fit');
}).observe(root);

// ------------------------------------------------------------------------------------------------ what is pointed at

root.addEventListener('click', (event) => {
  const found = targetAt(event.target);
  if (found === undefined || data === undefined) return;
  const { piece } = found.target;
  if (piece !== undefined) {
    editor.save({ selected: piece });
    light({ piece, parts: partsUnder(found.element) });
  }
  editor.reveal(data.files, found.target.place());
});

function partsUnder(found: Element): readonly number[] {
  const part = found.getAttribute('data-part');
  return part === null ? [] : [Number(part)];
}

/** Marks the piece, in the drawings and the tables alike. */
function light(next: AtCursor): void {
  lit = next;
  for (const one of root.querySelectorAll('.lit')) {
    one.classList.remove('lit');
    one.removeAttribute('aria-current');
  }
  if (next.piece === undefined) return;
  for (const one of root.querySelectorAll(`[data-piece="${CSS.escape(next.piece)}"]`)) {
    one.classList.add('lit');
    one.setAttribute('aria-current', 'true');
  }
  const card = cards.get(next.piece);
  for (const part of next.parts) card?.querySelector(`.whole[data-part="${part}"]`)?.classList.add('lit');
}

function followCursor(): void {
  if (data === undefined || cursor === undefined) return;
  const found = findAt(data, cursor.file, cursor.offset);
  const moved = found.piece !== lit.piece;
  light(found);
  if (!moved || found.piece === undefined) return;
  editor.save({ selected: found.piece });
  const where = scrollers[editor.state.view].querySelector(`[data-piece="${CSS.escape(found.piece)}"]`);
  where?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
}

// ------------------------------------------------------------------------------------------------ what the editor says

function draw(next: PreviewData, version: number): void {
  const first = data === undefined;
  data = next;
  shownVersion = version;
  waiting.hidden = true;
  stale.hidden = true;
  root.classList.remove('is-stale');
  setText(title, next.title);
  setText(facts, [next.revision === null ? 'no revision' : `revision ${next.revision}`, problemText(next.problems, true) || 'no problems'].join(' · '));
  choices.update(next.choices);
  cards.update(cardsOf(next.pieces, next.undrawn, lastDrawn));
  keepDrawn(next);
  kinds.update(next.pieces);
  const missing = next.undrawn.map((piece) => piece.title);
  cutting.update(next.table, missing);
  buying.update(next.buying, missing);
  if (first) {
    fitOnce();
    showScale();
    restoreScroll(editor.state.view);
  }
  if (cursor === undefined) light(lit);
  else light(findAt(next, cursor.file, cursor.offset));
}

/** Keeps each piece’s drawing for as long as the piece is in the text. */
function keepDrawn({ pieces, undrawn }: PreviewData): void {
  const broken = new Set(undrawn.map((piece) => piece.name));
  for (const name of lastDrawn.keys()) if (!broken.has(name)) lastDrawn.delete(name);
  for (const piece of pieces) lastDrawn.set(piece.name, piece);
}

/** What was drawn last stays, and is marked as old. */
function markStale(reason: string): void {
  stale.textContent = shownVersion === undefined ? reason : `${reason} What is shown is of version ${shownVersion} of the text.`;
  stale.hidden = false;
  waiting.hidden = true;
  root.classList.add('is-stale');
}

window.addEventListener('message', ({ data: message }: MessageEvent<HostMessage>) => {
  switch (message.type) {
    case 'show':
      return draw(message.data, message.version);
    case 'stale':
      return markStale(message.reason);
    case 'cursor':
      cursor = message;
      return followCursor();
  }
});

// The editor gives the page’s own state back to whoever brings it back after a restart.
editor.save({});
editor.send({ type: 'ready' });
