import { boundsOfPoints } from '../geometry/measure.ts';
import { convexHull } from '../geometry/hull.ts';
import type { Point, Polygon, Polyline } from '../geometry/shape.ts';
import { placesBeside } from './beside.ts';
import { textExtent } from './extent.ts';
import { grainArrow, type GrainArrow } from './grain.ts';
import { widthOf } from './letters/letters.ts';
import { segmentOf } from './path.ts';
import { inStep, nestedPen, pens, type Pen } from './pens.ts';
import { forTurned, labelBlock, nameLabels, placedLabel, type LabelLine } from './labels.ts';
import { grown, Room } from './room.ts';
import { groupItem, type Box, type Item, type Role, type TextItem } from './sheet.ts';
import { namedStrokes } from './stroke-names.ts';
import type { Stroke } from './strokes.ts';
import type { Template, Variant } from './templates.ts';

/** A template ready to be put on a sheet: all its sizes over one another, the upper left corner of its box at 0, 0. */
export interface DrawnTemplate {
  readonly template: Template;
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  /** A polygon round all of it, in the same place. */
  readonly hull: Polygon;
  readonly turnedItems: readonly Item[];
  /** What it is, for whoever can’t see it. */
  readonly name: string;
  /** The last words of its label, which no other template has. */
  readonly lastWords: string;
  /** Its lines, in the same place as the hull. */
  readonly lines: readonly Pick<Stroke, 'points' | 'closed'>[];
  /** What stands for its items where it is printed in tiles: words are kept off the joins, so that each can be read on one of the sheets. */
  readonly itemsOff: (joins: readonly Box[], sheets: readonly Box[], turned: boolean) => readonly Item[];
}

export interface Headline {
  readonly title: string;
  readonly revision: string | undefined;
  readonly templates: number;
  /** All sizes that are printed, in their order. */
  readonly sizes: readonly string[];
}

/** What a template is, for whoever can’t see it. */
export const templateTitle = ({ title, number }: Template, { templates }: Pick<Headline, 'templates'>): string => `${title}, template ${number} of ${templates}`;
const lastWords = ({ number }: Template, { templates }: Pick<Headline, 'templates'>): string => `Template ${number} of ${templates}`;
export const templateFacts = ({ line, cuts }: Template): string => `Along: ${line}. ${cuts.join('. ')}.`;

const strokePens: Partial<Record<Role, Pen>> = pens;

