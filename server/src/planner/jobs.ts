import type { BuyingOptions } from '../buying/plan.ts';
import type { PreviewLays } from '../preview/lays-data.ts';
import type { TableFormat } from '../formats/format.ts';
import type { Grouping } from '../table/sections.ts';
import type { ChosenOptions } from '../table/combinations.ts';

/** What the planner is asked and what it answers: plain data, since it may work in another thread. */

/** A pattern as texts: everything that it uses. */
export interface Texts {
  /** Tells patterns apart from one job to the next. */
  readonly id: string;
  readonly path: string;
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

interface AnyJob {
  /** Jobs are numbered in the order in which they are begun. */
  readonly id: number;
  readonly texts: Texts;
}

/** The lays of one combination, ever better ones until the effort is spent. */
export interface LaysJob extends AnyJob {
  readonly kind: 'lays';
  readonly combination: ChosenOptions;
  readonly articles: number;
  /** Other widths, as they were typed. */
  readonly widths: string;
  readonly lay: BuyingOptions['lay'];
  /** About seconds for each lay. */
  readonly effort: number;
}

/** What to buy of each material in every combination, for one article. */
export interface FiguresJob extends AnyJob {
  readonly kind: 'figures';
  readonly effort: number;
}

/** Cutting tables with what to buy, as the text of a file. */
export interface TablesJob extends AnyJob {
  readonly kind: 'tables';
  readonly combination: ChosenOptions | 'all';
  readonly format: TableFormat;
  readonly by: Grouping;
}

export type Job = LaysJob | FiguresJob | TablesJob;

/** `found 0.62 yd, none under 0.58 yd, buy 5/8 yd`, and `buy 5/8 yd` alone. */
export interface Figure {
  readonly sentence: string;
  readonly buy: string;
}

/** By combination (see {@link combinationKey}) and by the material's name. */
export type Figures = Readonly<Record<string, Readonly<Record<string, Figure>>>>;

export const combinationKey = (combination: ReadonlyMap<string, string>): string => JSON.stringify([...combination]);

export type Answer = { readonly id: number } & (
  | { readonly kind: 'lays'; readonly lays: PreviewLays }
  | { readonly kind: 'figures'; readonly figures: Figures }
  | { readonly kind: 'tables'; readonly text: string }
  /** Sent now and then where there is nothing better to say. */
  | { readonly kind: 'at work' }
  | { readonly kind: 'ended'; readonly how: 'done' | 'stopped' }
  | { readonly kind: 'ended'; readonly how: 'failed'; readonly why: string }
);
