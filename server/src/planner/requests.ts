import type { BuyingOptions } from '../buying/plan.ts';
import type { PreviewLays } from '../preview/lays-data.ts';
import type { TableFormat } from '../formats/format.ts';
import type { HandedOver, PageFormat } from '../formats/pages.ts';
import type { PageOptions } from '../pages/options.ts';
import type { Grouping } from '../table/sections.ts';
import type { ChosenOptions } from '../table/combinations.ts';

/** What the planner is asked and what it replies: plain data, since it may work in another thread. */

/** A pattern as texts: everything that it uses. */
export interface Texts {
  /** Tells patterns apart from one request to the next. */
  readonly id: string;
  readonly path: string;
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

/** For how many articles, and how, the cloth is planned. */
export interface BuyingRequest {
  readonly articles: number;
  /** Other widths, as they were typed. */
  readonly widths: string;
  readonly lay: BuyingOptions['lay'];
}

/** The lays of one combination, ever better ones until the effort is spent. */
export interface LaysRequest extends BuyingRequest {
  readonly kind: 'lays';
  readonly texts: Texts;
  readonly combination: ChosenOptions;
  /** See {@link BuyingOptions.effort}. */
  readonly effort: number;
}

/** What to buy of each material in every combination, for one article. */
export interface FiguresRequest {
  readonly kind: 'figures';
  readonly texts: Texts;
  /** See {@link BuyingOptions.effort}. */
  readonly effort: number;
}

/** Cutting tables with what to buy, as the text of a file. */
export interface TablesRequest {
  readonly kind: 'tables';
  readonly texts: Texts;
  readonly combination: ChosenOptions | 'all';
  readonly format: TableFormat;
  readonly by: Grouping;
}

/** A booklet or another file for handing over. */
export interface PagesRequest {
  readonly kind: 'pages';
  readonly texts: Texts;
  readonly combination: ChosenOptions;
  readonly format: PageFormat;
  readonly options: PageOptions;
}

/** What is different in a pattern from what its texts said before. */
export interface ComparisonRequest {
  readonly kind: 'comparison';
  readonly texts: Texts;
  readonly earlier: Texts;
}

export type PlannerRequest = LaysRequest | FiguresRequest | TablesRequest | PagesRequest | ComparisonRequest;

/** `found 0.62 yd, none under 0.58 yd, buy 5/8 yd`, and `buy 5/8 yd` alone; both say so while a better lay may change them. */
export interface Figure {
  readonly sentence: string;
  readonly buy: string;
}

/** By combination (see {@link combinationKey}) and by the material's name. */
export type Figures = Readonly<Record<string, Readonly<Record<string, Figure>>>>;

export const combinationKey = (combination: ReadonlyMap<string, string>): string => JSON.stringify([...combination]);

export type PlannerReply =
  | { readonly kind: 'lays'; readonly lays: PreviewLays }
  | { readonly kind: 'figures'; readonly figures: Figures }
  | { readonly kind: 'tables'; readonly text: string }
  | { readonly kind: 'comparison'; readonly markdown: string }
  | { readonly kind: 'pages'; readonly made: HandedOver };
