import { arrangeBoard, boardBox, rememberSpots, type BoardPiece, type Spots } from '../../server/src/preview/board.ts';
import type { PreviewData, PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { drawingOf, drawnWhenSeen, look, placeOfCard, type Card, type WhenSeen } from './cards.ts';
import { element, KeyedList, setText, svgElement, type Live } from './dom.ts';
import type { SavedState } from './editor.ts';
import { hatching, type Hatching } from './hatching.ts';
import { overview } from './overview.ts';
import { arrangeLabels } from './piece-labels.ts';
import { scaledField } from './scale-tools.ts';
import { setTarget } from './targets.ts';
import { fitBoard } from './zoom.ts';

/** All pieces on one plane at one scale. */
export interface BoardView {
  readonly parts: readonly Element[];
  readonly field: HTMLElement;
  readonly update: (cards: readonly Card[], data: PreviewData) => void;
  /** Fits the pieces in, if they are to be; called when the view is seen, and when its size is another. */
  readonly seen: () => void;
}

export interface BoardLinks {
  readonly scaled: (scale: number | 'fit') => void;
  readonly moved: (spots: SavedState['spots']) => void;
}

/** Bold letters are as wide as this on average, and a line as high, pixels. */
const letter = 8.2;
const lineHigh = 16;

export function boardView(start: number | 'fit', kept: SavedState['spots'], { scaled, moved }: BoardLinks): BoardView {
  const list = element('ul', { class: 'board', 'aria-label': 'Pieces on the board' });
  const field = element('div', { class: 'field plane', tabindex: 0, role: 'region', 'aria-label': 'Board; arrow keys move, plus and minus change the scale, 0 fits all pieces in' }, list);
  const fills = hatching();
  const missing = element('p', { class: 'muted', hidden: true });
  const pieces = new KeyedList<Card>(list, { key: ({ name }) => name, look: (card) => [look(card), card.piece?.materials, card.piece?.count], render: (live) => renderPiece(live, whenSeen, fills) });
  let spots: Spots = new Map(Object.entries(kept).map(([name, [x, y]]) => [name, { x, y }]));
  let shown: readonly BoardPiece[] = [];
  const map = overview(field);
  const { zoom, row, show } = scaledField(field, start, fitBoard, 'Fit all pieces in', (scale) => {
    settle();
    scaled(scale);
  });
  const whenSeen = drawnWhenSeen(field, zoom.scale);
  const settle = (): void => {
    fills.scaled(zoom.scale());
    arrangeLabels(field, zoom.scale());
    nameWhereRoom(pieces, zoom.scale());
    map.scaled(zoom.scale());
  };
  const arrange = (before: Spots): void => {
    const ratio = field.clientHeight > 0 ? field.clientWidth / field.clientHeight : usualRatio;
    spots = rememberSpots(before, arrangeBoard(shown, before, ratio));
    const box = boardBox(shown, spots);
    setSize(list, box.width, box.height);
    for (const { element: made, item } of pieces.all()) {
      const spot = spots.get(item.name);
      if (spot === undefined || !(made instanceof HTMLElement)) continue;
      made.style.setProperty('--x', String(spot.x - box.x));
      made.style.setProperty('--y', String(spot.y - box.y));
    }
    map.update(shown.map((piece) => ({ ...piece, ...(spots.get(piece.name) ?? box) })), box);
    moved(Object.fromEntries([...spots].map(([name, { x, y }]) => [name, [x, y]])));
    settle();
  };
  const again = element('button', { type: 'button', class: 'tool wide', title: 'Arrange all pieces anew' }, 'Arrange');
  again.addEventListener('click', () => {
    arrange(new Map());
    zoom.set('fit');
  });
  field.addEventListener('dblclick', () => zoom.set('fit'));
  row.append(again);
  return {
    parts: [element('div', { class: 'plane-frame' }, field, map.element), element('div', { class: 'foot' }, row, missing, fills.legend), fills.element],
    field,
    update: (cards, data) => {
      fills.update(data.buying.materials);
      const drawn = cards.filter(({ piece }) => piece !== undefined);
      pieces.update(drawn);
      shown = drawn.flatMap(({ piece }) => (piece === undefined ? [] : [boardPiece(piece)]));
      arrange(spots);
      missing.hidden = drawn.length === cards.length;
      setText(missing, `Not drawn yet: ${cards.filter(({ piece }) => piece === undefined).map(({ title }) => title).join(', ')}`);
      show();
    },
    seen: () => {
      if (shown.length > 0 && zoom.isFit()) zoom.set('fit');
    },
  };
}

/** What a board is arranged for while it is out of sight (invented). */
const usualRatio = 1.3;

const boardPiece = ({ name, from, drawing: { box } }: PreviewPiece): BoardPiece => ({ name, from, width: box.width, height: box.height });

function setSize(made: HTMLElement, width: number, height: number): void {
  made.style.setProperty('--width', String(width));
  made.style.setProperty('--height', String(height));
}

function renderPiece(live: Live<Card>, whenSeen: WhenSeen, fills: Hatching): Element {
  const { name, title, piece, undrawn } = live.value;
  const made = element('li', { class: undrawn === undefined ? 'on-board' : 'on-board stale', 'data-piece': name });
  if (piece === undefined) return made;
  const { box, room } = piece.drawing;
  const count = piece.count === 0 ? '' : `${piece.count} ×`;
  const more = `, finished ${piece.finished.width.text} by ${piece.finished.height.text}, ${piece.cuts.join(', ')}`;
  const button = element('button', { type: 'button', class: 'name', 'data-control': 'title' }, element('span', {}, title), ' ', element('span', { class: 'count' }, count), element('span', { class: 'unseen' }, more));
  setTarget(button, { piece: name, place: () => placeOfCard(live.value), lines: () => linesOf(live.value) });
  const drawing = drawingOf(live, name, piece.drawing, whenSeen, groundOf(piece, fills));
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

/** Detail comes with room: first a piece’s name, then also how many are cut. */
function nameWhereRoom(pieces: KeyedList<Card>, scale: number): void {
  for (const { element: made, item } of pieces.all()) {
    const room = item.piece?.drawing.room;
    if (room === undefined) continue;
    const fits = room.across * scale >= item.title.length * letter && room.high * scale >= lineHigh;
    made.classList.toggle('unnamed', !fits);
    made.classList.toggle('uncounted', room.high * scale < 2 * lineHigh);
  }
}
