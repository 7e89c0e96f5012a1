import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import type { PlaceRef, PreviewData } from '../../server/src/preview/drawing-data.ts';
import { applied, isSame, type Delta } from '../../server/src/preview/difference.ts';
import { placeNow } from '../../server/src/preview/places.ts';
import { Board } from './board.ts';
import { buyingView } from './buying.ts';
import { cardList, cardsOf, problemText, type Card } from './cards.ts';
import { choiceControls } from './choices.ts';
import { comparedDrawing } from './compared.ts';
import { keepContrast } from './contrast.ts';
import { findAt, onPiece, onStep, type AtCursor } from './cursor.ts';
import { element, KeyedList, setText } from './dom.ts';
import { Editor, views, type View } from './editor.ts';
import { failingOn } from './failing.ts';
import { pieceFilter } from './filter.ts';
import { foldedLegend, legend } from './legend.ts';
import type { CursorMessage, HostMessage, ShowMessage } from './messages.ts';
import { layoutsView } from './layouts.ts';
import { markLit } from './lit.ts';
import { whenPainted } from './painted.ts';
import { arrangeLabels } from './piece-labels.ts';
import { headed, whenPrinted } from './print.ts';
import { addRoving } from './roving.ts';
import { scaledField } from './scale-tools.ts';
import { Since, sinceControl } from './since.ts';
import { largestAmong, largestWords } from './size-list.ts';
import { markJoined, stepControl } from './steps.ts';
import { cuttingView } from './tables.ts';
import { tabs, viewWords } from './tabs.ts';
import { addHover, targetAt } from './targets.ts';
import { addTooltip } from './tooltip.ts';
import { walkDrawing } from './walk.ts';
import { fitAll } from './zoom.ts';

// The page of the preview: builds itself once, then follows what the editor says.

const root = document.getElementById('preview') ?? document.body;
const editor = new Editor(document.body.dataset['uri'] ?? '');

let data: PreviewData | undefined;
/** The number by which the server knows what is shown. */
let serial: number | undefined;
/** The version of the pattern's text that is shown. */
let drawnVersion: number | undefined;
let hasLays = false;
let cursor: CursorMessage | undefined;
let lit: AtCursor = onPiece(editor.state.selected ?? undefined);
/** The number of the step that was gone to since the cursor last moved: that counts, wherever the cursor is. */
let stepGoneTo: number | undefined;

// ------------------------------------------------------------------------------------------------ the page

const title = element('h1', {}, 'Pattern preview');
const facts = element('p', { class: 'muted' });
/** What hangs on what the cursor is on. */
const about = element('p', { class: 'about' });

const since = new Since(editor.state.since, (ghosts) => board.showGhosts(ghosts));
let unsaved: readonly string[] | undefined;
const steps = stepControl((step) => {
  if (data === undefined) return;
  stepGoneTo = step.number;
  light(onStep(data, step));
});
const stale = element('p', { class: 'banner', role: 'status', hidden: true });
const choices = choiceControls((combination) => {
  // Another combination’s drawings don’t stand in for this one’s.
  editor.save({ combination, earlier: [] });
  since.committed(undefined);
  editor.send({ type: 'choose', combination });
});
const isLaysView = (view: View): boolean => view === 'buying' || view === 'layouts';
const showsLays = (): boolean => isLaysView(editor.state.view);
const { list: tabList, panels, show } = tabs((view) => {
  const [was, is] = [showsLays(), isLaysView(view)];
  editor.save({ view });
  showFilter(view);
  if (was !== is) tellWish();
  tellHandled();
  fill(view);
  fitOnce();
  restoreScroll(view);
});

