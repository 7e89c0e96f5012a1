import type { DrawnLay, DrawnLeftover, MaterialLays, PlacedPiece, PreviewLays, WidthLays } from '../../server/src/preview/lays-data.ts';
import type { PlaceRef } from '../../server/src/preview/drawing-data.ts';
import { element, KeyedList, svgElement, type Live } from './dom.ts';
import { fitLabels, labelled } from './lay-labels.ts';
import { layLegend } from './lay-legend.ts';
import { scaledField } from './scale-tools.ts';
import { searchState } from './search-state.ts';
import { setTarget } from './targets.ts';
import { fitEach } from './zoom.ts';

/** One lay on the page, with what it belongs to. */
interface Entry {
  readonly key: string;
  readonly material: MaterialLays;
  readonly width: WidthLays | undefined;
  readonly lay: DrawnLay | undefined;
  /** The first lay of a width says what it is of. */
  readonly isFirst: boolean;
}

export interface LayoutsView {
  readonly parts: readonly Element[];
  readonly field: HTMLElement;
  readonly update: (lays: PreviewLays) => void;
  /** The lays shown are of an earlier text. */
  readonly outdated: () => void;
  /** Called when the view is seen: what is hidden has no size to fit in. */
  readonly seen: () => void;
  /** Fits every layout to a printed page, until it is back on screen. */
  readonly print: () => void;
  readonly back: () => void;
  readonly resized: () => void;
}

export interface LayoutsLinks {
  /** Where a row of the cutting table is written, by its key; the piece where there is no such row now. */
  readonly placeOf: (cut: string, piece: string) => PlaceRef | null;
  readonly look: (on: boolean) => void;
  readonly scaled: (scale: number | 'fit') => void;
}

/** How the pieces lie on each material, drawn true to proportion. */
export function layoutsView(start: number | 'fit', { placeOf, look, scaled }: LayoutsLinks): LayoutsView {
  const waiting = element('p', { class: 'muted' }, 'Laying the pieces out …');
  const list = element('ul', { class: 'lays', 'aria-label': 'Layouts' });
  const field = element('div', { class: 'field', tabindex: 0, role: 'region', 'aria-label': 'Layouts; arrow keys move, plus and minus change the scale, 0 fits them in' }, waiting, list);
  const entries = new KeyedList<Entry>(list, { key: (entry) => entry.key, look: ({ material, ...rest }) => [material.title, material.state, rest], render: (live) => renderEntry(live, placeOf) });
  const { zoom, row, show } = scaledField(field, start, { fitting: fitEach, whole: 'Fit every layout in' }, (scale) => {
    fitLabels(field, zoom.scale());
    scaled(scale);
  });
  const search = searchState(look);
  let [isKnown, isFitted, isSeen] = [false, false, false];
  const fit = (): void => {
    if (!isKnown || !isSeen) return;
    if (!isFitted && zoom.isFit()) zoom.set('fit');
    isFitted = true;
    fitLabels(field, zoom.scale());
    show();
  };
  return {
    parts: [search.element, field, element('div', { class: 'foot' }, row, layLegend())],
    field,
    update: (lays) => {
      isKnown = true;
      waiting.hidden = lays.materials.length > 0;
      waiting.textContent = 'Nothing is cut yet.';
      entries.update(lays.materials.flatMap(entriesOf));
      search.update(lays);
      fit();
    },
    outdated: search.outdated,
    seen: () => {
      isSeen = true;
      fit();
    },
    print: () => {
      zoom.print();
      fitLabels(field, zoom.scale());
    },
    back: () => {
      zoom.back();
      fitLabels(field, zoom.scale());
    },
    resized: () => {
      if (isKnown && zoom.isFit()) zoom.set('fit');
    },
  };
}

function entriesOf(material: MaterialLays): readonly Entry[] {
  if (material.widths.length === 0) return [{ key: material.name, material, width: undefined, lay: undefined, isFirst: true }];
  return material.widths.flatMap((width): readonly Entry[] => (width.lays.length === 0
    ? [{ key: width.key, material, width, lay: undefined, isFirst: true }]
    : width.lays.map((lay, index) => ({ key: lay.key, material, width, lay, isFirst: index === 0 }))));
}

const stateWords: Readonly<Record<MaterialLays['state'], string>> = {
  first: 'First lay, looking for a shorter one …',
  better: 'Shorter than the first lay, still looking …',
  settled: '',
};

function renderEntry(live: Live<Entry>, placeOf: LayoutsLinks['placeOf']): Element {
  const { material, width, lay, isFirst } = live.value;
  const made = element('li', { class: 'lay' });
  if (isFirst) {
    made.append(element('h2', {}, width === undefined ? material.title : `${material.title}, ${width.width}`));
    if (width === undefined) made.append(element('p', { class: 'flag' }, 'No width is given, so nothing is laid out.'));
    else made.append(element('p', {}, width.sentence));
    const state = stateWords[material.state];
    if (width !== undefined && state !== '') made.append(element('p', { class: 'muted' }, state));
    if (width !== undefined && width.leftOut !== '') made.append(element('p', { class: 'flag' }, `Attention: ${width.leftOut}.`));
  }
  if (width === undefined || lay === undefined) return made;
  made.append(element('h3', {}, lay.title), drawingOf(live, lay, placeOf), element('p', { class: 'muted' }, [lay.laid.text, leftoverWords(lay)].join('; ')));
  if (isFirst) made.append(element('ul', { class: 'keys' }, ...width.pieces.map((line) => element('li', {}, line))));
  made.append(piecesOf(live, lay, placeOf));
  return made;
}

function leftoverWords({ leftovers }: DrawnLay): string {
  if (leftovers.length === 0) return 'nothing of size is left over';
  return `left over, along the cloth × across it: ${leftovers.map((one) => one.text).join(', ')}`;
}

