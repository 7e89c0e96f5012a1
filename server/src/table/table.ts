import { boundsOfPoints } from '../geometry/measure.ts';
import { turnOf } from '../geometry/vector.ts';
import type { BuyingList } from '../buying/list.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import type { CutLine, WayUp } from '../model/piece/cut-line.ts';
import type { Combination } from '../model/query/query.ts';
import { isCloth, type Material } from '../model/stock/material.ts';
import type { Supply } from '../model/stock/supply.ts';
import { bindingWidths } from '../model/stock/supply.ts';
import type { Place } from '../problems/place.ts';
import { decimalNumber, mixedNumber, roundedFrom, showLength, showLengthUp, type Display } from '../units/length.ts';
import { measured, nearestMultiple, rational, type Rational } from '../units/rational.ts';
import { buyingRows, type BuyingRow } from './buying-rows.ts';
import { keptFor } from './per-display.ts';
import { markRows, nameText, type MarkRow } from './marks.ts';
import { seamRows, type SeamRow } from './seams.ts';

/**
 * The cutting table of a pattern in one combination, worked out once for all formats: texts as people read them, in the
 * order of the spec. Formats only lay it out.
 */
export interface CuttingTable {
  readonly title: string;
  readonly revision: string | undefined;
  readonly digest: string;
  /** `tab` → `fabric`; empty where the pattern has no choices. */
  readonly combination: readonly { readonly choice: string; readonly option: string }[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly cuts: readonly CutRow[];
  readonly seams: readonly SeamRow[];
  readonly fusing: readonly FusingRow[];
  readonly supplies: readonly SupplyRow[];
  readonly templates: readonly TemplateRow[];
  readonly marks: readonly MarkRow[];
  readonly pieceNotes: readonly PieceNote[];
  /** Empty where nothing was laid out. */
  readonly buying: readonly BuyingRow[];
}

/** One line to cut. */
export interface CutRow {
  readonly piece: string;
  readonly material: string;
  readonly count: number;
  /** `9 1/2 in × 7 in`, or `template`. */
  readonly size: string;
  /** The exact size where the shown one is rounded. */
  readonly exactSize: string | undefined;
  /** `cutting line`, `stitching line`, the name of an inner line, or empty for a size of its own. */
  readonly along: string;
  readonly onFold: boolean;
  readonly twins: boolean;
  readonly wayUp: string;
  readonly notes: readonly string[];
  /** Where it is written, for whoever wants to go there. */
  readonly place: Place;
  readonly pieceName: string;
  readonly materialName: string;
}

/** One step of fusing or basting a layer on to a shell. */
export interface FusingRow {
  readonly pieceName: string;
  readonly step: number;
  readonly piece: string;
  readonly layer: string;
  readonly onto: string;
  readonly side: 'wrong' | 'right';
  /** `fuse` for what has glue, `baste` for what has none, `apply` for cloth that goes on cloth. */
  readonly how: 'fuse' | 'baste' | 'apply';
  readonly count: number;
  readonly place: Place;
}

export interface SupplyRow {
  readonly supply: string;
  readonly kind: string;
  readonly count: number;
  /** Sizes in words: `finished 4 in, from a closed zip of at least 6 in`. */
  readonly size: string;
  /** Where it goes: the marks it is set at. */
  readonly at: readonly string[];
  readonly notes: readonly string[];
  readonly place: Place;
}

/** A template to print: one for each line of a piece that something is cut along. */
export interface TemplateRow {
  readonly pieceName: string;
  readonly piece: string;
  readonly line: string;
  readonly size: string;
  /** `half, on the fold` where the piece is drawn as half. */
  readonly note: string;
  readonly forMaterials: readonly string[];
  /** How many copies to print: one for a line, whatever is cut along it. */
  readonly copies: number;
  readonly place: Place;
}

/** What the designer says of a piece, as against one of its cut lines. */
export interface PieceNote {
  readonly pieceName: string;
  readonly piece: string;
  readonly note: string;
  readonly place: Place;
}

/** The usual cautions, which every export carries. */
const cautions = {
  blades: 'Blades: cover a rotary cutter when idle, cut away from the body along a ruler on a mat, and never cut over pins.',
  iron: 'Iron: stand it on its heel, keep cords and children away from it, and unplug it after use.',
  smallParts: 'Small parts: snaps, rings and zip pulls can choke children under three. Check the rules that hold where you live before making anything for a child.',
  load: 'Straps and rings: test with more than the intended load before use; nothing here vouches for what they carry.',
} as const;

/** @param buying what to buy, for tables that are to say so: laying out takes its time */
export function cuttingTable(pattern: Pattern, combination: Combination, buying?: BuyingList): CuttingTable {
  const resolved = pattern.resolve(combination);
  const { facts } = pattern.world;
  const marks = markRows(pattern, resolved);
  return {
    title: facts.title ?? pattern.world.root.path,
    revision: facts.revision,
    digest: pattern.digest,
    combination: [...resolved.combination].map(([choice, option]) => ({ choice, option })),
    notes: [...facts.notes, ...shrinkageNotes(resolved), ...flippedNotes(resolved, marks)],
    cautions: cautionsFor(resolved),
    cuts: resolved.pieces.flatMap((piece) => piece.cuts.map((line) => cutRow(line, pattern.display))),
    seams: seamRows(resolved, pattern.display),
    fusing: fusingRows(resolved),
    supplies: resolved.supplies.filter((supply) => supply.count.n > 0n).map((supply) => supplyRow(supply, pattern.display)),
    templates: templateRows(resolved, pattern.display),
    marks,
    pieceNotes: resolved.pieces.filter((piece) => piece.cuts.length > 0).flatMap(({ shape }) => shape.notes.map((note) => ({ pieceName: shape.name, piece: shape.title, note, place: shape.place }))),
    buying: buying === undefined ? [] : buyingRows(buying, pattern.display, facts.currency),
  };
}

/** Sizes are those of the finished cloth, so what shrinks must have done so before it is cut. */
function shrinkageNotes(resolved: Resolved): readonly string[] {
  const percent = (share: Rational): string => `${decimalNumber(nearestMultiple(share.mul(100), rational(1, 10)))} %`;
  const shrinking = materialsCut(resolved).filter(({ shrinkage }) => shrinkage.along.n > 0n || shrinkage.across.n > 0n).map(({ title, shrinkage }) =>
    `${title} (${percent(shrinkage.along)} along${shrinkage.across.n > 0n ? `, ${percent(shrinkage.across)} across` : ''})`);
  return shrinking.length === 0 ? [] : [`Wash and press before cutting, since it shrinks: ${shrinking.join(', ')}. What to buy allows for it.`];
}

/** A mark's distance runs from the left of the piece as drawn, which on a flipped one is the right. */
function flippedNotes(resolved: Resolved, marks: readonly MarkRow[]): readonly string[] {
  const marked = new Set(marks.map(({ pieceName }) => pieceName));
  const flipped = resolved.pieces.filter(({ shape, cuts }) => marked.has(shape.name) && cuts.some((line) => line.hand !== 'as drawn'));
  return flipped.length === 0 ? [] : [`Distances of marks are for pieces as drawn: on a flipped one, measure from the right instead of the left (${flipped.map(({ shape }) => shape.title).join(', ')}).`];
}

function cautionsFor(resolved: Resolved): readonly string[] {
  const used: string[] = [cautions.blades];
  if (resolved.pieces.some((piece) => piece.cuts.some((line) => line.material.faces === 'glued'))) used.push(cautions.iron);
  if (resolved.supplies.some((supply) => ['snap', 'ring', 'zip'].includes(supply.kind))) used.push(cautions.smallParts);
  if (resolved.supplies.some((supply) => ['ring', 'webbing'].includes(supply.kind))) used.push(cautions.load);
  return used;
}

// ------------------------------------------------------------------------------------------------ cuts

const wayUpWords: Readonly<Record<WayUp, string>> = {
  either: 'either side up',
  'right side up': 'right side up',
  'wrong side up': 'wrong side up (flipped)',
  'half each way': 'half as drawn, half flipped',
  'glue up': 'as drawn, glue side up (or flipped, glue side down)',
  'glue down': 'as drawn, glue side down (or flipped, glue side up)',
};

const cutRow: (line: CutLine, display: Display) => CutRow = keptFor((line, display) => {
  const size = sizeOf(line, display);
  return {
    piece: line.piece.title,
    material: line.material.title,
    count: Number(line.count.n),
    size: size.shown,
    exactSize: size.exact,
    along: alongWords(line),
    onFold: line.onFold,
    twins: line.hand === 'twins',
    wayUp: wayUpWords[line.wayUp],
    notes: notesOf(line, display),
    place: line.place,
    pieceName: line.piece.name,
    materialName: line.material.name,
  };
});

function sizeOf(line: CutLine, display: Display): { readonly shown: string; readonly exact: string | undefined } {
  const size = line.rectangle;
  if (size === undefined) return { shown: 'template', exact: undefined };
  const width = showLength(size.width, display);
  const height = showLength(size.height, display);
  const exactWidth = roundedFrom(size.width, display);
  const exactHeight = roundedFrom(size.height, display);
  return {
    shown: `${width} × ${height}`,
    exact: exactWidth === undefined && exactHeight === undefined ? undefined : `${exactWidth ?? width} × ${exactHeight ?? height}`,
  };
}

function alongWords(line: CutLine): string {
  if (line.along === undefined) return '';
  return line.along === 'cutting' || line.along === 'stitching' ? `${line.along} line` : nameText(line.along);
}

function notesOf(line: CutLine, display: Display): readonly string[] {
  const notes: string[] = [];
  const show = (millimetres: number): string => showLengthUp(measured(millimetres), display);
  if (line.rectangle === undefined) notes.push(`fits within ${show(line.bounds.width)} × ${show(line.bounds.height)}`);
  notes.push(...cornerNotes(line, display));
  if (isOpenedOut(line)) notes.push(line.onFold || line.rectangle !== undefined ? 'size is opened out' : 'drawn as half: open the template out');
  notes.push(...windowNotes(line, display));
  if (line.large !== undefined) notes.push(`cut ${showLength(line.large, display)} large all round, trim later`);
  notes.push(...grainNotes(line));
  if (line.piece.thisWayUp && line.material.direction !== 'any') notes.push('this way up');
  return [...notes, ...line.notes];
}

const cornerWords = { round: 'rounded', chamfer: 'chamfered', box: 'boxed out' } as const;

/** What was made of a rectangle's corners, on the line that the piece is drawn to. */
function cornerNotes({ piece, along, rectangle }: CutLine, display: Display): readonly string[] {
  if (rectangle !== undefined || along !== piece.drawnTo) return [];
  return piece.corners.map(({ which, treatment, across, up }) => {
    const size = across.equals(up) ? showLength(across, display) : `${showLength(across, display)} × ${showLength(up, display)}`;
    const corners = which === 'all' ? 'all corners' : which.includes('_') ? `${nameText(which)} corner` : `both ${which} corners`;
    return `${corners} ${cornerWords[treatment]} ${size}`;
  });
}

/** What to cut out, and where it lies from the left and the lower end of the layer. */
function windowNotes(line: CutLine, display: Display): readonly string[] {
  const show = (millimetres: number): string => showLength(measured(millimetres), display);
  const layer = boundsOfPoints(line.outline);
  return line.holes.map((hole, index) => {
    const box = boundsOfPoints(hole);
    const name = nameText(line.windows[Math.min(index, line.windows.length - 1)] ?? '');
    return `cut out ${name}: ${show(box.maxX - box.minX)} × ${show(box.maxY - box.minY)}, ${show(box.minX - layer.minX)} from the left, ${show(box.minY - layer.minY)} from below`;
  });
}

/** Whether what is cut lies across the fold; a line beside the fold, or a size of its own, is cut as it is. */
function isOpenedOut({ fold, along, outline }: CutLine): boolean {
  if (fold === undefined || along === undefined) return false;
  const [from, to] = fold;
  return [1, -1].every((side) => outline.some((point) => side * turnOf(from, to, point) > 1));
}

function grainNotes(line: CutLine): readonly string[] {
  const { angle, given, orAcross } = line.piece.grain;
  if (line.material.direction === 'any' || angle === undefined) return [];
  const way = angle === 0 ? 'up' : angle === 90 ? 'across' : angle === 45 ? 'on the bias' : `at ${angle}°`;
  return [`grain ${way}${orAcross ? ' or across' : ''}${given ? '' : ', as is usual'}`];
}

// ------------------------------------------------------------------------------------------------ layers

/** Fusibles first, then what goes over them, in the order written: a piece's layers from its cloth outwards. */
function fusingRows(resolved: Resolved): readonly FusingRow[] {
  const rows: FusingRow[] = [];
  for (const { shape, cuts } of resolved.pieces) {
    let step = 0;
    for (const line of cuts) {
      const shell = line.layer === undefined ? undefined : cuts[line.layer.shell];
      if (line.layer === undefined || shell === undefined) continue;
      step++;
      rows.push({
        step,
        pieceName: shape.name,
        piece: shape.title,
        layer: line.material.title,
        onto: shell.material.title,
        side: line.layer.side,
        how: line.material.faces === 'glued' ? 'fuse' : isCloth(line.material) ? 'apply' : 'baste',
        count: Math.min(Number(line.count.n), Number(shell.count.n)),
        place: line.place,
      });
    }
  }
  return rows;
}

// ------------------------------------------------------------------------------------------------ supplies

function supplyRow(supply: Supply, display: Display): SupplyRow {
  const show = (length: Supply['length']): string => (length === undefined ? '' : showLength(length, display));
  const sizes: string[] = [];
  if (supply.across !== undefined) sizes.push(`${acrossText(supply, display)}${supply.kind === 'ring' ? ' inside' : supply.kind === 'snap' ? ' across' : ' wide'}`);
  if (supply.finished !== undefined) sizes.push(`finished ${show(supply.finished)}`);
  if (supply.from !== undefined) sizes.push(supply.from.source === 'closed' ? `from a closed zip of at least ${show(supply.from.length)}` : `from ${show(supply.from.length)} of zip tape`);
  if (supply.length !== undefined) sizes.push(`${show(supply.length)} long`);
  if (supply.length !== undefined && supply.count.compare(1) > 0) sizes.push(`${show(supply.length.mul(supply.count))} in all`);
  if (supply.kind === 'binding' && supply.across !== undefined) sizes.push(`from a strip ${show(supply.across.mul(bindingWidths))} wide if cut double-fold`);
  return {
    supply: supply.title,
    kind: supply.kind,
    count: Number(supply.count.n),
    size: sizes.join(', '),
    at: supply.marks.map((mark) => mark.path.map((name) => name.text).join('.')),
    notes: supply.notes,
    place: supply.place,
  };
}

/** Findings are sold in whole millimetres, so a width that is one is shown as one. */
function acrossText(supply: Supply, display: Display): string {
  if (supply.across === undefined) return '';
  return supply.across.d === 1n ? `${mixedNumber(supply.across)} mm` : showLength(supply.across, display);
}

// ------------------------------------------------------------------------------------------------ templates

function templateRows(resolved: Resolved, display: Display): readonly TemplateRow[] {
  const rows: TemplateRow[] = [];
  for (const { shape, cuts } of resolved.pieces) {
    const byLine = new Map<string, CutLine[]>();
    for (const line of cuts) {
      if (line.rectangle !== undefined || line.along === undefined) continue;
      // A window makes another template of the same line.
      const key = [line.along, ...line.windows].join(' ');
      const same = byLine.get(key);
      if (same === undefined) byLine.set(key, [line]);
      else same.push(line);
    }
    for (const lines of byLine.values()) {
      const [first] = lines;
      if (first === undefined) continue;
      rows.push({
        ...templateOf(first, display),
        pieceName: shape.name,
        piece: shape.title,
        forMaterials: [...new Set(lines.map((line) => line.material.title))],
        copies: 1,
        place: first.place,
      });
    }
  }
  return rows;
}

const templateOf: (line: CutLine, display: Display) => Pick<TemplateRow, 'line' | 'size' | 'note'> = keptFor((line, display) => {
  const show = (millimetres: number): string => showLengthUp(measured(millimetres), display);
  return {
    line: [alongWords(line), ...line.windows.map((window) => `without ${nameText(window)}`)].join(', '),
    size: `${show(line.bounds.width)} × ${show(line.bounds.height)}`,
    note: isOpenedOut(line) ? 'half, on the fold' : '',
  };
});

/** Materials in the order of the text that something is cut from. */
export function materialsCut(resolved: Resolved): readonly Material[] {
  const used = new Set(resolved.pieces.flatMap((piece) => piece.cuts.map((line) => line.material.name)));
  return resolved.materials.filter((material) => used.has(material.name));
}