const waiting = element('p', { class: 'muted waiting', role: 'status' }, 'Drawing…');
const field = element('div', { class: 'field', tabindex: 0, role: 'region', 'aria-label': 'Drawings; arrow keys move, plus and minus change the scale, 0 fits them in' });
const cards = new KeyedList<Card>(element('ul', { class: 'cards', 'aria-label': 'Pieces' }), cardList(field, () => zoom.scale()));
field.append(cards.parent);
const kinds = legend();
const { zoom, row: scaleRow, show: showScale } = scaledField(field, editor.state.scale, { fitting: fitAll, whole: 'Fit all pieces in' }, (scale) => {
  arrangeLabels(field, zoom.scale());
  editor.save({ scale });
});
const filter = pieceFilter({
  changed: () => {
    filterPieces();
    if (editor.state.view === 'board') board.seen();
    else if (zoom.isFit()) zoom.set('fit');
  },
  entered: () => {
    if (editor.state.view === 'board') board.fit();
    else zoom.set('fit');
  },
});
const board = new Board(editor.state, {
  focused: (focus) => {
    editor.save({ focus });
    tellHandled();
  },
  listed: (sizes) => {
    editor.save({ sizes });
    light(lit);
  },
  explained: (legend) => editor.save({ legend }),
  scaled: (boardScale) => editor.save({ boardScale }),
  moved: (spots) => editor.save({ spots }),
  besides: (beside) => {
    editor.save({ beside });
    editor.send({ type: 'beside', choice: beside });
  },
  ask: (question) => editor.send({ type: 'move', ...question }),
});
panels.board.append(...board.parts);
if (!editor.isStandalone) {
  board.addTool(sinceControl(editor.state.since, (what) => {
    editor.save({ since: what });
    since.against(what);
    tellSince();
  }));
}
const kindsFolded = foldedLegend('legend-of-lines', editor.state.legend, [kinds.element], (shown) => {
  editor.save({ legend: shown });
  if (zoom.isFit()) zoom.set('fit');
});
scaleRow.append(kindsFolded.button);
panels.pieces.append(field, element('div', { class: 'foot' }, kindsFolded.element, scaleRow));

const filterPlace = element('div', {}, filter.element);
const showFilter = (view: View): void => void (filterPlace.hidden = view !== 'board' && view !== 'pieces');
const tellSince = (): void => editor.send({ type: 'since', committed: editor.state.since === 'committed' });
const look = (on: boolean): void => editor.send({ type: 'look', on });
const cutting = cuttingView();
const buying = buyingView(editor.state.buying ?? {}, (wish) => {
  editor.save({ buying: wish });
  tellWish();
}, look);
const layouts = layoutsView(editor.state.layScale, { placeOf: placeOfCut, look, scaled: (layScale) => editor.save({ layScale }) });
panels.table.append(cutting.element);
panels.buying.append(buying.element);
panels.layouts.append(...layouts.parts);
panels.table.tabIndex = 0;
panels.buying.tabIndex = 0;

root.append(element('header', {}, element('div', { class: 'heading' }, title, facts), choices.element, stale, tabList), waiting, filterPlace, element('div', { class: 'told' }, about, since.element), steps.element, panels.board, panels.pieces, panels.table, panels.buying, panels.layouts);
show(editor.state.view);
showFilter(editor.state.view);
for (const view of views) headed(panels[view], viewWords[view], view === 'board' || view === 'layouts');
for (const view of views) addRoving(panels[view], '.on-board, .sized-piece, .card, .lay, tbody tr');
addTooltip(root);
keepContrast(document.body);
addHover(root);

/** Views that show an earlier drawing: each is brought up to date once it is seen. */
const behind = new Set<View>();
const fillings: Readonly<Record<View, (data: PreviewData, missing: readonly string[]) => void>> = {
  board: (now) => {
    board.update(cardsOf(now, editor.state.earlier), now);
    filterPieces();
    since.show(now, isSaved(now));
  },
  pieces: (now) => {
    cards.update(cardsOf(now, editor.state.earlier));
    filterPieces();
    kinds.update(now.pieces);
  },
  table: (now, missing) => cutting.update(now.table, missing),
  buying: (now, missing) => buying.update(now.buying, missing),
  layouts: () => undefined,
};

/** Whether what is shown is as its texts were saved. */
const isSaved = ({ files }: PreviewData): boolean => unsaved !== undefined && !files.some((file) => unsaved?.includes(file) === true);

/** The board keeps its places: what is not asked for stands back. */
function filterPieces(): void {
  if (data === undefined) return;
  filter.update(cardsOf(data, editor.state.earlier));
  for (const { element: card, item } of cards.all()) card.toggleAttribute('hidden', !filter.isAskedFor(item));
  board.filter(filter.isAskedFor);
}

function fill(view: View): void {
  if (data === undefined || !behind.delete(view)) return;
  fillings[view](data, data.undrawn.map((piece) => piece.title));
  light(lit);
}

/** Lays take work, so they are asked for only while they are looked at. */
function tellWish(): void {
  editor.send(showsLays() ? { type: 'wish', buying: editor.state.buying ?? {} } : { type: 'wish' });
}

/** Where a line of the cutting table is written now; its piece where there is no such line any more. */
function placeOfCut(cut: string, piece: string): PlaceRef | null {
  return data?.table.cuts.find((row) => row.key === cut)?.place ?? data?.pieces.find(({ name }) => name === piece)?.place ?? null;
}

