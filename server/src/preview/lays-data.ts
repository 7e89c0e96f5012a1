import type { BuyingRow } from '../table/buying-rows.ts';
import type { Border } from '../table/lay-borders.ts';

/**
 * What to buy and how the pieces lie on it, as plain data that can be sent as JSON. Lengths are millimetres in the frame
 * of the lay: x along the cloth, y across it from the fold or the near selvedge. Places in the text are not part of it:
 * `cut` is the key of a row of the cutting table, and `name` that of a material, which know where they are written. So an
 * edit that only moves the text changes nothing here.
 */
export interface PreviewLays {
  readonly articles: number;
  /** `stopped` where shorter lays might have been found. */
  readonly state: 'looking' | 'done' | 'stopped';
  /** How far the search is, from 0 to 1. */
  readonly done: number;
  readonly materials: readonly MaterialLays[];
  /** The buying list: materials, each in every width asked for, then supplies, then all together. */
  readonly purchases: readonly PreviewPurchase[];
  /** Asked-for widths that can’t be read. */
  readonly unread: readonly string[];
}

export interface MaterialLays {
  readonly name: string;
  readonly title: string;
  /** Whether the lays are the first ones, better ones but not the last, or those that the search ended with. */
  readonly state: 'first' | 'better' | 'settled';
  readonly widths: readonly WidthLays[];
}

/** The lays on one width of a material. */
export interface WidthLays {
  readonly key: string;
  /** `58 in wide, 56 in usable`. */
  readonly width: string;
  /** `found 0.62 yd, none under 0.58 yd, buy 5/8 yd`. */
  readonly sentence: string;
  /** What does not fit; empty where all does. */
  readonly leftOut: string;
  readonly lays: readonly DrawnLay[];
  /** One line for each piece: its number, and how often it lies there and which way. */
  readonly pieces: readonly string[];
}

export interface DrawnLay {
  readonly key: string;
  /** `Lay: folded selvedge to selvedge, right sides together`. */
  readonly title: string;
  /** The lay in words, for whoever can’t see it. */
  readonly description: string;
  readonly cloth: { readonly length: number; readonly width: number };
  /** Where the pieces end along the cloth. */
  readonly laid: { readonly length: number; readonly text: string };
  /** What lies at y = 0, and at the other side. */
  readonly near: Border;
  readonly far: Border;
  /** What stands beside the other side. */
  readonly farWords: string;
  /** Whether the cloth is folded at x = 0. */
  readonly isFoldedAcross: boolean;
  /** Where the selvedge lies that is folded in; null where none is. */
  readonly foldedIn: number | null;
  readonly pieces: readonly PlacedPiece[];
  readonly leftovers: readonly DrawnLeftover[];
}

export interface PlacedPiece {
  /** The key of its row in the cutting table. */
  readonly cut: string;
  /** The piece’s name in the text. */
  readonly piece: string;
  readonly title: string;
  readonly number: number;
  /** `on fold`, `flipped`; empty where there is nothing to say. */
  readonly note: string;
  /** `at 12 in along and 3 in across`. */
  readonly at: string;
  /** SVG path data, what is cut out of it included. */
  readonly path: string;
  /** Which way it may lie along the cloth; null where any way will do. */
  readonly grain: 'one way' | 'two ways' | null;
  /** The roomiest place in it, and how much room there is. */
  readonly room: { readonly x: number; readonly y: number; readonly across: number; readonly high: number };
}

export interface DrawnLeftover {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  /** `6 in × 4 1/2 in`. */
  readonly text: string;
}

/** One line of the buying list. */
export interface PreviewPurchase extends Omit<BuyingRow, 'place'> {
  readonly key: string;
  readonly kind: 'material' | 'supply' | 'all';
  /** The material’s name in the text; else what it is called. */
  readonly name: string;
  /** Of several widths, whether this one costs least. */
  readonly isCheapest: boolean;
}
