import type { PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import type { PlaceNow } from '../../server/src/preview/places.ts';
import type { BuyingWish, PageMessage, PreviewState } from './messages.ts';
import { sinces, type SinceWhat } from './since.ts';
import { standalone } from './standalone.ts';

export const views = ['board', 'pieces', 'table', 'buying', 'layouts'] as const;
export type View = (typeof views)[number];

/** What the page keeps for when it is shown again. */
export interface SavedState extends PreviewState {
  /** What the buying list is wanted for. */
  readonly buying?: BuyingWish;
  readonly view: View;
  /** Screen pixels to a millimetre, or as large as fits. */
  readonly scale: number | 'fit';
  /** The same for the board and for the layouts. */
  readonly boardScale: number | 'fit';
  readonly layScale: number | 'fit';
  readonly scroll: Readonly<Record<View, readonly [x: number, y: number]>>;
  /** Drawings of pieces as they were before their text could no longer be drawn. */
  readonly earlier: readonly PreviewPiece[];
  /** Where the pieces lie on the board, millimetres. */
  readonly spots: Readonly<Record<string, readonly [x: number, y: number]>>;
  /** The piece that was last pointed at. */
  readonly selected: string | null;
  /** The choice whose other options are drawn under what is shown. */
  readonly beside: string | null;
  /** What the pieces are held against. */
  readonly since: SinceWhat;
  /** Whether that piece is shown large beside the board. */
  readonly focus: boolean;
  /** Whether all pieces are listed by size beside the board. */
  readonly sizes: boolean;
  /** Whether the board's legend was opened or closed; null where it was neither. */
  readonly legend: boolean | null;
}

interface EditorApi {
  readonly postMessage: (message: PageMessage) => void;
  readonly getState: () => unknown;
  readonly setState: (state: SavedState) => void;
}
declare function acquireVsCodeApi(): EditorApi;

/** The editor that the page is shown in, and what it keeps for the page. */
export class Editor {
  private readonly alone = standalone();
  private readonly api: EditorApi = this.alone ?? acquireVsCodeApi();
  state: SavedState;

  constructor(uri: string) {
    this.state = restored(uri, this.api.getState());
  }

  /** Whether the page stands by itself, with nothing that it could be held against. */
  get isStandalone(): boolean {
    return this.alone !== undefined;
  }

  send(message: PageMessage): void {
    this.api.postMessage(message);
  }

  reveal(place: PlaceNow | undefined): void {
    if (place !== undefined) this.send({ type: 'reveal', ...place });
  }

  save(change: Partial<SavedState>): void {
    this.state = { ...this.state, ...change };
    this.api.setState(this.state);
  }
}

const start = (uri: string): SavedState => ({ uri, view: 'board', scale: 'fit', boardScale: 'fit', layScale: 'fit', scroll: { board: [0, 0], pieces: [0, 0], table: [0, 0], buying: [0, 0], layouts: [0, 0] }, earlier: [], spots: {}, selected: null, beside: null, since: 'saved', focus: false, sizes: false, legend: null });

/** Kept state of the same pattern, as far as it can be read. */
function restored(uri: string, kept: unknown): SavedState {
  if (typeof kept !== 'object' || kept === null) return start(uri);
  const found = kept as Partial<Record<keyof SavedState, unknown>>;
  if (found.uri !== uri) return start(uri);
  const fresh = start(uri);
  const scroll = typeof found.scroll === 'object' && found.scroll !== null ? (found.scroll as Partial<Record<View, unknown>>) : {};
  const at = (view: View): readonly [number, number] => pairOf(scroll[view]) ?? [0, 0];
  const combination = isCombination(found.combination) ? { combination: found.combination } : {};
  return {
    ...fresh,
    ...combination,
    view: views.find((view) => view === found.view) ?? fresh.view,
    ...wishOf(found.buying),
    scale: scaleOf(found.scale),
    boardScale: scaleOf(found.boardScale),
    layScale: scaleOf(found.layScale),
    scroll: { board: at('board'), pieces: at('pieces'), table: at('table'), buying: at('buying'), layouts: at('layouts') },
    earlier: Array.isArray(found.earlier) ? found.earlier.filter(isPiece) : [],
    spots: spotsOf(found.spots),
    focus: found.focus === true,
    sizes: found.sizes === true,
    legend: typeof found.legend === 'boolean' ? found.legend : null,
    since: sinces.find((what) => what === found.since) ?? fresh.since,
    beside: typeof found.beside === 'string' ? found.beside : null,
    selected: typeof found.selected === 'string' ? found.selected : null,
  };
}

function pairOf(kept: unknown): readonly [number, number] | undefined {
  if (!Array.isArray(kept)) return undefined;
  const [x, y] = kept as readonly unknown[];
  return typeof x === 'number' && typeof y === 'number' && Number.isFinite(x) && Number.isFinite(y) ? [x, y] : undefined;
}

function spotsOf(kept: unknown): SavedState['spots'] {
  if (typeof kept !== 'object' || kept === null) return {};
  return Object.fromEntries(Object.entries(kept).flatMap(([name, at]) => {
    const pair = pairOf(at);
    return pair === undefined ? [] : [[name, pair] as const];
  }));
}

function isCombination(value: unknown): value is Readonly<Record<string, string>> {
  return typeof value === 'object' && value !== null && Object.values(value).every((option) => typeof option === 'string');
}

const isDrawing = (kept: unknown): boolean =>
  typeof kept === 'object' && kept !== null && 'area' in kept && 'whole' in kept && 'parts' in kept && Array.isArray(kept.parts) && kept.parts.every((part: unknown) => typeof part === 'object' && part !== null && 'title' in part);

/** As far as drawing it needs. */
const isPiece = (kept: unknown): kept is PreviewPiece =>
  typeof kept === 'object' && kept !== null && 'name' in kept && typeof kept.name === 'string' && 'drawing' in kept && isDrawing(kept.drawing) && 'cut' in kept && 'finished' in kept && 'open' in kept && 'area' in kept && 'cuts' in kept && 'materials' in kept && 'onFold' in kept && 'layers' in kept && 'problems' in kept;

const scaleOf = (kept: unknown): number | 'fit' => (typeof kept === 'number' && kept > 0 ? kept : 'fit');

function wishOf(kept: unknown): { readonly buying?: BuyingWish } {
  if (typeof kept !== 'object' || kept === null) return {};
  const { articles, widths, lay } = kept as Partial<Record<keyof BuyingWish, unknown>>;
  return {
    buying: {
      ...(typeof articles === 'number' && Number.isInteger(articles) && articles > 0 ? { articles } : {}),
      ...(typeof widths === 'string' ? { widths } : {}),
      ...(lay === 'open' || lay === 'folded' ? { lay } : {}),
    },
  };
}
