import type { TemplateChoice } from '../table/templates.ts';
import type { Paper } from './paper.ts';

export const orientations = ['auto', 'portrait', 'landscape'] as const;
export type Orientation = (typeof orientations)[number];

/** How a booklet is laid out. Lengths in millimetres. */
export interface PageOptions {
  readonly paper: Paper;
  readonly orientation: Orientation;
  /** Left free on all four sides; most printers can’t print there. */
  readonly margin: number;
  readonly templates: TemplateChoice;
  /** The sizes to print over one another; all where it is left out. */
  readonly sizes?: readonly string[];
  /** What is told to those who have an earlier revision, if one is known. */
  readonly changed?: WhatChanged;
}

/** What to do otherwise than in an earlier revision, in words. */
export interface WhatChanged {
  readonly heading: string;
  readonly opening: string;
  readonly tasks: readonly { readonly heading: string; readonly items: readonly string[] }[];
}

/** Most printers leave 5 mm blank or less; twice that is safe (common practice, no source). */
export const usualMargin = 10;
export const leastMargin = 3;
export const mostMargin = 40;