/** The pieces are first fitted in when they are first seen: what is hidden has no size. */
let isFitted = false;
function fitOnce(): void {
  if (editor.state.view === 'layouts') layouts.seen();
  if (editor.state.view === 'board') board.seen();
  if (isFitted || data === undefined || editor.state.view !== 'pieces') return;
  isFitted = true;
  if (zoom.isFit()) zoom.set('fit');
}

// ------------------------------------------------------------------------------------------------ scrolling

const scrollers: Readonly<Record<View, HTMLElement>> = { board: board.field, pieces: field, table: panels.table, buying: panels.buying, layouts: layouts.field };

function restoreScroll(view: View): void {
  const [x, y] = editor.state.scroll[view];
  scrollers[view].scrollTo(x, y);
}

for (const view of views) {
  scrollers[view].addEventListener('scroll', () => {
    if (data === undefined || editor.state.view !== view) return;
    editor.save({ scroll: { ...editor.state.scroll, [view]: [scrollers[view].scrollLeft, scrollers[view].scrollTop] } });
  }, { passive: true });
}

new ResizeObserver(() => {
  if (data !== undefined && zoom.isFit() && editor.state.view === 'pieces') zoom.set('fit');
  if (editor.state.view === 'layouts') layouts.resized();
  if (editor.state.view === 'board') board.seen();
}).observe(root);

// ------------------------------------------------------------------------------------------------ what is pointed at

root.addEventListener('click', (event) => {
  const found = targetAt(event.target);
  if (found === undefined || data === undefined) return;
  const { piece } = found.target;
  editor.reveal(placeNow(data, found.target.place()));
  if (piece !== undefined) {
    stepGoneTo = undefined;
    editor.save({ selected: piece });
    light(onPiece(piece, partsUnder(found.element)));
  }
});

function partsUnder(found: Element): readonly number[] {
  const part = found.getAttribute('data-part');
  return part === null ? [] : [Number(part)];
}

/** The piece that is meant, or else the one that was last, or the one that is named above the board where nothing is meant. */
function showFocus(): void {
  if (data === undefined) return;
  const all = cardsOf(data, editor.state.earlier);
  const named = (name: string | null | undefined): Card | undefined => all.find((card) => card.name === name);
  board.focusOn(named(lit.piece) ?? named(editor.state.selected) ?? largestAmong(all) ?? all[0], editor.isStandalone ? undefined : named(lit.piece), data);
  tellHandled();
}

/** Handles take work, so those of one piece are asked for, and only while the board is looked at. */
let handled: string | null = null;
function tellHandled(): void {
  const next = editor.state.view === 'board' ? board.handled : null;
  if (next === handled) return;
  handled = next;
  editor.send({ type: 'handled', piece: next });
}

/** What the cursor is on; where it is on nothing that is drawn, which piece is the largest. */
function sayAbout({ says, lit: all }: AtCursor): void {
  const words = says === '' && all.size === 0 ? largestWords(data?.pieces ?? []) : says;
  setText(about, words);
  about.title = words;
}

/** Marks what is meant, in the drawings and the tables alike. */
function light(next: AtCursor): void {
  lit = next;
  showFocus();
  sayAbout(next);
  board.lay(next.compared !== undefined ? comparedDrawing(next.compared) : next.walk !== undefined ? walkDrawing(next.walk) : undefined);
  board.showFailing(next.compared === undefined ? new Map() : failingOn(next.compared, data?.pieces ?? []));
  steps.update(data?.steps ?? [], next.step?.number);
  markJoined(root, next.step?.joined ?? []);
  markLit(root, next);
}

