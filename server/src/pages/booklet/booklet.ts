import type { Pattern } from '../../model/pattern.ts';
import { documentsOf, type Section, type TableDocument } from '../../table/document.ts';
import { stepsOf } from '../../table/step-drawings.ts';
import { headings, stepsDrawn } from '../../table/words.ts';
import type { SizedContents } from '../contents.ts';
import type { PageOptions, WhatChanged } from '../options.ts';
import type { Paper } from '../paper.ts';
import { groupItem, type Sheet } from '../sheet.ts';
import type { TemplateSheet } from '../template-sheets.ts';
import type { Template } from '../templates.ts';
import { tileName } from '../tiles.ts';
import { Flow, sizes as letters, type PageFormat, type Spacing } from './flow.ts';
import { keyPicture, materialLooks, pieceNumbers } from './key-picture.ts';
import { layPicture, type Picture } from './lay-picture.ts';
import { lookOf } from './hatch.ts';
import { sheetMap } from './sheet-map.ts';
import { shelved } from './shelves.ts';
import { stepPicture } from '../step-picture.ts';
import { stepShelves } from './step-shelves.ts';

export interface Booklet {
  readonly sheets: readonly Sheet[];
  readonly outline: readonly { readonly title: string; readonly sheet: number }[];
}

/** Text pages are on sheets that a hand can hold, whatever the templates are printed on. */
function formatFor(paper: Paper, margin: number): PageFormat {
  const letter = paper.name === 'letter' || (paper.height === undefined && paper.name.endsWith('in'));
  return { ...(letter ? { width: 215.9, height: 279.4 } : { width: 210, height: 297 }), margin: Math.max(margin, 14) };
}

export function bookletOf(pattern: Pattern, contents: readonly SizedContents[], templates: readonly Template[], printed: readonly TemplateSheet[], { paper, margin, changed }: Pick<PageOptions, 'paper' | 'margin' | 'changed'>): Booklet {
  const [document] = documentsOf(contents.map(({ table }) => table), 'material');
  if (document === undefined) return { sheets: [], outline: [] };
  const set = (between: Spacing, highestMap: number): Flow => {
    const flow = new Flow(formatFor(paper, margin), `${document.title}, ${document.stamp}`, between);
    write(flow, pattern, contents, document, templates, printed, changed, highestMap);
    return flow;
  };
  const usual = set('usual', mapHeights.usual);
  // A last page that would be all but empty is spared where the parts stand closer, or the map of the sheets is a little lower.
  const flow = usual.room > usual.fullRoom * nearlyEmpty
    ? ([['close', mapHeights.usual], ['close', mapHeights.low]] as const).map(([between, high]) => set(between, high)).find(({ pages }) => pages < usual.pages) ?? usual
    : usual;
  return { sheets: flow.sheets(), outline: flow.outline };
}

/** How high the map of tiles may be, millimetres: names can still be read on the lower one (invented). */
const mapHeights = { usual: 165, low: 135 } as const;

/** How much of the last page is free where it is worth sparing. */
const nearlyEmpty = 0.7;

function write(flow: Flow, pattern: Pattern, contents: readonly SizedContents[], document: TableDocument, templates: readonly Template[], printed: readonly TemplateSheet[], changed: WhatChanged | undefined, highestMap: number): void {
  const [first] = contents;
  if (first === undefined) return;
  front(flow, document, first.table.revision);
  if (changed !== undefined) whatChanged(flow, changed);
  key(flow, first);
  for (const section of document.sections) {
    // Templates have a part of their own, which says where each is.
    if (section.key === 'templates') continue;
    tables(flow, section);
    if (section.key === 'cuts') lays(flow, contents, pattern);
    if (section.key === 'steps') stepPictures(flow, document);
  }
  if (printed.length > 0) where(flow, templates, printed, highestMap);
  flow.part(headings.safety, 30);
  flow.list(document.cautions);
  // In small letters and without a heading, so that it seldom takes a page of its own.
  flow.space(3);
  flow.text(`${document.stamp}. The same spec gives the same booklet, sign for sign: two with the same fingerprint are of the same pattern.`, letters.small, 0.3);
}

function front(flow: Flow, { title, combination, notes }: TableDocument, revision: string | undefined): void {
  flow.title(title);
  flow.text([`Revision ${revision ?? 'not given'}`, ...(combination === '' ? [] : [`made for ${combination}`])].join('   ·   '), 4, 0.2);
  flow.space(4);
  flow.list(notes);
}

/** Before anything that is cut from, for those who have cut from an earlier one. */
function whatChanged(flow: Flow, { heading, opening, tasks }: WhatChanged): void {
  flow.part(heading, 30);
  flow.text(opening);
  for (const task of tasks) {
    flow.heading(task.heading);
    flow.list(task.items);
  }
}

function key(flow: Flow, { resolved, size }: SizedContents): void {
  if (pieceNumbers(resolved).size === 0) return;
  const { rows, scale } = keyPicture(resolved, flow.width);
  flow.part('All pieces, by what they are cut from', 60);
  flow.text(`Drawn at ${scale}${size === undefined ? '' : `, in size ${size}`}, each as it is cut, unfolded. The number is that of the piece.`, letters.small, 0.3);
  flow.space(2);
  for (const { height, items } of rows) flow.picture(height, items);
}