// ------------------------------------------------------------------------------------------------ drawing

function drawingOf(live: Live<Entry>, lay: DrawnLay, placeOf: LayoutsLinks['placeOf']): Element {
  const { length, width } = lay.cloth;
  const drawing = svgElement('svg', { class: 'drawing', role: 'img', 'aria-label': lay.description, viewBox: `0 ${-width} ${length} ${width}` },
    svgElement('rect', { class: 'cloth', x: 0, y: -width, width: length, height: width }),
    ...lay.leftovers.map(leftoverOf),
    ...(length - lay.laid.length > 0.5 ? [svgElement('path', { class: 'laid', d: `M${lay.laid.length} ${-width}V0` })] : []),
    ...lay.pieces.map((piece, index) => pieceOf(live, piece, index, placeOf)),
    ...edgeOf(lay.far, lay.farWords, -width, length, -1),
    ...edgeOf(lay.near, lay.near, 0, length, 1),
    ...innerEdges(lay));
  const made = element('div', { class: `figure on-cloth${lay.far === 'edge' ? ' bare' : ''}` }, drawing);
  made.style.setProperty('--width', String(length));
  made.style.setProperty('--height', String(width));
  return made;
}

/** A selvedge is double, a fold dashed and dotted. Both have their names beside them. */
function edgeOf(edge: DrawnLay['near'], name: string, y: number, length: number, out: 1 | -1): readonly Element[] {
  if (edge === 'edge') return [svgElement('path', { class: 'edge', d: `M0 ${y}H${length}` })];
  const words = svgElement('text', { class: 'label edge-name', x: 0, y, dy: out < 0 ? '-.6em' : '1.3em' }, name);
  if (edge === 'fold') return [svgElement('path', { class: 'edge fold', d: `M0 ${y}H${length}`, 'stroke-dasharray': '14 3 3 3' }), words];
  return [svgElement('path', { class: 'edge selvedge', d: `M0 ${y}H${length}` }), svgElement('path', { class: `edge second ${out < 0 ? 'above' : 'below'}`, d: `M0 ${y}H${length}` }), words];
}

/** A fold at the beginning of the cloth, and a selvedge that lies on it. */
function innerEdges({ isFoldedAcross, foldedIn, cloth: { length, width } }: DrawnLay): readonly Element[] {
  return [
    ...(isFoldedAcross ? [svgElement('path', { class: 'edge fold', d: `M0 ${-width}V0`, 'stroke-dasharray': '14 3 3 3' })] : []),
    ...(foldedIn === null ? [] : [svgElement('path', { class: 'edge', d: `M0 ${-foldedIn}H${length}`, 'stroke-dasharray': '9 5' })]),
  ];
}

function pieceOf(live: Live<Entry>, piece: PlacedPiece, index: number, placeOf: LayoutsLinks['placeOf']): Element {
  const outline = svgElement('path', { class: 'placed', d: piece.path, 'fill-rule': 'evenodd', transform: 'scale(1 -1)' });
  const grain = svgElement('path', { class: 'lay-grain' });
  const words = svgElement('text', { class: 'label' });
  const { x, y, across, high } = piece.room;
  const note = piece.note === '' ? '' : `, ${piece.note}`;
  const short = `${piece.number}${piece.note === 'flipped' ? ' F' : ''}`;
  labelled(words, { x, y: -y, across, high, texts: [`${piece.number} ${piece.title}${note}`, short, String(piece.number)], grain: piece.grain === null ? undefined : { path: grain, isOneWay: piece.grain === 'one way' } });
  const made = svgElement('g', { class: 'on-lay', 'data-piece': piece.piece }, outline, grain, words);
  return setTarget(made, pieceTarget(live, index, piece, placeOf, true));
}

function leftoverOf({ x, y, length, width, text }: DrawnLeftover): Element {
  const words = svgElement('text', { class: 'label leftover-name' });
  labelled(words, { x: x + length / 2, y: -y - width / 2, across: length, high: width, texts: [`left over ${text}`, text], grain: undefined });
  return svgElement('g', {}, svgElement('rect', { class: 'leftover', x, y: -y - width, width: length, height: width }), words);
}

function pieceTarget(live: Live<Entry>, index: number, drawn: PlacedPiece, placeOf: LayoutsLinks['placeOf'], withLines: boolean): Parameters<typeof setTarget>[1] {
  const piece = (): PlacedPiece => live.value.lay?.pieces[index] ?? drawn;
  return {
    piece: drawn.piece,
    place: () => placeOf(piece().cut, piece().piece),
    lines: () => (withLines ? [pieceWords(piece()), piece().at] : []),
  };
}

const pieceWords = ({ number, title, note }: PlacedPiece): string => `${number} ${title}${note === '' ? '' : `, ${note}`}`;

/** Every piece of the lay as a button, for whoever doesn’t point; filled only when it is opened. */
function piecesOf(live: Live<Entry>, lay: DrawnLay, placeOf: LayoutsLinks['placeOf']): Element {
  const list = element('ul', { class: 'parts' });
  const details = element('details', {}, element('summary', { 'data-control': 'pieces', 'aria-label': `Where each piece lies: ${live.value.material.title}, ${lay.title}` }, 'Where each piece lies'), list);
  details.addEventListener('toggle', () => {
    if (!details.open || list.childElementCount > 0) return;
    for (const [index, piece] of lay.pieces.entries()) {
      const button = element('button', { type: 'button', class: 'link', 'data-control': `piece ${index}`, 'data-piece': piece.piece }, `${pieceWords(piece)}, ${piece.at}`);
      list.append(element('li', {}, setTarget(button, pieceTarget(live, index, piece, placeOf, false))));
    }
  });
  return details;
}