function moveCursor(next: CursorMessage): void {
  if (next.file !== cursor?.file || next.offset !== cursor.offset) stepGoneTo = undefined;
  cursor = next;
  // In a text that isn’t drawn yet it would be on something else: that drawing finds where it is.
  const isAhead = next.file === editor.state.uri && (next.version ?? 0) > (drawnVersion ?? Infinity);
  if (stepGoneTo === undefined && !isAhead) followCursor();
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

/** What follows a drawing by itself: the tables, and the texts that they alone refer to. */
const follows: ReadonlySet<string> = new Set<keyof PreviewData>(['table', 'buying', 'files', 'chunks']);

/** Whether a later message of the same text brings nothing else. */
function areTablesAlone(before: PreviewData, next: PreviewData): boolean {
  return (Object.keys(next) as (keyof PreviewData)[]).every((key) => follows.has(key) || before[key] === next[key])
    && Object.entries(next.chunks).every(([chunk, start]) => before.chunks[chunk] === undefined || before.chunks[chunk] === start);
}

function takeTables(next: PreviewData): void {
  data = next;
  for (const view of ['table', 'buying'] as const) behind.add(view);
  fill(editor.state.view);
}

function draw(next: PreviewData): void {
  const first = data === undefined;
  const isOther = data !== undefined && chosenIn(data) !== chosenIn(next);
  data = next;
  waiting.hidden = true;
  stale.hidden = true;
  root.classList.remove('is-stale');
  setText(title, next.title);
  setText(facts, [
    next.revision === null ? 'no revision' : `revision ${next.revision}`,
    `checked: ${problemText(next.problems, true) || 'no problems'}`,
    ...(next.tooMany === null ? [] : [`${next.tooMany} pieces are too many to show: these are the first ${next.pieces.length}`]),
  ].join(' · '));
  choices.update(next.choices);
  keepEarlier(next);
  const step = next.steps.find(({ number }) => number === stepGoneTo);
  if (step !== undefined) lit = onStep(next, step);
  else if (cursor !== undefined) lit = findAt(next, cursor.file, cursor.offset);
  for (const view of views) behind.add(view);
  fill(editor.state.view);
  if (hasLays) {
    buying.outdated();
    layouts.outdated();
  }
  if (first) {
    fitOnce();
    showScale();
    restoreScroll(editor.state.view);
  } else if ((isOther || !board.hasScale) && editor.state.view === 'board') board.seen();
  else if (isOther && zoom.isFit() && editor.state.view === 'pieces') zoom.set('fit');
}

/** Which sizes and options a drawing is of. */
const chosenIn = ({ choices: all }: PreviewData): string => JSON.stringify(all.map(({ name, chosen }) => [name, chosen]));

function receive({ update, version }: ShowMessage): void {
  const isSameText = version === drawnVersion && stale.hidden;
  drawnVersion = version;
  const sent: unknown = JSON.parse(update.data);
  if (update.since === undefined) draw(sent as PreviewData);
  // What changed is of no use to a page that never had the rest: it asks for the whole.
  else if (data === undefined || update.since !== serial) return editor.send({ type: 'ready' });
  else {
    const next = applied(data, sent as Delta) as PreviewData;
    if (isSameText && areTablesAlone(data, next)) takeTables(next);
    else draw(next);
  }
  serial = update.serial;
}

function drawLays(lays: PreviewLays): void {
  const first = !hasLays;
  hasLays = true;
  buying.updateLays(lays);
  layouts.update(lays);
  light(lit);
  if (first) restoreScroll(editor.state.view);
}

/** Keeps the earlier drawings that are shown, for when the page is loaded again by an editor that was closed meanwhile. */
function keepEarlier({ undrawn }: PreviewData): void {
  const { earlier } = editor.state;
  const shown = undrawn.flatMap((one) => one.earlier?.piece ?? earlier.find(({ name }) => name === one.name) ?? []);
  if (shown.length > 0 || earlier.length > 0) editor.save({ earlier: shown });
}

/** What was drawn last stays, and is marked as old. */
function markStale(reason: string): void {
  stale.textContent = data === undefined ? reason : `${reason} What is shown is from before your last edits.`;
  stale.hidden = false;
  waiting.hidden = true;
  root.classList.add('is-stale');
}

window.addEventListener('message', ({ data: message }: MessageEvent<HostMessage>) => {
  switch (message.type) {
    case 'show':
      try {
        receive(message);
      } finally {
        whenPainted(editor.state.view, () => editor.send({ type: 'painted' }));
      }
      return;
    case 'lays':
      return drawLays(message.lays);
    case 'unsaved':
      unsaved = message.files;
      if (data !== undefined && editor.state.view === 'board' && isSaved(data)) since.show(data, true);
      return;
    case 'committed':
      // What was asked for before another choice is of no use any more.
      return isSame(message.combination, editor.state.combination ?? null) ? since.committed(message) : undefined;
    case 'stale':
      return markStale(message.reason);
    case 'handle':
      return board.told(message);
    case 'moved':
      return editor.save({ uri: message.uri });
    case 'cursor':
      return moveCursor(message);
  }
});

whenPrinted(() => {
  for (const view of views) fill(view);
  board.print();
  layouts.print();
}, () => {
  board.back();
  layouts.back();
});

// The editor gives the page’s own state back to whoever brings it back after a restart.
editor.save({});
if (showsLays()) tellWish();
if (editor.state.since === 'committed') tellSince();
if (editor.state.beside !== null) editor.send({ type: 'beside', choice: editor.state.beside });
editor.send({ type: 'ready' });
