import type { Point } from '../geometry/shape.ts';
import type { Weight } from './letters/generated/faces.js';
import type { Pen } from './pens.ts';

/** What stands on paper, as plain data: millimetres at true scale, x to the right and y DOWN from the sheet’s upper left corner. */
export interface Sheet {
  readonly kind: 'booklet' | 'templates' | 'tile' | 'projector';
  /** `Sheet 3`, `Cutting table`: what a list of pages calls it. */
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

export type PathStep =
  | { readonly kind: 'move' | 'line'; readonly to: Point }
  | { readonly kind: 'cubic'; readonly control1: Point; readonly control2: Point; readonly to: Point }
  | { readonly kind: 'close' };
export type Path = readonly PathStep[];

/** What a line or a text is of, as data for whoever takes a page apart. */
export type Role =
  | 'cutting' | 'stitching' | 'fold' | 'line' | 'placement' | 'foldline' | 'partfold' | 'window' | 'topstitch' | 'grain' | 'notch' | 'mark' | 'drill' | 'ghost'
  | 'label' | 'frame' | 'legend' | 'test' | 'join' | 'rule' | 'picture';

/** What a text is in a document’s structure. */
export type Tag = 'H1' | 'H2' | 'P' | 'TH' | 'TD' | 'LI' | 'Caption';

export interface LineItem {
  readonly kind: 'line';
  readonly role: Role;
  readonly name: string;
  readonly path: Path;
  readonly pen: Pen;
}

export interface FillItem {
  readonly kind: 'fill';
  readonly role: Role;
  readonly name: string;
  readonly path: Path;
  /** 0 is black, 1 white. */
  readonly tone: number;
}

export interface TextItem {
  readonly kind: 'text';
  readonly role: Role;
  readonly words: string;
  /** Where the line of letters begins, is centred, or ends. */
  readonly at: Point;
  readonly align: 'start' | 'middle' | 'end';
  /** In millimetres. */
  readonly size: number;
  readonly weight: Weight;
  readonly tone: number;
  /** Degrees that the text is turned clockwise as seen. */
  readonly turn: number;
  readonly tag: Tag | undefined;
  /** Which paragraph, entry or cell a line of text is of, where that has several. */
  readonly group: TextGroup | undefined;
}

/** Numbers that are one text’s alone: lines with the same are read together, cells by the rows and tables that they are in. */
export interface TextGroup {
  readonly of: number;
  readonly row?: number;
  readonly table?: number;
}

/** Items turned a quarter to the left where asked, then moved, then seen through a window where there is one, which doesn’t move with them. */
export interface GroupItem {
  readonly kind: 'group';
  readonly name: string;
  /** `M`, where it is of one size only, or of several; undefined where of all. */
  readonly layer: string | undefined;
  readonly shift: Point;
  readonly turned: boolean;
  readonly window: Box | undefined;
  /** Where it is a picture, what it shows, in words for whoever doesn’t see it. */
  readonly figure: string | undefined;
  readonly items: readonly Item[];
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type Item = LineItem | FillItem | TextItem | GroupItem;

interface TextStyle {
  readonly size: number;
  readonly weight?: Weight;
  readonly align?: TextItem['align'];
  readonly tone?: number;
  readonly turn?: number;
  readonly role?: Role;
  readonly tag?: Tag | undefined;
  readonly group?: TextGroup | undefined;
}

export const textItem = (words: string, at: Point, { size, weight = 'regular', align = 'start', tone = 0, turn = 0, role = 'label', tag, group }: TextStyle): TextItem =>
  ({ kind: 'text', role, words, at, align, size, weight, tone, turn, tag, group });

export const groupItem = (name: string, items: readonly Item[], shift: Point, more: Partial<Pick<GroupItem, 'layer' | 'turned' | 'window' | 'figure'>> = {}): GroupItem =>
  ({ kind: 'group', name, layer: more.layer, shift, turned: more.turned ?? false, window: more.window, figure: more.figure, items });