/** Draws a template with all that is written on it. */
export function drawTemplate(template: Template, headline: Headline): DrawnTemplate {
  const { variants } = template;
  const isNested = variants.length > 1;
  const groups = variants.map((variant) => groupItem(variant.sizes.join(', '), variantItems(variant, isNested, headline.sizes), { x: 0, y: 0 }, { layer: layerOf(variant) }));
  // Writing that lies within the smallest size lies within all.
  const base = variants.reduce((least, one) => (areaOfBox(one) < areaOfBox(least) ? one : least));
  const room = new Room(base.drawing.outline);
  for (const { drawing } of variants) for (const stroke of drawing.strokes) room.block(stroke.points, stroke.closed);
  const lines = labelLines(template, headline);
  const grain = variants.some(({ hasGrain }) => hasGrain) ? base.shape.grain : undefined;
  const written = (joins: readonly Box[], sheets: readonly Box[]): Written => {
    const clear = room.copy();
    clear.joinedAt(joins);
    clear.shownOn(sheets);
    const names = nameLabels(clear, namedStrokes(template), variants.flatMap(({ drawing }) => drawing.strokes), ({ words }) => words);
    const tags = isNested ? variants.flatMap((variant) => sizeTag(variant, variants, clear)) : [];
    const arrow = (own: Room): GrainArrow => grainArrow(own, base.drawing.outline, grain, base.oneWay);
    const within = (blocked: readonly Box[]): Written => {
      const fresh = (): Room => {
        const own = clear.copy();
        for (const box of blocked) own.take(box);
        return own;
      };
      const own = fresh();
      const label = placedLabel(own, lines);
      const first = arrow(own);
      if (label === undefined || first.isFree) return { names, tags, label, grain: strokeItems(first.strokes, () => undefined) };
      // In a small piece the arrow comes first: the label may stand outside.
      const other = fresh();
      const again = arrow(other);
      return { names, tags, label: placedLabel(other, lines), grain: strokeItems(again.strokes, () => undefined) };
    };
    const off = within(joins);
    return off.label === undefined && joins.length > 0 ? within([]) : off;
  };
  const box = boxOf(variants.flatMap(({ drawing }) => drawing.strokes.flatMap(({ points }) => points)));
  const usual = written([], [box]);
  // Where there is no room inside, the label stands under the template.
  const below = usual.label === undefined ? labelBlock(lines, 2.7, Math.max(56, box.width)) : undefined;
  const under = below?.draw({ x: box.x, y: box.y + box.height + 1.5 });
  const whole = below === undefined ? box : { ...box, width: Math.max(box.width, below.width), height: box.height + 1.5 + below.height };
  const shift = { x: -whole.x, y: -whole.y };
  const shifted = (points: Polyline): Polyline => points.map(({ x, y }) => ({ x: x + shift.x, y: y + shift.y }));
  const strokes = variants.flatMap(({ drawing }) => drawing.strokes);
  const points = [...strokes.flatMap((stroke) => stroke.points), ...(below === undefined ? [] : corners({ x: box.x, y: box.y + box.height, width: below.width, height: 1.5 + below.height }))];
  const name = templateTitle(template, headline);
  const itemsWith = ({ names, tags, label = [], grain: arrows }: Written, turned: boolean): readonly Item[] => {
    const words = turned ? [...[...names, ...tags].flatMap((one) => forTurned([one])), ...forTurned(under ?? label)] : [...names, ...tags, ...(under ?? label)];
    return [groupItem(`Template ${template.number}: ${template.title}`, [...groups, ...arrows, ...words], shift, { figure: `${name}. ${templateFacts(template)}` })];
  };
  return {
    template, name, lastWords: lastWords(template, headline), width: whole.width, height: whole.height, items: itemsWith(usual, false), turnedItems: itemsWith(usual, true),
    hull: shifted(convexHull(points)),
    lines: strokes.map((stroke) => ({ points: shifted(stroke.points), closed: stroke.closed })),
    itemsOff: (joins, sheets, turned) => {
      const here = (boxes: readonly Box[]): readonly Box[] => boxes.map((one) => ({ ...one, x: one.x - shift.x, y: one.y - shift.y }));
      const other = written(here(joins), here(sheets));
      return itemsWith(other.label === undefined && under === undefined ? usual : other, turned);
    },
  };
}

/** What is written on a template. */
interface Written {
  readonly names: readonly TextItem[];
  /** The size at each cutting line. */
  readonly tags: readonly TextItem[];
  readonly label: readonly TextItem[] | undefined;
  readonly grain: readonly Item[];
}

function boxOf(points: readonly Point[]): Box {
  const { minX, minY, maxX, maxY } = boundsOfPoints(points);
  return { x: minX, y: minY, width: maxX - minX, height: maxY - minY };
}

const corners = ({ x, y, width, height }: Box): Polygon => [{ x, y }, { x: x + width, y }, { x: x + width, y: y + height }, { x, y: y + height }];

function areaOfBox({ drawing }: Variant): number {
  const box = boundsOfPoints(drawing.outline);
  return (box.maxX - box.minX) * (box.maxY - box.minY);
}
/** The name of the layer that only this size, or these, are printed with. */
export const layerOf = (variant: Pick<Variant, 'sizes'>): string | undefined => (variant.sizes.length === 0 ? undefined : variant.sizes.join(', '));

const variantItems = ({ drawing, sizes }: Variant, isNested: boolean, all: readonly string[]): readonly Item[] =>
  strokeItems(isNested ? drawing.strokes.map(oneWay) : drawing.strokes, (stroke) => {
    const pen = stroke.role === 'cutting' && isNested ? nestedPen(all.indexOf(sizes[0] ?? '')) : undefined;
    const ends = isNested ? endsOf(stroke) : undefined;
    return ends === undefined ? pen : inStep(pen ?? strokePens[stroke.role] ?? pens.line, ...ends);
  });