function tables(flow: Flow, { heading, said, columns, rows, below }: Section): void {
  // A short table is not kept waiting for room that it doesn’t need.
  flow.part(heading, rows.length > 2 ? 48 : Math.min(48, 20 + (said.length > 0 ? 8 : 0) + flow.heightOf({ columns, rows })));
  if (said.length > 0) flow.text(said.join(' '), letters.table, 0.2);
  flow.table({ columns, rows });
  if (below.length > 0) {
    flow.space(2);
    flow.list(below);
  }
}

/** What each step sews, several beside one another. */
function stepPictures(flow: Flow, { tables: all }: TableDocument): void {
  const pictures = stepsOf(all).map(stepPicture);
  if (pictures.length === 0) return;
  flow.part(headings.stepDrawings, 30 + (pictures[0]?.height ?? 0));
  flow.text(stepsDrawn, letters.small, 0.3);
  flow.space(2);
  for (const { height, items } of stepShelves(pictures, flow.width)) flow.picture(height, items);
}

interface ShownLay {
  readonly sizes: string[];
  readonly picture: Picture;
}

/** A picture of each lay; what lies the same way in several sizes is drawn once. */
function layPictures(contents: readonly SizedContents[], width: number, display: Pattern['display']): readonly ShownLay[] {
  const shown = new Map<string, ShownLay>();
  for (const { size, resolved, list } of contents) {
    const numbers = pieceNumbers(resolved);
    const looks = materialLooks(resolved);
    for (const plan of list.materials) {
      const { best } = plan;
      for (const found of best?.lays ?? []) {
        if (best === undefined) continue;
        const picture = layPicture(best, plan, found, numbers, looks.get(plan.need.material.name) ?? lookOf(0), width, display);
        const drawn = JSON.stringify(picture.items);
        const same = shown.get(drawn);
        if (same === undefined) shown.set(drawn, { sizes: [size ?? ''], picture });
        else if (!same.sizes.includes(size ?? '')) same.sizes.push(size ?? '');
      }
    }
  }
  return [...shown.values()];
}

function lays(flow: Flow, contents: readonly SizedContents[], { display }: Pattern): void {
  const shown = layPictures(contents, flow.width, display);
  const [first] = shown;
  if (first === undefined) return;
  flow.part('How the pieces lie', 30 + first.picture.height);
  flow.text('Not to scale. The length of the cloth runs along its selvedges. F: lies flipped. Numbers are those of the pieces.', letters.small, 0.3);
  const headingOf = ({ sizes }: ShownLay): string => (contents.length === 1 || sizes.length === contents.length ? '' : `${sizes.length === 1 ? 'Size' : 'Sizes'} ${sizes.join(', ')}`);
  // Those of the same sizes lie beside one another where they have room.
  for (const heading of new Set(shown.map(headingOf))) {
    const { placed } = shelved(shown.filter((one) => headingOf(one) === heading).map(({ picture }) => picture), flow.width, 8);
    for (const y of new Set(placed.map((one) => one.y))) {
      const row = placed.filter((one) => one.y === y);
      const high = Math.max(...row.map(({ of }) => of.height));
      flow.space(2);
      const isHeaded = y === 0 && heading !== '';
      flow.need(high + (isHeaded ? 8 : 0));
      if (isHeaded) flow.heading(heading);
      flow.picture(high, row.map(({ of, x }) => groupItem('', of.items, { x, y: 0 }, { figure: `${heading === '' ? '' : `${heading}: `}${of.words}` })));
    }
  }
}

/** Every template with the sheet that it is on, and a map of the sheets. */
function where(flow: Flow, templates: readonly Template[], printed: readonly TemplateSheet[], highestMap: number): void {
  flow.part('Templates, and where they are');
  flow.text('Print the sheets after this part at 100 %, not fitted to the page, and measure the two squares on the first of them before you cut.');
  flow.space(1);
  flow.table({
    columns: [{ heading: 'Template', numeric: true }, ...['Piece', 'Along', 'What to cut', 'On sheets'].map((heading) => ({ heading, numeric: false }))],
    rows: templates.map((template) => [
      String(template.number), template.title, template.line,
      template.cuts.join('; '),
      sheetsOf(template.number, printed),
    ].map((text) => ({ text }))),
  });
  const maps = sheetMap(printed, flow.width, highestMap);
  flow.part('Map of the sheets', Math.min(flow.fullRoom, 30 + (maps[0]?.height ?? 0)));
  if (printed.some(({ tile }) => tile !== undefined)) flow.text('What is larger than a sheet is in tiles: rows are letters, columns numbers. Cut the left and the upper margin off along the frame and lay that edge on the neighbour’s fine line with ticks, so that the round marks with the same name lie on one another.');
  flow.space(2);
  for (const { height, items } of maps) flow.picture(height, items);
}

/** `2`, or of a template in tiles `3, 4, 6 (A1, A2, B1)`: every sheet that has a part of it, so that it can be made by itself. */
function sheetsOf(number: number, printed: readonly TemplateSheet[]): string {
  const those = printed.flatMap(({ templates, tile }, index) => (templates.includes(number) ? [{ sheet: index + 1, tile }] : []));
  const tiles = those.flatMap(({ tile }) => (tile === undefined ? [] : [tileName(tile)]));
  return `${those.map(({ sheet }) => sheet).join(', ')}${tiles.length === 0 ? '' : ` (${tiles.join(', ')})`}`;
}
