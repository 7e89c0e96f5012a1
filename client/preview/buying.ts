import type { PreviewLays, PreviewPurchase } from '../../server/src/preview/lays-data.ts';
import type { PlaceRef, PreviewBuying, PreviewMaterial, PreviewSupply } from '../../server/src/preview/drawing-data.ts';
import { element, setText } from './dom.ts';
import type { BuyingWish } from './messages.ts';
import { searchState } from './search-state.ts';
import { buyingColumns, supplyColumns } from '../../server/src/table/columns.ts';
import { columnsOf, liveTable } from './tables.ts';

export interface BuyingView {
  readonly element: HTMLElement;
  readonly update: (buying: PreviewBuying, missing: readonly string[]) => void;
  readonly updateLays: (lays: PreviewLays) => void;
  /** The lays shown are of an earlier text. */
  readonly outdated: () => void;
}

/**
 * The buying list, what it is for, and below it what it is made from.
 *
 * @param wished called when the list is wanted for something else
 */
export function buyingView(wish: BuyingWish, wished: (wish: BuyingWish) => void, look: (on: boolean) => void): BuyingView {
  let known: PreviewBuying = { materials: [], supplies: [] };
  const placeOf = ({ kind, name }: PreviewPurchase): PlaceRef | null => {
    if (kind === 'material') return known.materials.find((one) => one.name === name)?.place ?? null;
    return known.supplies.find((one) => one.supply === name)?.place ?? null;
  };
  const list = liveTable<PreviewPurchase>({
    caption: 'To buy',
    key: (row) => row.key,
    place: placeOf,
    empty: 'Nothing is needed yet.',
    columns: [
      ...columnsOf<PreviewPurchase>(buyingColumns, { buy: { numeric: true, note: (row) => row.certain }, cost: { numeric: true, note: (row) => (row.isCheapest ? 'the cheapest' : '') } }),
      { heading: 'Found', text: (row) => row.found, numeric: true },
      { heading: 'Least possible', text: (row) => row.noneUnder, numeric: true },
    ],
  });
  const materials = materialTable();
  const supplies = liveTable<PreviewSupply>({
    caption: 'Supplies',
    key: (row) => row.supply,
    place: (row) => row.place,
    columns: columnsOf(supplyColumns),
  });
  const controls = wishControls(wish, wished);
  const search = searchState(look);
  const waiting = element('p', { class: 'muted' }, 'Laying the pieces out …');
  const meaning = element('p', { class: 'muted hint' }, 'Found is the shortest lay found so far; no lay of these pieces can be shorter than the least possible. Where buying is certain, a better lay would change nothing.');
  const hint = element('p', { class: 'muted hint' }, 'For one article, and the area of its pieces alone: what lies between them is not counted here.');
  const missing = element('p', { class: 'flag', hidden: true });
  list.element.hidden = true;
  meaning.hidden = true;
  return {
    element: element('div', { class: 'tables' }, missing, controls.element, search.element, waiting, list.element, meaning, materials.element, hint, supplies.element),
    update: (buying, names) => {
      known = buying;
      missing.hidden = names.length === 0;
      setText(missing, names.length === 0 ? '' : `Not counted, since they can’t be drawn now: ${names.join(', ')}.`);
      materials.update(buying.materials);
      hint.hidden = buying.materials.length === 0;
      supplies.update(buying.supplies);
    },
    updateLays: (lays) => {
      waiting.hidden = true;
      list.element.hidden = false;
      meaning.hidden = lays.materials.length === 0;
      list.update(lays.purchases);
      search.update(lays);
      controls.update(lays);
    },
    outdated: search.outdated,
  };
}

const materialTable = () => liveTable<PreviewMaterial>({
  caption: 'Materials',
  key: (row) => row.name,
  place: (row) => row.place,
  empty: 'Nothing is cut yet.',
  columns: [
    { heading: 'Material', text: (row) => row.title },
    { heading: 'For', text: (row) => row.role },
    { heading: 'Pieces', text: (row) => String(row.pieces), numeric: true },
    { heading: 'Area of the pieces', text: (row) => row.area, numeric: true },
    { heading: 'Width', text: (row) => row.width },
    { heading: 'Sold in', text: (row) => row.sold },
  ],
});

const spreads = [['shorter', 'whichever is shorter'], ['open', 'open, in one layer'], ['folded', 'folded']] as const;

/** How many articles, how the cloth is spread, and other widths to set beside the materials’ own. */
function wishControls(start: BuyingWish, wished: (wish: BuyingWish) => void): { readonly element: HTMLElement; readonly update: (lays: PreviewLays) => void } {
  const articles = element('input', { type: 'number', id: 'articles', min: 1, max: 100_000, step: 1, inputmode: 'numeric', value: start.articles ?? 1 });
  const widths = element('input', { type: 'text', id: 'widths', value: start.widths ?? '', placeholder: '44 in, 60 in = 12.50', spellcheck: 'false', maxlength: 200, 'aria-describedby': 'widths-unread' });
  const spread = element('select', { id: 'spread' }, ...spreads.map(([value, words]) => element('option', { value, selected: value === start.lay }, words)));
  const unread = element('p', { class: 'flag', id: 'widths-unread', hidden: true });
  const tell = (): void => {
    const count = Math.round(Number(articles.value));
    const valid = Number.isFinite(count) && count >= 1 && count <= 100_000;
    if (!valid) articles.value = '1';
    wished({ articles: valid ? count : 1, widths: widths.value.trim(), lay: spreads.find(([value]) => value === spread.value)?.[0] ?? 'shorter' });
  };
  articles.addEventListener('change', tell);
  widths.addEventListener('change', tell);
  spread.addEventListener('change', tell);
  return {
    element: element('div', { class: 'wishes', role: 'group', 'aria-label': 'What the list is for' },
      element('div', {}, element('label', { for: 'articles' }, 'Articles'), ' ', articles),
      element('div', {}, element('label', { for: 'widths', title: 'Each with what it costs after an equals sign, where that is another price' }, 'Other widths'), ' ', widths),
      element('div', {}, element('label', { for: 'spread' }, 'Cloth laid'), ' ', spread),
      unread),
    update: (lays) => {
      unread.hidden = lays.unread.length === 0;
      setText(unread, lays.unread.length === 0 ? '' : `Not read as a width: ${lays.unread.map((one) => `“${one}”`).join(', ')}.`);
    },
  };
}