/** Where a straight line begins and ends. */
function endsOf({ path: [first, last, more] }: Stroke): readonly [Point, Point] | undefined {
  return first?.kind === 'move' && last?.kind === 'line' && more === undefined ? [first.to, last.to] : undefined;
}

/** A straight line from left to right, or where it is upright downwards, whichever way it was drawn. */
function oneWay(stroke: Stroke): Stroke {
  const [from, to] = endsOf(stroke) ?? [];
  if (from === undefined || to === undefined || from.x < to.x - 1e-9 || (Math.abs(from.x - to.x) <= 1e-9 && from.y <= to.y)) return stroke;
  return { ...stroke, path: segmentOf(to, from) };
}

const strokeItems = (strokes: readonly Stroke[], penFor: (stroke: Stroke) => Pen | undefined): readonly Item[] =>
  strokes.map((stroke): Item => {
    const { role, name, path, filled } = stroke;
    return filled ? { kind: 'fill', role, name, path, tone: 0 } : { kind: 'line', role, name, path, pen: penFor(stroke) ?? strokePens[role] ?? pens.line };
  });

const tagSize = 2.6;
/** Of a long line that other sizes share, a short part may be its own alone. */
const hundredths = Array.from({ length: 99 }, (_, index) => (index + 1) / 100);
/** How far a size keeps from the cutting lines of others, millimetres (invented). */
const offOthers = 2.4;

/** The size beside the upper right corner of its cutting line; where sheets are joined there, elsewhere beside it, where it runs alone. */
function sizeTag({ sizes, drawing }: Variant, variants: readonly Variant[], room: Room): readonly TextItem[] {
  const cutting = drawing.strokes.find(({ role }) => role === 'cutting');
  if (cutting === undefined) return [];
  const corner = cutting.points.reduce((best, one) => (one.x - one.y > best.x - best.y ? one : best));
  const words = sizes.join(', ');
  const usual: TextItem = { kind: 'text', role: 'label', words, at: { x: corner.x - 1, y: corner.y + tagSize }, align: 'end', size: tagSize, weight: 'bold', tone: 0, turn: 0, tag: undefined, group: undefined };
  const isWhole = (box: Box): boolean => room.isOnSheet(box) && room.isOffJoins(box);
  const extent = textExtent(usual);
  if (extent === undefined || isWhole(extent)) return [usual];
  const others = new Room([]);
  for (const one of variants) if (one.drawing !== drawing) for (const { role, points, closed } of one.drawing.strokes) if (role === 'cutting') others.block(points, closed);
  const height = tagSize * 1.1;
  const place = placesBeside(cutting.points, cutting.closed, widthOf(words, tagSize, 'bold'), height, 0.8, hundredths).find(({ box }) => isWhole(box) && room.isBlank(box) && others.isBlank(grown(box, offOthers)));
  if (place === undefined) return [usual];
  const { box, turn } = place;
  room.take(box);
  const at = turn === 0 ? { x: box.x, y: box.y + tagSize * 0.82 } : { x: box.x + tagSize * 0.82, y: box.y + box.height };
  return [{ ...usual, at, turn, align: 'start' }];
}

function labelLines(template: Template, headline: Headline): readonly LabelLine[] {
  const { title, revision, sizes } = headline;
  const line = (words: string, scale = 0.8): LabelLine => ({ words, scale, weight: 'regular' });
  const { variants } = template;
  const own = variants.flatMap((variant) => variant.sizes);
  return [
    { words: template.title, scale: 1, weight: 'bold' },
    ...template.cuts.map((words) => line(words, 0.85)),
    ...(template.line === 'cutting line' ? [] : [line(`Along: ${template.line}`)]),
    ...[...new Set(variants.flatMap(({ notes }) => notes))].map((words) => line(words)),
    ...(sizes.length === 0 ? [] : [line(own.length === 0 ? (sizes.length === 1 ? `Size ${sizes.join('')}` : `All sizes: ${sizes.join(', ')}`) : `${own.length === 1 ? 'Size' : 'Sizes'} ${own.join(', ')}`)]),
    line(`${title}${revision === undefined ? '' : `, revision ${revision}`}`, 0.7),
    line(lastWords(template, headline), 0.7),
  ];
}
